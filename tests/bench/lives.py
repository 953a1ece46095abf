"""Live many random lives, each against its own ground: python -m tests.bench.lives --lives 5000."""

from __future__ import annotations

import argparse
import time

from hypothesis import HealthCheck, Phase, settings
from hypothesis.stateful import run_state_machine_as_test

from tests.random_lives import Life


def main() -> None:
    """Live them, and say how many steps held."""
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--lives", type=int, default=5000)
    asked.add_argument("--steps", type=int, default=20)
    asked.add_argument("--shrink", action="store_true", help="make a life that failed small")
    given = asked.parse_args()
    began = time.perf_counter()
    run_state_machine_as_test(
        Life,
        settings=settings(
            max_examples=given.lives,
            stateful_step_count=given.steps,
            deadline=None,
            database=None,
            phases=(Phase.generate, Phase.shrink) if given.shrink else (Phase.generate,),
            suppress_health_check=list(HealthCheck),
        ),
    )
    took_s = time.perf_counter() - began
    print(f"{given.lives} lives of up to {given.steps} steps: none passed a label ({took_s:.0f} s)")


if __name__ == "__main__":
    main()
