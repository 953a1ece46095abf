"""What one breath says of several places, and what it takes back: "front done, back tomorrow".

A place that is done and a place that is not stand side by side in many words, and no likelihood
of the whole tells them apart. A slip of the tongue is put right before anything is read.
"""

from __future__ import annotations

import itertools
import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Final

from bot.hearing import clauses, words
from bot.hearing.clause_readings import Reader, Reading
from bot.hearing.heard_values import Span, abstracted
from bot.hearing.normal import Normal
from bot.hearing.readers.zone_names import but_of
from bot.hearing.words import bare

#: Where a report is told.
_PLACES: Final = ("zone", "yard", "rest")
#: A message that speaks of doing or not doing these places is at least so likely one of these acts.
_LEAST: Final = 0.4
_OF_DOING: Final = frozenset(
    {
        "report_applied",
        "report_not_done",
        "report_gap",
        "remove_zone",
        "choose",
        "snooze",
        "ask_left",
    }
)
#: A report of everything but something is at least so likely one.
_LEAST_OF_ALL: Final = 0.2
#: What is told apart by words is as sure as words are.
_SURE: Final = 0.98


def corrected(form: Normal, spans: Sequence[Span]) -> str | None:
    """Return a text without what its next words take back: "the front, no wait, the back"."""
    kept, at = list[str](), 0
    for before, after in itertools.pairwise(spans):
        gap = form.text[before.end : after.start]
        if before.kind == after.kind and _slip().fullmatch(bare(gap)) is not None:
            kept.append(form.text[at : before.start])
            at = after.start
    return "".join([*kept, form.text[at:]]) if kept else None


@cache
def _slip() -> re.Pattern[str]:
    said, filler, tail = (
        words.phrases("commands", "slip", name).pattern.replace(r"\s+", r"[\s,]+")
        for name in ("words", "fillers", "tails")
    )
    part = r"[\s.,;:-]*"
    return re.compile(rf"{part}(?:{tail}{part})*{said}(?:{part}(?:{said}|{filler}))*{part}")


def told_apart(reader: Reader) -> list[Reading] | None:
    """Return the places that are done and those that are not, each a reading; None otherwise."""
    form, spans, whole = reader.normal, reader.spans, reader.whole()
    likely = sum(share for act, share in whole.ranked if act in _OF_DOING)
    if whole.manner.is_question or whole.manner.is_condition or likely < _LEAST:
        return None
    but = but_of(form.text)
    if but is not None:
        # "Everything but the back" is one report, whatever is said of the back.
        is_all = any(span.kind == "all" and span.end <= but.start for span in spans)
        before = reader.stretch(0, but.start)
        is_told = is_all and whole.share("report_applied") >= _LEAST_OF_ALL
        is_done = _state(before, form.text[: but.start]) == "report_applied"
        return [_as("report_applied", whole)] if is_told and is_done else None
    told: list[tuple[str, int, int]] = []
    for start, end in _by_place(form, spans):
        piece = reader.stretch(start, end)
        act = _state(piece, form.text[start:end])
        if told and act in ("", told[-1][0]):
            told[-1] = (told[-1][0], told[-1][1], end)
        else:
            told.append((act, start, end))
    if {act for act, _, _ in told} != {"report_applied", "report_not_done"}:
        return None
    if _are_both_days(told, form, spans):
        return None
    return [_as(act, reader.stretch(start, end)) for act, start, end in told]


def _as(act: str, reading: Reading) -> Reading:
    return replace(reading, ranked=[(act, _SURE), ("other", 0.0)])


def _by_place(form: Normal, spans: Sequence[Span]) -> list[clauses.Stretch]:
    """Return the pieces of a message, each with a place of its own."""
    found: list[clauses.Stretch] = []
    for start, end in clauses.pieces(form, spans):
        is_place = any(s.kind in _PLACES and start <= s.start and s.end <= end for s in spans)
        is_first = not any(s.kind in _PLACES and s.end <= start for s in spans)
        if found and (not is_place or is_first):
            found[-1] = (found[-1][0], end)
        else:
            found.append((start, end))
    return found


def _state(piece: Reading, text: str) -> str:
    """Return whether a piece says that its place is done, or is not; empty for neither."""
    said = piece.manner
    if piece.act == "report_not_done" and piece.score >= _LEAST:
        # "Ran out of daylight for the back."
        return piece.act
    is_done = said.is_past or words.phrases("commands", "done", "words").search(text) is not None
    if said.is_denied or (not is_done and clauses.goes_on(text)):
        return "report_not_done"
    return "report_applied" if is_done and not said.is_plan else ""


def _are_both_days(
    told: Sequence[tuple[str, int, int]], form: Normal, spans: Sequence[Span]
) -> bool:
    """Tell whether days stand beside days: "front on Friday, back on Saturday" is all done."""
    if "today" in form.text and not told[-1][0].endswith("applied"):
        # "Miller today, home Monday": behind a today, a day without a past is to come.
        return False
    if any("<day> ahead" in abstracted(form.text, spans, start, end) for _, start, end in told):
        return False
    negation = words.phrases("guards", "negation", "words")
    days = [
        any(span.kind == "day" and start <= span.start and span.end <= end for span in spans)
        for act, start, end in told
        if act == "report_applied" or not negation.search(form.text[start:end])
    ]
    return len(days) == len(told) and all(days)
