"""The map of zones walked with the phone: true to scale, north up, each named in place.

A zone with room for its words carries them. One without carries its number, beside it if need be,
and the words stand under the map.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, Final

import numpy as np

from bot.pictures.outlines import Outline
from bot.pictures.page import (
    INK,
    LEADING,
    MARGIN,
    PAPER,
    SMALL,
    WIDTH,
    Box,
    Page,
    width_of,
    wrapped,
)
from bot.pictures.sketch_parts import Look, ToPage, draw_outline

_ROOM: Final = WIDTH - 2 * MARGIN

#: Room left around the map for numbers that stand beside their zones [px].
_EDGE: Final = 58.0
_STEP: Final = 10.0
#: A number stands no farther off its zone than this [px].
_BESIDE: Final = 170.0

#: A list of more zones than this gives each one line.
_MANY: Final = 8
_BADGE: Final = 26.0
_BADGE_BORDER: Final = 3.0


@dataclass(frozen=True, slots=True)
class Block:
    """What is written of a zone: its number, its name, and a line for each fact."""

    number: int
    name: str
    facts: tuple[str, ...]

    @property
    def size(self) -> tuple[float, float]:
        """Width and height of the words below each other [px]."""
        wide = max(
            width_of(self.name, SMALL, is_bold=True), *(width_of(fact) for fact in self.facts), 0.0
        )
        return wide, (1 + len(self.facts)) * SMALL * LEADING


def draw_map(
    page: Page,
    zones: Sequence[tuple[Outline, Block, Look]],
    top: float,
    most_height: float,
    most_scale: float,
) -> tuple[float, float, list[Block]]:
    """Draw the map from ``top`` down.

    Returns where it ends, its scale [px per m], and what bears a number only.
    """
    from shapely import affinity, unary_union

    everything = unary_union([g for found, _, _ in zones for g in (found.ground, *found.cutouts)])
    left, bottom, right, high = everything.bounds
    scale = min(
        (_ROOM - 2 * _EDGE) / (right - left),
        (most_height - 2 * _EDGE) / (high - bottom),
        most_scale,
    )
    x = (WIDTH - (right - left) * scale) / 2 - left * scale
    to_page = ToPage(scale, x, top + _EDGE + high * scale)
    ticks: list[Box] = []
    for found, _, look in sorted(zones, key=lambda zone: -zone[0].ground.area):
        ticks += draw_outline(page, found, to_page, look)
    grounds = [affinity.affine_transform(found.ground, to_page.matrix) for found, _, _ in zones]
    end = top + 2 * _EDGE + (high - bottom) * scale
    within = Box(MARGIN, top, WIDTH - MARGIN, end)
    unnamed = _name(page, grounds, [block for _, block, _ in zones], within, ticks)
    return end + 4, scale, unnamed


def _name(
    page: Page, grounds: Sequence[Any], blocks: Sequence[Block], within: Box, taken: list[Box]
) -> list[Block]:
    """Write words or numbers onto the map, beside what is taken; return what got a number only."""
    numbered: list[int] = []
    for i, (ground, block) in enumerate(zip(grounds, blocks, strict=True)):
        box = _inside(ground, block.size, taken)
        if box is None:
            numbered.append(i)
            continue
        taken.append(box)
        page.text(box.left, box.top, block.name, is_bold=True)
        page.text(box.left, box.top + SMALL * LEADING, block.facts)
    for i in numbered:
        others = [ground for j, ground in enumerate(grounds) if j != i]
        _badge(page, grounds[i], others, blocks[i].number, taken, within)
    return [blocks[i] for i in numbered]


def _grid(box: Box) -> tuple[np.ndarray, np.ndarray]:
    xs = np.arange(box.left, box.right + 0.1, _STEP)
    ys = np.arange(box.top, box.bottom + 0.1, _STEP)
    across, down = np.meshgrid(xs, ys)
    return across.ravel(), down.ravel()


def _inside(ground: Any, size: tuple[float, float], taken: Sequence[Box]) -> Box | None:
    """Return where a block fits wholly inside its zone, nearest to the middle; else None."""
    import shapely

    width, height = size[0] + 16, size[1] + 10
    left, top, right, bottom = ground.bounds
    if right - left < width or bottom - top < height:
        return None
    xs, ys = _grid(Box(left, top, right - width, bottom - height))
    boxes = shapely.box(xs, ys, xs + width, ys + height)
    shapely.prepare(ground)
    inside = shapely.contains(ground, boxes)
    middle = ground.centroid
    away = np.hypot(xs + width / 2 - middle.x, ys + height / 2 - middle.y)
    for i in np.argsort(away, kind="stable"):
        if not inside[i]:
            continue
        box = Box(xs[i] + 8, ys[i] + 5, xs[i] + 8 + size[0], ys[i] + 5 + size[1])
        if not any(box.meets(other) for other in taken):
            return box
    return None


def _badge(
    page: Page, ground: Any, others: Sequence[Any], number: int, taken: list[Box], within: Box
) -> None:
    """Draw a zone's number in a circle, on the zone if it can be, else beside it with a line."""
    import shapely
    from matplotlib.patches import Circle

    radius = _BADGE + _BADGE_BORDER
    left, top, right, bottom = ground.bounds
    edge = within.grown(-radius)
    xs, ys = _grid(
        Box(
            max(edge.left, left - _BESIDE),
            max(edge.top, top - _BESIDE),
            min(edge.right, right + _BESIDE),
            min(edge.bottom, bottom + _BESIDE),
        )
    )
    points = shapely.points(xs, ys)
    away = shapely.distance(ground, points)
    # Deep inside its own zone at best; beside it rather than on another's.
    is_on_it = away == 0.0
    cost = np.where(is_on_it, radius * 2, 60.0 + away + np.maximum(radius - away, 0.0))
    depth = shapely.distance(ground.boundary, points[is_on_it])
    cost[is_on_it] -= np.minimum(depth, radius * 2)
    middle = ground.representative_point()
    cost += np.hypot(xs - middle.x, ys - middle.y) * 0.05
    around = shapely.box(left, top, right, bottom).buffer(_BESIDE + radius)
    for other in others:
        if not other.intersects(around):
            continue
        # What is farther off than its outermost edges need not be measured.
        from_x, from_y, to_x, to_y = other.bounds
        reach = radius + 1.0
        near = np.flatnonzero(
            (xs > from_x - reach)
            & (xs < to_x + reach)
            & (ys > from_y - reach)
            & (ys < to_y + reach)
        )
        cost[near[shapely.distance(other, points[near]) < radius]] += 90.0
    for box in taken:
        meets = (
            (xs + radius > box.left)
            & (xs - radius < box.right)
            & (ys + radius > box.top)
            & (ys - radius < box.bottom)
        )
        cost += np.where(meets, 1e6, 0.0)
    best = int(cost.argmin())
    x, y = float(xs[best]), float(ys[best])
    if away[best] > 0:
        end = shapely.shortest_line(shapely.points(x, y), ground.representative_point()).coords[-1]
        inner = shapely.shortest_line(shapely.points(x, y), ground).coords[-1]
        end = inner if away[best] > radius * 1.5 else end
        page.line([x, end[0]], [y, end[1]], lw=3, zorder=6)
        page.line([end[0]], [end[1]], marker="o", ms=10, color=INK, zorder=6)
    page.axes.add_patch(
        Circle((x, y), _BADGE, facecolor=PAPER, edgecolor=INK, lw=_BADGE_BORDER, zorder=7)
    )
    page.text(x, y - SMALL * 0.63, str(number), is_bold=True, align="center")
    taken.append(Box(x - radius, y - radius, x + radius, y + radius))


def write_list(page: Page, blocks: Sequence[Block], y: float, furthest: float) -> tuple[float, int]:
    """Write numbered zones below each other, a line each if they are many.

    Returns where the list ends and how many found no room above ``furthest``.
    """
    left, room = MARGIN + 76, _ROOM - 76
    for done, block in enumerate(blocks):
        facts = ", ".join(block.facts)
        beside = room - width_of(facts) - 24
        is_short = width_of(block.name, SMALL, is_bold=True) <= beside
        is_one_line = is_short or (len(blocks) > _MANY and beside > room / 4)
        if y + SMALL * LEADING * (1 if is_one_line else 4) > furthest:
            return y, len(blocks) - done
        page.text(left - 20, y, str(block.number), is_bold=True, align="right")
        if is_one_line:
            name = wrapped(block.name, beside, SMALL, is_bold=True, most_lines=1)
            box = page.text(left, y, name, is_bold=True)
            page.text(box.right + 24, y, facts)
        else:
            name = wrapped(block.name, room, SMALL, is_bold=True, most_lines=2)
            box = page.text(left, y, name, is_bold=True)
            box = page.text(left, box.bottom, wrapped(facts, room, most_lines=2))
        y = box.bottom + 6
    return y, 0
