"""The record: every field of every application, what is missing, edits, and what is to come."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta

from jobs.agronomy.labelled_product import Product, ai_kg_ha
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import PLANS, Target
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import M_S_PER_MPH, f_from_c, from_si
from jobs.agronomy.whats_next import TO_DO, Stage, window_opens
from jobs.exports import LogRow
from jobs.labels import put_down
from jobs.local_days import calendar_day, local, season_day
from jobs.record_details import SAID_FIELDS, RecordDetails
from jobs.rounds import belongs_to, targets_of
from jobs.season_facts import Sight, plan_of, whats_next_of
from jobs.standing import Standing, standing_of
from jobs.watering_in import watered_in_days, waters_since
from jobs.yard_look import look
from storage import applications, chats, journal, products, yards
from storage.applications import ApplicationRecord, ZoneShare
from storage.database import Work
from storage.journal import Change, Entry
from storage.yards import YardRecord

#: Changes that a record's row in the log tells of.
_AMENDED = ("record.edit", "record.redate", "record.amount", "record.area", "record.zones")
_M2_PER_SQ_FT = 0.09290304
_KG_PER_LB = 0.45359237
_MM_PER_IN = 25.4


class NoSuchRecord(LookupError):
    """Raised for a record that is not one of the yard's."""


class NoSuchField(ValueError):
    """Raised for a field that people cannot set."""


@dataclass(frozen=True, slots=True)
class Edited:
    """One field of one record as it was and as it is."""

    record_id: int
    field: str
    before: str | None
    after: str


def newest(work: Work, yard: YardRecord) -> ApplicationRecord | None:
    """Return the yard's newest record that stands."""
    done = standing_of(work, yard).done
    return max(done, key=lambda each: each.id, default=None)


def edit(work: Work, yard: YardRecord, record_id: int, field: str, value: str) -> Edited:
    """Set a field of a record; the old value and who changed it are kept.

    Raises
    ------
    NoSuchRecord, NoSuchField
        If there is none.
    """
    record = record_of(work, yard, record_id)
    if field not in SAID_FIELDS:
        raise NoSuchField(field)
    before = getattr(RecordDetails.from_json(record.details), field)
    set_said(work, yard, record, {field: value})
    return Edited(record_id, field, before, value)


def set_said(
    work: Work, yard: YardRecord, record: ApplicationRecord, said: Mapping[str, str]
) -> None:
    """Set fields of a record to what was said."""
    details = RecordDetails.from_json(record.details)
    for field, value in said.items():
        before = getattr(details, field)
        _note(work, yard, "record.edit", record.id, field, before, value)
        details = details.with_said(field, value)
    if said:
        applications.set_details(work, record.id, details.to_json())


def hour_known(work: Work, yard: YardRecord, record_id: int) -> None:
    """Note that the hour of an application has been said."""
    record = record_of(work, yard, record_id)
    details = replace(RecordDetails.from_json(record.details), is_hour_open=None)
    applications.set_details(work, record_id, details.to_json())


def redate(
    work: Work,
    yard: YardRecord,
    record_id: int,
    applied_at: datetime,
    *,
    sight: Sight | None,
    person_id: int,
    now: datetime,
) -> Edited:
    """Put an application on the day it really was; what follows from it is reckoned anew.

    Raises
    ------
    NoSuchRecord
        If there is none.
    """
    yards.hold(work, yard.id)
    record = record_of(work, yard, record_id)
    on = local(applied_at, yard.timezone).date()
    said = Target(record.target) if record.target in set(Target) else None
    _, year = belongs_to(standing_of(work, yard), on, said)
    known = None if sight is None else sight.known
    watered_in = watered_in_days(work, yard, known, record, on)
    applications.move(
        work, record_id, applied_at=applied_at.astimezone(UTC), applied_on=on, year=year
    )
    applications.set_watered_in(work, record_id, watered_in)
    days = (record.applied_on.isoformat(), on.isoformat())
    _note(work, yard, "record.redate", record_id, "applied_on", *days)
    course = None if sight is None else sight.course
    look(work, yard, {}, None, now, person_id=person_id, course=course)
    yards.change(work, yard.id, next_check_at=now)
    return Edited(record_id, "date", *days)


def register(work: Work, yard: YardRecord, number: str) -> bool:
    """Keep the registration number of the yard's product; False where none is chosen."""
    if yard.product_id is None:
        return False
    products.set_registration(work, yard.product_id, number)
    journal.note(work, yard.id, "record.register", yard.product_id, number=number)
    return True


def missing(work: Work, yard: YardRecord) -> tuple[str, ...]:
    """Return what only the person knows and has not said: ``registration``, ``licence``."""
    found = []
    if yard.product_id is not None and products.registration(work, yard.product_id) is None:
        found.append("registration")
    people = {done.person_id for done in standing_of(work, yard).done}
    known = [chats.person(work, person_id) for person_id in people]
    if any(each.licence is None and each.under_licence is None for each in known):
        found.append("licence")
    return tuple(found)


def ask_once(work: Work, chat_id: int, now: datetime) -> bool:
    """Tell whether a chat may be asked for what its records lack; it is asked only once."""
    return chats.ask_for_record(work, chat_id, now)


@dataclass(frozen=True, slots=True)
class Applicator:
    """Who put something down, under whom, with their licences; and who told of it."""

    name: str
    licence: str | None
    supervisor: str | None
    supervisor_licence: str | None
    recorded_by: str


def applicator_of(work: Work, done: ApplicationRecord) -> Applicator:
    """Return who put an application down: as the record says, else the person who told of it."""
    details = RecordDetails.from_json(done.details)
    person = chats.person(work, done.person_id)
    is_theirs = done.by_whom is not None
    return Applicator(
        details.applicator or done.by_whom or person.name,
        details.licence or (None if is_theirs else person.licence),
        details.supervisor or (None if is_theirs else person.works_under),
        details.supervisor_licence or (None if is_theirs else person.under_licence),
        person.name,
    )


def registration_of(work: Work, done: ApplicationRecord) -> str | None:
    """Return the registration number of what was put down, as the person read it."""
    return None if done.product_id is None else products.registration(work, done.product_id)


def log_rows(work: Work, yard: YardRecord, words: Mapping[str, str]) -> list[LogRow]:
    """Return the yard's log, oldest first; one row a zone.

    Parameters
    ----------
    words
        What each target, grass, ingredient, form, period and kind of weather is called; a code
        without a word stands as it is.
    """
    standing = standing_of(work, yard)
    grass = {zone.ground_id: words.get(zone.grass or "", zone.grass) for zone in standing.zones}
    edits = journal.of_yard(work, yard.id, _AMENDED)
    ai_by_ground = _yearly(standing)
    waters = waters_since(
        work, yard, None, min((d.applied_on for d in standing.done), default=date.max)
    )
    rows = []
    for done in standing.done:
        details = RecordDetails.from_json(done.details)
        product = put_down(done)
        registration = registration_of(work, done)
        by = applicator_of(work, done)
        for share in done.shares:
            rate = _rate(share, product)
            ai_kg_ha_ = _ai(rate, product)
            year_key = (share.ground_id, done.applied_on.year)
            rows.append(
                LogRow(
                    record=done.id,
                    applied_on=done.applied_on.isoformat(),
                    started=None
                    if details.is_hour_open
                    else local(done.applied_at, yard.timezone).strftime("%H:%M"),
                    ended=details.ended,
                    yard=yard.name,
                    customer=yard.customer,
                    address=address_of(yard),
                    place=f"{yard.lat:.4f}, {yard.lon:.4f}",
                    zone=share.zone_name,
                    area_sq_ft=round(share.area_m2 / _M2_PER_SQ_FT, 1),
                    area_m2=round(share.area_m2, 2),
                    turf=grass.get(share.ground_id),
                    product=None if done.product is None else done.product["said"],
                    registration=registration,
                    ingredients=None
                    if product is None
                    else " + ".join(words.get(name, name) for name in product.ingredient_names),
                    strength=_strength(product),
                    batch=details.batch,
                    form=None if product is None else words.get(product.form, product.form),
                    rate_asked=None if product is None else _said_rate(product.rate),
                    rate_achieved=_said_rate(_in_unit(rate, product)),
                    product_amount=_amount(share),
                    product_unit=share.amount_unit,
                    ingredient_lb=_times(ai_kg_ha_, share.area_m2 / 1e4 / _KG_PER_LB),
                    ingredient_kg=_times(ai_kg_ha_, share.area_m2 / 1e4),
                    ingredient_lb_acre=None
                    if ai_kg_ha_ is None
                    else round(from_si(ai_kg_ha_, "lb/acre"), 4),
                    ingredient_this_year_lb_acre=ai_by_ground.get(year_key),
                    label_maxima=_maxima(product, words),
                    carrier=details.carrier,
                    equipment=details.equipment,
                    calibration=details.calibration,
                    weed=details.weed or words.get(done.target, done.target),
                    season=done.year,
                    wind=details.wind or _wind(details),
                    wind_from=details.wind_from,
                    air_f=_said_air(details.air) or _fahrenheit(details.air_c),
                    soil_f=_fahrenheit(details.soil_c),
                    humidity_pct=_said_figure(details.humidity) or details.humidity_pct,
                    rain_in=_times(details.rain_mm, 1 / _MM_PER_IN),
                    sky=details.sky,
                    weather_basis=words.get(details.weather_basis or "", details.weather_basis),
                    watered_in_on=_iso(share.watered_in_on),
                    water_in=_times(waters.on_share(done, share), 1 / _MM_PER_IN),
                    applicator=by.name,
                    licence=by.licence,
                    supervisor=by.supervisor,
                    supervisor_licence=by.supervisor_licence,
                    posted=details.posted,
                    reentry=details.reentry,
                    next_allowed_on=_next_allowed(done, product),
                    notes=details.notes,
                    said=done.said,
                    recorded_at=done.recorded_at.isoformat(timespec="seconds"),
                    recorded_by=by.recorded_by,
                    changes=_changes(work, edits, done.id),
                )
            )
    return rows


@dataclass(frozen=True, slots=True)
class ToCome:
    """Something of the year to come, in calendar days: ``window``, ``half2`` or ``seed``.

    Certain is an open window and what people planned; all else is an estimate.
    """

    kind: str
    target: str
    year: int
    first: date
    last: date
    zone: str = ""
    is_certain: bool = False


def to_come(work: Work, yard: YardRecord, now: datetime, sight: Sight | None) -> list[ToCome]:
    """Return expected windows, second halves and seedings, all rough but the seedings."""
    found = []
    standing = standing_of(work, yard)
    course = None if sight is None else sight.course
    for target in targets_of(yard):
        upcoming = whats_next_of(standing, target, now, course)
        opens, by = upcoming.opens_on, upcoming.by
        if upcoming.stage in TO_DO and upcoming.event_on is not None and by is not None:
            lead_days = plan_of(standing, target).lead_days
            year = season_day(upcoming.event_on, yard.lat).year
            first = opens or min(by, window_opens(upcoming.event_on, by, lead_days))
            is_open = upcoming.stage is not Stage.AHEAD
            found.append(ToCome("window", target, year, first, by, is_certain=is_open))
        if upcoming.stage is Stage.DOWN and opens is not None:
            year = season_day(opens, yard.lat).year
            ends = date(year, *PLANS[target].season_ends) - timedelta(days=1)
            last = min(opens + timedelta(days=13), calendar_day(ends, yard.lat))
            found.append(ToCome("half2", target, year, opens, max(opens, last)))
    for each in standing.seedings:
        if not each.is_done:
            year = season_day(each.seed_on, yard.lat).year
            on, zone = each.seed_on, each.zone_name
            found.append(ToCome("seed", "", year, on, on, zone, is_certain=True))
    return found


def record_of(work: Work, yard: YardRecord, record_id: int) -> ApplicationRecord:
    """Return one of a yard's records that stand.

    Raises
    ------
    NoSuchRecord
        If there is none.
    """
    for done in standing_of(work, yard).done:
        if done.id == record_id:
            return done
    raise NoSuchRecord(str(record_id))


def _note(
    work: Work, yard: YardRecord, action: str, record_id: int, field: str, was: str | None, now: str
) -> None:
    on = [("application", record_id)]
    journal.note(work, yard.id, action, record_id, hangs_on=on, field=field, was=was, now=now)


def _changes(work: Work, edits: Sequence[tuple[Entry, Change]], record_id: int) -> str | None:
    """Return every edit of a record in one text: when, who, which field, from what to what."""
    parts = []
    for entry, change in edits:
        if change.subject_id != record_id:
            continue
        who = chats.person(work, entry.person_id).name or str(entry.person_id)
        day = entry.at.date().isoformat()
        said = change.figures
        parts.append(f"{day} {who}: {said['field']} {said['was'] or '-'} -> {said['now']}")
    return "; ".join(parts) or None


def _rate(share: ZoneShare, product: Product | None) -> Rate | None:
    if product is None or not share.amount_si:
        return None
    is_weight = product.rate is None or product.rate.is_weight
    return Rate(share.amount_si / share.area_m2 * 1e4, "kg/ha" if is_weight else "L/ha")


def _in_unit(rate: Rate | None, product: Product | None) -> Rate | None:
    if rate is None or product is None or product.rate is None:
        return rate
    return Rate(from_si(rate.rate_si, product.rate.unit), product.rate.unit)


def _ai(rate: Rate | None, product: Product | None) -> float | None:
    if rate is None or product is None:
        return None
    try:
        return sum(ai_kg_ha(rate, part) for part in product.ingredients)
    except StrengthUnknown:
        return None


def _yearly(standing: Standing) -> dict[tuple[int, int], float]:
    """Return active ingredient by ground and calendar year [lb/acre], of all products together."""
    totals: dict[tuple[int, int], float] = {}
    for entry in standing.records.entries:
        found = _ai(entry.rate, entry.product)
        if found is not None:
            key = (entry.ground, entry.day.year)
            totals[key] = totals.get(key, 0.0) + from_si(found, "lb/acre")
    return {key: round(total, 4) for key, total in totals.items()}


def _amount(share: ZoneShare) -> float | None:
    if share.amount_si is None or share.amount_unit is None:
        return None
    return round(from_si(share.amount_si, share.amount_unit), 3)


def _said_rate(rate: Rate | None) -> str | None:
    return None if rate is None else f"{rate.value:.4g} {rate.unit}"


def _strength(product: Product | None) -> str | None:
    if product is None:
        return None
    known = [part.strength for part in product.ingredients if part.strength is not None]
    return " + ".join(f"{each.value:g} {each.unit}" for each in known) or None


def _maxima(product: Product | None, words: Mapping[str, str]) -> str | None:
    if product is None:
        return None
    said = [
        f"{_said_rate(m.rate)} ({words.get(m.of, m.of)}, {words.get(m.period, m.period)})"
        for m in product.maxima
    ]
    return "; ".join(said) or None


def _next_allowed(done: ApplicationRecord, product: Product | None) -> str | None:
    if product is None or product.smallest_interval_days is None:
        return None
    return _iso(done.applied_on + timedelta(days=product.smallest_interval_days))


def address_of(yard: YardRecord) -> str | None:
    """Return a yard's address with its town, as far as they are known."""
    known = [each for each in (yard.address, yard.town) if each]
    return ", ".join(known) or None


def _said_air(said: str | None) -> float | None:
    """Return a temperature as somebody wrote it in °F: ``68 F``, ``20 °C``, a bare ``68``."""
    figure = _said_figure(said)
    is_celsius = said is not None and said.strip().upper().endswith("C")
    return _fahrenheit(figure) if is_celsius else figure


def _said_figure(said: str | None) -> float | None:
    figure = None if said is None else re.search(r"-?\d+(?:\.\d+)?", said)
    return None if figure is None else float(figure[0])


def _wind(details: RecordDetails) -> str | None:
    return None if details.wind_m_s is None else f"{details.wind_m_s / M_S_PER_MPH:.0f} mph"


def _fahrenheit(value_c: float | None) -> float | None:
    return None if value_c is None else round(float(f_from_c(value_c)), 1)


def _times(value: float | None, factor: float) -> float | None:
    return None if value is None else round(value * factor, 6)


def _iso(day: date | None) -> str | None:
    return None if day is None else day.isoformat()
