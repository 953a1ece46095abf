"""From what is held of cells to what their yards' seasons are judged by, many cells at a time.

A single cell is a batch of one.
"""

from __future__ import annotations

import math
import threading
from collections import OrderedDict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache, partial
from typing import Any, Final

import numpy as np

from jobs.agronomy.climatology import Climate, fit_climates
from jobs.agronomy.emergence import emergences
from jobs.agronomy.late_summer import late_summers
from jobs.agronomy.made_once import MakesOnce
from jobs.agronomy.outlook import Outlook, batches, make_outlooks
from jobs.agronomy.place import SpringPicture, spring_pictures
from jobs.agronomy.readout import DateQuantiles
from jobs.agronomy.season import Target
from jobs.agronomy.series import DailySeries, FloatArray, Together
from jobs.agronomy.soil import TRAILING_DAYS, fill_short_gaps, trailing_mean
from jobs.judged import Judged
from jobs.local_days import calendar_day, season_day, season_shift_days
from jobs.packed_cells import HeldCell, together

#: Days of data that a week's trend looks back, and how many are looked at for short gaps.
_TREND_DAYS: Final = 7
_LATELY_DAYS: Final = 60
_RECENT_DAYS: Final = 300
#: So many outlooks that people ask about stay made, with what was made of them.
_LATEST: Final = 16
#: Just below the most that glibc keeps (mallopt, M_MMAP_THRESHOLD).
_LARGEST_BYTES: Final = 31 * 2**20


@dataclass(frozen=True, slots=True, eq=False)
class CellOutlook(MakesOnce):
    """A cell's usual year and its outlook, both in northern (season) days.

    `spring` is what kind of spring the place has; None where every place is taken to have one.
    `own_known` are the known days of a yard whose soil is not its cell's.
    """

    held: HeldCell
    lat: float
    climate: Climate
    outlook: Outlook
    spring: SpringPicture | None = None
    own_known: DailySeries | None = None

    @property
    def known(self) -> DailySeries:
        """The known days."""
        if self.own_known is not None:
            return self.own_known
        return self.once("known", lambda: self.held.known.shifted(season_shift_days(self.lat)))

    @property
    def count_from(self) -> tuple[int, int] | None:
        """Month and day from which degree-days count; None: the weed's own."""
        return None if self.spring is None else self.spring.count_from

    @property
    def point(self) -> tuple[float, float]:
        """Latitude and longitude [degrees]."""
        return self.lat, self.held.record.lon_e2 / 100


@cache
def _keep_memory() -> None:
    """Have arrays as large as a batch's take the memory of those before them.

    A process gives memory of large arrays back at once and gets it anew, cleared, page by page:
    half of what an outlook costs. glibc keeps blocks as large as one that it has seen end.
    """
    np.empty(_LARGEST_BYTES, dtype=np.uint8)


class Outlooks:
    """Makes outlooks, and keeps those that people have asked about lately.

    Parameters
    ----------
    judges_springs
        Whether degree-days count from before March where winters are mild, and it is said where
        there is no clear spring (`place.spring_picture`).
    """

    def __init__(self, *, judges_springs: bool = True) -> None:
        _keep_memory()
        self._judges_springs = judges_springs
        self._lately: OrderedDict[tuple[object, ...], CellOutlook] = OrderedDict()
        self._lock = threading.Lock()

    def of(self, held: HeldCell, issued: date) -> CellOutlook:
        """Return the outlook of a cell: made once while the same is held of it."""
        record = held.record
        key = record.source, record.lat_e2, record.lon_e2, issued
        with self._lock:
            found = self._lately.get(key)
            if found is not None and found.held is held:
                self._lately.move_to_end(key)
                return found
        (found,) = self.make([(held, issued)])
        with self._lock:
            self._lately[key] = found
            self._lately.move_to_end(key)
            while len(self._lately) > _LATEST:
                self._lately.popitem(last=False)
        return found

    def make(self, wanted: Sequence[tuple[HeldCell, date]]) -> list[CellOutlook]:
        """Return the outlooks of cells on the last local day whose mean may be known.

        Only days before 1 January of the (northern) year of issue make the usual year; the days
        since serve as what is known now.
        """
        alike: dict[tuple[object, ...], list[int]] = {}
        for place, (held, issued) in enumerate(wanted):
            shift = season_shift_days(held.record.lat_e2 / 100)
            days, past = (
                (each.first_day, each.days, each.layout) for each in (held.days, held.past)
            )
            key = days, past, held.lent is None, shift, issued
            alike.setdefault(key, []).append(place)
        found: dict[int, CellOutlook] = {}
        for places in alike.values():
            for part in batches(places):
                issued = wanted[part[0]][1]
                made = self._made([wanted[place][0] for place in part], issued)
                found.update(zip(part, made, strict=True))
        return [found[place] for place in range(len(wanted))]

    def _made(self, cells: Sequence[HeldCell], issued: date) -> list[CellOutlook]:
        """Return the outlooks of cells whose known days are the same."""
        lats = [held.record.lat_e2 / 100 for held in cells]
        shift = timedelta(days=season_shift_days(lats[0]))
        known = past = _shifted(together([held.days for held in cells]), shift)
        if cells[0].lent is not None:
            past = _shifted(together([held.past for held in cells]), shift)
        day = season_day(issued, lats[0])
        before = max(past.first_day - timedelta(days=1), date(day.year - 1, 12, 31))
        climates = fit_climates(past.on(past.first_day, min(before, past.last_day)), lats)
        springs: list[SpringPicture | None] = [None] * len(cells)
        if self._judges_springs:
            springs = list(spring_pictures(np.stack([each.mean_c for each in climates])))
        recent_from = min(date(day.year, 1, 1), day) - timedelta(days=_RECENT_DAYS)
        recent = known.on(recent_from, day)
        ahead = [_forecast_soil(held, lat, day) for held, lat in zip(cells, lats, strict=True)]
        made = [
            CellOutlook(*each)
            for each in zip(
                cells,
                lats,
                climates,
                make_outlooks(climates, recent, day, ahead),
                springs,
                strict=True,
            )
        ]
        last = min(day, known.last_day)
        soil_c = known.on(last - timedelta(days=_LATELY_DAYS - 1), last).soil5_c
        _remember(made, "lately", _lately(soil_c, last))
        for target in Target:
            _remember(made, ("judged", target), _judged(made, target))
        return made


def _shifted(days: Together, shift: timedelta) -> Together:
    return Together(days.first_day + shift, days.soil5_c, days.tmean_c)


def _remember(cells: Sequence[CellOutlook], key: Hashable, values: Sequence[Any]) -> None:
    for cell, value in zip(cells, values, strict=True):
        cell.once(key, partial(_same, value))


def _same(value: Any) -> Any:
    return value


def _forecast_soil(held: HeldCell, lat: float, issued: date) -> FloatArray | None:
    if held.forecast is None:
        return None
    first = season_day(held.forecast.first_day, lat)
    passed = (issued - first).days + 1
    return held.forecast.soil5_c[passed:] if 0 <= passed < len(held.forecast) else None


@dataclass(frozen=True, slots=True)
class Lately:
    """The newest trailing 5-day mean of a soil [°C], its (northern) day, and a week's change."""

    on: date | None = None
    soil_5day_c: float | None = None
    change_7day_c: float | None = None


def _lately(soil_c: FloatArray, last: date) -> list[Lately]:
    """Return what was measured lately of soils whose newest entry is of that day."""
    soil_c = soil_c.copy()
    for place in np.flatnonzero(np.isnan(soil_c).any(axis=1)):
        soil_c[place] = fill_short_gaps(soil_c[place])
    five = trailing_mean(soil_c, TRAILING_DAYS)
    known, count = np.isfinite(five), five.shape[1]
    ats = count - 1 - known[:, ::-1].argmax(axis=1)
    rows = np.arange(len(five))
    newest_c, before_c = five[rows, ats].tolist(), five[rows, ats - _TREND_DAYS].tolist()
    found = []
    for row, at, now_c, then_c in zip(known, ats.tolist(), newest_c, before_c, strict=True):
        if not row[at]:
            found.append(Lately())
            continue
        has_trend = at >= _TREND_DAYS and not math.isnan(then_c)
        on = last - timedelta(days=count - 1 - at)
        found.append(Lately(on, now_c, now_c - then_c if has_trend else None))
    return found


def judge(cell: CellOutlook, target: Target) -> Judged:
    """Return the figures for one target, in local calendar days."""
    found: Judged = cell.once(("judged", target), lambda: _judged([cell], target)[0])
    return found


def _judged(cells: Sequence[CellOutlook], target: Target) -> list[Judged]:
    outlooks = [cell.outlook for cell in cells]
    warned_on: Sequence[date | None] = [None] * len(cells)
    if target is Target.SUMMER_ANNUALS:
        events = emergences(outlooks, [cell.count_from for cell in cells])
    else:
        climates, points = [cell.climate for cell in cells], [cell.point for cell in cells]
        late = late_summers(climates, outlooks, points)
        events, warned_on = [each.event for each in late], [each.heads_up_on for each in late]
    return [_figures(*each) for each in zip(cells, events, warned_on, strict=True)]


def _figures(cell: CellOutlook, event: DateQuantiles, warned_on: date | None) -> Judged:
    record, is_north = cell.held.record, cell.lat >= 0
    lately: Lately = cell.once("lately", lambda: _lately_of(cell))

    def local(day: date | None) -> date | None:
        return day if day is None or is_north else calendar_day(day, cell.lat)

    return Judged(
        known_until=local(lately.on),
        soil_5day_c=lately.soil_5day_c,
        change_7day_c=lately.change_7day_c,
        p10=local(event.p10),
        p50=local(event.p50),
        p90=local(event.p90),
        past_years=cell.outlook.years,
        observed_at=record.observed_at,
        is_invented=record.is_invented,
        soil_is_modelled=record.soil_is_modelled,
        warned_on=local(warned_on),
        has_clear_spring=cell.spring is None or cell.spring.kind != "none",
        p20=local(event.p20),
    )


def _lately_of(cell: CellOutlook) -> Lately:
    known = cell.known.until(cell.outlook.issued)
    return _lately(known.soil5_c[None, -_LATELY_DAYS:], known.last_day)[0]
