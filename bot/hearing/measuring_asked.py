"""What is asked of measuring and of units: "how do I measure a pie", "metric or feet?"."""

from __future__ import annotations

from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.guards import is_asked
from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "measuring")
#: What may be asked, by the names of their phrases; the narrower first.
_ABOUT: Final = (
    *("grass_only", "zones", "lookup", "ell", "round", "triangle", "odd", "no_tape", "sizes"),
)


def about_measuring(text: str) -> str | None:
    """Return the fact that a question about measuring asks for (`Slots.about`), or None."""
    if is_about_units(text):
        return "units"
    found = next((name for name in _ABOUT if _says(name).first(text)), None)
    return None if found is None else f"measure_{found}"


def is_about_units(text: str) -> bool:
    """Tell whether a text asks in which units sizes are."""
    if _says("how_much").first(text) or any(map(str.isdigit, text)):
        return False
    is_named = _says("units").first(text) is not None and not _is_request(text)
    return _says("either").first(text) is not None or (is_named and is_asked(text))


def is_only_asked(text: str) -> bool:
    """Tell whether a text asks, and not for a change: "is 5,700 sq ft a lot"."""
    return is_asked(text) and not _is_request(words.bare(text))


def _is_request(text: str) -> bool:
    return _says("request").at_start(text.strip()) is not None


def system_meant(text: str) -> str | None:
    """Return the one system of units that a text wants: ``us`` for "no meters please".

    None where it names none, asks, or leaves either.
    """
    bare = words.bare(text)
    kinds = words.canon("systems", "values")
    named = {
        found: kinds[found.group()] for found in words.finder("systems", "values").finditer(bare)
    }
    denied = {
        kinds[found.group()] for found in named if _says("not_units").at_end(bare[: found.start()])
    }
    wanted = set(named.values()) - denied or ({*kinds.values()} - denied if denied else set())
    if len(wanted) != 1 or is_only_asked(text):
        return None
    return wanted.pop()
