"""Names written beside the lines they belong to: near, and where there is room."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np

from bot.pictures.page import LEADING, SMALL, Box, width_of

#: Steps between the places tried [px].
_STEP: Final = 12.0

#: Room kept free around a label [px].
_GAP: Final = 10.0

#: A label nearer than this to its line needs no leader [px].
_NEAR: Final = 16.0

#: Of the cheapest places, so many are looked at for their leaders.
_LOOKED_AT: Final = 700

#: An anchor nearer than this to another line says little [px].
_CROWDED: Final = 34.0


@dataclass(frozen=True, slots=True, eq=False)
class Curve:
    """Points of a line on the page, and how much it matters that nothing is written over it."""

    xs: np.ndarray
    ys: np.ndarray
    weight: float


@dataclass(frozen=True, slots=True, eq=False)
class Label:
    """Lines of text and the curve they name."""

    lines: tuple[str, ...]
    curve: Curve
    colour: str
    is_bold: bool

    @property
    def size(self) -> tuple[float, float]:
        """Width and height [px]."""
        wide = max(width_of(line, SMALL, is_bold=self.is_bold) for line in self.lines)
        return wide, len(self.lines) * SMALL * LEADING


@dataclass(frozen=True, slots=True)
class Placed:
    """Where a label goes, how much of the lines it covers, and its leader, if it needs one."""

    box: Box
    covered: float
    leader: tuple[tuple[float, float], tuple[float, float]] | None


def place_labels(
    labels: Sequence[Label], obstacles: Sequence[Curve], within: Box, taken: Sequence[Box] = ()
) -> list[Placed | None]:
    """Return a place for each label, in the order given; None where there is no room left.

    No label overlaps an earlier one or a box that is ``taken``, or leaves ``within``. Of what
    remains, the place is taken that covers least of the lines and lies nearest to a lone stretch of
    its own line.
    """
    placed: list[Placed | None] = []
    taken = [box.grown(_GAP) for box in taken]
    leaders: list[Curve] = []
    for label in labels:
        found = _best(label, [*obstacles, *leaders], taken, within.grown(-_GAP))
        placed.append(found)
        if found is None:
            continue
        taken.append(found.box.grown(_GAP))
        if found.leader is not None:
            (x0, y0), (x1, y1) = found.leader
            t = np.linspace(0.0, 1.0, 40)
            leaders.append(Curve(x0 + t * (x1 - x0), y0 + t * (y1 - y0), 3.0))
    return placed


def _best(
    label: Label, obstacles: Sequence[Curve], taken: Sequence[Box], within: Box
) -> Placed | None:
    width, height = label.size
    if width > within.width or height > within.height:
        return None
    columns = np.arange(within.left, within.right - width + 0.1, _STEP)
    rows = np.arange(within.top, within.bottom - height + 0.1, _STEP)
    lefts, tops = (each.ravel() for each in np.meshgrid(columns, rows))
    is_free = np.ones(len(lefts), dtype=bool)
    for box in taken:
        is_free &= ~(
            (lefts < box.right)
            & (lefts + width > box.left)
            & (tops < box.bottom)
            & (tops + height > box.top)
        )
    lefts, tops = lefts[is_free], tops[is_free]
    if not len(lefts):
        return None
    cost = np.zeros(len(lefts))
    for curve in obstacles:
        cost += curve.weight * _points_within(curve, columns, rows, width, height)[is_free]
    covered = cost.copy()
    known = np.isfinite(label.curve.ys)
    anchor_x, anchor_y = label.curve.xs[known], label.curve.ys[known]
    crowded = _crowding(anchor_x, anchor_y, label.curve, obstacles)
    dx = np.maximum(np.maximum(lefts[:, None] - anchor_x, anchor_x - lefts[:, None] - width), 0)
    dy = np.maximum(np.maximum(tops[:, None] - anchor_y, anchor_y - tops[:, None] - height), 0)
    away = np.hypot(dx, dy)
    reach = away + crowded[None] + np.abs(anchor_x[None] - lefts[:, None] - width / 2) * 0.05
    cost += reach.min(axis=1) * 0.18
    best: tuple[float, Placed] | None = None
    for number in np.argsort(cost, kind="stable")[:_LOOKED_AT]:
        if best is not None and cost[number] >= best[0]:
            break  # A leader only adds to what a place costs.
        anchor = int(reach[number].argmin())
        box = Box(
            float(lefts[number]),
            float(tops[number]),
            float(lefts[number]) + width,
            float(tops[number]) + height,
        )
        leader = None
        if away[number, anchor] >= _NEAR:
            end = float(anchor_x[anchor]), float(anchor_y[anchor])
            leader = (_start(label, box, end), end)
        total = float(cost[number]) + (0.0 if leader is None else _hits(leader, taken))
        if best is None or total < best[0]:
            best = total, Placed(box, float(covered[number]), leader)
    return None if best is None else best[1]


def _points_within(
    curve: Curve, columns: np.ndarray, rows: np.ndarray, width: float, height: float
) -> np.ndarray:
    """Return how many points of a curve each place covers; places row by row, left to right."""
    known = np.isfinite(curve.ys)
    xs, ys = _dense(curve.xs[known], curve.ys[known])
    # A point is covered by neighbouring columns and rows: their corners are marked, and summed up.
    left = np.searchsorted(columns + width + _GAP, xs, side="right")
    right = np.searchsorted(columns - _GAP, xs, side="left")
    top = np.searchsorted(rows + height + _GAP, ys, side="right")
    bottom = np.searchsorted(rows - _GAP, ys, side="left")
    there = (left < right) & (top < bottom)
    marks = np.zeros((len(rows) + 1, len(columns) + 1), dtype=np.int64)
    for at, sign in (
        ((top, left), 1),
        ((top, right), -1),
        ((bottom, left), -1),
        ((bottom, right), 1),
    ):
        np.add.at(marks, (at[0][there], at[1][there]), sign)
    return np.asarray(marks.cumsum(axis=0).cumsum(axis=1)[:-1, :-1].ravel())


def _start(label: Label, box: Box, end: tuple[float, float]) -> tuple[float, float]:
    """Return where a leader leaves its label: at its words, not past the end of a short line."""
    is_below = end[1] > box.top + box.height / 2
    line = label.lines[-1 if is_below else 0]
    right = box.left + width_of(line, SMALL, is_bold=label.is_bold)
    x = min(max(end[0], box.left + 8), right - 8)
    if box.top < end[1] < box.bottom:
        return (box.left - 4 if end[0] < box.left else box.right + 4), end[1]
    return x, min(max(end[1], box.top + 2), box.bottom)


def _hits(leader: tuple[tuple[float, float], tuple[float, float]], taken: Sequence[Box]) -> float:
    """Return a penalty for a leader that is long, or runs through another label."""
    (x0, y0), (x1, y1) = leader
    t = np.linspace(0.0, 1.0, 60)
    xs, ys = x0 + t * (x1 - x0), y0 + t * (y1 - y0)
    length = float(np.hypot(x1 - x0, y1 - y0))
    return 0.07 * length + sum(
        10.0
        * float(((xs > box.left) & (xs < box.right) & (ys > box.top) & (ys < box.bottom)).sum())
        for box in taken
    )


def _crowding(xs: np.ndarray, ys: np.ndarray, own: Curve, others: Sequence[Curve]) -> np.ndarray:
    """Return a penalty for each anchor that lies close to another line [px]."""
    out = np.zeros(len(xs))
    for other in others:
        if other is own or other.weight == 0.0:
            continue
        known = np.isfinite(other.ys)
        if not known.any():
            continue
        away = np.hypot(xs[:, None] - other.xs[known], ys[:, None] - other.ys[known]).min(axis=1)
        out += np.maximum(_CROWDED - away, 0.0) * min(other.weight, 1.0) * 4.0
    return out


def _dense(xs: np.ndarray, ys: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """Return points closer together, so that a steep line is not slipped through."""
    if len(xs) < 2:
        return xs, ys
    number = np.arange(len(xs))
    fine = np.linspace(0, len(xs) - 1, max(len(xs), 300))
    return np.interp(fine, number, xs), np.interp(fine, number, ys)
