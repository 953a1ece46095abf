from dataclasses import replace
from datetime import UTC, date, datetime

import pytest

from jobs.agronomy.season import State
from jobs.agronomy.whats_next import Stage, whats_next
from jobs.judged import Judged, ZoneTurn

KNOWN = date(2026, 4, 1)
JUDGED = Judged(
    known_until=KNOWN,
    soil_5day_c=10.0,
    change_7day_c=1.0,
    p10=date(2026, 4, 12),
    p50=date(2026, 4, 22),
    p90=date(2026, 5, 2),
    past_years=9,
    observed_at=datetime(2026, 4, 2, tzinfo=UTC),
    is_invented=False,
    soil_is_modelled=False,
    p20=date(2026, 4, 15),
)


def test_the_deadline_leaves_a_week_before_the_first_fifth_of_the_chances():
    assert JUDGED.deadline_on == date(2026, 4, 8)


def test_weeks_ahead_too_weeds_come_first_in_one_year_of_five_at_most():
    far = replace(JUDGED, known_until=date(2026, 1, 10), p20=date(2026, 4, 2))
    assert far.deadline_on == date(2026, 3, 26)
    assert far.one_in == 5


@pytest.mark.parametrize("known_until", [KNOWN, None])
def test_figures_kept_from_before_go_by_the_middle(known_until):
    old = JUDGED.to_json()
    del old["p20"]
    assert replace(Judged.from_json(old), known_until=known_until).deadline_on == date(2026, 4, 15)


def test_nothing_in_sight_has_no_deadline():
    assert replace(JUDGED, p10=None, p20=None, p50=None, p90=None).deadline_on is None


def test_it_is_kept_and_goes_with_the_zones_left():
    strip = ZoneTurn(("strip",), 0, JUDGED.p10, JUDGED.p50, JUDGED.p90, JUDGED.p20)
    rest = ZoneTurn(
        ("rest",), 9, date(2026, 4, 21), date(2026, 5, 1), date(2026, 5, 9), date(2026, 4, 24)
    )
    judged = replace(JUDGED, known_until=date(2026, 4, 9), turns=(strip, rest))
    assert Judged.from_json(judged.to_json()) == judged
    left = judged.of_zones_left(["rest"], date(2026, 4, 10))
    assert left.deadline_on == date(2026, 4, 17)


def test_a_window_that_was_not_open_at_todays_look_opens_tomorrow_at_the_earliest():
    today = date(2026, 4, 5)
    found = whats_next(
        State.WAITING,
        today,
        event_on=date(2026, 5, 3),
        deadline_on=date(2026, 4, 20),
        lead_days=28,
    )
    assert (found.stage, found.opens_on) == (Stage.AHEAD, date(2026, 4, 6))


def test_a_window_to_come_has_a_week_before_its_deadline():
    found = whats_next(
        State.WAITING,
        date(2026, 2, 10),
        event_on=date(2026, 4, 22),
        deadline_on=date(2026, 4, 3),
        lead_days=21,
    )
    assert (found.opens_on, found.by) == (date(2026, 3, 28), date(2026, 4, 3))
