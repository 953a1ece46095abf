"""Which day suits: by the hour, for a spray and for a granule."""

from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import numpy as np
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.day import choose_day
from jobs.agronomy.day_hours import Hours, Yard
from jobs.agronomy.day_rules import DayRules, LabelTerms, under_label, usual_rules
from jobs.agronomy.day_verdicts import Week

CENTRAL = ZoneInfo("America/Chicago")
YARD = Yard(39.1, -96.6, CENTRAL)
#: A Wednesday.
TODAY = date(2024, 4, 10)
SPRAY, GRANULE = usual_rules("spray"), usual_rules("granule")
NIGHTS_WET = np.where((np.arange(24) < 8) | (np.arange(24) > 20), 95.0, 60.0)


def forecast(
    days: int = 9, zone: ZoneInfo = CENTRAL, first: date = TODAY, **columns: np.ndarray
) -> Hours:
    """Mild, dry days of a light breeze from local midnight on, but for the columns given."""
    start = datetime.combine(first, time(), tzinfo=zone)
    usual = {
        "air_c": np.full(24 * days, 15.0),
        "rain_mm": np.zeros(24 * days),
        "wind_m_s": np.full(24 * days, 3.0),
        "humidity_pct": np.tile(NIGHTS_WET, days),
    }
    return Hours(start.astimezone(UTC), **{**usual, **columns})


def column(usual: float, days: int = 9, **of_day: float) -> np.ndarray:
    """An hourly column with whole days of another value: ``column(3.0, d0=9.0, d2=9.0)``."""
    out = np.full(24 * days, usual)
    for name, value in of_day.items():
        day = int(name[1:])
        out[24 * day : 24 * day + 24] = value
    return out


def choose(hours: Hours, rules: DayRules = GRANULE, yard: Yard = YARD, **more) -> Week:
    now = datetime.combine(TODAY, time(5), tzinfo=yard.zone)
    return choose_day(hours, yard, rules, now, **more)


def keys(week: Week) -> list[str | None]:
    return [None if day.against is None else day.against.key for day in week.days]


def test_seven_days_are_judged_from_today_on():
    week = choose(forecast())
    assert [day.day for day in week.days] == [TODAY + timedelta(days=i) for i in range(7)]


def test_of_seven_equal_days_the_first_is_best_and_the_others_are_merely_later():
    week = choose(forecast())
    assert week.best is not None
    assert week.best.day == TODAY
    assert week.best.against is None
    assert week.second is not None
    assert week.second.day == TODAY + timedelta(days=1)
    assert keys(week)[1:] == ["later"] * 6


def test_every_day_but_the_best_carries_one_reason_with_its_numbers():
    wind = column(3.0, d1=12.0)
    air = column(15.0, d2=40.0)
    rain = column(0.0, d3=0.5)
    week = choose(forecast(wind_m_s=wind, air_c=air, rain_mm=rain), SPRAY)
    assert all(day.against is not None for day in week.days if day is not week.best)
    windy, hot = week.days[1].against, week.days[2].against
    assert windy.key == "windy"
    # 10 mph (Washington WAC 16-231-340) against 12 m/s at 10 m, 0.748 of it at 2 m (FAO-56 eq. 47).
    assert windy.limit == pytest.approx(4.4704)
    assert windy.value == pytest.approx(12 * 0.748)
    assert (hot.key, hot.value) == ("hot", 40.0)
    # 85 °F.
    assert hot.limit == pytest.approx(29.44, abs=0.01)


def test_a_spray_is_not_put_out_in_a_dead_calm_and_a_granule_may_be():
    still = forecast(wind_m_s=np.full(216, 0.5))
    assert keys(choose(still, SPRAY)) == ["calm"] * 7
    assert choose(still, GRANULE).best is not None


def test_a_breeze_too_strong_for_a_spray_still_suits_a_granule():
    # 12 mph at 2 m.
    breezy = forecast(wind_m_s=np.full(216, 12 * 0.44704 / 0.748))
    assert choose(breezy, SPRAY).best is None
    assert choose(breezy, GRANULE).best is not None


def test_the_labels_wind_limit_wins_and_says_so():
    strict = under_label(SPRAY, LabelTerms(wind_high_m_s=2.0))
    week = choose(forecast(), strict)
    assert week.best is None
    assert {day.against.key for day in week.days} == {"windy"}
    assert all(day.against.is_label for day in week.days)
    assert week.least_bad is None


def test_hours_of_dew_are_left_out_and_the_best_hours_are_in_daylight():
    best = choose(forecast()).best
    assert best.start.hour >= 8
    assert best.end - best.start == timedelta(hours=2)
    assert best.start.utcoffset() == timedelta(hours=-5)


def test_granules_with_a_foliar_weed_killer_want_the_dew():
    wet = under_label(GRANULE, LabelTerms(leaves="wet"))
    best = choose(forecast(), wet).best
    assert best is None or best.end.hour <= 8
    dry = forecast(humidity_pct=np.full(216, 50.0))
    assert set(keys(choose(dry, wet))) == {"dry_leaves"}


def test_within_a_day_the_calmest_hours_are_taken():
    wind = np.full(216, 5.0)
    wind[15:17] = 2.0
    best = choose(forecast(wind_m_s=wind), GRANULE).best
    assert (best.day, best.start.hour) == (TODAY, 15)


def test_a_day_before_a_downpour_is_no_day():
    rain = np.zeros(216)
    rain[24 + 15 : 24 + 20] = 8.0
    week = choose(forecast(rain_mm=rain))
    assert keys(week)[0] == "heavy_rain"
    assert week.days[0].against.value == pytest.approx(40.0)
    assert week.days[0].against.limit == pytest.approx(25.4)
    assert keys(week)[2] == "saturated"
    assert week.best.day >= TODAY + timedelta(days=4)


def test_half_an_inch_in_a_day_is_too_much_on_a_slope():
    rain = np.zeros(216)
    rain[30:45] = 1.0
    assert choose(forecast(rain_mm=rain)).best.day == TODAY
    slope = usual_rules("granule", is_slope_or_clay=True)
    assert keys(choose(forecast(rain_mm=rain), slope))[0] == "heavy_rain"


def test_past_rain_makes_today_saturated():
    rain = np.zeros(216)
    rain[20:30] = 4.0
    hours = forecast(first=TODAY - timedelta(days=2), rain_mm=rain)
    assert keys(choose(hours))[0] == "saturated"


def test_frozen_ground_is_left_alone():
    soil = np.array([0.2, 0.4, 2.0, 3.0, 4.0, 5.0, 6.0])
    week = choose(forecast(), soil_c=soil)
    assert keys(week)[:2] == ["frozen", "frozen"]
    assert week.best.day == TODAY + timedelta(days=2)


def test_rain_that_waters_it_in_makes_a_day_better_than_irrigating():
    rain = np.zeros(216)
    rain[24 * 4 + 2 : 24 * 4 + 16] = 1.0
    week = choose(forecast(rain_mm=rain))
    assert week.best.day in (TODAY + timedelta(days=2), TODAY + timedelta(days=3))
    assert week.best.rain_waters_in_at is not None
    assert not week.best.needs_irrigation


def test_under_a_ban_only_rain_counts():
    banned = replace(YARD, is_watering_banned=True)
    dry = choose(forecast(), yard=banned)
    assert dry.best is None
    assert set(keys(dry)) == {"no_water"}
    rain = np.zeros(216)
    rain[24 * 5 : 24 * 5 + 14] = 1.0
    wet = choose(forecast(rain_mm=rain), yard=banned)
    assert wet.best is not None
    assert wet.best.day < TODAY + timedelta(days=5)
    assert keys(wet)[6] == "no_water"


def test_watering_days_count_when_the_label_wants_it_in_at_once():
    quick = under_label(GRANULE, LabelTerms(water_in_hours=24))
    mondays = replace(YARD, watering_weekdays=frozenset({0}))
    week = choose(forecast(), quick, mondays)
    suitable = [day.day.weekday() for day in week.days if day.is_suitable]
    # Sunday for Monday, or Monday itself.
    assert suitable == [6, 0]


def test_the_persons_free_days_and_hours_are_kept():
    saturdays = replace(YARD, free_hours={5: (time(9), time(12))})
    week = choose(forecast(), yard=saturdays)
    assert week.best.day == date(2024, 4, 13)
    assert time(9) <= week.best.start.time()
    assert week.best.end.time() <= time(12)
    assert keys(week)[0] == "not_your_day"


def test_hours_that_are_over_do_not_count():
    evening = datetime(2024, 4, 10, 19, 30, tzinfo=CENTRAL)
    week = choose_day(forecast(), YARD, GRANULE, evening)
    assert week.days[0].start is None
    assert week.days[0].against.key == "dark"


def test_days_beyond_the_forecast_are_not_judged():
    week = choose(forecast(days=3))
    assert keys(week)[3:] == ["no_forecast"] * 4
    gap = forecast(wind_m_s=column(3.0, d0=np.nan))
    assert keys(choose(gap))[0] == "no_forecast"


def test_days_after_weeds_germinate_are_too_late_and_that_is_said():
    week = choose(forecast(), act_by=TODAY + timedelta(days=2))
    assert keys(week)[3:] == ["too_late"] * 4
    assert week.days[4].against.value == 2.0
    assert week.act_by == TODAY + timedelta(days=2)


def test_without_a_good_day_the_least_bad_is_named():
    air = np.full(216, 31.0)
    air[24 * 2 : 24 * 3] = 2.0
    week = choose(forecast(air_c=air), SPRAY)
    assert week.best is None
    assert week.least_bad is week.days[2]
    assert week.least_bad.against.key == "cold"


def test_drift_and_runoff_are_never_the_least_bad():
    assert choose(forecast(wind_m_s=np.full(216, 14.0)), SPRAY).least_bad is None
    pouring = np.zeros(216)
    pouring[::12] = 30.0
    assert choose(forecast(rain_mm=pouring)).least_bad is None


def test_a_spray_wants_dry_hours_after_it():
    rain = np.zeros(216)
    rain[12:20] = 1.0
    week = choose(forecast(rain_mm=rain), SPRAY)
    today = week.days[0]
    assert today.start is None or today.end.hour <= 10


# Reference: solar positions of pvlib. Spring is spring in half-hour zones and south of the equator.
@pytest.mark.parametrize(
    ("lat", "lon", "name", "day"),
    [
        (39.1, -96.6, "America/Chicago", date(2024, 3, 10)),
        (51.5, -0.1, "Europe/London", date(2024, 3, 31)),
        (28.6, 77.2, "Asia/Kolkata", date(2024, 2, 20)),
        (-34.9, 138.6, "Australia/Adelaide", date(2024, 10, 6)),
        (-43.5, 172.6, "Pacific/Auckland", date(2024, 9, 29)),
    ],
)
def test_best_hours_lie_in_daylight_on_the_local_day_also_across_clock_changes(lat, lon, name, day):
    zone = ZoneInfo(name)
    dry_nights = np.full(216, 50.0)
    hours = forecast(zone=zone, first=day, humidity_pct=dry_nights)
    now = datetime.combine(day, time(0, 30), tzinfo=zone)
    week = choose_day(hours, Yard(lat, lon, zone), GRANULE, now)
    for verdict in week.days:
        assert verdict.is_suitable
        assert verdict.start.date() == verdict.day == verdict.end.date()
        assert verdict.end.astimezone(UTC) - verdict.start.astimezone(UTC) == timedelta(hours=2)
        ends = [verdict.start, verdict.end]
        up = pvlib.solarposition.get_solarposition(ends, lat, lon)["elevation"]
        assert (up > -0.9).all()


values = st.floats(0, 40, allow_nan=False) | st.just(float("nan"))


@given(
    air=st.lists(values, min_size=9, max_size=9),
    rain=st.lists(st.floats(0, 3) | st.just(float("nan")), min_size=9, max_size=9),
    wind=st.lists(values, min_size=9, max_size=9),
    rules=st.sampled_from([SPRAY, GRANULE, usual_rules("granule", is_slope_or_clay=True)]),
    is_banned=st.booleans(),
)
def test_whatever_the_forecast_each_day_is_best_or_has_its_reason(
    air, rain, wind, rules, is_banned
):
    hours = forecast(
        air_c=np.repeat(air, 24), rain_mm=np.repeat(rain, 24), wind_m_s=np.repeat(wind, 24)
    )
    week = choose(hours, rules, replace(YARD, is_watering_banned=is_banned))
    assert (week.best is None) == (not any(day.is_suitable for day in week.days))
    for day in week.days:
        assert (day.against is None) == (day is week.best)
        assert (day.start is None) == (day.end is None)
        if day.is_suitable:
            assert day.start is not None
            assert day.penalty >= week.best.penalty
    if week.best is not None:
        assert week.least_bad is None
