from datetime import date, timedelta

import numpy as np
import pytest
from scipy import stats

from jobs.agronomy.cross_checks import air_checks
from jobs.agronomy.emergence import emergence, weeds
from jobs.agronomy.outlook import make_outlook
from jobs.agronomy.series import DailySeries
from jobs.agronomy.timing import days_to_go_by
from jobs.agronomy.units import c_from_f
from tests.unit.test_outlook import CALM, CALM_CLIMATE, outlook_of


def air_series(first, max_c, min_c):
    days = len(max_c)
    max_c, min_c = np.asarray(max_c, float), np.asarray(min_c, float)
    return DailySeries(
        first, np.full(days, np.nan), (max_c + min_c) / 2, min_c, max_c, np.zeros(days)
    )


def steady(soil_c, issued=date(2020, 2, 28), days=150):
    return outlook_of(np.full((4, days), float(soil_c)), known=[5.0] * 60, issued=issued)


def test_smooth_crabgrass_comes_up_at_the_published_degree_days():
    # Fidanza, Dernoeden & Zhang 1996, Crop Sci. 36:990-996: base 12 °C, first emergence 42-78,
    # major emergence 140-230 degree-days.
    weed = weeds()["smooth_crabgrass"]
    assert weed.base_c == 12.0
    assert [stage.at for stage in weed.stages] == [42.0, 78.0, 140.0, 230.0]
    # Three degree-days a day from 1 March on (closed form): days 14, 26, 47 and 77.
    outlook = steady(15.0)
    found = [emergence(outlook, weed.name, stage.name).p50 for stage in weed.stages]
    assert found == [date(2020, 3, 1) + timedelta(days=d - 1) for d in (14, 26, 47, 77)]


def test_warm_days_before_march_do_not_count_unless_asked():
    outlook = steady(15.0, issued=date(2020, 1, 31))
    assert emergence(outlook).p50 == date(2020, 3, 14)
    assert emergence(outlook, count_from=(2, 1)).p50 == date(2020, 2, 14)


def test_a_cold_season_brings_nothing_in_sight():
    when = emergence(steady(11.0))
    assert (when.p10, when.p50, when.p90) == (None, None, None)


def test_goosegrass_comes_after_crabgrass():
    # T. R. Murphy, Univ. of Georgia: usually 2-6 weeks after crabgrass.
    outlook = make_outlook(CALM_CLIMATE, CALM, date(2016, 3, 1))
    gap = emergence(outlook, "goosegrass").p50 - emergence(outlook).p50
    assert timedelta(days=-7) < gap < timedelta(weeks=6)
    # And its soil, 60-65 °F.
    assert [s.at for s in weeds()["goosegrass"].stages] == pytest.approx([15.556, 18.333], abs=1e-3)


def test_annual_bluegrass_is_told_by_falling_soil():
    outlook = make_outlook(CALM_CLIMATE, CALM, date(2016, 8, 1))
    heads_up = emergence(outlook, "annual_bluegrass")
    first = emergence(outlook, "annual_bluegrass", "first")
    assert heads_up.p50 < first.p50
    assert date(2016, 8, 15) < first.p50 < date(2016, 10, 15)


def test_an_unknown_weed_is_refused():
    with pytest.raises(KeyError):
        emergence(steady(15.0), "dandelion")


def test_every_weed_says_where_its_figures_come_from():
    for weed in weeds().values():
        assert len(weed.source) > 20
        assert weed.certainty in {"published", "memory", "practice", "inference"}


def test_the_southern_half_counts_on_shifted_days():
    # Half a year later in the calendar, the same season.
    outlook = make_outlook(CALM_CLIMATE, CALM.shifted(-182).shifted(182), date(2016, 3, 1))
    assert emergence(outlook) == emergence(make_outlook(CALM_CLIMATE, CALM, date(2016, 3, 1)))


def test_air_degree_days_of_the_virginia_tech_rule():
    # Virginia Tech 2007: maximum 75 and minimum 27 °F make one degree-day over 50; emergence
    # begins at 70-140.
    days = 100
    series = air_series(date(2020, 1, 1), [c_from_f(75)] * days, [c_from_f(27)] * days)
    early = {one.name: one for one in air_checks(series, date(2020, 4, 9))}["base_50"]
    assert early.sum_f == pytest.approx(100.0)
    assert early.low_on == date(2020, 3, 10)
    assert early.high_on is None
    assert early.missing_days == 0


def test_air_rules_look_no_further_than_today():
    series = air_series(date(2020, 1, 1), [30.0] * 100, [20.0] * 100)
    check = {one.name: one for one in air_checks(series, date(2020, 2, 15))}["base_50"]
    assert check.sum_f == pytest.approx(46 * 27.0)


def test_missing_air_is_counted_and_bridged():
    top = np.full(30, 20.0)
    top[5:8] = np.nan
    check = air_checks(air_series(date(2020, 1, 1), top, np.full(30, 10.0)), date(2020, 1, 30))[0]
    assert check.missing_days == 3
    assert check.sum_f == pytest.approx(30 * 9.0)


def test_no_air_at_all_says_nothing():
    check = air_checks(DailySeries.empty(date(2020, 1, 1)), date(2020, 3, 1))[0]
    assert check.sum_f == 0.0
    assert check.low_on is None
    assert check.missing_days == 61


def test_days_to_go_by_are_where_late_and_early_weigh_the_same():
    # The stated loss by scipy's normal law: at a lead L and n ~ N(m, s), waiting costs twice
    # P(n <= L - 10) and speaking P(n > L + 7). The shortest whole lead at which waiting costs more.
    for median, spread in ((30, 4), (24, 6), (21, 8), (18, 3)):
        side = round(1.2816 * spread)
        days = stats.norm(median, side / 1.2816)
        wanted = next(n for n in range(1, 90) if 2 * days.cdf(n - 10) >= days.sf(n + 7))
        found = days_to_go_by(median, 8.0, p10_days=median - side, p90_days=median + side)
        assert found == wanted


def test_what_may_come_soon_is_not_waited_for():
    cold = c_from_f(48.0)
    sure = days_to_go_by(24, cold, p10_days=21, p90_days=27)
    unsure = days_to_go_by(24, cold, p10_days=12, p90_days=36)
    assert unsure < sure
    # Where one end is not in sight the other tells the spread.
    assert days_to_go_by(24, cold, p10_days=12) == unsure


def test_the_first_word_comes_sooner_on_warm_ground_and_later_on_cold():
    assert days_to_go_by(25, c_from_f(50.0)) == 25
    assert days_to_go_by(25, c_from_f(46.0)) == 25
    assert days_to_go_by(25, c_from_f(45.9)) == 28
    assert days_to_go_by(25, c_from_f(54.0)) == 21
    assert days_to_go_by(20, None) == 20
    assert days_to_go_by(None, c_from_f(50.0)) is None
    assert days_to_go_by(-3, c_from_f(60.0)) == -3
    assert days_to_go_by(2, c_from_f(60.0)) == 1
