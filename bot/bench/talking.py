"""How fast people are answered: each says the next thing once the one before is answered."""

from __future__ import annotations

import asyncio
import statistics
import tempfile
import time
from collections.abc import Awaitable, Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from sqlalchemy import select

from bot.bench.filling import machine_on, multiply, multiply_weather, one_yard
from bot.bench.meter import Meter, peak_mb
from bot.bench.platform import TOKEN, Plan, Platform, Seen, platform
from bot.heap import keep_what_is_loaded
from bot.pictures.studio import Studio
from bot.telegram import UPDATES, Front
from bot.telegram_chats import Addresses
from bot.telegram_link import LineReport, bare_bot, make_bot
from bot.telegram_poll import Poller, open_line
from bot.telegram_send import Sender
from jobs.schedule import advance
from storage import models
from storage.database import Database

#: What people ask, in turn; all of it is answered in words.
SENTENCES: Final = ("/today", "how much product do I need?", "/zones", "when is it time?")
_NOW: Final = datetime(2026, 3, 2, 18, tzinfo=UTC)
_LONGEST_S: Final = 600.0

#: Of the chat platform's library only `bot.telegram*` knows more than that it has a bot.
_Answering = Callable[[Any, asyncio.Event], Awaitable[None]]


def run(
    chats: int, turns: int, *, charts: int, pause_ms: int, has_baseline: bool
) -> dict[str, Any]:
    """Return the figures of so many chats in which so many turns are said; nothing is paced.

    People think for so long before each. With charts the same is measured once more, while so many
    others wait for a chart of their own: asked for at once, or spread where people think.

    The baseline is a bare bot on the same library, used as it comes, which says every sentence
    back.
    """
    with tempfile.TemporaryDirectory() as folder:
        db = Database(f"sqlite:///{Path(folder) / 'bench.sqlite3'}")
        try:
            _fill(db, chats, charts)
            plan = Plan(chats=chats, turns=turns, pause_s=pause_ms / 1000)
            figures = _figures(plan, _ours(db, Path(folder)), db)
            if charts:
                asked = replace(plan, charts=charts)
                figures["beside_charts"] = _figures(asked, _ours(db, Path(folder)), db)
        finally:
            db.close()
    if has_baseline:
        plain = _figures(plan, _echo)
        figures["baseline"] = plain
        figures["share_of_baseline"] = round(figures["turns_a_second"] / plain["turns_a_second"], 3)
    return figures


def _fill(db: Database, chats: int, charts: int) -> None:
    db.upgrade()
    machine = machine_on(db)
    one_yard(machine, _NOW)
    advance(machine.jobs, _NOW, _NOW + timedelta(minutes=1))
    with db.writing() as work:
        multiply(work, chats + charts, 1)
        multiply_weather(work, 1)
        for number, yard in enumerate(work.scalars(select(models.Yard))):
            # No two charts are the same.
            yard.name = f"Yard {number}"


def _figures(plan: Plan, answering: _Answering, db: Database | None = None) -> dict[str, Any]:
    meter = Meter()
    if db is not None:
        meter.count_statements(db)
    plan = replace(plan, sentences=SENTENCES)
    # As a program does that has run for some minutes.
    keep_what_is_loaded()
    with platform(plan) as there, meter.running():
        seen = asyncio.run(_talked(there, answering))
    if len(seen.waits) < plan.chats * plan.turns:
        wanted = plan.chats * plan.turns
        raise TimeoutError(f"{len(seen.waits)} of {wanted} turns were answered in time")
    figures = {
        "chats": plan.chats,
        "turns": len(seen.waits),
        "turns_a_second": round(len(seen.waits) / seen.talk_s, 1),
        **_waited(seen.waits),
        "cpu_ms_a_turn": round(1000 * meter.cpu_s / len(seen.waits), 2),
        "statements_a_turn": round(meter.statements / len(seen.waits), 2),
        "messages": seen.messages,
        "peak_mb": peak_mb(),
    }
    if plan.charts:
        meanwhile = {"turns": len(seen.waits_beside_charts), **_waited(seen.waits_beside_charts)}
        figures |= {"charts": plan.charts, "drawn_s": round(seen.charts_s, 1), **meanwhile}
    return figures


def _waited(waits_s: list[float]) -> dict[str, float]:
    cuts = statistics.quantiles([1000 * each for each in waits_s], n=20)
    return {"reply_p50_ms": round(cuts[9], 1), "reply_p95_ms": round(cuts[18], 1)}


async def _talked(there: Platform, answering: _Answering) -> Seen:
    is_bare, stop = answering is _echo, asyncio.Event()
    bot = bare_bot(TOKEN, there.url) if is_bare else make_bot(TOKEN, there.url, 10)
    await open_line(bot, LineReport(), stop)
    talking = asyncio.ensure_future(answering(bot, stop))
    talking.add_done_callback(lambda _: stop.set())
    until_s = time.monotonic() + _LONGEST_S
    while not (await asyncio.to_thread(there.wait_for_talk, 0.2) or stop.is_set()):
        if time.monotonic() > until_s:
            break
    stop.set()
    await talking
    await bot.shutdown()
    return there.seen()


def _ours(db: Database, folder: Path) -> _Answering:
    async def answer(bot: Any, stop: asyncio.Event) -> None:
        line, addresses, studio = LineReport(), Addresses(db, lambda: _NOW), Studio(folder)
        pause = timedelta(seconds=5)
        sender = Sender(bot, line, pause, silence=addresses.silence, move=addresses.move)
        conversation = machine_on(db).conversation
        front = Front(bot, conversation, sender, addresses, lambda: _NOW, folder, studio)
        poller = Poller(bot, line, UPDATES, 2)
        await poller.run(front.take, stop)
        front.stop()
        await asyncio.gather(poller.finish(), front.finish(1.0))
        await studio.close()

    return answer


async def _echo(bot: Any, stop: asyncio.Event) -> None:
    offset, sending = 0, set[asyncio.Task[Any]]()
    while not stop.is_set():
        for update in await bot.get_updates(offset=offset, timeout=2):
            offset = update.update_id + 1
            if update.message is not None and update.message.text is not None:
                said = bot.send_message(update.message.chat_id, update.message.text)
                sending.add(asyncio.create_task(said))
        sending = {task for task in sending if not task.done()}
    await asyncio.gather(*sending)
