"""Years side by side: dates, soil at application, amounts, days of control."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta

import numpy as np

from jobs.agronomy.history import Entry
from jobs.agronomy.labelled_product import total_ai_kg_ha
from jobs.agronomy.season import State, Target
from jobs.agronomy.soil import trailing_mean
from jobs.agronomy.strengths import StrengthUnknown
from jobs.local_days import season_day
from jobs.season_facts import Sight
from jobs.standing import standing_of
from storage import seasons
from storage.database import Work
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class YearBack:
    """One season, in calendar days.

    Attributes
    ----------
    year
        The season's year.
    opened_on
        When the window opened, if it did.
    applied_on
        Days on which something was put down against the target.
    soil_c
        Soil at the first application, 5-day mean at 2 in [°C].
    ai_kg_ha
        Active ingredient put down in all, the mean over zones [kg/ha].
    first_seen_on
        When weeds were first seen.
    control_from
        Day of the last application before the first weeds were seen; None where none were seen, or
        nothing was down before.
    """

    year: int
    opened_on: date | None
    applied_on: tuple[date, ...]
    soil_c: float | None
    ai_kg_ha: float | None
    first_seen_on: date | None
    control_from: date | None

    @property
    def days_of_control(self) -> int | None:
        """Days from the last application before the first weeds to them; None where not known."""
        if self.first_seen_on is None or self.control_from is None:
            return None
        return (self.first_seen_on - self.control_from).days


def years(
    work: Work, yard: YardRecord, sight: Sight | None, target: Target = Target.SUMMER_ANNUALS
) -> list[YearBack]:
    """Return each season with anything on record, oldest first."""
    opened: dict[int, date] = {}
    for event in seasons.events(work, yard.id):
        if event.target == target and event.state_after == State.WINDOW_OPEN:
            opened.setdefault(event.year, event.at.date())
    standing = standing_of(work, yard)
    done = [each for each in standing.done if each.target == target]
    seen = [each for each in standing.sightings if each.is_seen]
    found = []
    wanted = {*opened, *(each.year for each in done)}
    wanted |= {season_day(each.seen_on, yard.lat).year for each in seen}
    for year in sorted(wanted):
        days = tuple(sorted({each.applied_on for each in done if each.year == year}))
        weeds = [each.seen_on for each in seen if season_day(each.seen_on, yard.lat).year == year]
        first_seen = min(weeds, default=None)
        before = [day for day in days if first_seen is not None and day < first_seen]
        found.append(
            YearBack(
                year=year,
                opened_on=opened.get(year),
                applied_on=days,
                soil_c=_soil_on(sight, days[0]) if days else None,
                ai_kg_ha=_ai_of(standing.records.entries, days),
                first_seen_on=first_seen,
                control_from=max(before, default=None),
            )
        )
    return found


def _soil_on(sight: Sight | None, day: date) -> float | None:
    if sight is None:
        return None
    soil = sight.known.on(day - timedelta(days=4), day).soil5_c
    value = float(trailing_mean(soil)[-1])
    return value if np.isfinite(value) else None


def _ai_of(entries: Sequence[Entry], days: tuple[date, ...]) -> float | None:
    by_zone: dict[int, float] = {}
    for entry in entries:
        if entry.day not in days or entry.rate is None:
            continue
        try:
            put_down = total_ai_kg_ha(entry.rate, entry.product)
        except StrengthUnknown:
            continue
        by_zone[entry.ground] = by_zone.get(entry.ground, 0.0) + put_down * entry.share
    return float(np.mean(list(by_zone.values()))) if by_zone else None
