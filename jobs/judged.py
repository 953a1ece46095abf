"""The figures a yard's season is judged by and people are told, as they are kept with it."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, Final

from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS, one_year_in

_QUANTILES: Final = ("p10", "p50", "p90", "p20")


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
        event.
        """
        event = self.p20 or self.p50
        return None if event is None else event - timedelta(days=IN_PLACE_BEFORE_DAYS)

    @property
    def one_in(self) -> int | None:
        """In one year of how many weeds come before what goes down on the deadline is in place."""
        return None if self.deadline_on is None else self.one_in_by(self.deadline_on)

    def one_in_by(self, deadline_on: date) -> int | None:
        """Return the same of another deadline; None while the event is not in sight."""
        if self.p50 is None:
            return None
        in_place_on = deadline_on + timedelta(days=IN_PLACE_BEFORE_DAYS)
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
