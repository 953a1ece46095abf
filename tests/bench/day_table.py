"""The suggested day against "the day of the ping", by the rain that truly fell.

Run from the repository: ``python -m tests.bench.day_table``. Needs ``../shared/data/soil``.

The window-open pings of `tests.bench.window_open`, one a station-year. Forecast rain is emulated
from the true rain, seeded by station and day: to day 2 it falls when it is forecast; beyond, one
day in five a fall is missed or invented (an invented amount is one of the station's own). Amounts
are off by a log-normal factor of mean 1 and standard deviation 50 %. The records hold no wind and
no hours, so only rain is judged, by the very function that judges for people.

A day fails where half an inch does not come within 7 days after it and no need to irrigate was
spoken of, or where the day itself or the next had over an inch (the record does not say at which
hour it fell). "The day of the ping" speaks of nothing. Where no day of the week is good the bot
says so and is asked again the next morning, up to the last day that is early enough; then the least
bad day is taken, else the day before the first seedlings.
"""

from __future__ import annotations

import zlib
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from typing import cast

import numpy as np

from jobs.agronomy.day import choose_day
from jobs.agronomy.day_hours import Yard
from jobs.agronomy.day_rules import usual_rules
from jobs.agronomy.day_verdicts import DayVerdict
from jobs.agronomy.series import DailySeries
from jobs.agronomy.timing import IN_PLACE_BEFORE_DAYS
from jobs.packed_cells import HeldCell, Packed
from jobs.sources.recorded import Station
from jobs.weather_of_day import hours_of
from storage.cells import CellRecord
from tests.bench.soil_from_air import stations
from tests.bench.window_open import LEAD_DAYS, is_at_most, station_years

FORECAST_DAYS = 9
SURE_DAYS = 2
MISSED = INVENTED = 0.2
AMOUNT_ERROR = 0.5
RULES = usual_rules("granule")
WATERED_MM, HEAVY_MM, WITHIN_DAYS = 12.7, 25.4, 7
_MILD_C = 15.0


@dataclass(frozen=True, slots=True)
class Outcome:
    """What became of a day: whether it was watered in, and whether a downpour came on it."""

    day: date
    is_watered: bool
    is_irrigation_spoken_of: bool
    is_washed: bool

    @property
    def has_failed(self) -> bool:
        return self.is_washed or not (self.is_watered or self.is_irrigation_spoken_of)


def emulated_rain(station: Station, issued: date) -> DailySeries:
    """Forecast rain from a day on, as emulated; mild and dry in every other respect."""
    seed = zlib.crc32(f"{station.name} {issued}".encode())
    draw = np.random.default_rng(seed)
    last = issued + timedelta(days=FORECAST_DAYS - 1)
    true = np.nan_to_num(station.series.on(issued, last).rain_mm)
    # Three numbers a day, whatever falls, so that days do not shift each other's luck.
    luck = draw.random((FORECAST_DAYS, 2))
    sigma = np.sqrt(np.log(1 + AMOUNT_ERROR**2))
    factor = np.exp(draw.normal(-(sigma**2) / 2, sigma, FORECAST_DAYS))
    falls = station.series.rain_mm[np.nan_to_num(station.series.rain_mm) >= 0.254]
    invented = falls[(luck[:, 1] * len(falls)).astype(int)]
    is_unsure = np.arange(FORECAST_DAYS) > SURE_DAYS
    is_wet = true >= 0.254
    rain = np.where(is_unsure & is_wet & (luck[:, 0] < MISSED), 0.0, true)
    rain = np.where(is_unsure & ~is_wet & (luck[:, 0] < INVENTED), invented, rain)
    unknown = np.full(FORECAST_DAYS, np.nan)
    mild = np.full(FORECAST_DAYS, _MILD_C)
    return DailySeries(issued, unknown, mild, mild, mild, rain * factor)


def suggested(
    station: Station, morning: date, act_by: date, *, is_banned: bool = False
) -> tuple[DayVerdict | None, bool]:
    """The day suggested on a morning and whether it is a good one; None where there is none."""
    known = station.series.until(morning - timedelta(days=1))
    held = HeldCell(cast(CellRecord, None), Packed.of(known), emulated_rain(station, morning), None)
    hours, _ = hours_of(held, station.utc_offset)
    assert hours is not None
    zone = timezone(station.utc_offset)
    now = datetime.combine(morning, time(8), tzinfo=zone).astimezone(UTC)
    yard = Yard(station.lat, station.lon, zone, is_watering_banned=is_banned)
    week = choose_day(hours, yard, RULES, now, act_by=act_by)
    return (week.best, True) if week.best is not None else (week.least_bad, False)


def chosen(station: Station, ping: date, emerged: date) -> tuple[date, bool]:
    """The day taken after a ping, and whether a need to irrigate was spoken of."""
    act_by = max(ping, emerged - timedelta(days=IN_PLACE_BEFORE_DAYS))
    least: DayVerdict | None = None
    for ahead in range((act_by - ping).days + 1):
        verdict, is_good = suggested(station, ping + timedelta(days=ahead), act_by)
        if verdict is not None and is_good:
            return verdict.day, verdict.needs_irrigation
        least = verdict or least
    if least is not None:
        return least.day, least.needs_irrigation
    return emerged - timedelta(days=1), True


def chosen_under_ban(station: Station, ping: date, emerged: date) -> date | None:
    """The day taken where only rain can water it in; None where the word stays: better not."""
    act_by = max(ping, emerged - timedelta(days=IN_PLACE_BEFORE_DAYS))
    for ahead in range((act_by - ping).days + 1):
        morning = ping + timedelta(days=ahead)
        verdict, is_good = suggested(station, morning, act_by, is_banned=True)
        if verdict is not None and is_good:
            return verdict.day
    return None


def outcome(station: Station, day: date, *, is_irrigation_spoken_of: bool) -> Outcome | None:
    """What the record says of a day; None where its rain is not fully measured."""
    rain = station.series.on(day, day + timedelta(days=WITHIN_DAYS)).rain_mm
    if np.isnan(rain).any():
        return None
    return Outcome(
        day=day,
        is_watered=bool(rain[1:].sum() >= WATERED_MM),
        is_irrigation_spoken_of=is_irrigation_spoken_of,
        is_washed=bool((rain[:2] > HEAVY_MM).any()),
    )


def pairs() -> list[tuple[Outcome, Outcome]]:
    """Return (suggested, day of the ping) for every station-year with measured rain."""
    by_name = {station.name: station for station in stations()}
    found = []
    for year in station_years():
        ping = year.first(lambda look: is_at_most(look.to_go_by, LEAD_DAYS))
        if ping is None:
            continue
        station = by_name[year.station]
        day, is_spoken = chosen(station, ping.told_on, year.emerged_on)
        ours = outcome(station, day, is_irrigation_spoken_of=is_spoken)
        naive = outcome(station, ping.told_on, is_irrigation_spoken_of=False)
        if ours is not None and naive is not None:
            found.append((ours, naive))
    return found


def under_ban() -> tuple[int, list[Outcome]]:
    """Return in how many years the word stays better not, and what became of the other days."""
    by_name = {station.name: station for station in stations()}
    refused, taken = 0, []
    for year in station_years():
        ping = year.first(lambda look: is_at_most(look.to_go_by, LEAD_DAYS))
        if ping is None:
            continue
        station = by_name[year.station]
        day = chosen_under_ban(station, ping.told_on, year.emerged_on)
        if day is None:
            refused += 1
            continue
        found = outcome(station, day, is_irrigation_spoken_of=False)
        if found is not None:
            taken.append(found)
    return refused, taken


def rows() -> list[tuple[str, str]]:
    refused, taken = under_ban()
    both = pairs()
    ours, naive = [pair[0] for pair in both], [pair[1] for pair in both]
    delay = [(mine.day - theirs.day).days for mine, theirs in both]

    def share(outcomes: list[Outcome], name: str) -> str:
        return f"{np.mean([getattr(each, name) for each in outcomes]):.3f}"

    return [
        ("station-years", str(len(both))),
        ("failed, suggested day", share(ours, "has_failed")),
        ("failed, day of the ping", share(naive, "has_failed")),
        ("over an inch on the day or the next, suggested day", share(ours, "is_washed")),
        ("over an inch on the day or the next, day of the ping", share(naive, "is_washed")),
        ("half an inch within 7 days, suggested day", share(ours, "is_watered")),
        ("half an inch within 7 days, day of the ping", share(naive, "is_watered")),
        ("a need to irrigate spoken of", share(ours, "is_irrigation_spoken_of")),
        ("days from ping to suggested day, mean", f"{np.mean(delay):.1f}"),
        (
            "under a watering ban: better not, of all years",
            f"{refused / (refused + len(taken)):.3f}",
        ),
        ("under a watering ban: failed, of the days taken", share(taken, "has_failed")),
        (
            "neither half an inch nor a word of irrigating, suggested day",
            f"{np.mean([not (o.is_watered or o.is_irrigation_spoken_of) for o in ours]):.3f}",
        ),
    ]


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
