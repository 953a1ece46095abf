"""The week ahead of one yard: what is held of its weather, judged for what is being put down."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass, field, fields, replace
from datetime import UTC, date, datetime, time, timedelta
from functools import lru_cache
from typing import Any, Final, Literal

import numpy as np

from jobs import packed_cells
from jobs.agronomy.day import DAYS, choose_day
from jobs.agronomy.day_hours import MEASURABLE_MM, Hours, Yard
from jobs.agronomy.day_rules import DayRules, Form, LabelTerms, under_label, usual_rules
from jobs.agronomy.day_verdicts import DayVerdict, Reason, Week
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.season import Target
from jobs.agronomy.series import DailySeries
from jobs.agronomy.watering import Cycles, Soil, Washout, cycles, washout_ahead
from jobs.local_days import local, season_day, zone
from jobs.packed_cells import HeldCell
from jobs.season_facts import whats_next_of
from jobs.sources.base import Cell
from jobs.sources.timezones import standard_offset
from jobs.standing import Standing, standing_of
from storage.database import Work
from storage.wishes import YardWishes
from storage.yards import YardRecord

#: What a week was judged from: a forecast by the hour, one by the day, or none at all.
Basis = Literal["hourly", "daily", "none"]

#: Hours of known rain put before the forecast, so that saturated ground is seen.
_BEHIND_HOURS: Final = 48
#: After this nothing washes off that has not washed off already.
WASHOUT_WITHIN: Final = timedelta(hours=24)

#: Where only days are known, wind and dew are taken to be no trouble: a light breeze [m/s at 10 m]
#: and dry air [%]. What is said then names it.
_UNKNOWN_WIND_M_S: Final = 3.5
_UNKNOWN_HUMIDITY_PCT: Final = 60.0

#: Judged weeks kept for others of the same cell, product and hour.
_KEPT_WEEKS: Final = 64

_HEAVY_GROUND: Final = ("clay", "clay_loam")
_WEEKDAYS: Final = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True)
class Advice:
    """The week ahead, judged.

    Attributes
    ----------
    form
        What it was judged for; `is_form_known` is False where no product is chosen.
    basis
        What it was judged from.
    week
        The verdicts; None where there is no forecast at all.
    act_by
        Last day that is early enough, or None.
    has_foliar
        Whether the product also carries a weed killer for leaves: then the label's order governs.
    rain_behind_mm
        Known rain of the last two days.
    fetched_at, is_invented
        Where the forecast comes from.
    """

    form: Form
    is_form_known: bool
    basis: Basis
    week: Week | None
    act_by: date | None
    has_foliar: bool
    rain_behind_mm: float
    fetched_at: datetime | None
    is_invented: bool

    def to_json(self) -> dict[str, Any]:
        """Return primitives: the facts every verdict stands on."""
        week = self.week
        return {
            "form": self.form,
            "is_form_known": self.is_form_known,
            "basis": self.basis,
            "act_by": _iso(self.act_by),
            "has_foliar": self.has_foliar,
            "rain_behind_mm": round(self.rain_behind_mm, 1),
            "fetched_at": _iso(self.fetched_at),
            "is_invented": self.is_invented,
            "days": None if week is None else [_verdict_row(verdict) for verdict in week.days],
            "best": None if week is None else _day_of(week.best),
            "second": None if week is None else _day_of(week.second),
            "least_bad": None if week is None else _day_of(week.least_bad),
        }

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> Advice:
        """Return what `to_json` wrote."""
        act_by = None if row["act_by"] is None else date.fromisoformat(row["act_by"])
        week = None
        if row["days"] is not None:
            days = tuple(_verdict(each) for each in row["days"])
            by_day = {verdict.day.isoformat(): verdict for verdict in days}
            best, second, least = (
                by_day.get(row[name] or "") for name in ("best", "second", "least_bad")
            )
            week = Week(days, best, second, least, act_by)
        fetched_at = row["fetched_at"]
        return cls(
            form=row["form"],
            is_form_known=row["is_form_known"],
            basis=row["basis"],
            week=week,
            act_by=act_by,
            has_foliar=row["has_foliar"],
            rain_behind_mm=row["rain_behind_mm"],
            fetched_at=None if fetched_at is None else datetime.fromisoformat(fetched_at),
            is_invented=row["is_invented"],
        )


def advise(work: Work, yard: YardRecord, source: str, now: datetime) -> Advice | None:
    """Judge the next seven days of a yard; None while nothing is held for its place."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    if held is None:
        return None
    rules, today = rules_of(work, yard), local(now, yard.timezone).date()
    act_by = act_by_of(standing_of(work, yard), now)
    hours, basis = hours_of(held, standard_offset(yard.timezone))
    week = None
    if hours is not None:
        ahead = _Ahead.of(hours, _soil_ahead(held, today), now, today)
        # Of a wave of alerts many are of one cell and one product.
        place = yard_of(work, yard)
        judged = _week if place.free_hours is None else _week.__wrapped__
        week = judged(ahead, place, rules, act_by)
    behind = held.known.between(today - timedelta(days=2), today - timedelta(days=1)).rain_mm
    return Advice(
        form=rules.form,
        is_form_known=yard.product_id is not None,
        basis=basis,
        week=week,
        act_by=act_by,
        has_foliar=_has_foliar(work, yard),
        rain_behind_mm=float(np.nansum(behind)),
        fetched_at=held.record.fetched_at,
        is_invented=held.record.is_invented,
    )


@dataclass(frozen=True, slots=True)
class _Ahead:
    """A forecast and when it is asked about, told apart by what of both matters."""

    contents: tuple[bytes | int | None, ...]
    hours: Hours = field(compare=False)
    soil_c: np.ndarray | None = field(compare=False)
    now: datetime = field(compare=False)

    @classmethod
    def of(cls, hours: Hours, soil_c: np.ndarray | None, now: datetime, today: date) -> _Ahead:
        columns = (hours.air_c, hours.rain_mm, hours.wind_m_s, hours.humidity_pct)
        contents = (
            int(hours.first_hour.timestamp()),
            *(column.tobytes() for column in columns),
            None if soil_c is None else soil_c.tobytes(),
            # Hours that have begun are over.
            math.ceil(now.timestamp() / 3600),
            today.toordinal(),
        )
        return cls(contents, hours, soil_c, now)


@lru_cache(maxsize=_KEPT_WEEKS)
def _week(ahead: _Ahead, yard: Yard, rules: DayRules, act_by: date | None) -> Week:
    return choose_day(ahead.hours, yard, rules, ahead.now, soil_c=ahead.soil_c, act_by=act_by)


def rules_of(work: Work, yard: YardRecord) -> DayRules:
    """Return the limits for what is put down on a yard: the label's, else our defaults."""
    standing = standing_of(work, yard)
    said, record = standing.wishes, standing.record
    form: Form = "granule" if record is None or record.form == "granule" else "spray"
    rules = usual_rules(form, is_slope_or_clay=said.is_slope or said.ground in _HEAVY_GROUND)
    if said.label_product_id != yard.product_id or not said.label_terms:
        return rules
    known = {each.name for each in fields(LabelTerms)}
    return under_label(
        rules, LabelTerms(**{name: v for name, v in said.label_terms.items() if name in known})
    )


@dataclass(frozen=True, slots=True)
class WaterTerms:
    """Water that carries the barrier in: how much [mm], and within how many days."""

    depth_mm: float
    within_days: int


def water_terms(work: Work, yard: YardRecord) -> WaterTerms:
    """Return the water a yard's product wants: the label's, else half an inch within 7 days."""
    rules = rules_of(work, yard)
    return WaterTerms(rules.water_in_mm, max(1, math.ceil(rules.water_in_hours / 24)))


def yard_of(work: Work, yard: YardRecord) -> Yard:
    """Return what of a yard matters for the day.

    The sun is that of its cell: within a kilometer it rises within seconds.
    """
    place = Cell.at(yard.lat, yard.lon)
    return Yard(
        lat=place.lat,
        lon=place.lon,
        zone=zone(yard.timezone),
        can_irrigate=can_water(yard),
        is_watering_banned=bool(yard.is_water_banned),
        watering_weekdays=weekdays_in(yard.water_days or ""),
        free_hours=_free_hours(standing_of(work, yard).wishes),
    )


def can_water(yard: YardRecord) -> bool:
    """Tell whether a yard can be watered at all; nobody having asked, it is taken to be so."""
    return yard.water_how not in ("none", "no")


def weekdays_in(text: str) -> frozenset[int] | None:
    """Return the weekdays a text names (Monday 0), or None for any."""
    found = re.findall(r"\b(mon|tue|wed|thu|fri|sat|sun)", text.casefold())
    return frozenset(_WEEKDAYS.index(name) for name in found) or None


def act_by_of(standing: Standing, now: datetime) -> date | None:
    """Return the last day on which a first round is worth it, or None where none is due."""
    upcoming, lat = whats_next_of(standing, Target.SUMMER_ANNUALS, now), standing.yard.lat
    if upcoming.event_on is None:
        return None
    today = local(now, standing.yard.timezone).date()
    is_this_season = season_day(upcoming.event_on, lat).year == season_day(today, lat).year
    return upcoming.by if is_this_season else None


def hours_of(held: HeldCell, utc_offset: timedelta) -> tuple[Hours | None, Basis]:
    """Return the forecast of a cell by the hour with the last two days' rain in front of it."""
    hourly = held.hourly
    if hourly is not None and len(hourly.air_c):
        first = hourly.first_hour
        ahead = [
            np.asarray(column, dtype=float)
            for column in (hourly.air_c, hourly.rain_mm, hourly.wind_m_s, hourly.humidity_pct)
        ]
        basis: Basis = "hourly"
    elif held.forecast is not None and len(held.forecast):
        first = _midnight(held.forecast.first_day, utc_offset)
        ahead = _hours_of_days(held.forecast)
        basis = "daily"
    else:
        return None, "none"
    starts = [first - timedelta(hours=hour) for hour in range(_BEHIND_HOURS, 0, -1)]
    days = [(start + utc_offset).date() for start in starts]
    known = held.known.on(days[0], days[-1]).rain_mm / 24
    rain = np.array([known[(day - days[0]).days] for day in days])
    unknown = np.full(_BEHIND_HOURS, np.nan)
    behind = (unknown, rain, unknown, unknown)
    columns = [np.concatenate(pair) for pair in zip(behind, ahead, strict=True)]
    return Hours(starts[0], *columns), basis


def washout(
    work: Work, yard: YardRecord, source: str, applied_at: datetime, now: datetime
) -> Washout | None:
    """Return heavy rain that is forecast while an application is fresh, or None."""
    if now - applied_at >= WASHOUT_WITHIN:
        return None
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    hours = None if held is None else hours_of(held, standard_offset(yard.timezone))[0]
    if hours is None:
        return None
    ahead = max(0, int((now - hours.first_hour) / timedelta(hours=1)))
    from_ = hours.first_hour + timedelta(hours=ahead)
    found = washout_ahead(hours.rain_mm[ahead:].tolist(), from_, rules_of(work, yard))
    is_wet = np.nan_to_num(hours.rain_mm[ahead:]) >= MEASURABLE_MM
    start = int((found.from_ - from_) / timedelta(hours=1))
    wet = np.flatnonzero(is_wet[start:])
    if not found.is_likely or not len(wet):
        return None
    begins = found.from_ + timedelta(hours=int(wet[0]))
    return replace(found, from_=begins) if begins < applied_at + WASHOUT_WITHIN else None


def rain_ahead_mm(work: Work, yard: YardRecord, source: str, now: datetime, until: date) -> float:
    """Return the rain that is forecast from now to the end of a local day [mm]."""
    held = packed_cells.held(work, source, Cell.at(yard.lat, yard.lon))
    hours = None if held is None else hours_of(held, standard_offset(yard.timezone))[0]
    if hours is None:
        return 0.0
    end = datetime.combine(until + timedelta(days=1), time(), tzinfo=zone(yard.timezone))
    first = max(0, int((now - hours.first_hour) / timedelta(hours=1)))
    last = max(first, int((end - hours.first_hour) / timedelta(hours=1)))
    return float(np.nansum(hours.rain_mm[first:last]))


def run_of(said: YardWishes, depth_mm: float) -> Cycles | None:
    """Return how to run a yard's sprinkler for a depth, or None before its rate is known."""
    if said.sprinkler_mm_h is None or depth_mm <= 0:
        return None
    # Ground nobody spoke of is loam; what matters is that clay and slopes are not flooded.
    ground: Soil = said.ground or "loam"  # type: ignore[assignment]
    return cycles(depth_mm, said.sprinkler_mm_h, ground, is_slope=said.is_slope)


def half_life_days(product: Product | None) -> float | None:
    """Return the longest field half-life among a product's ingredients, or None if unknown."""
    if product is None:
        return None
    table = ingredients()
    found = [table[name].barrier for name in product.ingredient_names if name in table]
    return max((each.half_life_days for each in found if each is not None), default=None)


def _has_foliar(work: Work, yard: YardRecord) -> bool:
    if yard.product_id is None:
        return False
    return standing_of(work, yard).label.has_foliar


def _free_hours(said: YardWishes) -> dict[int, tuple[time, time]] | None:
    if said.free_hours is None:
        return None
    return {int(day): (_time(span[0]), _time(span[1])) for day, span in said.free_hours.items()}


def _time(minutes: int) -> time:
    return time(minutes // 60 % 24, minutes % 60)


def _soil_ahead(held: HeldCell, today: date) -> np.ndarray | None:
    if held.forecast is None:
        return None
    return held.forecast.on(today, today + timedelta(days=DAYS - 1)).soil5_c


def _midnight(day: date, utc_offset: timedelta) -> datetime:
    # Whole hours, as forecasts by the hour have them.
    whole = timedelta(hours=round(utc_offset / timedelta(hours=1)))
    return datetime.combine(day, time(), tzinfo=UTC) - whole


def _hours_of_days(days: DailySeries) -> list[np.ndarray]:
    """Spread days over their hours: rain evenly, so that a wet day is wet all day."""
    warm = np.where(np.isnan(days.tmax_c), days.tmean_c, days.tmax_c)
    count = 24 * len(days)
    return [
        np.repeat(np.where(np.isnan(warm), days.tmean_c, warm), 24),
        np.repeat(days.rain_mm / 24, 24),
        np.full(count, _UNKNOWN_WIND_M_S),
        np.full(count, _UNKNOWN_HUMIDITY_PCT),
    ]


def _iso(value: date | datetime | None) -> str | None:
    return None if value is None else value.isoformat()


def _day_of(verdict: DayVerdict | None) -> str | None:
    return None if verdict is None else verdict.day.isoformat()


def _verdict_row(verdict: DayVerdict) -> dict[str, Any]:
    against = verdict.against
    return {
        "day": verdict.day.isoformat(),
        "is_suitable": verdict.is_suitable,
        "start": _iso(verdict.start),
        "end": _iso(verdict.end),
        "against": None
        if against is None
        else [against.key, _number(against.value), _number(against.limit), against.is_label],
        "wind_m_s": _number(verdict.wind_m_s),
        "rain_after_mm": round(verdict.rain_after_mm, 1),
        "rain_waters_in_at": _iso(verdict.rain_waters_in_at),
        "needs_irrigation": verdict.needs_irrigation,
        "penalty": round(verdict.penalty, 4),
    }


def _verdict(row: dict[str, Any]) -> DayVerdict:
    def at(name: str) -> datetime | None:
        return None if row[name] is None else datetime.fromisoformat(row[name])

    def number(value: float | None) -> float:
        return float("nan") if value is None else value

    reason = row["against"]
    return DayVerdict(
        day=date.fromisoformat(row["day"]),
        is_suitable=row["is_suitable"],
        start=at("start"),
        end=at("end"),
        against=None
        if reason is None
        else Reason(reason[0], number(reason[1]), number(reason[2]), reason[3]),
        wind_m_s=number(row["wind_m_s"]),
        rain_after_mm=row["rain_after_mm"],
        rain_waters_in_at=at("rain_waters_in_at"),
        needs_irrigation=row["needs_irrigation"],
        penalty=row["penalty"],
    )


def _number(value: float) -> float | None:
    return None if np.isnan(value) else round(float(value), 2)
