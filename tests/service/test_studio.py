"""Pictures are drawn in a process of their own: once each, whatever becomes of that process."""

import asyncio
import stat

from bot.pictures.render import PictureSpec
from bot.pictures.studio import Studio
from bot.pictures.yard_sketch import Sketch, SketchZone
from jobs.agronomy.shapes import Rectangle


def spec(title):
    zone = SketchZone("front", "10 m x 8 m", "", Rectangle(10.0, 8.0))
    return PictureSpec.of(Sketch(title, "80 m²", (zone,), "metric"))


def live(folder, doing):
    async def run():
        studio = Studio(folder / "pictures")
        try:
            return await doing(studio)
        finally:
            await studio.close()

    return asyncio.run(run())


def test_a_picture_is_drawn_once_however_many_ask_and_only_its_owner_reads_it(tmp_path):
    async def ask(studio):
        paths = await asyncio.gather(*(studio.draw(spec("Yard 1")) for _ in range(5)))
        return paths, studio.drawn(spec("Yard 1"))

    paths, found = live(tmp_path, ask)
    assert set(paths) == {found}
    assert found.read_bytes().startswith(b"\x89PNG")
    assert stat.S_IMODE(found.stat().st_mode) == 0o600
    assert stat.S_IMODE(found.parent.stat().st_mode) == 0o700
    assert list(found.parent.iterdir()) == [found]


def test_what_cannot_be_drawn_is_none_and_the_next_is_drawn(tmp_path, caplog):
    async def ask(studio):
        bad = await studio.draw(PictureSpec("yard_sketch", "{}"))
        return bad, await studio.draw(spec("Yard 2"))

    bad, good = live(tmp_path, ask)
    assert bad is None
    assert good is not None
    assert "UnknownPicture" in caplog.text


def test_a_process_that_died_is_started_again(tmp_path):
    async def ask(studio):
        first = await studio.draw(spec("Yard 1"))
        studio._process.kill()
        await studio._process.wait()
        return first, await studio.draw(spec("Yard 2"))

    first, second = live(tmp_path, ask)
    assert first is not None
    assert second is not None
    assert first != second


def test_a_picture_that_takes_too_long_is_given_up(tmp_path, monkeypatch, caplog):
    monkeypatch.setattr("bot.pictures.studio._LONGEST_S", 0.01)

    async def ask(studio):
        return await studio.draw(spec("Yard 1"))

    assert live(tmp_path, ask) is None
    assert "given up" in caplog.text
