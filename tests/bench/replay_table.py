"""The season machine replayed on the measured stations, against emergence and published dates.

Run from the repository: ``python -m tests.bench.replay_table``. Needs ``../shared/data/soil``.
Two processes share the stations; minutes, not seconds.

Truth is counted here from the file itself (pandas, none of the project's code): the day on which 42
degree-days over 12 °C from 1 March at 5 cm are reached (the low end of Fidanza, Dernoeden & Zhang
1996, Crop Sci. 36:990-996). Gaps of up to four days are filled by a straight line. A year counts
with at least five full ones (80 % of the soil days known) before it, and no more than three days
missing from 1 March to emergence.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cache
from itertools import pairwise
from multiprocessing import get_context
from pathlib import Path

import numpy as np
import pandas as pd

from jobs.agronomy.place import RegionalDate, regional_date
from jobs.agronomy.season import Kind, State
from jobs.replay import ReplayLine, replay_year
from jobs.sources.recorded import read_station
from tests.bench.soil_from_air import SOIL

FULL_YEAR_SHARE = 0.8
LAST_YEAR = 2023
BASE_C, WANTED_DEGREE_DAYS = 12.0, 42.0
LONGEST_GAP_DAYS = 4
PROCESSES = 2

#: The stations and years of the table of single dates.
SHOWN = ("KS_Manhattan_6_SSW", "NY_Ithaca_13_E", "VA_Charlottesville_2_SSE")
SHOWN_YEARS = range(2019, 2024)

#: A station this far outside a region's outline is still held against its dates [degrees].
BESIDE_DEGREES = 0.3
#: Gaps to published dates over so many days are to be explained.
NOTED_GAP_DAYS = 10


@dataclass(frozen=True, slots=True)
class Played:
    """One station-year as it was told, beside what came."""

    station: str
    lat: float
    lon: float
    year: int
    emerged_on: date
    warmed_on: date | None
    opened_on: date | None
    soil_at_ping_c: float | None
    times_opened: int
    soil_5day_c: pd.Series

    @property
    def days_ahead(self) -> int | None:
        """Days from the ping to modelled emergence."""
        return None if self.opened_on is None else (self.emerged_on - self.opened_on).days


def soil_of(path: Path) -> pd.Series:
    """Read a station's daily soil at 5 cm from its file, short gaps filled."""
    soil_c = pd.read_csv(path, index_col="date", parse_dates=True)["soil5_c"].asfreq("D")
    missing = soil_c.isna()
    run = missing.groupby((~missing).cumsum()).transform("sum")
    return soil_c.where(run > LONGEST_GAP_DAYS, soil_c.interpolate(limit_area="inside"))


def emerged_on(soil_c: pd.Series, year: int) -> date | None:
    """Day the degree-days are reached, or None where the spring is not measured."""
    spring_c = soil_c.reindex(pd.date_range(f"{year}-03-01", f"{year}-07-31"))
    total = (spring_c - BASE_C).clip(lower=0).cumsum()
    reached = total.index[total >= WANTED_DEGREE_DAYS]
    if not len(reached) or spring_c[: reached[0]].isna().sum() > 3:
        return None
    return reached[0].date()


def years_of(soil_c: pd.Series) -> list[int]:
    """Years with enough full ones before them."""
    known = soil_c.notna().groupby(soil_c.index.year).sum()
    full = known.index[known >= FULL_YEAR_SHARE * 365]
    return [y for y in range(soil_c.index.year[0], LAST_YEAR + 1) if (full < y).sum() >= 5]


def play(path: Path) -> list[Played]:
    """Replay every year of one station that counts."""
    station = read_station(path)
    soil_c = soil_of(path)
    five_c = soil_c.rolling(5).mean()
    out = []
    for year in years_of(soil_c):
        emerged = emerged_on(soil_c, year)
        if emerged is None:
            continue
        lines = _until_missed(replay_year(station, year))
        warmed = _first(lines, Kind.SOIL_WARMING)
        opened = _first(lines, Kind.WINDOW_OPEN)
        states = [State.WAITING, *(line.state for line in lines)]
        out.append(
            Played(
                station.name,
                station.lat,
                station.lon,
                year,
                emerged,
                None if warmed is None else warmed.at.date(),
                None if opened is None else opened.at.date(),
                None if opened is None else opened.soil_5day_c,
                sum(after == State.WINDOW_OPEN != before for before, after in pairwise(states)),
                five_c[five_c.index.year == year],
            )
        )
    return out


@cache
def all_played() -> tuple[Played, ...]:
    """Replay every station, in `PROCESSES` processes."""
    paths = sorted(SOIL.glob("*.csv.gz"))
    with get_context("spawn").Pool(PROCESSES) as pool:
        return tuple(one for played in pool.map(play, paths, chunksize=1) for one in played)


def rows() -> list[tuple[str, str]]:
    """Return the figures over all station-years."""
    played = all_played()
    told = [one for one in played if one.days_ahead is not None]
    ahead = np.array([one.days_ahead for one in told])
    low, high = np.percentile([_f(one.soil_at_ping_c) for one in told], [5, 95])
    lead_up = np.array(
        [(one.opened_on - one.warmed_on).days for one in told if one.warmed_on is not None]
    )
    count = len(played)
    in_time = ((ahead >= 10) & (ahead <= 35)).sum()
    warned = ((lead_up >= 5) & (lead_up <= 28)).sum()
    reopened = sum(one.times_opened > 1 for one in played)
    return [
        (
            f"window-open ping 10-35 days before emergence, replayed ({count} years)",
            f"{in_time / count:.3f}",
        ),
        ("ping under 7 days before, replayed", f"{(ahead < 7).sum()} years"),
        ("ping over 35 days before, replayed", f"{(ahead > 35).sum()} years"),
        ("no ping at all, replayed", f"{count - len(told)} years"),
        ("soil at the ping, 5th-95th percentile, replayed", f"{low:.1f}-{high:.1f} °F"),
        ('"soil warming" 5-28 days before the ping, replayed', f"{warned / count:.3f}"),
        ("window opened more than once, replayed", f"{reopened / count:.3f} of years"),
    ]


def print_single_dates() -> None:
    """Print window-open dates of a few stations and years, with the soil on those days."""
    print("\n| station | year | window open | soil then, °F | modelled emergence | days ahead |")
    print("| --- | --- | --- | --- | --- | --- |")
    for one in all_played():
        if one.station in SHOWN and one.year in SHOWN_YEARS:
            opened = "-" if one.opened_on is None else f"{one.opened_on:%d %b}"
            soil = "-" if one.soil_at_ping_c is None else f"{_f(one.soil_at_ping_c):.0f}"
            print(
                f"| {one.station} | {one.year} | {opened} | {soil} | {one.emerged_on:%d %b} "
                f"| {one.days_ahead} |"
            )


def print_regional_dates() -> None:
    """Print replayed dates beside published ones, and what the record says of every gap."""
    print(
        "\n| station | published (source) | window open, median (range) | gap of the median "
        f"| years off by over {NOTED_GAP_DAYS} days |\n| --- | --- | --- | --- | --- |"
    )
    notes = []
    by_station: dict[str, list[Played]] = {}
    for one in all_played():
        if one.opened_on is not None:
            by_station.setdefault(one.station, []).append(one)
    for name, played in by_station.items():
        found = _published(played[0].lat, played[0].lon)
        if found is None:
            continue
        region, published = found
        opened = sorted(_in_2023(one.opened_on) for one in played)
        median = opened[len(opened) // 2]
        off = [one for one in played if _is_off(one.opened_on, published)]
        print(
            f"| {name} | {region}: {_span(published)} ({published.source}) "
            f"| {median:%d %b} ({opened[0]:%d %b} - {opened[-1]:%d %b}) "
            f"| {_gap(median, published):+d} days{' (!)' * _is_off(median, published)} "
            f"| {len(off)} of {len(played)} |"
        )
        if off:
            notes.append(_note(name, played, off, published))
    for note in notes:
        print(f"\n{note}")


def _note(
    name: str, played: Sequence[Played], off: Sequence[Played], published: RegionalDate
) -> str:
    """Say what the station's record has to say about the gaps of single years."""
    soil_f = np.array([_f(one.soil_5day_c.get(_published_day(one, published))) for one in played])
    left = np.array([_days_left(one, published) for one in played])
    text = (
        f"{name}: on the published {published.last[1]}.{published.last[0]}. the soil's 5-day mean "
        f"was {np.nanmedian(soil_f):.0f} °F ({np.nanmin(soil_f):.0f}-{np.nanmax(soil_f):.0f}); "
        f"modelled emergence came {left.min()} to {left.max()} days after it, "
        f"{np.median(left):.0f} in the middle; in {(left < 7).sum()} of {len(left)} years that "
        "date leaves less than the week the product needs to be watered in."
    )
    if published.first is None:
        text += " It is a latest date, which an earlier word does not contradict."
    for one in off:
        text += (
            f"\n  {one.year}: {_gap(one.opened_on, published):+d} days, told {one.opened_on:%d %b} "
            f"with the soil at {_f(one.soil_at_ping_c):.0f} °F; emergence {one.emerged_on:%d %b}, "
            f"{one.days_ahead} days after the word and {_days_left(one, published)} after the "
            "published date."
        )
    return text


def _published_day(one: Played, published: RegionalDate) -> pd.Timestamp:
    return pd.Timestamp(date(one.year, *published.last))


def _days_left(one: Played, published: RegionalDate) -> int:
    return (one.emerged_on - date(one.year, *published.last)).days


def _published(lat: float, lon: float) -> tuple[str, RegionalDate] | None:
    inside = regional_date(lat, lon)
    if inside is not None:
        return inside.region, inside
    steps = (-BESIDE_DEGREES, 0.0, BESIDE_DEGREES)
    for north in steps:
        for east in steps:
            beside = regional_date(lat + north, lon + east)
            if beside is not None:
                return f"beside {beside.region}", beside
    return None


def _gap(day: date, published: RegionalDate) -> int:
    """Days outside the published span of its year; negative: before it."""
    last = date(day.year, *published.last)
    first = last if published.first is None else date(day.year, *published.first)
    return (day - first).days if day < first else max(0, (day - last).days)


def _is_off(day: date, published: RegionalDate) -> bool:
    return abs(_gap(day, published)) > NOTED_GAP_DAYS


def _span(published: RegionalDate) -> str:
    last = f"{date(2023, *published.last):%d %b}"
    if published.first is None:
        text = f"by {last}"
    elif published.first == published.last:
        text = last
    else:
        text = f"{date(2023, *published.first):%d %b} - {last}"
    return text if published.speaks == "apply" else f"germination {text}"


def _in_2023(day: date) -> date:
    """The same place in the year, so that years can be compared."""
    return date(2023, 1, 1) + timedelta(days=(day - date(day.year, 1, 1)).days)


def _until_missed(lines: Iterable[ReplayLine]) -> list[ReplayLine]:
    """Play up to the end of the year's window: nobody applies, and nothing opens after it."""
    told = []
    for line in lines:
        told.append(line)
        if line.kind == Kind.WINDOW_MISSED:
            break
    return told


def _first(lines: Sequence[ReplayLine], kind: Kind) -> ReplayLine | None:
    return next((line for line in lines if line.kind == kind), None)


def _f(soil_c: float) -> float:
    return soil_c * 1.8 + 32


def print_tables() -> None:
    print_single_dates()
    print_regional_dates()


if __name__ == "__main__":
    for figure, measured in rows():
        print(f"{figure}: {measured}")
    print_tables()
