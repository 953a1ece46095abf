"""From a climate to the chart that is drawn of it."""

from datetime import UTC, date, datetime, timedelta
from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

from bot.pictures.page import WIDTH, Box
from bot.pictures.sketch_words import sketch
from bot.pictures.soil_chart import describe
from bot.pictures.soil_drawing import soil_chart_page
from bot.pictures.soil_words import soil_chart
from bot.saying.voice import speaking
from jobs.agronomy.past_band import past_band
from jobs.agronomy.series import DailySeries
from jobs.agronomy.shape_store import to_json
from jobs.agronomy.shapes import Rectangle
from jobs.outlooks import Outlooks
from jobs.packed_cells import HeldCell, Packed
from jobs.sources.base import Cell, CellRequest
from jobs.sources.recorded import read_station
from jobs.sources.simulated import SimulatedSource
from jobs.uses.chart_values import chart_values
from storage.cells import CellRecord
from storage.yards import ZoneRecord
from tests.unit.written import text_boxes

STATIONS = Path(__file__).parents[2].parent / "shared" / "data" / "soil"
LEAD_DAYS = 21

outlooks = Outlooks()
source = SimulatedSource(seed=3)


def cell_outlook(known, lat, today, *, forecast=None, is_invented=True):
    record = CellRecord(
        id=1,
        source="simulated",
        lat_e2=round(lat * 100),
        lon_e2=-8300,
        place="a place",
        is_invented=is_invented,
        soil_is_modelled=False,
        fetched_at=None,
        observed_at=None,
        last_known_day=known.last_day,
        forecast_first_day=None,
        forecast=None,
        hourly=None,
        trouble=None,
        trouble_since=None,
        try_again_at=None,
    )
    issued = today - timedelta(days=1)
    return outlooks.of(HeldCell(record, Packed.of(known.until(issued)), forecast, None), issued)


def simulated(today, lat=40.0, since_year=2018):
    cell = Cell.at(lat, -83.0)
    now = datetime(today.year, today.month, today.day, 15, tzinfo=UTC)
    request = CellRequest(cell, timedelta(hours=-5), date(since_year, 1, 1))
    weather = source.fetch([request], now)[cell]
    return cell_outlook(weather.known, lat, today, forecast=weather.forecast)


def assert_legible(chart):
    page = soil_chart_page(chart)
    canvas = Box(0, 0, WIDTH, page.height)
    written = text_boxes(page)
    assert all(canvas.holds(box) for _, box in written)
    for (one, box), (other, other_box) in combinations(written, 2):
        assert not box.grown(-0.5).meets(other_box), (one, other)


DAYS = {
    "winter": date(2025, 1, 12),
    "just before the window": date(2025, 4, 6),
    "just before emergence": date(2025, 4, 25),
    "after emergence": date(2025, 6, 20),
    "autumn": date(2025, 10, 14),
}


@pytest.mark.parametrize("today", DAYS.values(), ids=DAYS)
@pytest.mark.parametrize("system", ["us", "metric"])
def test_a_chart_of_any_season_is_legible_and_holds_today(today, system):
    values = chart_values(simulated(today), LEAD_DAYS, today)
    chart = soil_chart(values, "Front yard", system)
    assert chart.first_day <= today <= chart.last_day
    assert_legible(chart)
    assert "nan" not in describe(chart)


def test_the_measured_line_ends_at_the_value_people_are_told():
    today = DAYS["just before the window"]
    values = chart_values(simulated(today), LEAD_DAYS, today)
    known = np.flatnonzero(np.isfinite(values.this_year_c))
    assert values.first_day + timedelta(days=int(known[-1])) == values.judged.known_until
    assert values.this_year_c[known[-1]] == pytest.approx(values.judged.soil_5day_c)


def test_the_outlook_begins_where_the_measured_line_ends():
    today = DAYS["just before the window"]
    values = chart_values(simulated(today), LEAD_DAYS, today)
    known = np.flatnonzero(np.isfinite(values.this_year_c))
    ahead = np.flatnonzero(np.isfinite(values.fan_c[2]))
    assert ahead[0] == known[-1] + 1
    assert ahead[-1] == len(values.this_year_c) - 1
    steps = np.diff(values.fan_c[:, ahead], axis=0)
    assert (steps >= 0).all()


def test_the_band_is_that_of_the_same_days_in_past_years():
    today = DAYS["winter"]
    cell = simulated(today)
    values = chart_values(cell, LEAD_DAYS, today)
    band = past_band(cell.climate, today, 1)
    at = (today - values.first_day).days
    assert values.past_mean_c[at] == pytest.approx(band.mean_c[0])
    assert values.past_low_c[at] == pytest.approx(band.p10_c[0])


def test_the_window_is_shown_with_its_lead_before_first_emergence():
    today = DAYS["winter"]
    values = chart_values(simulated(today), LEAD_DAYS, today)
    assert values.first_up is not None
    _, middle, late = values.first_up
    assert (middle - values.window_opens).days >= LEAD_DAYS
    assert (values.window_closes - values.window_opens).days >= 6
    # Weeds come before what is put down on the last day is in place in one year of five at most.
    assert (values.judged.p20 - values.window_closes).days == 7
    last = values.first_day + timedelta(days=len(values.this_year_c) - 1)
    assert last >= late


def test_after_emergence_the_chart_says_that_it_is_past():
    today = DAYS["after emergence"]
    values = chart_values(simulated(today), LEAD_DAYS, today)
    chart = soil_chart(values, "Front yard", "us")
    assert "was expected" in chart.headline
    assert "the window was" in " ".join(span.label for span in chart.spans)


def test_in_autumn_the_window_is_told_as_the_next_one():
    today = DAYS["autumn"]
    values = chart_values(simulated(today), LEAD_DAYS, today)
    assert soil_chart(values, "Front yard", "us").headline.startswith("Next window")


def test_south_of_the_equator_spring_is_drawn_in_its_own_months():
    today = date(2025, 8, 20)
    values = chart_values(simulated(today, lat=-38.0), LEAD_DAYS, today)
    chart = soil_chart(values, "Front yard", "metric")
    assert_legible(chart)
    measured = np.flatnonzero(np.isfinite(values.this_year_c))
    assert values.first_day + timedelta(days=int(measured[-1])) == today - timedelta(days=1)
    # Late winter there: the outlook rises into October.
    ahead = values.fan_c[2][np.isfinite(values.fan_c[2])]
    assert ahead[-1] > ahead[0] + 1.5


def test_a_place_without_past_years_says_so():
    today = DAYS["just before the window"]
    cell = cell_outlook(
        DailySeries.missing(today - timedelta(days=20), 20), 40.0, today, is_invented=False
    )
    chart = soil_chart(chart_values(cell, LEAD_DAYS, today), "Front yard", "us")
    assert "PRACTICE" not in chart.badge
    assert "No past years" in chart.legend
    assert "No soil data" in describe(chart)
    assert_legible(chart)


def test_old_data_stands_above_all_else():
    today = DAYS["just before the window"]
    cell = simulated(today)
    stale = cell.known.until(today - timedelta(days=12))
    values = chart_values(cell_outlook(stale, 40.0, today), LEAD_DAYS, today)
    chart = soil_chart(values, "Front yard", "us")
    assert "OLD DATA: only through Mar 25, 12 days ago." in chart.badge
    assert "PRACTICE" in chart.badge
    assert "OLD DATA: only through Mar 25, 12 days ago." in describe(chart)
    assert_legible(chart)


@pytest.mark.shared_data
@pytest.mark.parametrize("name", ["KS_Manhattan_6_SSW", "MN_Sandstone_6_W", "LA_Monroe_26_N"])
def test_measured_stations_make_legible_charts(name):
    if not STATIONS.exists():
        pytest.skip("no station records beside the repository (../shared/data/soil)")
    station = read_station(STATIONS / f"{name}.csv.gz")
    for today in (date(2021, 2, 20), date(2021, 4, 4), date(2021, 9, 30)):
        cell = cell_outlook(station.series, station.lat, today, is_invented=False)
        assert_legible(soil_chart(chart_values(cell, LEAD_DAYS, today), name, "us"))


def test_a_yard_s_kept_zones_become_its_sketch():
    shape = Rectangle(20.0, 10.0)
    zones = [
        ZoneRecord(7, 1, "front", 0, "20x10 m", "20 m x 10 m", to_json(shape), 200.0, True),
        ZoneRecord(8, 1, "play corner", 1, "20x10 m", "20 m x 10 m", to_json(shape), 200.0, False),
    ]
    with speaking(units="metric"):
        made = sketch("Mill Lane", zones, amounts={7: "1.25 kg"})
    assert made.total == "2 zones, 200 m² to treat."
    assert [(zone.size, zone.amount) for zone in made.zones] == [
        ("200 m²", "1.25 kg"),
        ("200 m²", None),
    ]
    assert made.zones[0].shape == shape
    assert not made.zones[1].is_treated
