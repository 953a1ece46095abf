"""Score hearing in one process: ``python -m tests.bench.hearing FILE.jsonl ... [--show]``.

Each line of a file holds ``lang``, ``context``, ``say``, ``acts`` (acceptable readings, each a
list) and perhaps ``slots``. The scenes of the contexts are made by hand, without a database.
"""

from __future__ import annotations

import argparse
import json
import statistics
import time
from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any, Final
from zoneinfo import ZoneInfo

from bot.hearing.acts import ACTS
from bot.hearing.hear import hear
from bot.hearing.heard import Pending, Scene
from bot.hearing.ranker import Ranker, load, ranker

_ZONE: Final = ZoneInfo("America/Chicago")
_ZONES: Final = ("front", "back", "ditch strip")


def _scene(day: str, moment: Any, **more: Any) -> Scene:
    now = datetime.fromisoformat(f"{day}T18:00").replace(tzinfo=_ZONE)
    return Scene(now=now, moment=moment, **more)


_PLACE: Final = Pending("give_place", ("place",))
_RATE: Final = Pending("enter_product", ("rate",))
SCENES: Final = {
    "new": _scene("2026-02-20", "new", pending=_PLACE),
    "placed": _scene(
        "2026-02-20", "placed", yards=("Home",), pending=Pending("measure", ("size",))
    ),
    "asked_rate": _scene("2026-02-20", "ready", zones=_ZONES, pending=_RATE),
    "ready": _scene("2026-02-20", "ready", zones=_ZONES),
    "open": _scene("2026-04-10", "open", zones=_ZONES),
    "applied": _scene("2026-04-12", "applied", zones=_ZONES),
    "due": _scene("2026-06-08", "due", zones=_ZONES),
    "many": _scene(
        "2026-04-10", "open", zones=("front", "back"), yards=("Church", "Miller", "Home")
    ),
}
ASKS: Final = {"choose", "unknown"}


def judge(case: dict[str, Any], understood: list[dict[str, Any]]) -> dict[str, Any]:
    """Return how an understanding compares with the readings that would be right."""
    acts = {each["act"] for each in understood}
    wanted = [set(reading) for reading in case["acts"]]
    allowed = set().union(*wanted)
    wrong_change = sorted(act for act in acts - allowed if act in ACTS and ACTS[act].changes)
    if acts in wanted:
        verdict = "right"
    elif wrong_change:
        verdict = "wrong_change"
    elif acts <= ASKS:
        verdict = "asked"
    else:
        verdict = "part" if any(acts & each for each in wanted) else "wrong"
    slots: dict[str, Any] = {}
    for each in understood:
        slots |= each.get("slots") or {}
    missed = [
        name
        for name, value in (case.get("slots") or {}).items()
        if not _is_same(value, slots.get(name), slots)
    ]
    return {"verdict": verdict, "acts": sorted(acts), "missed": missed, "slots": slots}


def _is_same(value: Any, got: Any, slots: dict[str, Any]) -> bool:
    if isinstance(value, list):
        fold = [sorted(map(str.casefold, each)) for each in (value, got or [])]
        return fold[0] == fold[1] or (slots.get("all_zones") is True and len(value) >= 2)
    if isinstance(value, int | float):
        return isinstance(got, int | float) and abs(got - value) <= 0.02 * max(1, abs(value))
    return str(got).casefold().replace(" ", "") == str(value).casefold().replace(" ", "")


def score(cases: Sequence[dict[str, Any]], by: Ranker | None = None) -> list[dict[str, Any]]:
    """Return each case with how it was heard."""
    judged = []
    for case in cases:
        scene = replace(SCENES[case["context"]], language="en")
        start = time.process_time()
        heard = hear(case["say"], scene, by)
        spent = (time.process_time() - start) * 1000.0
        judged.append({**case, **judge(case, heard.understood()), "ms": spent})
    return judged


def report(judged: Sequence[dict[str, Any]]) -> str:
    """Return the table."""
    lines = []
    for language in sorted({each["lang"] for each in judged}):
        mine = [each for each in judged if each["lang"] == language]
        counts = Counter(each["verdict"] for each in mine)
        shares = ", ".join(
            f"{name} {number / len(mine):.3f}" for name, number in counts.most_common()
        )
        told = [each for each in mine if each["verdict"] in ("right", "part")]
        wanted = sum(len(each.get("slots") or {}) for each in told)
        missed = sum(len(each["missed"]) for each in told) if wanted else 0
        kept = 1.0 - missed / max(1, wanted)
        lines.append(f"{language}: n {len(mine)}, {shares}, slots {kept:.3f} of {wanted}")
    spent = sorted(each["ms"] for each in judged)
    lines.append(
        f"ms: median {statistics.median(spent):.1f}, p99 {spent[int(len(spent) * 0.99)]:.1f}"
    )
    return "\n".join(lines)


def main() -> None:
    """Print the table, and with ``--show`` what went wrong."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("files", nargs="+", type=Path)
    parser.add_argument("--weights", type=Path)
    parser.add_argument("--show", action="store_true")
    chosen = parser.parse_args()
    cases = [
        json.loads(line)
        for file in chosen.files
        for line in file.read_text("utf-8").splitlines()
        if line.strip()
    ]
    by = load(chosen.weights) if chosen.weights else ranker()
    score(cases[:20], by)
    judged = score(cases, by)
    if chosen.show:
        for each in judged:
            if each["verdict"] != "right" or each["missed"]:
                print(
                    each["verdict"],
                    each["context"],
                    "|",
                    each["say"],
                    "|",
                    each["acts"],
                    "|",
                    each["missed"],
                    each["slots"] if each["missed"] else "",
                )
    print(report(judged))


if __name__ == "__main__":
    main()
