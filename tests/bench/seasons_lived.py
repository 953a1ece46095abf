"""Random seasons, every surface asked on every seventh day, and where they contradict each other.

``python -m tests.bench.seasons_lived --seasons 200`` prints each disagreement and their number.
"""

from __future__ import annotations

import argparse
import tempfile
from pathlib import Path

from tests.talk.living_seasons import Season


def main() -> None:
    """Live seasons and print every disagreement."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--seasons", type=int, default=200)
    parser.add_argument("--first", type=int, default=0)
    given = parser.parse_args()
    count = 0
    for number in range(given.first, given.first + given.seasons):
        with tempfile.TemporaryDirectory() as folder:
            for each in Season(number, Path(folder)).live():
                count += 1
                print(f"season {number}, {each}", flush=True)
    print(f"{given.seasons} seasons, {count} disagreements")


if __name__ == "__main__":
    main()
