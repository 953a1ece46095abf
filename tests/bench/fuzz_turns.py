"""Fuzz of whole turns: texts, taps, places, halves of characters, by several people.

    python -m tests.bench.fuzz_turns --turns 100000 [--seed N]

Prints each turn that raised, went wrong on our side, was answered with an empty or an over-long
message, or took over 250 ms of a processor, and how long turns took; the exit code tells whether
there was any.
"""

from __future__ import annotations

import argparse
import logging
import sys
import tempfile
from collections import Counter
from itertools import islice
from pathlib import Path

from tests.fuzzing import see, turns, warm_up
from tests.talk.harness import START, Talker

#: A new database after so many turns: what a chat holds is bounded, but so is patience.
_A_LIFE = 2000
#: Turns shown of each kind of trouble.
_MOST_SHOWN = 5


def main() -> int:
    """Run; return the exit code."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--turns", type=int, default=100_000)
    options.add_argument("--seed", type=int, default=0)
    asked = options.parse_args()
    logging.basicConfig(level=logging.ERROR)
    found: Counter[str] = Counter()
    took: list[float] = []
    for life in range(-(-asked.turns // _A_LIFE)):
        with tempfile.TemporaryDirectory(prefix="soilbell-fuzz-") as folder:
            talker = Talker(Path(folder))
            warm_up(talker.machine.conversation)
            left = min(_A_LIFE, asked.turns - len(took))
            for turn in islice(turns(asked.seed + life, START), left):
                stumble, took_s = see(talker.machine.conversation, turn)
                took.append(took_s)
                if stumble is not None:
                    kind = stumble.how.split(" ")[0]
                    found[kind] += 1
                    if found[kind] <= _MOST_SHOWN:
                        print(f"{stumble.how}: {turn.key} {turn.said()!r}"[:600], flush=True)
            talker.db.close()
        print(f"{len(took)} turns, {sum(found.values())} stumbles", file=sys.stderr, flush=True)
    took.sort()
    shares = ", ".join(f"{q} %: {1000 * took[int(len(took) * q / 100)]:.0f} ms" for q in (50, 99))
    print(f"{len(took)} turns; {dict(found)}; {shares}, most {1000 * took[-1]:.0f} ms")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
