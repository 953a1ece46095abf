"""Where a bench's processor time goes: `soilbell bench` under a profiler, its widest parts named.

    python -m tests.bench.widest tick --yards 2000 --cells 80
    python -m tests.bench.widest --by own outlook --cells 400

Only what the bench measures is profiled. Prints the functions with the most time within
(`--by within`, those of the project alone, so that a part is seen whole) or of their own
(`--by own`, whoever's they are).
"""

from __future__ import annotations

import argparse
import cProfile
import pstats
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from bot.bench.meter import Meter
from bot.cli import main

_HERE = Path(__file__).resolve().parents[2]
_OURS = tuple(str(_HERE / room) for room in ("bot", "jobs", "storage"))


def widest(profiler: cProfile.Profile, by: str, most: int) -> list[str]:
    """Return a line a function: share of the whole, seconds, calls, place and name."""
    stats: Any = pstats.Stats(profiler)
    found = []
    for (path, line, name), (_, calls, own_s, within_s, _) in stats.stats.items():
        is_ours = path.startswith(_OURS)
        seconds = within_s if by == "within" else own_s
        if by == "own" or is_ours:
            place = Path(path).relative_to(_HERE) if is_ours else Path(path).name
            found.append((seconds, f"{seconds:8.3f} s {calls:9d} x  {place}:{line} {name}"))
    found.sort(reverse=True)
    return [f"{100 * seconds / stats.total_tt:5.1f} % {text}" for seconds, text in found[:most]]


def run() -> None:
    """Run a bench under the profiler, and print its widest parts below its figures."""
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--by", choices=("within", "own"), default="within")
    parser.add_argument("--most", type=int, default=60)
    ours, bench = parser.parse_known_args()
    profiler, measured = cProfile.Profile(), Meter.running

    @contextmanager
    def profiled(meter: Meter) -> Iterator[None]:
        with measured(meter), profiler:
            yield

    Meter.running = profiled  # type: ignore[method-assign,assignment]
    main(["bench", *bench])
    print("\n".join(widest(profiler, ours.by, ours.most)))


if __name__ == "__main__":
    run()
