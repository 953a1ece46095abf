"""How whoever is spoken to just now is spoken to: in which language and units.

Bound once, where a turn is answered or a letter is put into words; everything said meanwhile is
said that way, and nobody hands a language on.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass, replace
from typing import Final, Literal, TypeAlias

UnitSystem: TypeAlias = Literal["us", "metric"]


@dataclass(frozen=True, slots=True)
class Voice:
    """A language by its code, and units (``us`` or ``metric``)."""

    language: str = "en"
    units: UnitSystem = "us"


_PLAIN: Final = Voice()
_bound: Final[ContextVar[Voice]] = ContextVar("voice", default=_PLAIN)


def voice() -> Voice:
    """Return how we speak now; English and US units where nothing is bound."""
    return _bound.get()


def language_now() -> str:
    """Return the language spoken now, by its code."""
    return voice().language


@contextmanager
def speaking(language: str | None = None, units: str | None = None) -> Iterator[None]:
    """Speak so within the block; what is not given stays as it is."""
    token = _bound.set(voice())
    try:
        change_voice(language, units)
        yield
    finally:
        _bound.reset(token)


def change_voice(language: str | None = None, units: str | None = None) -> None:
    """Speak so from now on, to the end of the block of `speaking` around it."""
    now = voice()
    if language is not None:
        now = replace(now, language=language)
    if units is not None:
        now = replace(now, units="metric" if units == "metric" else "us")
    _bound.set(now)
