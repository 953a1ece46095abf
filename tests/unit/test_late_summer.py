"""Late summer, the barrier's course and the rounds an application belongs to."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from jobs.agronomy.climatology import fit_climate
from jobs.agronomy.late_summer import (
    EVENT_C,
    HEADS_UP_C,
    autumn_date,
    late_summers,
)
from jobs.agronomy.outlook import make_outlook
from jobs.agronomy.season import (
    PLANS,
    Confirmed,
    Facts,
    Kind,
    Plan,
    Season,
    State,
    Target,
    retreat_due_on,
    step,
)
from jobs.agronomy.series import DailySeries

PLACE = (45.0, -100.0)


def late_summer(mean_c: float, swing_c: float, issued: date, place=PLACE):
    """Return the late summer of a made-up place: a cosine with its top in late July."""
    first = date(2014, 1, 1)
    days = (issued - first).days + 1
    day = np.array([(first + timedelta(days=i)).timetuple().tm_yday for i in range(days)])
    rng = np.random.default_rng(5)
    soil = mean_c - swing_c * np.cos(2 * np.pi * (day - 25) / 365.25) + rng.normal(0, 0.6, days)
    nothing = np.full(days, np.nan)
    series = DailySeries(first, soil, nothing, nothing, nothing, nothing)
    climate = fit_climate(series.until(date(issued.year - 1, 12, 31)), lat=PLACE[0])
    outlook = make_outlook(climate, series.between(date(issued.year - 1, 8, 1), issued), issued)
    return late_summers([climate], [outlook], [place])[0]


def test_thresholds_are_those_of_the_trade() -> None:
    # 70 °F falling: common practice, no primary source; 75 °F: our inference. Conversion exact.
    assert pytest.approx(21.111, abs=1e-3) == EVENT_C
    assert pytest.approx(23.889, abs=1e-3) == HEADS_UP_C


def test_regional_dates_are_the_published_ones() -> None:
    # Univ. of Arkansas Extension 2009: by 15 August.
    assert autumn_date(34.7, -92.3).last == (8, 15)
    # T. R. Murphy, Univ. of Georgia: Piedmont by 20 September; south mid September to mid October.
    assert autumn_date(33.0, -83.5).last == (9, 20)
    assert autumn_date(31.0, -83.5).first == (9, 15)
    assert autumn_date(45.0, -93.0).certainty == "inference"


def test_where_summers_are_warm_the_event_is_soil_falling_through_seventy() -> None:
    late = late_summer(14.0, 13.0, date(2026, 7, 20))
    event = late.event
    assert event.p50 is not None
    # The made-up cosine passes 21.1 °C on the way down on day 25 + 365.25 (1 - acos(x)/2pi).
    falls = 25 + 365.25 * (1 - np.arccos((14.0 - EVENT_C) / 13.0) / (2 * np.pi))
    assert abs(event.p50.timetuple().tm_yday - falls) <= 5
    assert late.heads_up_on < event.p50


def test_in_cool_summers_the_regional_date_stands_in() -> None:
    late = late_summer(9.0, 10.0, date(2026, 7, 20))
    assert late.heads_up_on == date(2026, 8, 18)
    assert late.event.p50 == date(2026, 9, 15)


def test_the_heads_up_is_never_later_than_the_regional_date() -> None:
    assert late_summer(18.0, 12.0, date(2026, 7, 20)).heads_up_on <= date(2026, 8, 18)


def test_a_published_date_opens_the_window_two_weeks_before_it_and_calls_ten_days_earlier() -> None:
    # Univ. of Arkansas Extension 2009: by 15 August; the days before it are ours.
    arkansas = autumn_date(34.7, -92.3)
    assert arkansas.is_published
    assert arkansas.opens_on(2026) == date(2026, 8, 1)
    assert arkansas.last_call_on(2026) == date(2026, 8, 10)
    late = late_summer(18.0, 12.0, date(2026, 7, 10), (34.7, -92.3))
    assert late.heads_up_on == date(2026, 7, 22)
    # T. R. Murphy, Univ. of Georgia: north from the last week of August.
    assert autumn_date(34.5, -84.0).opens_on(2026) == date(2026, 8, 25)
    assert not autumn_date(45.0, -93.0).is_published


ZONE = frozenset({1})
WAITING = Season(2026, State.WAITING, date(2026, 1, 1))
LATE = PLANS[Target.WINTER_ANNUALS]


def test_a_regions_date_opens_the_window_though_the_soil_is_far_from_falling() -> None:
    facts = Facts(60, ZONE, is_window_due=True)
    opened = step(WAITING, facts, LATE, date(2026, 8, 1))
    assert opened.alerts == (Kind.WINDOW_OPEN,)
    # Sixty days to go are no false start of a window that a date has opened.
    assert step(opened.season, facts, LATE, date(2026, 8, 2)).alerts == ()
    last = replace(facts, is_last_call_due=True)
    assert step(opened.season, last, LATE, date(2026, 8, 10)).alerts == (Kind.ACT_NOW,)


def test_the_soil_alone_opens_it_three_weeks_before_seventy_degrees() -> None:
    assert step(WAITING, Facts(22, ZONE), LATE, date(2026, 8, 20)).season.state is State.WAITING
    opened = step(WAITING, Facts(21, ZONE), LATE, date(2026, 8, 21))
    assert opened.alerts == (Kind.WINDOW_OPEN,)


def test_a_dormant_half_splits_from_the_day_the_window_opens() -> None:
    autumn = Confirmed(date(2026, 11, 10), ZONE)
    facts = Facts(40, ZONE, (autumn,), splits_from=date(2027, 4, 8))
    # Z. Reicher, Univ. of Nebraska: the second in early to mid June (56 days after 8 April).
    assert retreat_due_on(facts, Plan()) == date(2027, 6, 3)


def test_the_earlier_of_split_interval_and_the_barriers_end_decides() -> None:
    spring = Confirmed(date(2026, 4, 1), ZONE)
    facts = Facts(20, ZONE, (spring,), barrier_ends_on=date(2026, 5, 6))
    assert retreat_due_on(facts, Plan()) == date(2026, 5, 6)
    assert retreat_due_on(Facts(20, ZONE, (spring,)), Plan()) == date(2026, 5, 27)
