"""From what is held of a cell to what a yard's season is judged by."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, Final

import numpy as np

from jobs.agronomy.climatology import Climate, fit_climate
from jobs.agronomy.emergence import emergence
from jobs.agronomy.late_summer import bluegrass_event, heads_up_on
from jobs.agronomy.made_once import MakesOnce
from jobs.agronomy.outlook import Outlook, make_outlook
from jobs.agronomy.place import SpringPicture, spring_picture
from jobs.agronomy.readout import DateQuantiles
from jobs.agronomy.season import Target
from jobs.agronomy.series import DailySeries
from jobs.agronomy.soil import TRAILING_DAYS, fill_short_gaps, trailing_mean
from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS, one_year_in
from jobs.local_days import calendar_day, season_day, season_shift_days
from jobs.packed_cells import HeldCell

#: Days of data that a week's trend looks back.
_TREND_DAYS: Final = 7
_RECENT_DAYS: Final = 150
_KEPT_CLIMATES: Final = 4096
#: So many outlooks that people ask about stay made, with what was made of them.
_LATEST: Final = 32


@dataclass(frozen=True, slots=True, eq=False)
class CellOutlook(MakesOnce):
    """A cell's usual year and its outlook, both in northern (season) days.

    `spring` is what kind of spring the place has; None where every place is taken to have one.
    """

    held: HeldCell
    lat: float
    climate: Climate
    outlook: Outlook
    known: DailySeries
    spring: SpringPicture | None = None

    @property
    def count_from(self) -> tuple[int, int] | None:
        """Month and day from which degree-days count; None: the weed's own."""
        return None if self.spring is None else self.spring.count_from


_QUANTILES: Final = ("p10", "p50", "p90", "p20")


#: Farther off than this a window is only being planned [days]; once it opens, its event comes with
#: one chance in five this long before the middle [days], as a rule.
_FAR_DAYS: Final = 28
_USUAL_FIFTH_DAYS: Final = 6


@dataclass(frozen=True, slots=True)
class ZoneTurn:
    """Zones to be done together: days after the turn the yard's figures are of, and its own."""

    zones: tuple[str, ...]
    days: int
    p10: date | None
    p50: date | None
    p90: date | None
    p20: date | None = None


@dataclass(frozen=True, slots=True)
class Judged:
    """The figures a yard's season is judged by and people are told, in local calendar days.

    Attributes
    ----------
    known_until
        Last day with a measured soil temperature, or None.
    soil_5day_c
        Trailing 5-day mean at 5 cm on that day [°C], or None.
    change_7day_c
        Its change over the week before [°C], or None.
    p10, p50, p90
        Days of the event (first emergence, or soil falling through 70 °F); None: not in sight.
    past_years
        Number of earlier years behind the outlook.
    observed_at
        When the newest value was true.
    warned_on
        Day for the heads-up by another sign than the days to go, for targets that have one.
    has_clear_spring
        False where the soil hardly rises out of a mild winter: dates are rough there.
    turns
        Zones to be done together, the earliest first; empty where all go at once.
    first_p50
        `p50` of the earliest zone, done or not; None where `p50` is that already.
    p20
        Day up to which the event has come with one chance in five; None: not in sight.
    """

    known_until: date | None
    soil_5day_c: float | None
    change_7day_c: float | None
    p10: date | None
    p50: date | None
    p90: date | None
    past_years: int
    observed_at: datetime | None
    is_invented: bool
    soil_is_modelled: bool
    warned_on: date | None = None
    has_clear_spring: bool = True
    turns: tuple[ZoneTurn, ...] = ()
    first_p50: date | None = None
    p20: date | None = None

    @property
    def deadline_on(self) -> date | None:
        """Last day to put it down: the chance that the event comes before it is in place is small.

        At most `readout.DEADLINE_CHANCE`; in place is `timing.IN_PLACE_BEFORE_DAYS` before the
        event. Weeks before the window its spread is still wider than it will be then.
        """
        if self.p20 is None or self.p50 is None:
            event = self.p50
        elif self.known_until is None or (self.p50 - self.known_until).days > _FAR_DAYS:
            event = max(self.p20, self.p50 - timedelta(days=_USUAL_FIFTH_DAYS))
        else:
            event = self.p20
        return None if event is None else event - timedelta(days=IN_PLACE_BEFORE_DAYS)

    @property
    def one_in(self) -> int | None:
        """In one year of how many weeds come before what goes down on the deadline is in place."""
        if self.deadline_on is None or self.p50 is None:
            return None
        in_place_on = self.deadline_on + timedelta(days=IN_PLACE_BEFORE_DAYS)
        return one_year_in(in_place_on, p10=self.p10, p20=self.p20, p50=self.p50)

    @property
    def late(self) -> tuple[str, ...]:
        """Zones whose day has passed without a first round, while that of others has not."""
        return tuple(zone for turn in self.turns if turn.days < 0 for zone in turn.zones)

    def of_zones_left(self, left: Collection[str], today: date, grace_days: int = 0) -> Judged:
        """Return the figures of the zones without a first round, by the first whose day is to come.

        Where the day of all has passed, the last speaks.
        """
        turns = [
            replace(turn, zones=tuple(zone for zone in turn.zones if zone in left))
            for turn in self.turns
        ]
        turns = [turn for turn in turns if turn.zones]
        if self.p50 is None or not turns:
            return self
        to_come = [t for t in turns if t.p50 is None or (t.p50 - today).days > -grace_days]
        speaks = to_come[0] if to_come else turns[-1]
        return replace(
            self,
            p10=speaks.p10,
            p50=speaks.p50,
            p90=speaks.p90,
            p20=speaks.p20,
            turns=tuple(
                replace(turn, days=turn.days - speaks.days) for turn in turns if len(turns) > 1
            ),
            first_p50=self.first_p50 or self.p50,
        )

    def to_json(self) -> dict[str, Any]:
        """Return primitives for storage."""

        def iso(value: date | datetime | None) -> str | None:
            return None if value is None else value.isoformat()

        return {
            "known_until": iso(self.known_until),
            "soil_5day_c": self.soil_5day_c,
            "change_7day_c": self.change_7day_c,
            "p10": iso(self.p10),
            "p50": iso(self.p50),
            "p90": iso(self.p90),
            "p20": iso(self.p20),
            "past_years": self.past_years,
            "observed_at": iso(self.observed_at),
            "is_invented": self.is_invented,
            "soil_is_modelled": self.soil_is_modelled,
            **({} if self.warned_on is None else {"warned_on": iso(self.warned_on)}),
            "has_clear_spring": self.has_clear_spring,
            "turns": [
                {
                    "zones": list(turn.zones),
                    "days": turn.days,
                    "p10": iso(turn.p10),
                    "p50": iso(turn.p50),
                    "p90": iso(turn.p90),
                    "p20": iso(turn.p20),
                }
                for turn in self.turns
            ],
            **({} if self.first_p50 is None else {"first_p50": iso(self.first_p50)}),
        }

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> Judged:
        """Return what `to_json` wrote."""

        def day(name: str) -> date | None:
            return None if row.get(name) is None else date.fromisoformat(row[name])

        observed_at = row["observed_at"]
        return cls(
            known_until=day("known_until"),
            soil_5day_c=row["soil_5day_c"],
            change_7day_c=row["change_7day_c"],
            p10=day("p10"),
            p50=day("p50"),
            p90=day("p90"),
            past_years=row["past_years"],
            observed_at=None if observed_at is None else datetime.fromisoformat(observed_at),
            is_invented=row["is_invented"],
            soil_is_modelled=row["soil_is_modelled"],
            warned_on=day("warned_on"),
            has_clear_spring=row.get("has_clear_spring", True),
            turns=tuple(
                ZoneTurn(
                    tuple(turn["zones"]),
                    turn["days"],
                    *(
                        None if turn.get(p) is None else date.fromisoformat(turn[p])
                        for p in _QUANTILES
                    ),
                )
                for turn in row.get("turns", ())
            ),
            first_p50=day("first_p50"),
            p20=day("p20"),
        )

    def days_until(self, today: date) -> dict[str, int] | None:
        """Return p10, p50 and p90 in days from a day, or None where one is not in sight."""
        if self.p10 is None or self.p50 is None or self.p90 is None:
            return None
        return {
            "p10": (self.p10 - today).days,
            "p50": (self.p50 - today).days,
            "p90": (self.p90 - today).days,
        }


class Outlooks:
    """Makes outlooks and remembers the usual year of each cell, which changes once a year.

    Parameters
    ----------
    judges_springs
        Whether degree-days count from before March where winters are mild, and it is said where
        there is no clear spring (`place.spring_picture`).
    """

    def __init__(self, *, judges_springs: bool = True) -> None:
        self._judges_springs = judges_springs
        self._climates: OrderedDict[tuple[object, ...], tuple[Climate, SpringPicture | None]]
        self._climates = OrderedDict()
        self._lately: OrderedDict[tuple[object, ...], CellOutlook] = OrderedDict()
        self._lock = threading.Lock()

    def of(self, held: HeldCell, issued: date) -> CellOutlook:
        """Return the outlook of a cell, as `make`: made once while the same is held of it."""
        record = held.record
        key = record.source, record.lat_e2, record.lon_e2, issued
        with self._lock:
            found = self._lately.get(key)
            if found is not None and found.held is held:
                self._lately.move_to_end(key)
                return found
        found = self.make(held, issued)
        with self._lock:
            self._lately[key] = found
            self._lately.move_to_end(key)
            while len(self._lately) > _LATEST:
                self._lately.popitem(last=False)
        return found

    def make(self, held: HeldCell, issued: date) -> CellOutlook:
        """Return the outlook of a cell on the last local day whose mean may be known.

        Only days before 1 January of the (northern) year of issue make the usual year; the days
        since serve as what is known now.
        """
        lat = held.record.lat_e2 / 100
        known = held.known.shifted(season_shift_days(lat))
        day = season_day(issued, lat)
        history = known.until(date(day.year - 1, 12, 31))
        climate, spring = self._climate(held, history, lat)
        recent_from = min(date(day.year, 1, 1), day - timedelta(days=_RECENT_DAYS))
        outlook = make_outlook(
            climate,
            known.between(recent_from - timedelta(days=_RECENT_DAYS), day),
            day,
            forecast_soil5_c=_forecast_soil(held, lat, day),
        )
        return CellOutlook(held, lat, climate, outlook, known, spring)

    def _climate(
        self, held: HeldCell, history: DailySeries, lat: float
    ) -> tuple[Climate, SpringPicture | None]:
        key = (
            held.record.source,
            held.record.lat_e2,
            held.record.lon_e2,
            history.first_day,
            len(history),
            int(np.isfinite(history.soil5_c).sum()),
            round(float(np.nansum(history.soil5_c)), 2),
        )
        found = self._climates.get(key)
        if found is None:
            climate = fit_climate(history, lat=lat)
            spring = spring_picture(climate.mean_c) if self._judges_springs else None
            found = self._climates[key] = climate, spring
            if len(self._climates) > _KEPT_CLIMATES:
                self._climates.popitem(last=False)
        else:
            self._climates.move_to_end(key)
        return found


def judge(cell: CellOutlook, target: Target) -> Judged:
    """Return the figures for one target, in local calendar days."""
    return cell.once(("judged", target), lambda: _judged(cell, target))


def _judged(cell: CellOutlook, target: Target) -> Judged:
    lat = cell.lat
    soil = fill_short_gaps(cell.known.until(cell.outlook.issued).soil5_c[-60:])
    five = trailing_mean(soil, TRAILING_DAYS)
    newest = np.flatnonzero(np.isfinite(five))
    at = int(newest[-1]) if len(newest) else None
    known_until = soil_5day_c = change_7day_c = None
    if at is not None:
        last = min(cell.outlook.issued, cell.known.last_day)
        known_until = calendar_day(last - timedelta(days=len(five) - 1 - at), lat)
        soil_5day_c = float(five[at])
        if at >= _TREND_DAYS and np.isfinite(five[at - _TREND_DAYS]):
            change_7day_c = float(five[at] - five[at - _TREND_DAYS])
    event = event_dates(cell, target)
    p10, p50, p90, p20 = (
        None if day is None else calendar_day(day, lat)
        for day in (event.p10, event.p50, event.p90, event.p20)
    )
    record = cell.held.record
    warned_on = None
    if target is Target.WINTER_ANNUALS:
        warned_on = calendar_day(heads_up_on(cell.climate, cell.outlook, lat, _lon(cell)), lat)
    return Judged(
        known_until=known_until,
        soil_5day_c=soil_5day_c,
        change_7day_c=change_7day_c,
        p10=p10,
        p50=p50,
        p90=p90,
        past_years=cell.outlook.years,
        observed_at=record.observed_at,
        is_invented=record.is_invented,
        soil_is_modelled=record.soil_is_modelled,
        warned_on=warned_on,
        has_clear_spring=cell.spring is None or cell.spring.kind != "none",
        p20=p20,
    )


def event_dates(cell: CellOutlook, target: Target) -> DateQuantiles:
    """Return when a target's event comes (northern days): what its barrier must be in before."""
    if target is Target.SUMMER_ANNUALS:
        return emergence(cell.outlook, count_from=cell.count_from)
    return bluegrass_event(cell.climate, cell.outlook, cell.lat, _lon(cell))


def _lon(cell: CellOutlook) -> float:
    return cell.held.record.lon_e2 / 100


def _forecast_soil(held: HeldCell, lat: float, issued: date) -> np.ndarray | None:
    if held.forecast is None:
        return None
    forecast = held.forecast.shifted(season_shift_days(lat))
    ahead = forecast.between(issued + timedelta(days=1), forecast.last_day)
    if not len(ahead) or ahead.first_day != issued + timedelta(days=1):
        return None
    return ahead.soil5_c
