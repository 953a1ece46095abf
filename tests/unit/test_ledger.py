from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.ground import Lineage, Origin
from jobs.agronomy.history import Entry, History, Records
from jobs.agronomy.label_periods import windows
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown, allowances, check_label, most_allowed
from jobs.agronomy.maxima import LabelMaximum, Period
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient

PER_1000 = "lb/1000 sq ft"
SPRING, AUTUMN, NEXT_SPRING = date(2024, 4, 1), date(2024, 11, 1), date(2025, 3, 25)
BAG = Product(
    (ActiveIngredient.of_percent("prodiamine", 0.38),),
    "granule",
    Rate(3.2, PER_1000),
    (LabelMaximum(Rate(6.0, PER_1000), period="calendar_year"),),
)


def bag(period: Period, limit: float = 6.0) -> Product:
    maximum = LabelMaximum(Rate(limit, PER_1000), period=period)
    return Product(BAG.ingredients, "granule", BAG.rate, (maximum,))


FRONT, BACK = 1, 2


def put(day: date, value: float, product: Product = BAG, ground: int = FRONT) -> Entry:
    return Entry(ground, day, product, Rate(value, PER_1000))


def on(entries: list[Entry], ground: int = FRONT) -> History:
    return Records(tuple(entries)).on(ground)


def check(history: History, product: Product, rate: Rate, day: date) -> None:
    """Hold an application against everything the label says."""
    check_label(history, product, rate, day)
    check_times(history, product, day)


def test_what_is_still_allowed_shows_its_arithmetic() -> None:
    [item] = allowances(on([put(SPRING, 3.2)]), BAG, AUTUMN)
    assert (item.limit, item.used, item.left) == pytest.approx((6.0, 3.2, 2.8))
    assert (item.unit, item.period, item.basis) == (PER_1000, "calendar_year", "label")
    assert (item.first, item.last) == (date(2024, 1, 1), date(2024, 12, 31))
    assert [c.counts for c in item.counted] == [pytest.approx(3.2)]


def test_over_the_years_maximum_is_stopped_with_what_was_used() -> None:
    entries = [put(SPRING, 3.2)]
    check(on(entries), BAG, Rate(2.8, PER_1000), AUTUMN)
    with pytest.raises(LabelLimitExceeded) as caught:
        check(on(entries), BAG, Rate(3.2, PER_1000), AUTUMN)
    error = caught.value
    assert (error.asked, error.used, error.limit) == pytest.approx((3.2, 3.2, 6.0))


def test_zones_are_counted_apart() -> None:
    check(on([put(SPRING, 6.0)], BACK), BAG, Rate(6.0, PER_1000), AUTUMN)


@pytest.mark.parametrize(
    ("period", "autumn_counts", "spring_counts"),
    [
        ("calendar_year", False, False),
        ("season", True, False),
        ("12_months", True, True),
        ("unsaid", True, True),
        ("application", False, False),
    ],
)
def test_each_period_counts_what_falls_into_it(
    period: Period, autumn_counts: bool, spring_counts: bool
) -> None:
    product = bag(period)
    entries = [put(SPRING, 2.0, product), put(AUTUMN, 1.0, product)]
    item = allowances(on(entries), product, NEXT_SPRING)[0]
    assert item.used == pytest.approx(1.0 * autumn_counts + 2.0 * spring_counts)


def test_late_news_counts_into_the_period_of_a_later_application() -> None:
    # Put down in May, told of only after the autumn round was recorded.
    with pytest.raises(LabelLimitExceeded):
        check(on([put(AUTUMN, 4.0)]), BAG, Rate(3, PER_1000), date(2024, 5, 1))
    rolling = bag("12_months")
    with pytest.raises(LabelLimitExceeded):
        check(on([put(AUTUMN, 4.0, rolling)]), rolling, Rate(3, PER_1000), date(2024, 5, 1))


def test_feed_with_the_same_ingredient_counts_against_this_products_maximum() -> None:
    # 4 lb of a 0.19 % feed carries what 2 lb of the 0.38 % granule does (computed).
    feed = Product((ActiveIngredient.of_percent("prodiamine", 0.19),), "granule")
    [item] = allowances(on([put(SPRING, 4.0, feed)]), BAG, AUTUMN)
    assert item.used == pytest.approx(2.0)


def test_a_spray_and_a_granule_count_together_in_active_ingredient() -> None:
    # W1: 0.4238 oz/1000 of 65 % is 0.75 lb ai/A; W3: 3.927 lb of 0.38 % is 0.65 (computed).
    maximum = LabelMaximum(Rate(1.5, "lb/acre"), of="ai", period="calendar_year")
    granule = Product(BAG.ingredients, "granule", maxima=(maximum,))
    spray = Product((ActiveIngredient.of_percent("prodiamine", 65),), "spray")
    spring = Entry(FRONT, SPRING, spray, Rate(0.42381, "oz/1000 sq ft"))
    [item] = allowances(on([spring]), granule, AUTUMN)
    assert item.used == pytest.approx(0.75, rel=1e-4)
    assert item.unit == "lb/acre"
    check(on([spring]), granule, Rate(3.9268, PER_1000), AUTUMN)
    with pytest.raises(LabelLimitExceeded):
        check(on([spring]), granule, Rate(4.6, PER_1000), AUTUMN)


def test_another_ingredient_does_not_count() -> None:
    other = Product((ActiveIngredient.of_percent("dithiopyr", 0.15),), "granule")
    [item] = allowances(on([put(SPRING, 5.0, other)]), BAG, AUTUMN)
    assert item.used == 0.0
    assert item.counted == ()


def test_an_application_of_unknown_amount_is_asked_about_first() -> None:
    service = Entry(FRONT, SPRING, Product((ActiveIngredient("prodiamine"),), "granule"), None)
    with pytest.raises(UseUnknown) as caught:
        check(on([service]), BAG, Rate(1, PER_1000), AUTUMN)
    assert caught.value.entries == (service,)
    # An amount without a strength cannot be counted either.
    unclear = Entry(FRONT, SPRING, service.product, Rate(3.0, PER_1000))
    with pytest.raises(UseUnknown):
        check(on([unclear]), BAG, Rate(1, PER_1000), AUTUMN)


def test_without_a_label_total_the_remembered_one_stops() -> None:
    # Prodiamine: 1.0 lb ai/A a year on Kentucky bluegrass, 1.5 on tall fescue (from memory).
    silent = Product(BAG.ingredients, "granule")
    [item] = allowances(on([]), silent, SPRING, species="kentucky_bluegrass")
    assert (item.basis, item.of) == ("reference", "ai")
    assert item.limit == pytest.approx(1.0)
    spring = on([put(SPRING, 3.927, silent)])
    # 3.927 lb of 0.38 % is 0.65 lb a.i./acre (computed).
    left = {
        species: allowances(spring, silent, AUTUMN, species=species)[0].left
        for species in ("kentucky_bluegrass", "tall_fescue", None)
    }
    assert left["kentucky_bluegrass"] == pytest.approx(0.35, abs=1e-3)
    assert left["tall_fescue"] == pytest.approx(0.85, abs=1e-3)
    assert left[None] is not None
    assert left[None] < left["kentucky_bluegrass"]


def test_a_label_total_stands_in_place_of_the_remembered_one() -> None:
    assert [a.basis for a in allowances(on([]), BAG, SPRING)] == ["label"]
    single = Product(
        BAG.ingredients,
        "granule",
        maxima=(LabelMaximum(Rate(4.0, PER_1000), period="application"),),
    )
    assert [a.basis for a in allowances(on([]), single, SPRING)] == ["label", "reference"]


def test_the_highest_rate_left_over() -> None:
    found = allowances(on([put(SPRING, 3.2)]), BAG, AUTUMN)
    left = most_allowed(found, BAG, PER_1000)
    assert left is not None
    assert left.value == pytest.approx(2.8)
    check(on([put(SPRING, 3.2)]), BAG, left, AUTUMN)
    assert most_allowed(allowances(on([put(SPRING, 6)]), BAG, AUTUMN), BAG, PER_1000) is None


def test_the_smallest_interval_and_the_number_of_applications_bind() -> None:
    product = Product(
        BAG.ingredients,
        "granule",
        BAG.rate,
        BAG.maxima,
        max_applications=2,
        applications_period="calendar_year",
        smallest_interval_days=60,
    )
    entries = [put(SPRING, 1.0, product)]
    with pytest.raises(TooSoon) as caught:
        check(on(entries), product, Rate(1, PER_1000), SPRING + timedelta(days=59))
    assert caught.value.allowed_from == SPRING + timedelta(days=60)
    second = SPRING + timedelta(days=60)
    check(on(entries), product, Rate(1, PER_1000), second)
    with pytest.raises(TooManyApplications):
        check(on([*entries, put(second, 1.0, product)]), product, Rate(1, PER_1000), AUTUMN)


@pytest.mark.parametrize(
    ("asked", "last", "allowed_from"),
    [
        # The nearest application is not the one that keeps the label waiting longest.
        (date(2026, 5, 1), date(2026, 4, 20), date(2026, 6, 19)),
        (date(2026, 4, 10), date(2026, 4, 20), date(2026, 6, 19)),
        # 31 May is 60 days after 1 April, and too soon after 20 April all the same.
        (date(2026, 3, 20), date(2026, 4, 20), date(2026, 6, 19)),
        # What goes down together on a day is one application; the next waits for all of it.
        (date(2026, 4, 20), date(2026, 4, 20), date(2026, 6, 19)),
        (date(2026, 1, 25), None, None),
        (date(2026, 6, 19), None, None),
    ],
)
def test_the_day_named_is_one_on_which_no_application_is_too_near(asked, last, allowed_from):
    product = Product(BAG.ingredients, "granule", BAG.rate, BAG.maxima, smallest_interval_days=60)
    entries = [put(date(2026, 4, day), 1.0, product) for day in (1, 20)]
    if last is None:
        check_times(on(entries), product, asked)
        return
    with pytest.raises(TooSoon) as caught:
        check_times(on(entries), product, asked)
    assert (caught.value.last, caught.value.allowed_from) == (last, allowed_from)


def test_twelve_months_from_a_leap_day() -> None:
    leap = date(2024, 2, 29)
    assert (leap, date(2025, 2, 28)) in windows("12_months", date(2025, 2, 28), [leap])
    assert all(first != leap for first, _ in windows("12_months", date(2025, 3, 1), [leap]))


days = st.dates(date(2023, 1, 1), date(2026, 12, 31))
periods = st.sampled_from(["application", "calendar_year", "season", "12_months", "unsaid"])


@given(periods, st.lists(st.tuples(days, st.floats(0.1, 6.0)), max_size=14))
def test_whatever_is_asked_the_ledger_never_exceeds_its_maximum(
    period: Period, asked: list[tuple[date, float]]
) -> None:
    product = bag(period)
    entries: list[Entry] = []
    for day, value in asked:
        try:
            check(on(entries), product, Rate(value, PER_1000), day)
        except LabelLimitExceeded:
            continue
        entries.append(put(day, value, product))
    # Counted afresh, without the ledger: each day, year, season and any 365 days that apply.
    for entry in entries:
        start = entry.day
        spans = {
            "application": [(start, start)],
            "calendar_year": [(date(start.year, 1, 1), date(start.year, 12, 31))],
            "season": [
                (date(start.year, 1, 1), date(start.year, 12, 31)),
                (date(start.year, 8, 1), date(start.year + 1, 7, 31)),
                (date(start.year - 1, 8, 1), date(start.year, 7, 31)),
            ],
            "12_months": [(start, start + timedelta(days=364))],
            "unsaid": [
                (start, start + timedelta(days=364)),
                (date(start.year, 1, 1), date(start.year, 12, 31)),
                (date(start.year, 8, 1), date(start.year + 1, 7, 31)),
            ],
        }[period]
        for first, last in spans:
            total = sum(e.rate.value for e in entries if e.rate and first <= e.day <= last)
            assert total <= 6.0 * (1 + 1e-8)


@given(days, st.lists(st.tuples(days, st.floats(0.1, 2.0)), max_size=8))
def test_an_unsaid_period_is_never_the_more_generous_reading(
    day_asked: date, entries: list[tuple[date, float]]
) -> None:
    left = {}
    for period in ("calendar_year", "season", "12_months", "unsaid"):
        product = bag(period)  # type: ignore[arg-type]
        [item] = allowances(
            on([put(day, value, product) for day, value in entries]), product, day_asked
        )
        left[period] = item.left
    assert left["unsaid"] <= min(left.values()) + 1e-9


def test_what_lies_beside_a_merged_piece_counts_on_the_rest_of_it() -> None:
    """Side was treated, back was not; merged, the rest got a full round, then all of it another."""
    back, side, whole = 2, 3, 4
    lineage = Lineage([Origin(whole, back, "merge", 100.0), Origin(whole, side, "merge", 100.0)])
    on_side = Entry(side, SPRING, BAG, Rate(0.5, PER_1000), record=3)
    the_rest = Entry(
        whole, SPRING, BAG, Rate(3.0, PER_1000), record=4, share=0.5, beside=frozenset({3})
    )
    on_all = Entry(whole, SPRING, BAG, Rate(3.0, PER_1000), record=6)
    history = Records((on_side, the_rest, on_all), lineage).on(whole)
    # On a square foot of the back: 3 and 3; on one of the side: 0.5 and 3.
    [item] = allowances(history, BAG, AUTUMN)
    assert item.used == pytest.approx(6.0)
