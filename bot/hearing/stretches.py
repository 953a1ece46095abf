"""A clause with the values in it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from bot.hearing.heard_values import Span
from bot.hearing.normal import Normal


@dataclass(frozen=True)
class Stretch:
    """A clause with what is needed to fill slots from it."""

    normal: Normal
    spans: tuple[Span, ...]
    start: int
    end: int

    @property
    def text(self) -> str:
        """The normal form of the clause."""
        return self.normal.text[self.start : self.end]

    @property
    def said(self) -> str:
        """What the person wrote."""
        return self.normal.traced.original(self.start, self.end).strip(" ,;.")

    def of(self, *kinds: str) -> list[Span]:
        """Return the values of given kinds, in order."""
        return [span for span in self.spans if span.kind in kinds]


def stretch(
    normal: Normal, spans: Sequence[Span], start: int = 0, end: int | None = None
) -> Stretch:
    """Return a clause of a normal form, or all of it."""
    stop = len(normal.text) if end is None else end
    inside = tuple(span for span in spans if span.start >= start and span.end <= stop)
    return Stretch(normal, inside, start, stop)
