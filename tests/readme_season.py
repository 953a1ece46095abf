"""The season in the README, cut from the tour: `python -m tests.readme_season` writes it anew."""

import contextlib
import io
import re
import textwrap
from collections.abc import Iterator
from pathlib import Path

from bot import cli
from bot.saying.catalogue import say

README = Path(__file__).parents[1] / "README.md"
BEGIN, END = "<!-- season -->", "<!-- end of season -->"

_WIDTH = 96
#: Headings of the stops that are shown; the others would make it long.
_SHOWN = (
    "measure",
    "product",
    "window_open",
    "amounts",
    "applied",
    "watered_in",
    "second_half_due",
)


def excerpt(tour: str) -> str:
    """Return the part of a tour's output that the README shows."""
    lines: list[str] = []
    for block in _stops(tour):
        if lines:
            lines.append("")
        for line in block:
            lines += textwrap.wrap(line, _WIDTH, break_long_words=False)
    body = "\n".join(lines)
    return f"{BEGIN}\n```text\n{body}\n```\n{END}"


def played() -> str:
    """Play the tour and return its output."""
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        assert cli.main(["tour"]) == 0
    return out.getvalue()


def shown() -> str:
    """Return the season as the README has it."""
    return "".join(_split(README.read_text(encoding="utf-8"))[1])


def write() -> None:
    """Put a fresh season into the README."""
    before, _, after = _split(README.read_text(encoding="utf-8"))
    README.write_text(before + excerpt(played()) + after, encoding="utf-8")


def _split(text: str) -> tuple[str, str, str]:
    before, begin, rest = text.partition(BEGIN)
    season, end, after = rest.partition(END)
    return before, begin + season + end, after


def _stops(tour: str) -> Iterator[list[str]]:
    headings = {
        re.sub(r"\d+", "N", say(f"tour.{stop}", number=0, count=0)): stop
        for stop in ("register", "soil_warming", *_SHOWN)
    }
    wanted = False
    block: list[str] = []
    for line in tour.splitlines():
        if line.startswith("=== "):
            if wanted and block:
                yield block
            stop = headings[re.sub(r"\d+", "N", line.removeprefix("=== "))]
            wanted, block = stop in _SHOWN, []
        elif line and not _is_left_out(line):
            block.append(line)
    if wanted and block:
        yield block[:-1]  # the tour's own closing line


def _is_left_out(line: str) -> bool:
    is_reply = line.startswith("-- ") and "(alert)" not in line
    return is_reply or line == say("help.invented")


if __name__ == "__main__":
    write()
