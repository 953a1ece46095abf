"""Zones of which the place is not known, in tidy rows and to one scale.

Each is named below its shape where the shapes get wide enough; else they are numbered, with a list
of names.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bot.pictures.arrange import Arrangement, Piece, largest_scale, on_shelves
from bot.pictures.outlines import Outline
from bot.pictures.page import LEADING, MARGIN, SMALL, TALLEST, WIDTH, Page, width_of, wrapped
from bot.pictures.sketch_map import Block, write_list
from bot.pictures.sketch_parts import Look, ToPage, draw_outline

ROOM: Final = WIDTH - 2 * MARGIN
GAP: Final = 30.0

#: Height the shapes and names are laid out for [px]; more only where the names alone need it.
_USUAL: Final = 1150.0
_FOR_SHAPES: Final = 550.0
#: The scale bar and the notes take up to this much of the page [px].
FOOT: Final = 720.0

#: Named one by one only where the widest shape gets at least this wide [px]; else numbered.
_NAMED_FROM: Final = 140.0
#: Height kept for shapes that are numbered [px].
_NUMBERED: Final = 640.0

#: Nothing is drawn larger than this [px per m].
LARGEST_SCALE: Final = 60.0


@dataclass(frozen=True, slots=True, eq=False)
class Drawn:
    """A zone to be drawn: how it looks, its outline, its words and its bounds [m]."""

    look: Look
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


def scale_for(pieces: Sequence[Drawn]) -> float:
    """Return the scale at which the widest piece just fits the page [px per m]."""
    widths = [right - left for left, _, right, _ in (p.bounds for p in pieces)]
    return float(ROOM - 8) / max(widths)


def _label_lines(piece: Drawn, width: float) -> list[tuple[str, bool]]:
    name = wrapped(piece.block.name, width, SMALL, is_bold=True, most_lines=2)
    lines = [(line, True) for line in name]
    for fact in piece.block.facts:
        lines += [(line, False) for line in wrapped(fact, width, SMALL, most_lines=3)]
    return lines


def rows_of(
    page: Page, pieces: Sequence[Drawn], y: float, scale: float | None
) -> tuple[float, float, int]:
    """Draw pieces in rows from ``y`` down; return the end, the scale and how many had no room."""
    columns = 1 if len(pieces) == 1 else 2 if len(pieces) <= 4 else 3
    label_width = (ROOM - (columns - 1) * GAP) / columns
    labels = [_Label.of(_label_lines(piece, label_width)) for piece in pieces]
    furthest = TALLEST - FOOT - y
    names_only = _arranged(pieces, labels, 1e-3)
    needed = names_only.height + _FOR_SHAPES if names_only else _USUAL
    within = min(max(_USUAL, needed), furthest)
    at = scale or largest_scale(lambda tried: _fits(pieces, labels, tried, within), LARGEST_SCALE)
    widest = max(right - left for left, _, right, _ in (p.bounds for p in pieces))
    if _fits(pieces, labels, at, furthest) and (scale or widest * at >= _NAMED_FROM):
        return _draw_rows(page, pieces, labels, at, y), at, 0
    return _numbered_rows(page, pieces, y, scale)


def _numbered_rows(
    page: Page, pieces: Sequence[Drawn], y: float, scale: float | None
) -> tuple[float, float, int]:
    """Draw pieces with their numbers, and a list of the names below."""
    labels = [_Label.of([(str(piece.block.number), True)]) for piece in pieces]
    furthest = TALLEST - FOOT - y
    at = scale or largest_scale(
        lambda tried: _fits(pieces, labels, tried, _NUMBERED), LARGEST_SCALE
    )
    kept = len(pieces)
    while kept > 1 and not _fits(pieces[:kept], labels[:kept], at, furthest):
        kept -= 1
    if not _fits(pieces[:kept], labels[:kept], at, furthest):
        return y, at, len(pieces)
    y = _draw_rows(page, pieces[:kept], labels[:kept], at, y) + GAP
    y, left_out = write_list(page, [p.block for p in pieces[:kept]], y, TALLEST - FOOT)
    return y, at, left_out + len(pieces) - kept


def _arranged(
    pieces: Sequence[Drawn], labels: Sequence[_Label], scale: float
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
    return on_shelves(needs, ROOM, GAP)


def _fits(pieces: Sequence[Drawn], labels: Sequence[_Label], scale: float, height: float) -> bool:
    found = _arranged(pieces, labels, scale)
    return found is not None and found.height <= height


def _draw_rows(
    page: Page, pieces: Sequence[Drawn], labels: Sequence[_Label], scale: float, y: float
) -> float:
    found = _arranged(pieces, labels, scale)
    if found is None:
        return y
    for piece, label, spot in zip(pieces, labels, found.spots, strict=True):
        left, bottom, _, _ = piece.bounds
        to_page = ToPage(
            scale, MARGIN + spot.left + 4 - left * scale, y + spot.shelf - 4 + bottom * scale
        )
        draw_outline(page, piece.outline, to_page, piece.look)
        top = y + spot.shelf + 8
        for words, is_bold in label.lines:
            page.text(MARGIN + spot.left + 2, top, words, is_bold=is_bold)
            top += SMALL * LEADING
    return y + found.height
