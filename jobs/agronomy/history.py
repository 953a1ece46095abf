"""What may have met one and the same square foot of a yard: its applications, line by line.

Where only a part of a zone got something, any square foot of it may have got it, and every other
part besides: that is what counts, unless the parts are known to lie beside one another.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass, field, replace
from datetime import date
from typing import Final

from jobs.agronomy.ground import ALL_OF_IT, Lineage
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.rates import Rate

#: Parts of one round beyond this many are taken as one on top of the other: never too little.
_MOST_PARTS: Final = 10


@dataclass(frozen=True, slots=True)
class Entry:
    """One application on one piece of ground.

    Attributes
    ----------
    ground, zone
        The piece, and what it is called.
    day, product
        When and what.
    rate
        On the square feet that got it. None: known to have happened, not how much.
    record
        The application's number.
    share
        How much of the piece got it (0-1).
    beside
        Applications known to lie on other square feet.
    """

    ground: int
    day: date
    product: Product
    rate: Rate | None
    zone: str = ""
    record: int = 0
    share: float = 1.0
    beside: frozenset[int] = frozenset()

    @property
    def is_part(self) -> bool:
        """Whether only a part of the piece got it."""
        return self.share < ALL_OF_IT


@dataclass(frozen=True, slots=True)
class Line:
    """What may have met one and the same square foot.

    `whole` did; of each group in `parts` one of the alternatives may have, and any of the groups.
    """

    whole: tuple[Entry, ...] = ()
    parts: tuple[tuple[tuple[Entry, ...], ...], ...] = ()

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Everything that may have met it, in no order."""
        several = (entry for group in self.parts for each in group for entry in each)
        return (*self.whole, *dict.fromkeys(several))


@dataclass(frozen=True, slots=True)
class History:
    """What may have met the square feet of a zone, a line for each kind of square foot."""

    lines: tuple[Line, ...] = (Line(),)

    @classmethod
    def of(cls, entries: Iterable[Entry]) -> History:
        """Return the history of ground that has always been one zone."""
        return Records(tuple(replace(each, ground=0) for each in entries)).on(0)

    @property
    def entries(self) -> tuple[Entry, ...]:
        """Everything that may have met any of it, oldest first."""
        found = dict.fromkeys(entry for line in self.lines for entry in line.entries)
        return tuple(sorted(found, key=lambda each: each.day))

    def with_entry(self, entry: Entry) -> History:
        """Return it with one more application on all of it."""
        return History(tuple(replace(each, whole=(*each.whole, entry)) for each in self.lines))


@dataclass(frozen=True)
class Records:
    """Every application of a yard, and what became of its ground."""

    entries: tuple[Entry, ...] = ()
    lineage: Lineage = field(default_factory=Lineage)

    def on(self, ground: int) -> History:
        """Return what may have met a piece of ground."""
        lines = self.lineage.lines(ground, self._grounds)
        return self._history(ground, lines, ())

    def left(self, ground: int, records: Collection[int]) -> History | None:
        """Return what may have met the square feet that some applications left out.

        Where a zone was split since, nobody knows on which side of the line they lie: then they
        count here too. None: nothing was left out.
        """
        held = self.lineage.held(ground)
        mine = [entry for entry in self.entries if entry.record in records]
        done = {entry.ground for entry in mine if not entry.is_part}
        lines = self.lineage.lines(ground, self._grounds, done)
        if not lines:
            return None
        known = [entry for entry in mine if entry.ground in held]
        return self._history(ground, lines, known)

    @property
    def _grounds(self) -> frozenset[int]:
        return frozenset(entry.ground for entry in self.entries)

    def _history(
        self, ground: int, lines: Sequence[frozenset[int]], but: Collection[Entry]
    ) -> History:
        # A split or merger taken back: what was put down meanwhile lies somewhere on the whole.
        later = self.lineage.later(ground)
        after = [
            replace(e, share=0.0, beside=frozenset()) for e in self.entries if e.ground in later
        ]
        found = []
        for line in lines:
            here = [e for e in self.entries if e.ground in line and e not in but]
            found.append(_line([*here, *after]))
        return History(tuple(found))


def _line(entries: Sequence[Entry]) -> Line:
    """Sort a line's applications into those on all of it and those on parts of it.

    A line stands for shorter ones that it holds too: where a part lies beside what was put on one
    of several pieces merged since, some square feet had the one and some the other.
    """
    parts = [entry for entry in entries if entry.is_part]
    apart = [
        entry
        for entry in entries
        if not entry.is_part
        and any(entry.record in part.beside and entry.ground != part.ground for part in parts)
    ]
    whole = tuple(
        sorted((e for e in entries if not e.is_part and e not in apart), key=lambda each: each.day)
    )
    met = {entry.record for entry in whole if entry.record}
    parts = [*apart, *(part for part in parts if not part.beside & met)]
    groups = []
    while parts:
        group = [parts.pop()]
        for one in group:
            near = [other for other in parts if _are_beside(one, other)]
            group += near
            parts = [other for other in parts if other not in near]
        groups.append(tuple(_alternatives(sorted(group, key=lambda each: each.day))))
    return Line(whole, tuple(reversed(groups)))


def _are_beside(one: Entry, other: Entry) -> bool:
    return one.record in other.beside or other.record in one.beside


def _alternatives(group: Sequence[Entry]) -> list[tuple[Entry, ...]]:
    """Return every largest choice of parts of which no two are known to lie apart."""
    if len(group) > _MOST_PARTS:
        return [tuple(group)]
    found: list[tuple[Entry, ...]] = [()]
    for entry in group:
        longer = [(*(one for one in each if not _are_beside(one, entry)), entry) for each in found]
        found = list(dict.fromkeys([*found, *longer]))
        found = [each for each in found if not any(set(each) < set(other) for other in found)]
    return found
