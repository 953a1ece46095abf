"""Which packs to buy: at least cost or with least left over, shelf stock counted."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

import numpy as np

from jobs.agronomy.labelled_product import Pack

Goal: TypeAlias = Literal["least_cost", "least_left_over"]

#: A shortfall this small against the need is float noise: two bags of 25 lb do make 50 lb.
ROUNDING: Final = 1e-9

#: How much the second aim may cost the first, as a share: only ties are broken.
TIE: Final = 1e-6


class NoPrice(ValueError):
    """Raised when least cost is asked and a pack has no price: ask for it."""

    def __init__(self, size_si: float) -> None:
        super().__init__(f"no price for the pack of {size_si:g}")
        self.size_si = size_si


class NotEnoughOnSale(ValueError):
    """Raised when all packs that can be had together fall short.

    Attributes
    ----------
    short_si
        What is missing [kg or L].
    """

    def __init__(self, short_si: float) -> None:
        super().__init__(f"{short_si:g} short even with every pack")
        self.short_si = short_si


@dataclass(frozen=True, slots=True)
class Bought:
    """So many packs of one offer."""

    offer: Pack
    count: int


@dataclass(frozen=True, slots=True)
class Purchase:
    """What to buy for one need.

    Attributes
    ----------
    need_si, on_shelf_si
        What the round takes, and what was there before [kg or L].
    packs
        What to buy, largest first.
    bought_si, left_over_si
        What the packs hold together, and what stands on the shelf afterwards.
    cost
        In the smallest money unit; None when a price is not known.
    """

    need_si: float
    on_shelf_si: float
    packs: tuple[Bought, ...]
    bought_si: float
    left_over_si: float
    cost: int | None


def purchase(
    need_si: float, offers: Sequence[Pack], on_shelf_si: float = 0.0, goal: Goal = "least_cost"
) -> Purchase:
    """Return the packs to buy for a need.

    Parameters
    ----------
    need_si
        What is needed over all yards and rounds asked about [kg or L].
    offers
        Packs on sale, of one product.
    on_shelf_si
        What is there already.
    goal
        What counts first; the other breaks ties.

    Raises
    ------
    NoPrice
        If least cost is asked and a pack has no price.
    NotEnoughOnSale
        If every pack together falls short.
    ValueError
        If nothing is on sale, or a figure is negative.

    Notes
    -----
    An integer programme: least of price (or contents) over whole packs that hold the need. Solved
    exactly by scipy's HiGHS, twice: for the first aim, then for the second without giving up any of
    the first.
    """
    if not (math.isfinite(need_si) and need_si >= 0 and on_shelf_si >= 0):
        raise ValueError("need and stock are at least zero")
    short = need_si - on_shelf_si
    if short <= need_si * ROUNDING:
        return _bought(need_si, on_shelf_si, offers, [0] * len(offers))
    if not offers:
        raise ValueError("no pack is on sale")
    if goal == "least_cost":
        for offer in offers:
            if offer.price is None:
                raise NoPrice(offer.size_si)
    most = [_most(offer, short) for offer in offers]
    together = sum(offer.size_si * n for offer, n in zip(offers, most, strict=True))
    if together < short * (1 - ROUNDING):
        raise NotEnoughOnSale(short - together)
    # Contents as parts of the need, so that the solver's tolerances mean the same at any size.
    sizes = np.array([offer.size_si / short for offer in offers])
    known = all(offer.price is not None for offer in offers)
    prices = np.array([float(offer.price or 0) for offer in offers])
    aims = [prices, sizes] if goal == "least_cost" else [sizes, prices]
    if not known:
        aims = [sizes]
    return _bought(need_si, on_shelf_si, offers, _solve(aims, sizes, most))


def _most(offer: Pack, short_si: float) -> int:
    """Return how many of a pack could ever be wanted: enough to do it alone."""
    alone = math.ceil(short_si / offer.size_si * (1 - ROUNDING))
    return alone if offer.available is None else min(alone, offer.available)


def _solve(aims: list[np.ndarray], sizes: np.ndarray, most: list[int]) -> list[int]:
    from scipy.optimize import Bounds, LinearConstraint, milp  # slow to load, seldom needed

    constraints = [LinearConstraint(sizes, lb=1.0 - ROUNDING)]
    counts: np.ndarray = np.zeros(len(most))
    for aim in aims:
        scale = float(np.max(aim)) or 1.0
        found = milp(
            aim / scale,
            integrality=np.ones(len(most)),
            bounds=Bounds(0, most),
            constraints=constraints,
            options={"mip_rel_gap": 0.0},
        )
        if found.x is None:
            raise ArithmeticError(f"the purchase has no solution: {found.message}")
        counts = np.round(found.x)
        best = float(aim @ counts) / scale
        constraints.append(LinearConstraint(aim / scale, ub=best * (1 + TIE)))
    return [int(count) for count in counts]


def _bought(
    need_si: float, on_shelf_si: float, offers: Sequence[Pack], counts: list[int]
) -> Purchase:
    packs = tuple(
        Bought(offer, count) for offer, count in zip(offers, counts, strict=True) if count
    )
    packs = tuple(sorted(packs, key=lambda item: -item.offer.size_si))
    bought = math.fsum(item.offer.size_si * item.count for item in packs)
    cost: int | None = 0
    for item in packs:
        if item.offer.price is None or cost is None:
            cost = None
        else:
            cost += item.offer.price * item.count
    left = max(0.0, on_shelf_si + bought - need_si)
    return Purchase(need_si, on_shelf_si, packs, bought, left, cost)
