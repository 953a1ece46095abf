"""A yard's own soil: its cell's outlook, shifted by what the yard's thermometer has shown."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, timedelta
from functools import partial
from typing import Final, get_args

import numpy as np

from jobs.agronomy.place import Exposure, turns, zone_offset_c
from jobs.agronomy.season import Target
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import TRAILING_DAYS
from jobs.agronomy.thermometer import Reading, reading_of
from jobs.agronomy.yard_shift import YardShift, fit_yard
from jobs.judged import Judged, ZoneTurn
from jobs.local_days import season_day
from jobs.outlooks import CellOutlook, judge
from storage.readings import ReadingRecord
from storage.yards import YardRecord, ZoneRecord

#: Standing error of a cell whose soil was estimated from air [°C] (see `fit_yard`).
_MODELLED_SD_C: Final = 1.2
#: Readings disagree with their cell from so many on, by so many °C and standard deviations.
_DISAGREES_READINGS: Final = 2
_DISAGREES_C: Final = 1.0
_DISAGREES_SDS: Final = 2.0
#: Days of the outlook appended to what is known, so that today's reading counts today.
_AHEAD_DAYS: Final = 5


@dataclass(frozen=True, slots=True, eq=False)
class YardSoil:
    """A yard's outlook, and the shift that made it of its cell's; no shift without readings."""

    outlook: CellOutlook
    shift: YardShift | None


def of_yard(
    cell: CellOutlook,
    yard: YardRecord,
    readings: Sequence[ReadingRecord],
    zone: str | None = None,
    exposures: Mapping[str, Exposure] | None = None,
) -> YardSoil:
    """Return the outlook of a yard, or of one of its zones, from its cell's and its readings.

    `exposures` are what the person said of zones: hot strips and shade.
    """
    is_exposed = zone is not None and zone in (exposures or {})
    if not readings and not is_exposed:
        return YardSoil(cell, None)
    shift = shift_of(cell, yard, readings, zone, exposures)
    if not shift.readings and not is_exposed:
        return YardSoil(cell, None)
    outlook = cell.outlook
    shifted = replace(
        outlook,
        known_c=shift.apply(outlook.known_first_day, outlook.known_c),
        paths_c=shift.apply(outlook.first_day, outlook.paths_c.astype(float)).astype(np.float32),
    )
    soil = shift.apply(cell.known.first_day, cell.known.soil5_c)
    known = replace(cell.known, soil5_c=soil)
    return YardSoil(replace(cell, outlook=shifted, own_known=known), shift)


def shift_of(
    cell: CellOutlook,
    yard: YardRecord,
    readings: Sequence[ReadingRecord],
    zone: str | None = None,
    exposures: Mapping[str, Exposure] | None = None,
) -> YardShift:
    """Return how a yard or zone differs from its cell, by readings and by word."""
    expected_c = {
        name: zone_offset_c(cell.climate.mean_c, exposure)
        for name, exposure in (exposures or {}).items()
    }
    return fit_yard(
        [as_reading(reading, yard, cell.known) for reading in readings],
        with_days_ahead(cell),
        zone,
        expected_c,
        cell_sd_c=_MODELLED_SD_C if cell.held.record.soil_is_modelled else 0.0,
    )


def disagreement_c(cell: CellOutlook, soil: YardSoil) -> float | None:
    """Return how much warmer a yard's readings have it than its cell, where they surely disagree.

    Over the newest five days [°C]; None where it is within what the readings leave open.
    """
    shift = soil.shift
    if shift is None or shift.readings < _DISAGREES_READINGS:
        return None
    known_c = cell.outlook.known_c
    apart_c = float((soil.outlook.outlook.known_c - known_c)[-TRAILING_DAYS:].mean())
    spread_c = shift.offset_sd_c(cell.outlook.known_first_day, known_c)[-TRAILING_DAYS:].mean()
    return apart_c if abs(apart_c) >= max(_DISAGREES_C, _DISAGREES_SDS * float(spread_c)) else None


def with_turns(
    cell: CellOutlook,
    yard: YardRecord,
    readings: Sequence[ReadingRecord],
    zones: Sequence[ZoneRecord],
    judged: Judged,
) -> Judged:
    """Return the figures the earliest zones set, and in which turns the zones come due.

    Zones with readings or an exposure of their own have their own date; the others share the
    yard's. There are no turns where all go together.
    """
    treated = [zone for zone in zones if zone.is_treated]
    apart = zone_outlooks(cell, yard, readings, treated)
    if not apart or judged.p50 is None:
        return judged
    dates = {zone.name: judged for zone in treated if zone.name not in apart}
    for name, outlook in apart.items():
        dates[name] = judge(outlook(), Target.SUMMER_ANNUALS)
    apart_days = {
        name: float((each.p50 - judged.p50).days)
        for name, each in dates.items()
        if each.p50 is not None
    }
    if not apart_days:
        return judged
    found = []
    for turn in turns(apart_days):
        first = dates[min(turn.zones, key=lambda name: apart_days[name])]
        days = round(turn.days_left - min(apart_days.values()))
        found.append(ZoneTurn(turn.zones, days, first.p10, first.p50, first.p90, first.p20))
    return replace(
        judged,
        p10=found[0].p10,
        p50=found[0].p50,
        p90=found[0].p90,
        p20=found[0].p20,
        turns=tuple(found) if len(found) > 1 else (),
    )


def zone_outlooks(
    cell: CellOutlook,
    yard: YardRecord,
    readings: Sequence[ReadingRecord],
    zones: Sequence[ZoneRecord],
) -> dict[str, Callable[[], CellOutlook]]:
    """Return how to get the outlook of each zone that has readings or an exposure of its own."""
    exposures = exposures_of(zones)
    own = {reading.zone_name for reading in readings} | set(exposures)

    def outlook_of(name: str) -> CellOutlook:
        return of_yard(cell, yard, readings, name, exposures).outlook

    return {zone.name: partial(outlook_of, zone.name) for zone in zones if zone.name in own}


def exposures_of(zones: Sequence[ZoneRecord]) -> dict[str, Exposure]:
    """Return what people said of zones that changes their soil."""
    return {
        zone.name: exposure
        for zone in zones
        for exposure in get_args(Exposure)
        if exposure in zone.notes
    }


def as_reading(record: ReadingRecord, yard: YardRecord, known: DailySeries) -> Reading:
    """Return a stored reading corrected to the daily mean at 5 cm, on its northern day."""
    day = season_day(record.read_on, yard.lat)
    return reading_of(
        day,
        record.measured_c,
        record.depth_m,
        solar_hour(record, yard),
        air_range_c(known, day),
        record.zone_name,
    )


def solar_hour(record: ReadingRecord, yard: YardRecord) -> float:
    """Return the hour of a reading by the sun: noon is when it stands highest (within 20 min)."""
    utc = record.read_at
    return float((utc.hour + utc.minute / 60 + yard.lon / 15) % 24)


def air_range_c(known: DailySeries, day: date) -> float | None:
    """Return the air's daily range on a day, or the newest known one of the week before."""
    near = known.between(day - timedelta(days=7), day)
    spans = near.tmax_c - near.tmin_c
    spans = spans[np.isfinite(spans)]
    return float(spans[-1]) if len(spans) else None


def with_days_ahead(cell: CellOutlook) -> DailySeries:
    """Return a cell's known days and the outlook's median for the few days after them."""
    outlook = cell.outlook
    median = np.median(outlook.paths_c[:, :_AHEAD_DAYS], axis=0)
    ahead = replace(
        DailySeries.missing(outlook.first_day, len(median)), soil5_c=median.astype(np.float64)
    )
    return ahead.overlaid(cell.known.until(outlook.issued))
