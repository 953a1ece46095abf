"""How long what we say is, in both languages, and how hard English is to read.

python -m tests.bench.lengths

A season is lived through in each language; the table gives characters of replies, of alerts and of
/amounts for three zones, and the reading grade of all English (Automated Readability Index, by
textstat).
"""

from __future__ import annotations

import statistics
import tempfile
from collections.abc import Sequence
from pathlib import Path

import textstat

from tests.talk.season_in_words import LINES, Season, lived


def main() -> None:
    """Print the table."""
    print("| language | of | number | median | 90th percentile | longest | most lines |")
    print("| --- | --- | --- | --- | --- | --- | --- |")
    for language in LINES:
        with tempfile.TemporaryDirectory() as folder:
            season = lived(Path(folder), language)
        alerts = [each.reply.text for each in season.alerts]
        for name, texts in (
            ("replies", season.replies),
            ("alerts", alerts),
            ("amounts", season.amounts),
        ):
            print(_row(language, name, texts))
        print(f"{language}: words of the window alert: {_window_words(season)}")
        if language == "en":
            whole = "\n".join(season.replies + alerts)
            print(f"{language}: reading grade {textstat.automated_readability_index(whole):.1f}")


def _row(language: str, name: str, texts: Sequence[str]) -> str:
    lengths = sorted(len(text) for text in texts)
    most = max(text.count("\n") + 1 for text in texts)
    tenth = lengths[min(len(lengths) - 1, int(0.9 * len(lengths)))]
    median = round(statistics.median(lengths))
    return f"| {language} | {name} | {len(lengths)} | {median} | {tenth} | {lengths[-1]} | {most} |"


def _window_words(season: Season) -> int:
    return max(
        len(each.reply.text.split()) for each in season.alerts if each.alert == "window_open"
    )


if __name__ == "__main__":
    main()
