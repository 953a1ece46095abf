"""The yard sketch: every zone to one scale, named where it is drawn.

Zones walked with the phone make a map, north up. Zones measured with a tape have a form but no
place: they stand in tidy rows, to the same scale. What is cut out or not treated is hatched, and
what is known by its area alone is a dashed square.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from bot.pictures.arrange import Arrangement, Piece, largest_scale, on_shelves
from bot.pictures.outlines import Outline, outline
from bot.pictures.page import (
    GREY,
    LARGE,
    LEADING,
    MARGIN,
    SMALL,
    TALLEST,
    WIDTH,
    Page,
    drawable,
    width_of,
    wrapped,
)
from bot.pictures.sketch_map import Block, draw_map, write_list
from bot.pictures.sketch_parts import Look, ToPage, draw_outline, north_arrow, scale_bar
from bot.saying.catalogue import say
from bot.saying.values import Names
from bot.saying.voice import UnitSystem, language_now
from jobs.agronomy.shapes import Shape

_ROOM: Final = WIDTH - 2 * MARGIN
_GAP: Final = 30.0

#: Height the shapes and names are laid out for [px]; more only where the names alone need it.
_USUAL: Final = 1150.0
_FOR_SHAPES: Final = 550.0
#: The scale bar and the notes take up to this much of the page [px].
_FOOT: Final = 720.0

#: Shares of the usual height a map may take: the first with room for everything is taken.
_SHARES: Final = (1.0, 0.7, 0.5)

#: Named one by one only where the widest shape gets at least this wide [px]; else numbered.
_NAMED_FROM: Final = 140.0
#: Height kept for shapes that are numbered [px].
_NUMBERED: Final = 640.0

#: Nothing is drawn larger than this [px per m].
_LARGEST_SCALE: Final = 60.0


@dataclass(frozen=True, slots=True)
class SketchZone:
    """One zone: its name, its size and (if known) its amount in words, and its shape."""

    name: str
    size: str
    amount: str | None
    shape: Shape
    is_treated: bool = True
    is_done: bool = False

    @property
    def look(self) -> Look:
        """How it is drawn."""
        return "left" if not self.is_treated else "done" if self.is_done else "open"


@dataclass(frozen=True, slots=True)
class Sketch:
    """A yard's zones; ``total`` is a finished sentence, ``system`` the units of the scale bar."""

    title: str
    total: str
    zones: tuple[SketchZone, ...]
    system: UnitSystem = "us"
    lang: str = field(default_factory=language_now)


@dataclass(frozen=True, slots=True, eq=False)
class _Drawn:
    zone: SketchZone
    outline: Outline
    block: Block
    bounds: tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, eq=False)
class _Label:
    lines: tuple[tuple[str, bool], ...]
    width: float

    @classmethod
    def of(cls, lines: Sequence[tuple[str, bool]]) -> _Label:
        widths = (width_of(words, SMALL, is_bold=is_bold) for words, is_bold in lines)
        return cls(tuple(lines), max(widths))


def sketch_page(sketch: Sketch) -> Page:
    """Return the drawn page, for saving or for looking at its parts."""
    for share in _SHARES[:-1]:
        page, left_out = _page(sketch, share)
        if not left_out:
            return page
    return _page(sketch, _SHARES[-1])[0]


def _page(sketch: Sketch, map_share: float) -> tuple[Page, int]:
    """Return the page, a map taking up to a share of the usual height, and how many had no room."""
    page = Page(TALLEST)
    drawn = [_drawn(sketch, zone, number) for number, zone in enumerate(sketch.zones, 1)]
    walked = [piece for piece in drawn if piece.outline.is_placed]
    taped = [piece for piece in drawn if not piece.outline.is_placed]
    y = _head(page, sketch, has_north=bool(walked))
    scale: float | None = None
    left_out = 0
    if walked:
        most = min(_LARGEST_SCALE, _scale_for(taped)) if taped else _LARGEST_SCALE
        pieces = [(piece.outline, piece.block, piece.zone.look) for piece in walked]
        y, scale, unnamed = draw_map(page, pieces, y, _USUAL * map_share, most)
        y, left_out = write_list(page, unnamed, y, TALLEST - _FOOT)
        y += _GAP
    if taped:
        if walked:
            lines = wrapped(say("pictures.sketch.rest_one_scale"), _ROOM)
            y = page.text(MARGIN, y, lines, colour=GREY).bottom + _GAP * 0.6
        y, scale, more = _rows(page, taped, y, scale)
        left_out += more
    if scale is not None:
        y = scale_bar(page, y + _GAP * 0.7, scale, sketch.system)
    notes = _notes_of(sketch, [piece.outline for piece in drawn])
    if left_out:
        notes.append(say("pictures.sketch.left_out", count=left_out))
    for note in notes:
        y = page.text(MARGIN, y + 6, wrapped(note, _ROOM), colour=GREY).bottom
    page.set_height(y + MARGIN * 0.8)
    return page, left_out


def describe_sketch(sketch: Sketch) -> str:
    """Return the sketch as one line of text, for those who cannot see it."""
    outlines = [outline(zone.shape) for zone in sketch.zones]
    zones = []
    for number, (zone, found) in enumerate(zip(sketch.zones, outlines, strict=True), 1):
        parts = [zone.name, *_facts(sketch, zone, found)]
        zones.append(say("pictures.sketch_text.zone", number=number, parts=Names(parts)))
    text = say(
        "pictures.sketch_text.whole",
        title=sketch.title,
        zones=" ".join(zones) or say("pictures.sketch.empty"),
        total=sketch.total,
        notes=" ".join(_notes_of(sketch, outlines)),
    )
    return " ".join(text.split())


def _facts(sketch: Sketch, zone: SketchZone, found: Outline) -> list[str]:
    facts = [zone.size]
    if zone.amount:
        facts.append(zone.amount)
    if found.is_area_only:
        facts.append(say("pictures.sketch.area_only"))
    if not zone.is_treated:
        facts.append(say("pictures.sketch.not_treated"))
    return facts


def _notes_of(sketch: Sketch, outlines: Sequence[Outline]) -> list[str]:
    keys = []
    if not outlines:
        keys.append("empty")
    elif any(found.is_placed for found in outlines):
        keys.append("to_scale")
    else:
        keys.append("one_scale")
    if any(found.cutouts for found in outlines):
        is_known = all(found.are_cutouts_placed for found in outlines)
        keys.append("cutouts" if is_known else "cutouts_guessed")
    if any(not zone.is_treated for zone in sketch.zones):
        keys.append("dotted")
    if any(found.is_area_only for found in outlines):
        keys.append("dashed")
    if any(zone.look == "done" for zone in sketch.zones):
        keys.append("ticked")
    return [say(f"pictures.sketch.{key}") for key in keys]


def _drawn(sketch: Sketch, zone: SketchZone, number: int) -> _Drawn:
    found = _turned(outline(zone.shape))
    name = drawable(zone.name, say("pictures.sketch.zone", number=number))
    facts = tuple(drawable(fact) for fact in _facts(sketch, zone, found))
    return _Drawn(zone, found, Block(number, name, facts), _bounds(found))


def _head(page: Page, sketch: Sketch, *, has_north: bool) -> float:
    room = _ROOM - (110 if has_north else 0)
    title = wrapped(drawable(sketch.title), room, LARGE, is_bold=True, most_lines=2)
    box = page.text(MARGIN, MARGIN * 0.8, title, size=LARGE, is_bold=True)
    y = box.bottom + 4
    total = drawable(sketch.total)
    if total:
        y = page.text(MARGIN, y, wrapped(total, room, most_lines=2)).bottom
    if has_north:
        words = say("pictures.sketch.north")
        y = max(y, north_arrow(page, WIDTH - MARGIN - 40, MARGIN * 0.8, words))
    return y + _GAP


def _turned(found: Outline) -> Outline:
    """Return the outline with its long side level, unless the way it lies is known."""
    from shapely import affinity, unary_union

    if found.is_north_up:
        return found
    whole = unary_union([found.ground, *found.cutouts])
    left, bottom, right, top = whole.bounds
    if right - left >= top - bottom:
        return found
    origin = whole.centroid
    return Outline(
        affinity.rotate(found.ground, -90, origin=origin),
        tuple(affinity.rotate(cut, -90, origin=origin) for cut in found.cutouts),
        is_area_only=found.is_area_only,
        are_cutouts_placed=found.are_cutouts_placed,
    )


def _bounds(found: Outline) -> tuple[float, float, float, float]:
    from shapely import unary_union

    whole = unary_union([found.ground, *found.cutouts])
    left, bottom, right, top = (float(edge) for edge in whole.bounds)
    return left, bottom, right, top


def _scale_for(pieces: Sequence[_Drawn]) -> float:
    """Return the scale at which the widest piece just fits the page [px per m]."""
    widths = [right - left for left, _, right, _ in (p.bounds for p in pieces)]
    return float(_ROOM - 8) / max(widths)


def _label_lines(piece: _Drawn, width: float) -> list[tuple[str, bool]]:
    name = wrapped(piece.block.name, width, SMALL, is_bold=True, most_lines=2)
    lines = [(line, True) for line in name]
    for fact in piece.block.facts:
        lines += [(line, False) for line in wrapped(fact, width, SMALL, most_lines=2)]
    return lines


def _rows(
    page: Page, pieces: Sequence[_Drawn], y: float, scale: float | None
) -> tuple[float, float, int]:
    """Draw pieces in rows from ``y`` down; return the end, the scale and how many had no room."""
    columns = 1 if len(pieces) == 1 else 2 if len(pieces) <= 4 else 3
    label_width = (_ROOM - (columns - 1) * _GAP) / columns
    labels = [_Label.of(_label_lines(piece, label_width)) for piece in pieces]
    furthest = TALLEST - _FOOT - y
    names_only = _arranged(pieces, labels, 1e-3)
    needed = names_only.height + _FOR_SHAPES if names_only else _USUAL
    within = min(max(_USUAL, needed), furthest)
    at = scale or largest_scale(lambda tried: _fits(pieces, labels, tried, within), _LARGEST_SCALE)
    widest = max(right - left for left, _, right, _ in (p.bounds for p in pieces))
    if _fits(pieces, labels, at, furthest) and (scale or widest * at >= _NAMED_FROM):
        return _draw_rows(page, pieces, labels, at, y), at, 0
    return _numbered_rows(page, pieces, y, scale)


def _numbered_rows(
    page: Page, pieces: Sequence[_Drawn], y: float, scale: float | None
) -> tuple[float, float, int]:
    """Draw pieces with their numbers, and a list of the names below."""
    labels = [_Label.of([(str(piece.block.number), True)]) for piece in pieces]
    furthest = TALLEST - _FOOT - y
    at = scale or largest_scale(
        lambda tried: _fits(pieces, labels, tried, _NUMBERED), _LARGEST_SCALE
    )
    kept = len(pieces)
    while kept > 1 and not _fits(pieces[:kept], labels[:kept], at, furthest):
        kept -= 1
    if not _fits(pieces[:kept], labels[:kept], at, furthest):
        return y, at, len(pieces)
    y = _draw_rows(page, pieces[:kept], labels[:kept], at, y) + _GAP
    y, left_out = write_list(page, [p.block for p in pieces[:kept]], y, TALLEST - _FOOT)
    return y, at, left_out + len(pieces) - kept


def _arranged(
    pieces: Sequence[_Drawn], labels: Sequence[_Label], scale: float
) -> Arrangement | None:
    needs = []
    for piece, label in zip(pieces, labels, strict=True):
        left, bottom, right, top = piece.bounds
        needs.append(
            Piece(
                max((right - left) * scale + 8, label.width),
                (top - bottom) * scale + 8,
                12 + len(label.lines) * SMALL * LEADING,
            )
        )
    return on_shelves(needs, _ROOM, _GAP)


def _fits(
    pieces: Sequence[_Drawn],
    labels: Sequence[_Label],
    scale: float,
    height: float,
) -> bool:
    found = _arranged(pieces, labels, scale)
    return found is not None and found.height <= height


def _draw_rows(
    page: Page,
    pieces: Sequence[_Drawn],
    labels: Sequence[_Label],
    scale: float,
    y: float,
) -> float:
    found = _arranged(pieces, labels, scale)
    if found is None:
        return y
    for piece, label, spot in zip(pieces, labels, found.spots, strict=True):
        left, bottom, _, _ = piece.bounds
        to_page = ToPage(
            scale, MARGIN + spot.left + 4 - left * scale, y + spot.shelf - 4 + bottom * scale
        )
        draw_outline(page, piece.outline, to_page, piece.zone.look)
        top = y + spot.shelf + 8
        for words, is_bold in label.lines:
            page.text(MARGIN + spot.left + 2, top, words, is_bold=is_bold)
            top += SMALL * LEADING
    return y + found.height
