"""The yard sketch: every zone to one scale, named where it is drawn.

Zones walked with the phone make a map, north up. Zones measured with a tape have a form but no
place: they stand in tidy rows, to the same scale. What is cut out or not treated is hatched, and
what is known by its area alone is a dashed square.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Final

from bot.pictures.outlines import Outline, outline
from bot.pictures.page import GREY, LARGE, MARGIN, TALLEST, WIDTH, Page, drawable, wrapped
from bot.pictures.sketch_map import Block, draw_map, write_list
from bot.pictures.sketch_parts import Look, north_arrow, scale_bar, with_buffer
from bot.pictures.sketch_rows import FOOT, GAP, LARGEST_SCALE, ROOM, Drawn, rows_of, scale_for
from bot.saying.catalogue import say
from bot.saying.values import Names
from bot.saying.voice import UnitSystem, language_now
from jobs.agronomy.shapes import Shape

#: Height the map is laid out for [px], and the shares of it: the first with room for all is taken.
_USUAL: Final = 1150.0
_SHARES: Final = (1.0, 0.7, 0.5)


@dataclass(frozen=True, slots=True)
class SketchZone:
    """One zone: its name, its size and (if known) its amount in words, and its shape."""

    name: str
    size: str
    amount: str | None
    shape: Shape
    is_treated: bool = True
    is_done: bool = False
    buffer_m2: float = 0.0

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
        most = min(LARGEST_SCALE, scale_for(taped)) if taped else LARGEST_SCALE
        pieces = [(piece.outline, piece.block, piece.look) for piece in walked]
        y, scale, unnamed = draw_map(page, pieces, y, _USUAL * map_share, most)
        y, left_out = write_list(page, unnamed, y, TALLEST - FOOT)
        y += GAP
    if taped:
        if walked:
            lines = wrapped(say("pictures.sketch.rest_one_scale"), ROOM)
            y = page.text(MARGIN, y, lines, colour=GREY).bottom + GAP * 0.6
        y, scale, more = rows_of(page, taped, y, scale)
        left_out += more
    if scale is not None:
        y = scale_bar(page, y + GAP * 0.7, scale, sketch.system)
    notes = _notes_of(sketch, [piece.outline for piece in drawn])
    if left_out:
        notes.append(say("pictures.sketch.left_out", count=left_out))
    for note in notes:
        y = page.text(MARGIN, y + 6, wrapped(note, ROOM), colour=GREY).bottom
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
    if any(zone.buffer_m2 > 0 for zone in sketch.zones):
        keys.append("buffer")
    if any(found.is_area_only for found in outlines):
        keys.append("dashed")
    if any(zone.look == "done" for zone in sketch.zones):
        keys.append("ticked")
    return [say(f"pictures.sketch.{key}") for key in keys]


def _drawn(sketch: Sketch, zone: SketchZone, number: int) -> Drawn:
    found = _turned(outline(zone.shape))
    if zone.buffer_m2 > 0:
        found = with_buffer(found, zone.buffer_m2)
    name = drawable(zone.name, say("pictures.sketch.zone", number=number))
    facts = tuple(drawable(fact) for fact in _facts(sketch, zone, found))
    return Drawn(zone.look, found, Block(number, name, facts), _bounds(found))


def _head(page: Page, sketch: Sketch, *, has_north: bool) -> float:
    room = ROOM - (110 if has_north else 0)
    title = wrapped(drawable(sketch.title), room, LARGE, is_bold=True, most_lines=2)
    box = page.text(MARGIN, MARGIN * 0.8, title, size=LARGE, is_bold=True)
    y = box.bottom + 4
    total = drawable(sketch.total)
    if total:
        y = page.text(MARGIN, y, wrapped(total, room, most_lines=2)).bottom
    if has_north:
        words = say("pictures.sketch.north")
        y = max(y, north_arrow(page, WIDTH - MARGIN - 40, MARGIN * 0.8, words))
    return y + GAP


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
