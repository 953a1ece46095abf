"""Zones and their sizes as people write them: ``pool lawn 60x40, strip 5 by 80 ft``.

The text is split into pieces first, so that one bad piece never loses the rest; each piece goes
through a grammar (``grammars/sizes.lark``) and then through the sense of its units. What has two
meanings is asked back, never guessed: an `Unread` piece has no size, a `Doubt` has one that the
person should confirm.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Final, TypeAlias

from bot.hearing.expressions import expression
from bot.hearing.phrases import kind, phrases
from bot.hearing.readers import pieces, size_prose, sizes_sense
from bot.hearing.readers.lexing import LONGEST_TEXT, SPOKEN_HUNDRED, plain
from bot.hearing.readers.pieces import Piece
from bot.hearing.readers.reading import Note, Unread
from bot.hearing.readers.terms import NoSense
from bot.hearing.words import bare, finder
from jobs.agronomy import units
from jobs.agronomy.shapes import GivenArea, Shape, Sum

_says: Final = partial(phrases, "sizes")
LARGEST_M2: Final = units.to_si(100.0, "acre")
SMALLEST_M2: Final = 0.25
LONGEST_SIDE_M: Final = 1000.0


@dataclass(frozen=True)
class ZoneRead:
    """A zone with its size.

    Attributes
    ----------
    name : str or None
        In the person's spelling; None where none was given.
    said : str
        The piece as written.
    shape : Shape
        The shape, in metres.
    area_m2 : float
        Its area.
    echo : str
        The size in our own writing, such as ``60 ft x 40 ft minus 3 m x 4 m``; reads the same.
    notes : tuple of Note
        What to tell about the way it was reckoned: a closing error, the rule for offsets.
    is_again : bool
        Whether it is said of what was spoken of: ``it's more like 7,500 sq ft``.
    """

    name: str | None
    said: str
    shape: Shape
    area_m2: float
    echo: str
    notes: tuple[Note, ...] = ()
    is_again: bool = False


@dataclass(frozen=True)
class Doubt:
    """A zone that can be read, and had better be confirmed.

    `reason` is a key of the catalogue, ``reading.negative`` for one; `zone` is what it would be,
    `on` the ground that it stands on, where that was said.
    """

    said: str
    reason: str
    zone: ZoneRead
    example: str = "front 60 x 40 ft"
    facts: tuple[tuple[str, str], ...] = ()
    on: str | None = None

    def sentence(self) -> str:
        """Return the question for the person."""
        facts = (("echo", self.zone.echo), *self.facts)
        return Unread(self.said, self.reason, self.example, facts).sentence()


Item: TypeAlias = ZoneRead | Unread | Doubt


@dataclass(frozen=True)
class ZonesRead:
    """All pieces of a text, in order."""

    items: tuple[Item, ...]

    @property
    def zones(self) -> tuple[ZoneRead, ...]:
        """Zones read without doubt."""
        return tuple(item for item in self.items if isinstance(item, ZoneRead))

    @property
    def questions(self) -> tuple[Unread | Doubt, ...]:
        """Pieces to ask back."""
        return tuple(item for item in self.items if not isinstance(item, ZoneRead))


def read_zones(text: str, default_length_unit: str, pace_m: float | None = None) -> ZonesRead:
    """Read zones with their sizes.

    Parameters
    ----------
    text : str
        One or more pieces, between commas, semicolons, line ends or "and".
    default_length_unit : str
        Unit of dimensions written without one: ``ft`` or ``m`` (or another length unit).
    pace_m : float, optional
        Length of the person's pace in metres, where it is known.
    """
    if len(text) > LONGEST_TEXT:
        return ZonesRead((Unread(f"{text[:40]}…", "reading.too_long", "front 60 x 40 ft"),))
    found = pieces.split(plain(text))
    unit = _unit_of_all(plain(text).text, default_length_unit)
    items = [_read_in(piece, unit, default_length_unit, pace_m) for piece in found]
    if len(items) == 1 and _says("again").first(text) is not None:
        items = [changed(items[0], is_again=True)]
    items = _of_one_list(_doubt_cut_lists(found, items))
    items = list(_doubt_after_minus(found, items))
    return ZonesRead(tuple(_doubt_nameless(found, items)))


def changed(item: Item, **new: Any) -> Item:
    """Return an item with some of its zone changed, doubted or not; what is unread stays."""
    if isinstance(item, Doubt):
        return replace(item, zone=replace(item.zone, **new))
    return replace(item, **new) if isinstance(item, ZoneRead) else item


#: Units of one system in a message say which the bare numbers are in.
_METRIC: Final = expression(rf"\d\s*{kind('metric_unit')}(?![\w'])", re.IGNORECASE)
_US: Final = expression(rf"\d\s*{kind('us_unit')}", re.IGNORECASE)
_PACES: Final = expression(rf"\d\s*{kind('pace')}", re.IGNORECASE)
_METRIC_LENGTHS: Final = ("m", "cm")


def _unit_of_all(text: str, usual: str) -> str:
    """Return the unit of bare numbers: of the system of those beside them, asked beside both."""
    is_metric, is_us = _METRIC.search(text) is not None, _US.search(text) is not None
    if is_metric and is_us:
        return ""
    if _PACES.search(text) and not (is_metric or is_us):
        return "pace"
    is_usual = is_metric == is_us or is_metric == (usual in _METRIC_LENGTHS)
    return usual if usual and is_usual else "m" if is_metric else "ft" if is_us else usual


def _read_in(piece: Piece, unit: str, usual: str, pace_m: float | None) -> Item:
    """Read a piece, or ask whether bare numbers beside both systems are in the usual unit."""
    # "60x40 minus 30 x 20 m", where feet are usual, says nothing of its first size.
    is_own = unit != usual and any(each.search(piece.said) for each in (_METRIC, _US, _PACES))
    item = _read(piece, "" if is_own else unit, pace_m)
    is_open = isinstance(item, Unread) and item.reason == "reading.which_unit"
    if not is_open or unit or not usual:
        return item
    guess = _read(piece, usual, pace_m)
    if not isinstance(guess, ZoneRead):
        return item
    return Doubt(guess.said, "reading.feet_or_metres", guess, f"{guess.said} m")


def _doubt_nameless(found: Iterable[Piece], items: list[Item]) -> list[Item]:
    """Ask whether "front 30x20 and 10x15" is one zone of two pieces."""
    kept: list[Item] = []
    for piece, item in zip(found, items, strict=True):
        before = kept[-1] if kept else None
        is_more = isinstance(item, ZoneRead) and item.name is None and piece.is_after_and
        if is_more and isinstance(before, ZoneRead) and before.name is not None:
            assert isinstance(item, ZoneRead)
            shape = Sum((before.shape, item.shape))
            said, echo = f"{before.said} and {item.said}", f"{before.echo} plus {item.echo}"
            both = ZoneRead(before.name, said, shape, shape.area_m2, echo)
            facts = (("name", before.name),)
            example = f"{before.said}, back {item.said}"
            kept[-1] = Doubt(said, "reading.both_pieces", both, example, facts)
        else:
            kept.append(item)
    return kept


#: Smaller figures without a unit are hardly areas. Our choice.
_LEAST_SHARED_M2: Final = units.to_si(100.0, "sq ft")


def _of_one_list(items: list[Item]) -> list[Item]:
    """Take bare areas as those beside them are said: "front 2,000 sq ft, back 4,500"."""
    said = {_area_unit(item) for item in items if isinstance(item, ZoneRead)} - {""}
    return [
        item.zone
        if isinstance(item, Doubt)
        and item.reason == "reading.lone_area"
        and item.zone.name is not None
        and item.zone.area_m2 >= _LEAST_SHARED_M2
        and said == {_area_unit(item.zone)}
        else item
        for item in items
    ]


def _area_unit(zone: ZoneRead) -> str:
    """Return the unit an area was said in, with its unit; empty for what has sides."""
    is_given = isinstance(zone.shape, GivenArea)
    return zone.echo.partition(" ")[2] if is_given else ""


def _read(piece: Piece, default_unit: str, pace_m: float | None) -> Item:
    if piece.fault is not None:
        return Unread(piece.said, f"reading.{piece.fault}", "front 60 x 40 ft, back 30 x 20 ft")
    try:
        sense = sizes_sense.read(piece.text, default_unit, pace_m)
    except NoSense as why:
        return Unread(piece.said, f"reading.{why.reason}", why.example, why.facts)
    zone = ZoneRead(
        sizes_sense.name_in(piece.name) if piece.name else sense.name,
        piece.said,
        sense.shape,
        sense.shape.area_m2,
        sense.echo,
        sense.notes,
    )
    thing = sizes_sense.thing_in(piece.name) if piece.name else sense.thing
    said = f"{piece.name or ''} {sense.words}"
    return _on_lawn(zone, thing, said) if thing else _doubted(zone, sense)


def _on_lawn(zone: ZoneRead, thing: str, said: str) -> Doubt:
    """Return the question about what is no lawn; it may be taken off what there is."""
    where = finder("zones").search(bare(said.replace(thing, " ")))
    example = f"front 60 x 40 ft minus {thing} 30 x 20 ft"
    on = None if where is None else where.group()
    zone = replace(zone, name=thing)
    return Doubt(zone.said, "reading.hard_surface", zone, example, (("name", thing),), on)


def _doubted(zone: ZoneRead, sense: sizes_sense.Sense) -> ZoneRead | Doubt:
    def doubt(reason: str, example: str, **facts: str) -> Doubt:
        return Doubt(zone.said, f"reading.{reason}", zone, example, tuple(facts.items()))

    name = zone.name or ""
    if sense.is_negative:
        return doubt("negative", zone.echo)
    if sense.doubt is not None:
        return doubt(sense.doubt, zone.echo)
    if re.search(SPOKEN_HUNDRED, zone.said, re.IGNORECASE):
        return doubt("spoken_hundred", zone.echo)
    if _says("deed").first(name):
        return doubt("no_name", "front 60 x 40 ft", name=name)
    if _says("more_of").whole(name) or _says("many").first(sense.words) or re.match(r"\d", name):
        return doubt("many", "strip A 5 x 80 ft, strip B 5 x 80 ft")
    is_sum = _says("in_all").first(sense.words)
    if is_sum or (not name and _says("summed_up").first(sense.words)):
        return doubt("total", "front 2,400 sq ft")
    article = _says("article").at_start(name)
    bare_name = (name if article is None else article.after.strip()).removesuffix("'s")
    left = _says("not_treated").first(bare_name)
    if left is not None:
        return _on_lawn(zone, left.before.strip() or bare_name, sense.words)
    if _says("hard").whole(bare_name) or _says("hard_one").whole(bare_name):
        return _on_lawn(zone, bare_name, sense.words)
    if zone.area_m2 > LARGEST_M2:
        return doubt("huge", "front 2,400 sq ft")
    if sense.longest_m > LONGEST_SIDE_M:
        return doubt("long_side", "front 60 x 40 ft, back 30 x 20 ft")
    if zone.area_m2 < SMALLEST_M2:
        return doubt("tiny", "front 60 x 40 ft")
    return zone


def _doubt_cut_lists(found: Iterable[Piece], items: list[Item]) -> list[Item]:
    """Ask whether a list of figures is complete where what follows it could not be read."""
    return [
        Doubt(item.said, "reading.list_cut", item, item.echo)
        if isinstance(item, ZoneRead) and isinstance(following, Unread) and pieces.is_list(piece)
        else item
        for piece, item, following in zip(found, items, [*items, None][1:], strict=True)
    ]


def _doubt_after_minus(found: Iterable[Piece], items: list[Item]) -> Iterable[Item]:
    """Ask whether the rest in "minus house 30x20 and rest 10x40" is a zone or taken off too."""
    before: Piece | None = None
    for piece, item in zip(found, items, strict=True):
        takes_off = before is not None and pieces.takes_off(before.text)
        is_zone = isinstance(item, ZoneRead) and size_prose.pattern_of("parts").search(
            item.name or ""
        )
        if takes_off and piece.is_after_and and isinstance(item, ZoneRead) and not is_zone:
            example = f"{before.said if before else ''} minus {piece.said}"
            yield Doubt(item.said, "reading.after_minus", item, example)
        else:
            yield item
        before = piece
