"""A fuzzer that watches which branches it takes, on the readers of what people write.

    python -m tests.bench.fuzz_readers [-runs=20000] [-seed=N] [FOLDER]

Behind ``-`` stand libFuzzer's own options; inputs that took a new branch are kept in FOLDER and
begun with the next time. It ends at the first text a reader raises at, or takes 2.5 s of a
processor for, and leaves it in a file. Needs the extra ``fuzz`` (atheris).
"""

from __future__ import annotations

import random
import sys
import tempfile
import time
from collections.abc import Callable
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from typing import Any, Final

import atheris

with atheris.instrument_imports(include=["bot.hearing"]):
    from bot.hearing.hear import hear
    from bot.hearing.heard import Scene
    from bot.hearing.readers import (
        coverage,
        dates,
        grass_words,
        label_words,
        measurements,
        paces,
        places,
        product_lines,
        quantities,
        sizes,
    )

from bot.talk.routing import LONGEST_TEXT
from bot.turn import legible
from jobs.agronomy.ingredients import ingredients
from tests import fuzzing

_NOW: Final = datetime(2026, 3, 30, 14, tzinfo=UTC)
_WATCHED: Final = 10
_ZONES: Final = ("front", "pool lawn", "strip")
_SCENE: Final = Scene(_NOW, zones=_ZONES, yards=("Mill Lane", "Yard 2"), yard="Mill Lane")
READERS: Final[tuple[Callable[[str], Any], ...]] = (
    partial(hear, scene=_SCENE),
    partial(hear, scene=Scene(_NOW, language="es", units="metric", zones=_ZONES)),
    partial(sizes.read_zones, default_length_unit="ft"),
    partial(product_lines.read_product, ingredients=tuple(ingredients())),
    partial(dates.find_when, now_local=_NOW),
    partial(grass_words.read_facts, default_unit="ft"),
    coverage.find_coverage,
    label_words.read_label_facts,
    measurements.read_depth,
    measurements.read_duration,
    paces.read_pace,
    places.read_place,
    quantities.read_rate,
    quantities.read_amount,
)


def one(data: bytes) -> None:
    """Give one text to one reader, as the door lets it through."""
    given = atheris.FuzzedDataProvider(data)
    reader = READERS[given.ConsumeIntInRange(0, len(READERS) - 1)]
    text = legible(given.ConsumeUnicode(LONGEST_TEXT))
    began_s = time.thread_time()
    reader(text)
    took_s = time.thread_time() - began_s
    # Watched, a branch costs several times as much.
    assert took_s < _WATCHED * fuzzing.MOST_S, f"{took_s:.2f} s for {text!r}"


def _begin(folder: Path) -> None:
    """Begin with what people say, and with texts as nobody means them."""
    draw = random.Random(0)
    for number in range(300):
        # Marked as a text of one byte a character; the last byte says which reader.
        said = fuzzing.text(draw)[:LONGEST_TEXT].encode("latin-1", "ignore")
        (folder / f"{number}").write_bytes(b"\1" + said + bytes([number % 256]))


def main() -> None:
    """Run until told to stop, or until something is found."""
    with tempfile.TemporaryDirectory(prefix="soilbell-fuzz-") as folder:
        _begin(Path(folder))
        atheris.Setup([*sys.argv, folder], one)
        atheris.Fuzz()


if __name__ == "__main__":
    main()
