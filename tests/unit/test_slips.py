from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.labelled_product import Product, product_rate
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import as_per_acre, find_slips
from jobs.agronomy.strengths import ActiveIngredient, Strength
from jobs.agronomy.units import to_si

LB_ACRE = to_si(1.0, "lb/acre")
WDG65 = Product((ActiveIngredient.of_percent("prodiamine", 65),), "spray")
G038 = Product((ActiveIngredient.of_percent("prodiamine", 0.38),), "granule")
EW2 = Product((ActiveIngredient("dithiopyr", Strength(2, "lb/gal")),), "spray")


@pytest.mark.parametrize(
    ("product", "rate"),
    [
        # W1, W2, W3 (computed): the labels' usual rates of three products.
        (WDG65, Rate(0.4238, "oz/1000 sq ft")),
        (EW2, Rate(0.7346, "fl oz/1000 sq ft")),
        (G038, Rate(3.927, "lb/1000 sq ft")),
        # PNW Weed Management Handbook (published): 75-120 lb an acre of a 2 % granule.
        (
            Product(
                (
                    ActiveIngredient.of_percent("benefin", 1.33),
                    ActiveIngredient.of_percent("trifluralin", 0.67),
                ),
                "granule",
            ),
            Rate(100, "lb/acre"),
        ),
    ],
)
def test_a_usual_rate_is_taken_without_a_question(product: Product, rate: Rate) -> None:
    assert find_slips(product, rate) == ()


def test_a_per_acre_rate_read_as_per_1000_is_recognised() -> None:
    # 1.1538 lb/A of a 65 % granule is 0.75 lb ai/A (W1, computed); 43,560/1,000 = 43.56 times over.
    [slip] = find_slips(WDG65, Rate(1.1538, "lb/1000 sq ft"))
    assert slip.kind == "per_acre_as_per_1000"
    assert slip.suggestion == Rate(1.1538, "lb/acre")
    assert slip.high is not None
    # The two numbers side by side: 1.15 against at most 1.5/0.65/43.56 = 0.053 lb (computed).
    assert slip.high.value == pytest.approx(1.5 / 0.65 / 43.56, rel=1e-9)
    assert slip.high.unit == slip.asked.unit == "lb/1000 sq ft"
    assert slip.asked.rate_si / slip.suggestion.rate_si == pytest.approx(43.56, rel=1e-12)


def test_a_per_1000_rate_read_as_per_acre_is_recognised() -> None:
    [slip] = find_slips(EW2, Rate(0.7346, "fl oz/acre"))
    assert slip.kind == "per_1000_as_per_acre"
    assert slip.suggestion == Rate(0.7346, "fl oz/1000 sq ft")


def test_a_rate_over_the_published_range_shows_both_numbers() -> None:
    # 8 lb per 1000 sq ft of 0.38 % is 1.324 lb ai/A; 12 lb is 1.986, above 1.5 (from memory).
    assert find_slips(G038, Rate(8, "lb/1000 sq ft")) == ()
    [slip] = find_slips(G038, Rate(12, "lb/1000 sq ft"))
    assert slip.kind == "above_range"
    assert slip.low is not None
    assert slip.high is not None
    assert slip.low.value == pytest.approx(0.5 / 0.0038 / 43.56, rel=1e-9)
    assert slip.high.value == pytest.approx(1.5 / 0.0038 / 43.56, rel=1e-9)
    assert slip.source
    assert slip.certainty == "M"


def test_a_rate_under_the_published_range_is_asked_about() -> None:
    [slip] = find_slips(G038, Rate(1, "lb/1000 sq ft"))
    assert slip.kind == "below_range"


def test_seed_rates_of_siduron_are_judged_by_their_own_range() -> None:
    # Siduron: 2-6 lb ai/A at seeding, 8-12 on established turf (from memory).
    siduron = Product((ActiveIngredient.of_percent("siduron", 50),), "spray")
    rate = product_rate(4 * LB_ACRE, siduron.ingredients[0], "oz/1000 sq ft")
    assert find_slips(siduron, rate, "new_seed") == ()
    [slip] = find_slips(siduron, rate)
    assert slip.kind == "below_range"


def test_ounces_by_weight_of_a_liquid_are_asked_about() -> None:
    [slip] = find_slips(EW2, Rate(0.74, "oz/1000 sq ft"))
    assert slip.kind == "weight_for_volume"


def test_fluid_ounces_of_a_dry_product_are_asked_about() -> None:
    [slip] = find_slips(WDG65, Rate(0.42, "fl oz/1000 sq ft"))
    assert slip.kind == "volume_for_weight"


def test_an_unknown_strength_still_catches_a_per_acre_slip() -> None:
    bag = Product((ActiveIngredient("prodiamine"),), "granule")
    [slip] = find_slips(bag, Rate(170, "lb/1000 sq ft"))
    assert slip.kind == "per_acre_as_per_1000"
    assert slip.suggestion == Rate(170, "lb/acre")
    assert find_slips(bag, Rate(170, "lb/acre")) == ()
    [slip] = find_slips(bag, Rate(2000, "lb/acre"))
    assert slip.kind == "too_much_of_anything"


@given(st.floats(0.5, 1.5))
def test_every_rate_of_the_range_misread_per_1000_is_caught(ai_lb_acre: float) -> None:
    right = product_rate(ai_lb_acre * LB_ACRE, G038.ingredients[0], "lb/acre")
    misread = Rate(right.value, "lb/1000 sq ft")
    assert find_slips(G038, right) == ()
    [slip] = find_slips(G038, misread)
    assert slip.kind == "per_acre_as_per_1000"
    assert slip.suggestion == as_per_acre(misread) == right
