"""Emergencies come before anything else: by word lists, so that none depends on a likelihood."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cache, lru_cache

from bot.hearing import words
from bot.hearing.heard_values import Span
from bot.hearing.normal import Normal
from bot.hearing.normal import normal as normal_form


def is_emergency(normal: Normal, spans: Iterable[Span]) -> bool:
    """Tell whether somebody, an animal or water is being harmed, not only might be.

    Names of zones do not count: sizes of a "storm drain strip" are no spill.
    """
    text = _without_names(normal.text, spans)
    return _is_harm(text) and not _list("hypothetical").search(text)


# Asked before a turn is kept, and once more before its answer is sent.
@lru_cache(maxsize=128)
def speaks_of_one(text: str) -> bool:
    """Tell whether a text speaks of an emergency, where nothing else is known of the moment."""
    return is_emergency(normal_form(text, "en"), ())


def is_hypothetical(normal: Normal, spans: Iterable[Span]) -> bool:
    """Tell whether a text asks what would be if somebody were harmed."""
    text = _without_names(normal.text, spans)
    return _is_harm(text) and _list("hypothetical").search(text) is not None


def is_figure_of_speech(normal: Normal) -> bool:
    """Tell whether a text has words of harm that harm nobody: "poison ivy", "sick and tired"."""
    return _list("never").search(normal.text) is not None


def is_only_spill(normal: Normal, spans: Iterable[Span]) -> bool:
    """Tell whether nobody is named as harmed: something runs where water goes."""
    return not _is_body(_without_names(normal.text, spans))


def _is_harm(text: str) -> bool:
    return _is_body(text) or bool(
        _list("drain").search(text)
        or (_list("spill").search(text) and _list("spill", "into").search(text))
    )


def _is_body(text: str) -> bool:
    return bool(
        _list("strong").search(text)
        or (_list("subject").search(text) and _list("harm").search(text))
        or (_list("skin").search(text) and _list("skin", "with").search(text))
    )


def _without_names(text: str, spans: Iterable[Span]) -> str:
    kept = list(text)
    for span in spans:
        if span.kind in ("zone", "yard") and span.value:
            kept[span.start : span.end] = " " * (span.end - span.start)
    return _list("never").sub(" ", "".join(kept))


@cache
def _list(kind: str, name: str = "words") -> re.Pattern[str]:
    return words.phrases("emergency", kind, name)
