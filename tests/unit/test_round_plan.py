"""The round over many yards: its order, and when it has to begin."""

import itertools

from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.round_plan import Stop, begins_in, days_needed, in_order


def keys(*stops: Stop) -> list[int]:
    return [stop.key for stop in in_order(stops)]


def test_the_yard_with_the_fewest_days_left_goes_first():
    assert keys(Stop(1, True, 12), Stop(2, True, 3), Stop(3, True, 7)) == [2, 3, 1]


def test_of_equally_pressing_yards_the_one_with_fewer_good_days_goes_first():
    assert keys(Stop(1, True, 8, good_days=5), Stop(2, True, 8, good_days=1)) == [2, 1]


def test_of_yards_alike_in_both_the_longer_lasting_product_goes_first():
    assert keys(
        Stop(1, True, 8, good_days=5, lasts_days=23), Stop(2, True, 8, good_days=5, lasts_days=70)
    ) == [2, 1]


def test_what_is_not_due_yet_comes_after_and_long_lasting_products_lead_it():
    assert keys(
        Stop(1, False, 20, lasts_days=23),
        Stop(2, False, 25, lasts_days=70),
        Stop(3, True, None),
    ) == [3, 2, 1]


# A crew of two does perhaps six yards a day: thirty yards with two rain days a week take a week or
# more (common practice, no source).
def test_thirty_yards_at_six_a_day_take_a_week_with_its_rain_days():
    assert days_needed(30, 6) == 7
    assert days_needed(6, 6) == 2
    assert days_needed(1, 6, working_share=1.0) == 1


def test_a_round_begins_early_enough_for_its_last_yard():
    thirty = [Stop(key, False, 14) for key in range(30)]
    # Seven days are needed, today among them: it begins in eight days at the latest.
    assert begins_in(thirty, 6) == 8
    assert begins_in(thirty, 2) < 0
    assert begins_in([Stop(1, True, None)], 6) is None


@given(
    st.lists(st.integers(0, 30), min_size=1, max_size=14),
    st.integers(1, 6),
)
def test_begun_on_its_day_no_yard_is_late_and_begun_a_day_later_one_is(left, yards_a_day):
    stops = [Stop(key, True, days) for key, days in enumerate(left)]
    begin = begins_in(stops, yards_a_day, working_share=1.0)
    assert begin is not None

    def is_any_late(start: int) -> bool:
        by_last_day = sorted(left)
        return any(start + place // yards_a_day > days for place, days in enumerate(by_last_day))

    assert not is_any_late(begin)
    assert is_any_late(begin + 1)


# Earliest due date first is late by least: against every other order, for small rounds.
@given(st.lists(st.integers(0, 6), min_size=1, max_size=6))
def test_no_other_order_lets_a_round_begin_later(left):
    stops = [Stop(key, True, days) for key, days in enumerate(left)]
    best = max(
        min(days - place for place, days in enumerate(order))
        for order in itertools.permutations(left)
    )
    assert begins_in(stops, 1, working_share=1.0) == best
