"""What of a label is missing or does not go together, before any amount is told."""

from __future__ import annotations

import pytest

from jobs.agronomy.label_doubts import FactsMissing, doubts, key_of, need_facts
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.slips import find_slips
from jobs.agronomy.strengths import ActiveIngredient, Strength

PRODIAMINE = ActiveIngredient.of_percent("prodiamine", 0.38)
USUAL = Rate(3.2, "lb/1000 sq ft")


def kinds(product: Product) -> list[str]:
    return [slip.kind for slip in doubts(product)]


def test_an_unknown_strength_stops_amounts() -> None:
    with pytest.raises(FactsMissing) as missing:
        need_facts(Product((ActiveIngredient("prodiamine"),), "granule", USUAL))
    assert (missing.value.lack, missing.value.ingredient) == ("strength", "prodiamine")


def test_a_percentage_by_weight_says_nothing_of_a_rate_by_volume() -> None:
    liquid = ActiveIngredient.of_percent("dithiopyr", 24)
    with pytest.raises(FactsMissing) as missing:
        need_facts(Product((liquid,), "spray", Rate(0.74, "fl oz/1000 sq ft")))
    assert missing.value.lack == "strength_by_volume"


def test_pounds_per_gallon_say_nothing_of_a_rate_by_weight() -> None:
    liquid = ActiveIngredient("dithiopyr", Strength(2, "lb/gal"))
    with pytest.raises(FactsMissing) as missing:
        need_facts(Product((liquid,), "spray", Rate(0.74, "oz/1000 sq ft")))
    assert missing.value.lack == "strength_by_weight"


def test_facts_that_go_together_pass() -> None:
    product = Product((PRODIAMINE,), "granule", USUAL)
    need_facts(product)
    assert doubts(product) == ()


@pytest.mark.parametrize(
    ("percent", "form", "rate", "kind"),
    [
        # 0.4 oz of 65 % is 0.71 lb ai/A (computed), a usual rate of a sprayed product.
        (65, "granule", Rate(0.4, "oz/1000 sq ft"), "granule_or_spray"),
        # 3.2 lb of 0.38 % is 0.53 lb ai/A (computed), a usual rate of a granule.
        (0.38, "spray", Rate(3.2, "lb/1000 sq ft"), "spray_or_granule"),
    ],
)
def test_a_form_that_does_not_go_with_its_rate_is_doubted(percent, form, rate, kind) -> None:
    part = ActiveIngredient.of_percent("prodiamine", percent)
    assert kinds(Product((part,), form, rate)) == [kind]


def test_a_maximum_per_acre_read_per_1000_is_doubted() -> None:
    # 64 lb of 0.38 % per acre is 0.24 lb ai; per 1,000 sq ft it is 10.6 lb/A of 1.5 (computed).
    maximum = LabelMaximum(Rate(64, "lb/1000 sq ft"), "product", "calendar_year")
    (doubt,) = doubts(Product((PRODIAMINE,), "granule", USUAL, (maximum,)))
    assert doubt.kind == "maximum_per_acre_as_per_1000"
    assert doubt.suggestion == Rate(64, "lb/acre")


def test_a_maximum_of_ingredient_far_over_any_remembered_is_doubted() -> None:
    maximum = LabelMaximum(Rate(7.5, "lb/acre"), "ai", "calendar_year")
    assert kinds(Product((PRODIAMINE,), "granule", USUAL, (maximum,))) == ["maximum_above"]


@pytest.mark.parametrize("value", [0.75, 1.5, 3.0])
def test_maxima_as_labels_have_them_are_not_doubted(value) -> None:
    maximum = LabelMaximum(Rate(value, "lb/acre"), "ai", "calendar_year")
    assert doubts(Product((PRODIAMINE,), "granule", USUAL, (maximum,))) == ()


def test_a_doubt_answered_counts_for_that_figure_alone() -> None:
    low = (
        doubts(Product((PRODIAMINE,), "granule", Rate(value, "lb/1000 sq ft")))[0]
        for value in (1.6, 1.4)
    )
    first, second = (key_of(slip) for slip in low)
    assert first != second


def test_ingredients_of_a_mixture_share_their_rate() -> None:
    # 3.2 lb per 1,000 sq ft is 139.4 lb/A: 0.28 of 0.5 and 0.14 of 0.25 lb ai/A (computed).
    parts = (
        ActiveIngredient.of_percent("prodiamine", 0.2),
        ActiveIngredient.of_percent("dithiopyr", 0.1),
    )
    assert find_slips(Product(parts, "granule"), USUAL) == ()
    too_little = find_slips(Product(parts, "granule"), Rate(1.6, "lb/1000 sq ft"))
    assert {slip.kind for slip in too_little} == {"below_range"}
