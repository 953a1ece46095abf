"""Places reckoned together: each gets the figures it would get alone."""

from dataclasses import replace
from datetime import date, timedelta

import numpy as np
import pytest

from jobs.agronomy.climatology import fit_climate, fit_climates
from jobs.agronomy.emergence import emergence, emergences
from jobs.agronomy.late_summer import late_summers
from jobs.agronomy.outlook import make_outlook, make_outlooks
from jobs.agronomy.place import spring_picture, spring_pictures
from jobs.agronomy.readout import crossing, crossings
from jobs.agronomy.series import DailySeries, Together
from tests.unit.made_soil import made_series, with_soil

FIRST, LAST, LATS = date(2012, 6, 1), date(2017, 12, 31), (42.0, 39.0, 45.0, 35.0, 47.0, 38.0)


def _places() -> list[DailySeries]:
    """Six places: two whole, one with gaps, one stale, one of a year, one without air."""
    made = [made_series(FIRST, LAST, noise_c=2.0, seed=seed) for seed in (1, 2)]
    warmer = [with_soil(made[0], made[0].soil5_c + by) for by in (1.0, 2.0, -1.0, 3.0)]
    gaps = warmer[0].soil5_c.copy()
    gaps[600:640] = gaps[1375:1378] = np.nan
    stale = warmer[1].soil5_c.copy()
    stale[(date(2017, 3, 1) - FIRST).days :] = np.nan
    young = warmer[2].soil5_c.copy()
    young[: (date(2016, 2, 1) - FIRST).days] = np.nan
    airless = replace(warmer[3], tmean_c=np.full(len(warmer[3]), np.nan))
    return [
        *made,
        with_soil(warmer[0], gaps),
        with_soil(warmer[1], stale),
        with_soil(warmer[2], young),
        airless,
    ]


@pytest.mark.parametrize("issued", [date(2017, 3, 9), date(2017, 8, 4), date(2017, 11, 20)])
def test_a_place_gets_the_same_figures_in_a_batch_as_alone(issued):
    places = _places()
    known = Together.of(places)
    before, lately = date(2016, 12, 31), issued - timedelta(days=300)
    climates = fit_climates(known.on(FIRST, before), LATS)
    forecasts = [each.soil5_c[5:21] + 1 if n % 2 else None for n, each in enumerate(places)]
    made = make_outlooks(climates, known.on(lately, issued), issued, forecasts)
    springs = spring_pictures(np.stack([each.mean_c for each in climates]))
    read = zip(
        emergences(made, [each.count_from for each in springs]),
        crossings(made, 12.78),
        late_summers(climates, made, [(lat, -95.0) for lat in LATS]),
        strict=True,
    )
    for place, (comes_up, crosses, late) in enumerate(read):
        climate = fit_climate(places[place].until(before), lat=LATS[place])
        recent = places[place].between(lately, issued)
        outlook = make_outlook(climate, recent, issued, forecast_soil5_c=forecasts[place])
        spring = spring_picture(climate.mean_c)
        assert climate.mean_c == pytest.approx(climates[place].mean_c, abs=1e-6)
        assert outlook.paths_c == pytest.approx(made[place].paths_c, abs=1e-4)
        assert outlook.known_c == pytest.approx(made[place].known_c, abs=1e-6)
        assert comes_up == emergence(outlook, count_from=spring.count_from)
        assert crosses == crossing(outlook, 12.78)
        assert [late] == late_summers([climate], [outlook], [(LATS[place], -95.0)])
