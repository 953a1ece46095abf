from __future__ import annotations

import itertools
import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.amounts import ZoneArea, amounts
from jobs.agronomy.labelled_product import Pack, product_rate
from jobs.agronomy.purchase import (
    NoPrice,
    purchase,
)
from jobs.agronomy.strengths import ActiveIngredient
from jobs.agronomy.units import to_si


def lb(pounds: float) -> float:
    return to_si(pounds, "lb")


BAG_25, BAG_40 = Pack(lb(25), 3200), Pack(lb(40), 4700)


def counts(plan: object) -> dict[float, int]:
    return {round(b.offer.size_si / lb(1)): b.count for b in plan.packs}  # type: ignore[attr-defined]


def worked_example_need() -> float:
    rate = product_rate(
        to_si(0.65, "lb/acre"), ActiveIngredient.of_percent("prodiamine", 0.38), "lb/1000 sq ft"
    )
    zones = [ZoneArea(str(size), to_si(size, "sq ft")) for size in (2400, 5150, 980)]
    return amounts(zones, rate).total.si


def test_two_small_bags_or_one_large_for_three_zones() -> None:
    # W9, check 6: 33.50 lb: 2 bags of 25 lb or 1 of 40 lb, computed.
    need = worked_example_need()
    assert counts(purchase(need, [BAG_25])) == {25: 2}
    assert counts(purchase(need, [BAG_40])) == {40: 1}
    both = purchase(need, [BAG_25, BAG_40])
    assert counts(both) == {40: 1}
    assert both.cost == 4700
    assert both.left_over_si / lb(1) == pytest.approx(6.504, abs=1e-3)


def test_least_cost_and_least_left_over_may_differ() -> None:
    offers = [Pack(lb(10), 3000), Pack(lb(50), 4000)]
    assert counts(purchase(lb(12), offers, goal="least_cost")) == {50: 1}
    assert counts(purchase(lb(12), offers, goal="least_left_over")) == {10: 2}


def test_equal_costs_leave_the_least_over() -> None:
    offers = [Pack(lb(20), 1000), Pack(lb(25), 1000), Pack(lb(22), 1000)]
    assert counts(purchase(lb(21), offers)) == {22: 1}


def test_packs_that_fit_exactly_are_enough() -> None:
    # 50 lb in two bags of 25 lb; a bag more for float noise would be waste.
    assert counts(purchase(lb(20.1 + 29.9), [BAG_25])) == {25: 2}
    assert counts(purchase(lb(0.1) * 750, [Pack(lb(25), 1)])) == {25: 3}


def test_shelf_stock_is_used_first() -> None:
    plan = purchase(lb(33.5), [BAG_25], on_shelf_si=lb(10))
    assert counts(plan) == {25: 1}
    assert plan.left_over_si / lb(1) == pytest.approx(1.5)
    nothing = purchase(lb(33.5), [BAG_25], on_shelf_si=lb(40))
    assert nothing.packs == ()
    assert nothing.cost == 0
    assert nothing.left_over_si / lb(1) == pytest.approx(6.5)


def test_a_missing_price_is_asked_for_only_where_it_decides() -> None:
    unpriced = Pack(lb(25))
    with pytest.raises(NoPrice):
        purchase(lb(10), [unpriced])
    plan = purchase(lb(10), [unpriced], goal="least_left_over")
    assert counts(plan) == {25: 1}
    assert plan.cost is None


@given(
    st.floats(0.5, 120.0),
    st.lists(
        st.tuples(st.sampled_from([2, 5, 10, 18, 25, 40, 50]), st.integers(100, 9000)),
        min_size=1,
        max_size=3,
        unique_by=lambda pack: pack[0],
    ),
    st.floats(0.0, 20.0),
)
def test_no_other_set_of_packs_is_cheaper_or_leaves_less(
    need: float, packs: list[tuple[int, int]], shelf: float
) -> None:
    # Against every possible set of packs, counted out by hand.
    offers = [Pack(float(size), price) for size, price in packs]
    short = max(0.0, need - shelf)
    fitting = [
        (
            sum(n * o.price for n, o in zip(set_of, offers, strict=True) if o.price),
            sum(n * o.size_si for n, o in zip(set_of, offers, strict=True)),
        )
        for set_of in itertools.product(*(range(math.ceil(short / o.size_si) + 1) for o in offers))
        if sum(n * o.size_si for n, o in zip(set_of, offers, strict=True)) >= short * (1 - 1e-9)
    ]
    cheapest = purchase(need, offers, shelf)
    assert cheapest.cost == min(fitting)[0]
    assert cheapest.bought_si == pytest.approx(min(fitting)[1])
    leanest = purchase(need, offers, shelf, "least_left_over")
    assert leanest.bought_si == pytest.approx(min(size for _, size in fitting))
    for plan in (cheapest, leanest):
        assert plan.on_shelf_si + plan.bought_si >= need * (1 - 1e-9)


def test_impossible_figures_are_refused() -> None:
    with pytest.raises(ValueError, match="at least zero"):
        purchase(-1, [BAG_25])
    with pytest.raises(ValueError, match="holds something"):
        Pack(0.0)
    with pytest.raises(ValueError, match="on sale"):
        purchase(1.0, [])
