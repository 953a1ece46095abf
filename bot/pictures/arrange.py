"""Tidy rows: pieces set on shelves, the tallest first, as many to a shelf as fit."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Piece:
    """What one piece takes up: above the shelf (its shape) and below it (its name) [px]."""

    width: float
    above: float
    below: float


@dataclass(frozen=True, slots=True)
class Spot:
    """Where a piece stands: its left edge, and the line of its shelf, downwards [px]."""

    left: float
    shelf: float


@dataclass(frozen=True, slots=True)
class Arrangement:
    """A spot for each piece, in the order given, and the height of all shelves [px]."""

    spots: tuple[Spot, ...]
    height: float


def on_shelves(pieces: Sequence[Piece], width: float, gap: float) -> Arrangement | None:
    """Set pieces on shelves (first fit, tallest first); None where one is wider than a shelf.

    Pieces of one shelf keep the order in which they were given and are spread over its width.
    """
    if any(piece.width > width for piece in pieces):
        return None
    shelves: list[list[int]] = []
    left_over: list[float] = []
    for number in sorted(range(len(pieces)), key=lambda n: (-pieces[n].above, n)):
        wide = pieces[number].width
        for shelf, room in enumerate(left_over):
            if wide + gap <= room:
                shelves[shelf].append(number)
                left_over[shelf] -= wide + gap
                break
        else:
            shelves.append([number])
            left_over.append(width - wide)
    spots: dict[int, Spot] = {}
    y = 0.0
    for numbers, room in zip(shelves, left_over, strict=True):
        y += max(pieces[n].above for n in numbers)
        x = 0.0
        extra = min(room / len(numbers), gap) if len(numbers) > 1 else 0.0
        for number in sorted(numbers):
            spots[number] = Spot(x, y)
            x += pieces[number].width + gap + extra
        y += max(pieces[n].below for n in numbers) + gap
    return Arrangement(tuple(spots[n] for n in range(len(pieces))), max(0.0, y - gap))


def largest_scale(fits: Callable[[float], bool], most: float, least: float = 1e-3) -> float:
    """Return the largest scale (px per m) up to ``most`` that fits, found by halving."""
    if fits(most):
        return most
    low, high = least, most
    for _ in range(24):
        middle = (low * high) ** 0.5
        low, high = (middle, high) if fits(middle) else (low, middle)
    return low
