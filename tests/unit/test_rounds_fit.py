"""What a label leaves room for over a season; expected values are plain arithmetic."""

import pytest

from jobs.agronomy.labelled_product import Product
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.rounds_fit import misfit
from jobs.agronomy.strengths import ActiveIngredient, Strength

UNIT = "lb/1000 sq ft"


def product(rate: float, *maxima: LabelMaximum) -> Product:
    parts = (ActiveIngredient("prodiamine", Strength(0.5, "%")),)
    return Product(parts, "granule", Rate(rate, UNIT), maxima)


def test_two_that_fit_are_no_misfit() -> None:
    assert misfit(product(3.2, LabelMaximum(Rate(6.4, UNIT), period="season")), 2) is None
    assert misfit(product(3.2, LabelMaximum(Rate(3.2, UNIT), period="application")), 2) is None


def test_two_that_do_not_fit_come_with_a_rate_at_which_they_do() -> None:
    found = misfit(product(3.2, LabelMaximum(Rate(5.0, UNIT), period="calendar_year")), 2)
    assert found is not None
    assert (found.together, found.times, found.each) == (
        pytest.approx(6.4),
        1,
        Rate(2.5, UNIT),
    )


def test_a_maximum_of_active_ingredient_is_compared_by_the_strength() -> None:
    # 4 lb per 1,000 sq ft of 0.5 % is 0.8712 lb of ingredient an acre (43.56 thousand sq ft);
    # three come to 2.6136.
    maximum = LabelMaximum(Rate(1.5, "lb/acre"), "ai", "calendar_year")
    found = misfit(product(4.0, maximum), 3)
    assert found is not None
    assert found.together == pytest.approx(2.6136)
    # 4 x 1.5 / 2.6136 = 2.2956..., rounded down.
    assert found.each == Rate(2.29, UNIT)


def test_nothing_under_the_labels_lowest_rate_is_offered() -> None:
    maximum = LabelMaximum(Rate(5.0, UNIT), period="calendar_year")
    found = misfit(product(3.2, maximum), 2, Rate(3.0, UNIT))
    assert found is not None
    assert found.each is None
