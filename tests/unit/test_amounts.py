from __future__ import annotations

import math
from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.amounts import (
    Amount,
    LabelLimitExceeded,
    ZoneArea,
    amount_for,
    amounts,
    check_amount,
    check_rate,
    rate_of,
    two_directions,
)
from jobs.agronomy.labelled_product import Product, ai_kg_ha, product_rate, total_ai_kg_ha
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate, WeightAgainstVolume, rewritten
from jobs.agronomy.strengths import ActiveIngredient, Strength, StrengthUnknown
from jobs.agronomy.units import UnknownUnit, to_si

LB = 0.45359237
FT = 0.3048
ACRE_M2 = 43560 * FT**2
#: 1 lb/acre [kg/ha].
LB_ACRE = LB / ACRE_M2 * 10_000

PINT = pint.UnitRegistry()

WDG65 = ActiveIngredient.of_percent("prodiamine", 65)
G038 = ActiveIngredient.of_percent("prodiamine", 0.38)
EW2 = ActiveIngredient("dithiopyr", Strength(2, "lb/gal"))


def pendimethalin_of(lb_per_gal):
    return ActiveIngredient("pendimethalin", Strength(lb_per_gal, "lb/gal"))


mass_units = st.sampled_from(
    ["lb/1000 sq ft", "oz/1000 sq ft", "g/1000 sq ft", "lb/acre", "kg/ha", "g/m²", "kg/100 m²"]
)
volume_units = st.sampled_from(["fl oz/1000 sq ft", "gal/acre", "L/ha", "mL/100 m²", "pt/acre"])
areas_m2 = st.floats(1.0, 400_000.0)
rates = st.builds(Rate, st.floats(0.001, 500.0), st.one_of(mass_units, volume_units))


def sq_ft(area: float) -> float:
    return to_si(area, "sq ft")


# --- worked examples of product and active ingredient ---------------------------------------


@pytest.mark.parametrize(
    ("ai_lb_acre", "strength", "unit", "expected"),
    [
        # W1, check 1: 0.75/0.65*16/43.56, computed from the definitions of pound and acre.
        (0.75, WDG65, "oz/1000 sq ft", 0.4238),
        # W1, check 2: the same x 453.59237 g/lb / 16, computed.
        (0.75, WDG65, "g/1000 sq ft", 12.015),
        # W1: pounds of product an acre, 0.75/0.65, computed.
        (0.75, WDG65, "lb/acre", 1.1538),
        # W2, check 3: 0.5/2*128/43.56, computed.
        (0.5, EW2, "fl oz/1000 sq ft", 0.7346),
        # W2: 32 fl oz an acre and 21.73 mL, computed.
        (0.5, EW2, "fl oz/acre", 32.0),
        (0.5, EW2, "mL/1000 sq ft", 21.73),
        # W3, check 4: 0.65/0.0038/43.56, computed.
        (0.65, G038, "lb/1000 sq ft", 3.9268),
        # W4: 0.25/0.0015/43.56, computed.
        (0.25, ActiveIngredient.of_percent("dithiopyr", 0.15), "lb/1000 sq ft", 3.826),
        # W5: pendimethalin 1.5 lb as a granule and as two liquids, computed.
        (1.5, ActiveIngredient.of_percent("pendimethalin", 0.86), "lb/1000 sq ft", 4.004),
        (
            1.5,
            pendimethalin_of(3.8),
            "fl oz/1000 sq ft",
            1.160,
        ),
        (
            1.5,
            pendimethalin_of(3.3),
            "fl oz/1000 sq ft",
            1.336,
        ),
        # W6: 3/0.02/43.56, computed.
        (3.0, ActiveIngredient.of_percent("oxadiazon", 2), "lb/1000 sq ft", 3.444),
    ],
)
def test_active_ingredient_an_acre_becomes_product_in_the_labels_unit(
    ai_lb_acre: float, strength: ActiveIngredient, unit: str, expected: float
) -> None:
    rate = product_rate(ai_lb_acre * LB_ACRE, strength, unit)
    assert rate.unit == unit
    assert rate.value == pytest.approx(expected, rel=1e-3)
    assert ai_kg_ha(rate, strength) == pytest.approx(ai_lb_acre * LB_ACRE, rel=1e-12)


def test_product_on_the_bag_becomes_active_ingredient_an_acre() -> None:
    # W7, check 5: 3 * 43.56 * 0.0038, computed.
    ai = ai_kg_ha(Rate(3, "lb/1000 sq ft"), G038)
    assert ai / LB_ACRE == pytest.approx(0.49658, rel=1e-4)


def test_pound_an_acre_in_kilograms_a_hectare() -> None:
    # Check 21: 0.45359237 kg / 0.40468564224 ha (NIST Handbook 44, Appendix C: exact).
    assert Rate(1, "lb/acre").rate_kg_ha == pytest.approx(1.120851156, rel=1e-9)


def test_a_strength_keeps_the_labels_number_beside_what_is_derived() -> None:
    # 1 lb/gal = 0.45359237 kg / 3.785411784 L (NIST Handbook 44, Appendix C: exact).
    assert Strength(2, "lb/gal").kg_per_l == pytest.approx(2 * 0.45359237 / 3.785411784, rel=1e-12)
    assert Strength(240, "g/L").kg_per_l == pytest.approx(0.24)
    assert Strength(65, "%").fraction == 0.65
    assert Strength(65, "%").kg_per_l is None
    assert Strength(2, "lb/gal").fraction is None


def test_benefin_and_trifluralin_count_together_and_apart() -> None:
    # PNW Handbook (published): 75 lb an acre of the 2 % granule is 1.5 lb of both together.
    product = Product(
        (
            ActiveIngredient.of_percent("benefin", 4 / 3),
            ActiveIngredient.of_percent("trifluralin", 2 / 3),
        ),
        "granule",
    )
    rate = Rate(75, "lb/acre")
    assert total_ai_kg_ha(rate, product) == pytest.approx(1.5 * LB_ACRE, rel=1e-9)
    assert total_ai_kg_ha(rate, product, "benefin") == pytest.approx(1.0 * LB_ACRE, rel=1e-9)


def test_a_liquid_rate_asks_for_the_strength_by_volume() -> None:
    with pytest.raises(StrengthUnknown) as caught:
        ai_kg_ha(Rate(0.74, "fl oz/1000 sq ft"), WDG65)
    assert caught.value.ingredient == "prodiamine"


# --- amounts ---------------------------------------------------------------------------------


def test_three_zones_of_a_yard_and_their_total() -> None:
    # W9, check 6: 2,400 + 5,150 + 980 sq ft at 0.65 lb ai/A of a 0.38 % granule, computed.
    rate = product_rate(0.65 * LB_ACRE, G038, "lb/1000 sq ft")
    plan = amounts(
        [
            ZoneArea("front", sq_ft(2400)),
            ZoneArea("back", sq_ft(5150)),
            ZoneArea("side", sq_ft(980)),
        ],
        rate,
    )
    assert [z.amount.value for z in plan.zones] == pytest.approx([9.42, 20.22, 3.85], abs=0.005)
    assert plan.total.value == pytest.approx(33.496, rel=1e-4)
    assert plan.total.unit == "lb"
    assert plan.total_m2 / ACRE_M2 == pytest.approx(0.1958, abs=5e-5)


def test_each_of_two_directions_takes_half_of_the_round() -> None:
    # W13: 3.927/2 = 1.963 lb per 1000 sq ft a pass, computed; method: UMass fact sheet, published.
    rate = product_rate(0.65 * LB_ACRE, G038, "lb/1000 sq ft")
    first, second = two_directions(amount_for(sq_ft(1000), rate))
    assert first.value == pytest.approx(1.963, abs=5e-4)
    assert first.si + second.si == pytest.approx(amount_for(sq_ft(1000), rate).si, rel=1e-15)


def test_a_pound_of_nitrogen_from_a_20_percent_feed() -> None:
    # W8, check 7: 5.00 lb per 1000 sq ft, 2.5 in each direction (UMass fact sheet, published).
    feed = ActiveIngredient.of_percent("nitrogen", 20)
    rate = product_rate(to_si(1, "lb/1000 sq ft"), feed, "lb/1000 sq ft")
    assert rate.value == pytest.approx(5.0, rel=1e-12)
    assert two_directions(amount_for(sq_ft(1000), rate))[0].value == pytest.approx(2.5)


def test_the_buffer_along_water_takes_nothing() -> None:
    rate = Rate(4, "lb/1000 sq ft")
    plan = amounts([ZoneArea("pond bank", sq_ft(3000), buffer_m2=sq_ft(500))], rate)
    assert plan.total.value == pytest.approx(10.0, rel=1e-12)


def test_amounts_agree_with_exact_rational_arithmetic() -> None:
    # 3.2 lb per 1000 sq ft on 12,345 sq ft; pound and foot exact (NIST Handbook 44, Appendix C).
    kg = Fraction(32, 10) * Fraction(12345, 1000) * Fraction(45359237, 10**8)
    got = amount_for(sq_ft(12345), Rate(3.2, "lb/1000 sq ft")).si
    assert got == pytest.approx(float(kg), rel=1e-12)


@given(areas_m2, st.floats(0.001, 500.0))
def test_amounts_agree_with_pint(area_m2: float, value: float) -> None:
    # pint's own definitions of pound, foot, gallon and fluid ounce (general-purpose library).
    ureg = PINT
    area = ureg.Quantity(area_m2, "m**2")
    by_weight = ureg.Quantity(value, "pound") / ureg.Quantity(1000, "foot**2") * area
    by_volume = ureg.Quantity(value, "fluid_ounce") / ureg.Quantity(1000, "foot**2") * area
    assert amount_for(area_m2, Rate(value, "lb/1000 sq ft")).si == pytest.approx(
        by_weight.to("kg").magnitude, rel=1e-9
    )
    assert amount_for(area_m2, Rate(value, "fl oz/1000 sq ft")).si == pytest.approx(
        by_volume.to("liter").magnitude, rel=1e-9
    )


@given(rates, st.lists(areas_m2, min_size=1, max_size=12))
def test_splitting_a_lawn_into_zones_never_changes_the_total(
    rate: Rate, parts: list[float]
) -> None:
    plan = amounts([ZoneArea(str(i), part) for i, part in enumerate(parts)], rate)
    assert plan.total.si == pytest.approx(amount_for(math.fsum(parts), rate).si, rel=1e-12)


@given(st.floats(0.001, 500.0), st.data(), areas_m2)
def test_writing_the_rate_in_another_unit_never_changes_the_amount(
    value: float, data: st.DataObject, area_m2: float
) -> None:
    units = data.draw(st.sampled_from([mass_units, volume_units]))
    first, second = data.draw(units), data.draw(units)
    rate = Rate(value, first)
    assert amount_for(area_m2, rewritten(rate, second)).si == pytest.approx(
        amount_for(area_m2, rate).si, rel=1e-12
    )


@given(rates, areas_m2)
def test_the_amount_over_its_area_is_the_rate_again(rate: Rate, area_m2: float) -> None:
    again = rate_of(amount_for(area_m2, rate), area_m2, rate.unit)
    assert again.value == pytest.approx(rate.value, rel=1e-12)


def test_weight_and_fluid_ounces_never_mix() -> None:
    with pytest.raises(WeightAgainstVolume):
        Amount(1.0, "oz").in_unit("fl oz")
    with pytest.raises(WeightAgainstVolume):
        rate_of(Amount(1.0, "fl oz"), 100.0, "oz/1000 sq ft")
    with pytest.raises(WeightAgainstVolume):
        rewritten(Rate(1.0, "oz/acre"), "fl oz/acre")


# --- the label's maxima ----------------------------------------------------------------------


def with_maximum(maximum: LabelMaximum, strength: ActiveIngredient = G038) -> Product:
    return Product((strength,), "granule", maxima=(maximum,))


def test_a_rate_at_the_maximum_passes_and_one_above_stops_with_both_numbers() -> None:
    at = Rate(3.2, "lb/1000 sq ft")
    product = with_maximum(LabelMaximum(at, period="application"))
    check_rate(at, product)
    with pytest.raises(LabelLimitExceeded) as caught:
        check_rate(Rate(3.3, "lb/1000 sq ft"), product)
    error = caught.value
    assert (error.asked, error.limit) == (pytest.approx(3.3), 3.2)
    assert (error.unit, error.period, error.of) == ("lb/1000 sq ft", "application", "product")


@pytest.mark.parametrize(
    "period", ["application", "calendar_year", "season", "12_months", "unsaid"]
)
def test_a_yearly_maximum_also_binds_one_application(period: str) -> None:
    product = with_maximum(LabelMaximum(Rate(100, "kg/ha"), period=period))  # type: ignore[arg-type]
    with pytest.raises(LabelLimitExceeded):
        amounts([ZoneArea("front", 10.0)], Rate(100.1, "kg/ha"), product)


def test_a_maximum_of_active_ingredient_is_compared_through_the_strength() -> None:
    maximum = LabelMaximum(Rate(0.65, "lb/acre"), of="ai", period="calendar_year")
    # W3: 3.927 lb per 1000 sq ft of a 0.38 % granule is 0.65 lb ai/A, computed.
    check_rate(Rate(3.926, "lb/1000 sq ft"), with_maximum(maximum))
    with pytest.raises(LabelLimitExceeded) as caught:
        check_rate(Rate(4.0, "lb/1000 sq ft"), with_maximum(maximum))
    assert caught.value.of == "ai"
    assert caught.value.limit == 0.65
    assert caught.value.unit == "lb/acre"


def test_a_maximum_that_cannot_be_compared_never_passes_silently() -> None:
    by_volume = LabelMaximum(Rate(2.0, "L/ha"), period="application")
    with pytest.raises(WeightAgainstVolume):
        check_rate(Rate(1, "lb/acre"), with_maximum(by_volume))
    of_ai = LabelMaximum(Rate(1.0, "kg/ha"), of="ai")
    with pytest.raises(StrengthUnknown):
        check_rate(Rate(1, "fl oz/acre"), with_maximum(of_ai, WDG65))
    of_another = LabelMaximum(Rate(1.0, "kg/ha"), of="ai", ingredient="trifluralin")
    with pytest.raises(StrengthUnknown):
        check_rate(Rate(1, "lb/acre"), with_maximum(of_another))


@given(rates, st.floats(0.001, 600.0), st.data(), areas_m2)
def test_nothing_above_the_label_maximum_ever_comes_out(
    rate: Rate, limit: float, data: st.DataObject, area_m2: float
) -> None:
    by_weight = rate.rate_kg_ha is not None
    limit_unit = data.draw(mass_units if by_weight else volume_units)
    maximum = LabelMaximum(Rate(limit, limit_unit))
    product = with_maximum(maximum)
    try:
        plan = amounts([ZoneArea("front", area_m2)], rate, product)
    except LabelLimitExceeded:
        assert rate.rate_si > maximum.rate.rate_si
        return
    allowed_si = maximum.rate.rate_si * area_m2 / 10_000
    assert plan.total.si <= allowed_si * (1 + 2e-9)


def test_an_amount_put_down_is_checked_as_the_rate_it_comes_to() -> None:
    product = Product(
        (G038,),
        "granule",
        Rate(3.2, "lb/1000 sq ft"),
        (LabelMaximum(Rate(4, "lb/1000 sq ft"), period="application"),),
    )
    # W10: 4.2 lb over 8 x 150 ft is 3.50 lb per 1000 sq ft, computed.
    put_down = check_amount(Amount(4.2 * LB, "lb"), sq_ft(8 * 150), product)
    assert put_down.value == pytest.approx(3.5, rel=1e-9)
    with pytest.raises(LabelLimitExceeded):
        check_amount(Amount(4.2 * LB, "lb"), sq_ft(1000), product)


def test_impossible_numbers_are_refused() -> None:
    with pytest.raises(ValueError, match="zero"):
        Rate(-1, "lb/acre")
    with pytest.raises(ValueError, match="zero"):
        Rate(math.nan, "lb/acre")
    with pytest.raises(ValueError, match="buffer"):
        ZoneArea("pond", 10, buffer_m2=11)
    with pytest.raises(ValueError, match="by weight"):
        LabelMaximum(Rate(1, "L/ha"), "ai")
    with pytest.raises(ValueError, match="fraction"):
        ActiveIngredient.of_percent("prodiamine", 120)
    with pytest.raises(UnknownUnit):
        Rate(1, "lb")
