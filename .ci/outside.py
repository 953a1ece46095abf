"""Drives the installed `soilbell` outside the tree: `outside.py COMMAND FOLDER`."""

from __future__ import annotations

import json
import math
import subprocess
import sys
from datetime import date, timedelta
from pathlib import Path

REQUESTS = (
    {"say": "/start"},
    {"location": [38.72, -96.41]},
    {"say": "mill lawn 60x40, ditch strip 5 by 80 ft"},
    {"tap": "Keep"},
    {"say": "/zones"},
    {"wait": "P3D"},
    {"say": "/soil"},
    {"nonsense": True},
)


def main(command: str, folder: Path) -> None:
    """Talk to the installed command and replay an invented station; fail loudly."""
    answers = chat(command, folder)
    assert len(answers) == len(REQUESTS), answers
    assert all(set(answer) >= {"now", "replies"} for answer in answers), answers
    assert "2,800 sq ft" in answers[4]["replies"][0]["text"], answers[4]
    assert answers[5]["now"].startswith("2026-02-18T"), answers[5]
    assert "°F" in answers[6]["replies"][0]["text"], answers[6]
    assert "error" in answers[7], answers[7]
    print(f"chat --json: {len(answers)} answers")

    lines = replay(command, folder)
    kinds = {line["kind"] for line in lines}
    assert {"soil_warming", "window_open"} <= kinds, kinds
    assert all(line["at"].startswith("2022-") for line in lines), lines
    print(f"replay --json: {len(lines)} lines")


def chat(command: str, folder: Path) -> list[dict]:
    """Return the answers of a short chat."""
    url = f"sqlite:///{folder / 'outside.sqlite3'}"
    asked = "".join(json.dumps(request) + "\n" for request in REQUESTS)
    return _lines(
        [command, "chat", "--json", "--db", url, "--start", "2026-02-15T14:00"], folder, asked
    )


def replay(command: str, folder: Path) -> list[dict]:
    """Return the lines of a year of an invented station."""
    station = folder / "invented.csv"
    first = date(2018, 1, 1)
    rows = ["date,soil5_c"]
    for number in range(6 * 365):
        day = first + timedelta(days=number)
        # A plain wave: coldest late in January, with three weeks' ripples on top.
        year = math.cos(2 * math.pi * (day.timetuple().tm_yday - 25) / 365.25)
        rows.append(f"{day},{12 - 12 * year + 1.5 * math.sin(number / 3.5):.1f}")
    station.write_text("\n".join(rows) + "\n", encoding="utf-8")
    return _lines(
        [command, "replay", str(station), "--at", "38.72,-96.41", "--year", "2022", "--json"],
        folder,
        "",
    )


def _lines(command: list[str], folder: Path, asked: str) -> list[dict]:
    done = subprocess.run(
        command, cwd=folder, input=asked, capture_output=True, text=True, timeout=120, check=False
    )
    assert done.returncode == 0, done.stderr
    return [json.loads(line) for line in done.stdout.splitlines()]


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
