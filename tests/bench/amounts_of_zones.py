"""How long /amounts takes for twelve zones, a label with maxima, notes and earlier applications.

python -m tests.bench.amounts_of_zones
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from tests.talk.harness import PLACE, Talker

ZONES = ", ".join(f"part {number} {40 + number} x {20 + number} ft" for number in range(1, 13))
PRODUCT = "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 12 lb per 1000 a year"
TIMES = 40


def main() -> None:
    """Print the median and the slowest of some turns [ms]."""
    with tempfile.TemporaryDirectory() as folder:
        talker = Talker(Path(folder))
        talker.say("/start")
        talker.session.location(*PLACE)
        for line in (ZONES, PRODUCT, "everything is tall fescue", "2 applications a year"):
            talker.say(line)
        talker.say("part 1 buffer 20 x 5 ft")
        talker.say("applied")
        assert "part 12" in talker.ask("/amounts")
        took = []
        for _ in range(TIMES):
            start = time.perf_counter()
            talker.ask("/amounts")
            took.append((time.perf_counter() - start) * 1000)
    print(f"/amounts, 12 zones: median {statistics.median(took):.1f} ms, most {max(took):.1f} ms")


if __name__ == "__main__":
    main()
