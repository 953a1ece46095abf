"""Pieces of ground: what became of which, so that nothing put down is lost with a name or a size.

A zone is measured anew, renamed, split, merged, taken out and put in again; the turf stays where it
is, and so does what went onto it. Each piece has an id and comes of none, one or several others:

- ``split``: it is a part of the other;
- ``merge``: the other is a part of it;
- ``maybe``, ``same``: it may be the other's ground, or is; until somebody says, it counts as the
  same, which errs to the careful side;
- ``other``: it is not, somebody said so.

A *line* is one way back through time: the pieces that one square foot may have belonged to.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

Kind: TypeAlias = Literal["split", "merge", "maybe", "same", "other"]
Lines: TypeAlias = tuple[frozenset[int], ...]

#: More ways back than this are taken as one that went everywhere: never too little.
_MOST_LINES: Final = 64

#: So much of a zone is all of it: nobody measures a lawn any better.
ALL_OF_IT: Final = 0.98


@dataclass(frozen=True, slots=True)
class Origin:
    """A piece of ground and another it came of; ``area_m2`` is how much of it came so."""

    ground: int
    came_from: int
    kind: Kind
    area_m2: float


class Lineage:
    """What became of which ground."""

    def __init__(self, origins: Iterable[Origin] = ()) -> None:
        self._origins: dict[int, list[Origin]] = {}
        self._became: dict[int, list[int]] = {}
        for each in origins:
            if each.kind != "other":
                self._origins.setdefault(each.ground, []).append(each)
                self._became.setdefault(each.came_from, []).append(each.ground)

    def lines(self, ground: int, among: Collection[int], without: Collection[int] = ()) -> Lines:
        """Return the ways back from a piece of ground.

        Parameters
        ----------
        ground
            The piece.
        among
            The pieces that matter; others are left out of the lines.
        without
            Pieces that no line may lead through, as far as it is known where it leads: what only
            may be the same ground, or is the same in part, may always be the rest of it.

        Returns
        -------
        tuple of frozenset
            A line that another holds whole is left out. Empty where every one leads through
            ``without``.
        """
        return self._lines(ground, frozenset(among), frozenset(without), {})

    def _lines(
        self,
        ground: int,
        among: frozenset[int],
        without: frozenset[int],
        known: dict[tuple[int, bool], Lines],
    ) -> Lines:
        if ground in without:
            return ()
        key = (ground, bool(without))
        if key not in known:
            here = among & {ground}
            origins = self._origins.get(ground, ())
            found = {
                line | here
                for each in origins
                for line in self._lines(
                    each.came_from,
                    among,
                    without if each.kind in ("split", "merge") else frozenset(),
                    known,
                )
            }
            known[key] = _longest(found) if origins else (here,)
        return known[key]

    def held(self, ground: int) -> frozenset[int]:
        """Return a piece and all that were merged into it whole."""
        found = {ground}
        for each in self._origins.get(ground, ()):
            if each.kind == "merge":
                found |= self.held(each.came_from)
        return frozenset(found)

    def comes_of(self, ground: int, others: Collection[int]) -> bool:
        """Tell whether a piece is, or has anything of, any of some others."""
        return any(self.lines(ground, others))

    def later(self, ground: int) -> frozenset[int]:
        """Return what became of a piece: a change taken back leaves its ground with a record."""
        found: set[int] = set()
        for each in self._became.get(ground, ()):
            found |= {each} | self.later(each)
        return frozenset(found)

    def covered(self, ground: int, shares: Mapping[int, float]) -> float:
        """Return the share of a piece that an application covered (0-1).

        Parameters
        ----------
        ground
            The piece.
        shares
            The share covered of each piece that stood then.
        """
        if ground in shares:
            return shares[ground]
        origins = self._origins.get(ground, ())
        sure = [(o.area_m2, o.came_from) for o in origins if o.kind in ("split", "merge")]
        parts = [(area_m2, self.covered(each, shares)) for area_m2, each in sure]
        unsure = [each for each in origins if each.kind in ("maybe", "same")]
        if unsure:
            share = max(self.covered(each.came_from, shares) for each in unsure)
            parts.append((max(each.area_m2 for each in unsure), share))
        total_m2 = sum(area_m2 for area_m2, _ in parts)
        return sum(area_m2 * share for area_m2, share in parts) / total_m2 if total_m2 else 0.0


def _longest(lines: Collection[frozenset[int]]) -> Lines:
    """Return lines without those that another holds whole."""
    kept: list[frozenset[int]] = []
    for line in sorted(lines, key=lambda each: (-len(each), sorted(each))):
        if not any(line <= other for other in kept):
            kept.append(line)
    if len(kept) > _MOST_LINES:
        return (frozenset().union(*kept),)
    return tuple(kept)
