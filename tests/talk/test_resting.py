"""A yard of which nothing can change for weeks is not looked at every day, and wakes in time."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta

import pytest

from jobs.local_days import local
from storage import yards
from tests.talk.harness import PLACE, PRODUCT, Talker

SOUTH = (-35.3, 149.1)


def talker_at(tmp_path, day: date, place: tuple[float, float] = PLACE) -> Talker:
    talker = Talker(tmp_path, start=datetime(day.year, day.month, day.day, 23, tzinfo=UTC))
    talker.say("/start")
    talker.session.location(*place)
    talker.say("front 60 ft x 40 ft")
    talker.say("yes")
    talker.say(PRODUCT)
    return talker


def yard_of(talker: Talker) -> yards.YardRecord:
    with talker.db.reading() as work:
        yard = yards.yard(work, 1)
    assert yard is not None
    return yard


def rests_for(talker: Talker) -> int:
    """Days from the morning after which it is looked at again."""
    yard = yard_of(talker)
    asked_for = local(yard.next_check_at, yard.timezone).date()
    return (asked_for - local(talker.session.now, yard.timezone).date()).days


@pytest.mark.parametrize(
    ("place", "day"),
    [(PLACE, date(2026, 10, 5)), (PLACE, date(2026, 1, 5)), (SOUTH, date(2026, 4, 5))],
)
def test_nothing_to_come_for_weeks_and_it_rests_but_its_weather_goes_on(tmp_path, place, day):
    talker = talker_at(tmp_path, day, place)
    talker.wait("P1D")
    assert rests_for(talker) > 7
    talker.wait("P6D")
    assert rests_for(talker) > 1
    # Whoever asks hears of yesterday all the same, and has woken it.
    assert "data through yesterday" in talker.ask("why")
    assert rests_for(talker) == 1


def test_it_wakes_on_the_first_day_on_which_its_season_may_move(tmp_path):
    talker = talker_at(tmp_path, date(2026, 12, 24))
    talker.wait("P1D")
    yard = yard_of(talker)
    assert local(yard.next_check_at, yard.timezone).date() == date(2027, 1, 1)
    # On the eve of it, too, whoever asks hears of yesterday.
    talker.wait("P6D")
    assert rests_for(talker) == 1
    assert "data through yesterday" in talker.ask("why")


def test_it_wakes_half_a_year_later_in_the_south(tmp_path):
    talker = talker_at(tmp_path, date(2026, 6, 24), SOUTH)
    talker.wait("P1D")
    yard = yard_of(talker)
    # Half a year of 182 days from the first of July on.
    assert local(yard.next_check_at, yard.timezone).date() == date(2027, 1, 1) - timedelta(days=182)


@pytest.mark.parametrize(("day", "rests"), [(date(2026, 7, 5), False), (date(2026, 12, 2), True)])
def test_a_late_summer_round_keeps_it_awake_until_it_is_over(tmp_path, day, rests):
    talker = talker_at(tmp_path, day)
    with talker.db.writing() as work:
        yards.change(work, 1, has_late_summer_round=True, next_check_at=talker.session.now)
    talker.wait("P1D")
    assert (rests_for(talker) > 7) is rests


def test_what_waits_for_water_keeps_it_awake(tmp_path):
    talker = talker_at(tmp_path, date(2026, 10, 5))
    talker.wait("P1D")
    # After the season: asked about first.
    talker.say("applied")
    talker.tap("Yes, that's right")
    alerts = [said.alert for _ in range(10) for said in talker.wait("P1D")]
    assert "water_in" in alerts
