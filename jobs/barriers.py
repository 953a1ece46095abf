"""How long the barrier of each zone of a yard holds, against how long its weeds still sprout."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

import numpy as np

from jobs.agronomy.barrier import BarrierNote, Density, Dose, Hold, hold, judge, notes
from jobs.agronomy.barrier import Outlook as BarrierOutlook
from jobs.agronomy.climatology import SingleArray, leap_slots
from jobs.agronomy.emergence import LEADING_WEED, weeds
from jobs.agronomy.ground import ALL_OF_IT
from jobs.agronomy.history import Entry, Line
from jobs.agronomy.ingredient_facts import LEAF_KINDS
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import ai_kg_ha
from jobs.agronomy.season import PLANS, Target
from jobs.agronomy.series import FloatArray
from jobs.agronomy.soil import degree_days, fill_short_gaps, first_at_or_above
from jobs.agronomy.strengths import StrengthUnknown
from jobs.local_days import calendar_day, season_day
from jobs.outlooks import CellOutlook
from jobs.standing import Standing
from storage.applications import ApplicationRecord
from storage.yards import ZoneRecord

#: Doses older than this have no say any more [days].
_LASTING_DAYS: Final = 540

#: From the end of the published flush (230 degree-days, Fidanza et al. 1996) to the day on which
#: most has come up [days]: in Maryland that makes early July, as Dernoeden (TT-43, 2008) has it.
#: Our inference.
_STRAGGLERS_DAYS: Final = 35

_MOST: Final = "major_latest"


class Course:
    """A cell's soil day by day, in northern days: measured, then the outlook, then the mean year.

    Reckoned only when somebody asks.

    Parameters
    ----------
    cell
        The cell's outlook, as the yard has it.
    zones
        How to get the outlook of each zone whose soil is known to differ, by the zone's name.
    """

    def __init__(
        self, cell: CellOutlook, zones: Mapping[str, Callable[[], CellOutlook]] | None = None
    ) -> None:
        self.cell = cell
        self._zones = zones or {}
        self._of_zones: dict[str, Course] = {}

    def of_zone(self, name: str) -> Course:
        """Return a zone's own course where it has one, such as a hot strip's; else the yard's."""
        if name not in self._zones:
            return self
        if name not in self._of_zones:
            self._of_zones[name] = Course(self._zones[name]())
        return self._of_zones[name]

    @property
    def _median(self) -> FloatArray:
        return self.cell.once("median", lambda: _median(self.cell.outlook.paths_c))

    def soil(self, first: date, last: date) -> FloatArray:
        """Return the daily mean soil temperature from ``first`` to ``last`` [°C], without gaps."""
        days = (last - first).days + 1
        out = np.array(self.cell.climate.mean_c[leap_slots(first, days)], dtype=float)
        self._lay(out, first, self.cell.outlook.first_day, self._median)
        known = self.cell.known.until(self.cell.outlook.issued)
        self._lay(out, first, known.first_day, fill_short_gaps(known.soil5_c))
        return out

    def rain_after(self, day: date) -> FloatArray:
        """Return the known daily rain of the days after a day [mm]."""
        known = self.cell.known
        return known.between(day + timedelta(days=1), self.cell.outlook.issued).rain_mm

    @staticmethod
    def _lay(out: FloatArray, first: date, from_day: date, values: FloatArray) -> None:
        at = (from_day - first).days
        start, stop = max(0, at), min(len(out), at + len(values))
        if start < stop:
            part = values[start - at : stop - at]
            np.copyto(out[start:stop], part, where=~np.isnan(part))

    def sprouting_ends(self, target: Target, year: int) -> date:
        """Return the last northern day on which seed of a target is still expected to come up."""
        month, day = PLANS[target].season_ends
        end = date(year, month, day) - timedelta(days=1)
        if target is not Target.SUMMER_ANNUALS:
            return end
        weed = weeds()[LEADING_WEED]
        most = next(stage.at for stage in weed.stages if stage.name == _MOST)
        first = date(year, *(weed.count_from or (3, 1)))
        warmth = degree_days(self.soil(first, end), weed.base_c or 0.0).cumsum()
        there = int(first_at_or_above(warmth, most))
        return end if there < 0 else min(end, first + timedelta(days=there + _STRAGGLERS_DAYS))


def _median(paths: FloatArray | SingleArray) -> FloatArray:
    """Return the median of paths day by day; of the two in the middle the lower."""
    at = (len(paths) + 1) // 2 - 1
    return np.asarray(np.partition(paths, at, axis=0)[at], dtype=np.float64)


@dataclass(frozen=True, slots=True)
class ZoneBarrier:
    """One zone's barrier, in local calendar days.

    Attributes
    ----------
    zone
        The zone's name.
    since
        Day of the newest application that counts.
    hold
        How long it holds (days are calendar days).
    outlook
        Set against how long the target's weeds still sprout.
    sprouting_ends
        Until when they do.
    notes
        What may have shortened it.
    """

    zone: str
    since: date
    hold: Hold
    outlook: BarrierOutlook
    sprouting_ends: date
    notes: tuple[BarrierNote, ...]


def zone_barriers(
    standing: Standing, zones: Sequence[ZoneRecord], course: Course, target: Target, year: int
) -> list[ZoneBarrier]:
    """Return the barrier of each zone that has one with known figures against a target's weeds.

    Where a zone was put together of others, that of the part on which it ends first.
    """
    lat, found = standing.yard.lat, []
    for zone in zones if standing.done else ():
        here, density = course.of_zone(zone.name), density_of(zone)
        ends = here.sprouting_ends(target, year)
        of_lines = []
        for line in standing.history(zone).lines:
            every = doses_of(_on_all_of_it(line), lat)
            mine = [dose for dose in every if (ends - dose.day).days < _LASTING_DAYS]
            if not mine:
                continue
            first = min(dose.day for dose in mine)
            held = hold(mine, first, here.soil(first, first + timedelta(days=900)), density)
            if len(held.unknown) < len({dose.ingredient for dose in mine}):
                of_lines.append((held, max(dose.day for dose in mine)))
        if not of_lines:
            continue
        held, newest = min(of_lines, key=lambda each: each[0].ends or date.max)
        found.append(
            ZoneBarrier(
                zone=zone.name,
                since=calendar_day(newest, lat),
                hold=_to_calendar(held, lat),
                outlook=_judged(held, ends, lat),
                sprouting_ends=calendar_day(ends, lat),
                notes=_notes(course, newest, density, zone, _newest_on(standing, zone)),
            )
        )
    return found


def _on_all_of_it(line: Line) -> list[Entry]:
    """Return what every square foot of a line got; of a round in parts, the oldest part."""
    found = list(line.whole)
    for group in line.parts:
        every = {entry for each in group for entry in each}
        if sum(entry.share for entry in every) >= ALL_OF_IT:
            found += min(group, key=lambda each: max(entry.day for entry in each))
    return found


def ends_on(barriers: Sequence[ZoneBarrier]) -> date | None:
    """Return the first calendar day on which a zone's barrier is gone while weeds still sprout."""
    days = [
        each.hold.ends
        for each in barriers
        if each.hold.holds_at_all
        and each.hold.ends is not None
        and each.hold.ends <= each.sprouting_ends
    ]
    return min(days, default=None)


def doses_of(entries: Sequence[Entry], lat: float) -> list[Dose]:
    """Return what applications put onto the soil, in northern days.

    What acts on leaves makes no barrier and begins none.
    """
    found = []
    table = ingredients()
    for entry in entries:
        if entry.rate is None:
            continue
        for part in entry.product.ingredients:
            if part.name in table and table[part.name].kind in LEAF_KINDS:
                continue
            try:
                rate = ai_kg_ha(entry.rate, part)
            except StrengthUnknown:
                continue
            found.append(Dose(season_day(entry.day, lat), part.name, rate))
    return found


def density_of(zone: ZoneRecord) -> Density:
    """Return how dense a zone's turf stands, by what was noted of it."""
    said = " ".join(str(note) for note in zone.notes).casefold()
    return "thin" if "thin" in said else ("dense" if "dense" in said else "ordinary")


def _judged(held: Hold, ends: date, lat: float) -> BarrierOutlook:
    found = judge(held, ends)
    due = None if found.due is None else calendar_day(found.due, lat)
    return BarrierOutlook(found.verdict, due)


def _to_calendar(held: Hold, lat: float) -> Hold:
    def back(day: date | None) -> date | None:
        return None if day is None else calendar_day(day, lat)

    return Hold(
        back(held.ends_early),
        back(held.ends),
        back(held.ends_late),
        held.holds_at_all,
        held.unknown,
    )


def _newest_on(standing: Standing, zone: ZoneRecord) -> ApplicationRecord | None:
    for done in reversed(standing.done):
        if standing.covered(zone, done):
            return done
    return None


def _notes(
    course: Course, newest: date, density: Density, zone: ZoneRecord, done: ApplicationRecord | None
) -> tuple[BarrierNote, ...]:
    rain = course.rain_after(newest)
    after = None
    watered_in_on = None
    if done is not None:
        shares = [s.watered_in_on for s in done.shares if s.ground_id == zone.ground_id]
        watered_in_on = shares[0] if shares else done.watered_in_on
    if done is not None and watered_in_on is not None:
        after = float((watered_in_on - done.applied_on).days)
    return notes(rain, after, density)
