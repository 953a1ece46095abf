"""The record: seen, corrected, completed and exported; and what others put down."""

from __future__ import annotations

import re
from datetime import datetime, time
from pathlib import Path
from typing import Any, Final

from bot.hearing.readers.dates import find_when, say_day
from bot.hearing.readers.products import read_product
from bot.hearing.readers.quantities import read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.targets import find_target
from bot.talk.amounts import amount_text
from bot.talk.applying import AMOUNT, is_long_ago, rate_line, weather_at
from bot.talk.naming import find_zones, names_of
from bot.talk.rounds import sight_of
from bot.talk.talk import Talk
from bot.turn import Buttons, Reply, rows
from jobs import exports
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import Target
from jobs.labels import ingredient_rows
from jobs.local_days import local
from jobs.record_details import SAID_FIELDS
from jobs.season_facts import next_half_on
from jobs.uses import amending
from jobs.uses import applications as application_uses
from jobs.uses import recording as uses
from storage import applications, chats, journal, products, yards
from storage.applications import ApplicationRecord
from storage.yards import YardRecord, ZoneRecord

_SHOWN: Final = 5

_EDIT: Final = re.compile(
    r"^(?:change\s+|set\s+)?record\s*#?(?P<number>\d+)?\s+(?P<rest>\S.*)$",
    re.IGNORECASE | re.DOTALL,
)
_EPA: Final = re.compile(
    r"^(?:the\s+)?epa(?:\s*(?:reg(?:istration)?\.?|number|no\.?|#|is))*[\s:.#]*"
    r"(?P<number>\d{1,7}-\d{1,7}(?:-\d{1,7})?)\s*\.?$",
    re.IGNORECASE,
)
_LICENCE: Final = re.compile(
    r"^(?:my\s+)?(?:applicator(?:'s)?\s+)?(?:licen[cs]e|certificate)(?:\s*(?:number|no\.?|#|is))*"
    r"[\s:.#]+(?P<number>[A-Za-z0-9][\w./ -]{1,30})$",
    re.IGNORECASE,
)
_OTHERS: Final = re.compile(
    r"^(?:the\s+|my\s+|our\s+|a\s+)?(?P<who>(?:lawn\s+)?(?:service|company|care\s+company)"
    r"|contractor|landlord|landlady|wife|husband|partner|spouse|neighbou?r|gardener|crew)\s+"
    r"(?:has\s+|have\s+|just\s+)*(?:put\s+(?:it\s+)?down|applied|spread|sprayed|treated)\b"
    r"[\s:,]*(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_ON_ZONES: Final = re.compile(
    r"\b(?:on|to|over|at)\s+(?:the\s+)?(?P<zones>[^\d,]+?)\s*$", re.IGNORECASE
)
_WORDS: Final = frozenset({"record", "records", "log", "history", "the record", "my records"})
#: Words for fields; longer ones are tried first.
_FIELDS: Final = {
    "wind from": "wind_from",
    "wind direction": "wind_from",
    "wind": "wind",
    "sky": "sky",
    "ended": "ended",
    "end": "ended",
    "carrier": "carrier",
    "water volume": "carrier",
    "equipment": "equipment",
    "spreader": "equipment",
    "calibration": "calibration",
    "batch": "batch",
    "lot": "batch",
    "weed": "weed",
    "target": "weed",
    "applicator": "applicator",
    "licence": "licence",
    "license": "licence",
    "posted": "posted",
    "sign": "posted",
    "re-entry": "reentry",
    "reentry": "reentry",
    "notes": "notes",
    "note": "notes",
}


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take what is said about the record; None where a text says nothing of the kind."""
    said = " ".join(text.split())
    if said.casefold().rstrip("?.") in _WORDS:
        return show(talk, yard)
    others = _OTHERS.match(said)
    if others is not None:
        return _by_others(talk, yard, others["who"], others["rest"], said)
    epa = _EPA.match(said)
    if epa is not None:
        return _register(talk, yard, epa["number"])
    licence = _LICENCE.match(said)
    if licence is not None:
        return _license(talk, yard, licence["number"])
    edit = _EDIT.match(said)
    if edit is not None:
        return _edit(talk, yard, edit["number"], edit["rest"])
    return None


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer ``records``: the newest ones, with their numbers."""
    done = applications.of_yard(talk.work, yard.id)
    if not done:
        return [talk.reply("records.none", yard=yard.name)]
    newest = sorted(done, key=lambda each: each.id)[-_SHOWN:]
    lines = [talk.say("records.head", yard=yard.name)]
    lines += [_line(talk, yard, each) for each in newest]
    lines.append(talk.say("records.how", number=newest[-1].id, fields=_field_names(talk)))
    return [Reply("\n".join(lines))]


def export(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /export: CSV, XLSX, a log to print and a calendar."""
    sight = sight_of(talk, yard)
    today = talk.today(yard)
    targets = {
        target: talk.say(f"records.target_{target}")
        for target in (*Target, application_uses.OTHER_TARGET)
    }
    rows_ = uses.log_rows(talk.work, yard, targets)
    headings = {name: talk.say(f"records.heading.{name}") for name in exports.columns()}
    folder = talk.around.files / f"yard-{yard.id}"
    folder.mkdir(parents=True, exist_ok=True)
    stem = folder / f"{_slug(yard.name)}-{today.isoformat()}"
    title = talk.say("records.log_title", yard=yard.name)
    place = talk.say(
        "records.log_place",
        lat=f"{yard.lat:.4f}",
        lon=f"{yard.lon:.4f}",
        zone=yard.timezone,
        day=today.isoformat(),
    )
    law = talk.say("records.log_law")
    made = [
        exports.write_csv(rows_, headings, stem.with_suffix(".csv")),
        exports.write_xlsx(rows_, headings, yard.name, stem.with_suffix(".xlsx")),
        exports.write_pdf(rows_, headings, title, [place, law], stem.with_suffix(".pdf")),
        exports.write_calendar(
            talk.work,
            yard,
            [_item(talk, yard, each) for each in uses.to_come(talk.work, yard, talk.now, sight)],
            talk.say("records.calendar_name", yard=yard.name),
            talk.now,
            stem.with_suffix(".ics"),
        ),
    ]
    lines = [talk.say("records.exported", yard=yard.name, count=len(rows_))]
    missing = uses.missing(talk.work, yard)
    if missing and uses.ask_once(talk.work, talk.chat.id, talk.now):
        lines += [talk.say(f"records.asked_{what}") for what in missing]
    lines.append(talk.say("records.keep_safe"))
    first, *others = made
    return [Reply("\n".join(lines), file=str(first)), *(_file(path) for path in others)]


def _file(path: Path) -> Reply:
    return Reply(path.name, file=str(path))


def _item(talk: Talk, yard: YardRecord, each: uses.ToCome) -> exports.CalendarItem:
    key = f"records.calendar_{each.kind}"
    if each.kind == "window":
        key = f"{key}_{each.target}"
    what = f"{each.kind}.{each.zone or each.target}"
    return exports.CalendarItem(
        what=what,
        year=each.year,
        first=each.first,
        last=each.last,
        summary=talk.say(key, yard=yard.name, zone=each.zone),
        description=talk.say("records.calendar_rough"),
    )


def _edit(talk: Talk, yard: YardRecord, number: str | None, rest: str) -> list[Reply]:
    newest = uses.newest(talk.work, yard)
    if newest is None:
        return [talk.reply("records.none", yard=yard.name)]
    record_id = newest.id if number is None else int(number)
    date_said = re.match(r"(?:date|day|on|was|when)\b[\s:]*(?P<when>.+)$", rest, re.IGNORECASE)
    amount_said = re.match(r"amount\b[\s:]*(?P<amount>.+)$", rest, re.IGNORECASE)
    try:
        if date_said is not None:
            return _redate(talk, yard, record_id, date_said["when"])
        if amount_said is not None:
            return _amend(talk, yard, record_id, amount_said["amount"])
        for word in sorted(_FIELDS, key=len, reverse=True):
            match = re.match(rf"{re.escape(word)}\b[\s:]*(?P<value>.+)$", rest, re.IGNORECASE)
            if match is not None:
                value = match["value"].strip()[:200]
                return _set(talk, yard, record_id, _FIELDS[word], value)
    except uses.NoSuchRecord:
        return [talk.reply("records.no_record", number=record_id, yard=yard.name)]
    said = rest.split()[0]
    fields = _field_names(talk)
    return [talk.reply("records.no_field", said=said, fields=fields, number=record_id)]


def _set(talk: Talk, yard: YardRecord, record_id: int, field: str, value: str) -> list[Reply]:
    done = uses.edit(
        talk.work, yard, record_id, field, value, person_id=talk.person.id, now=talk.now
    )
    before = done.before or talk.say("records.edited_nothing")
    name = talk.say(f"records.field_{field}")
    return [
        talk.reply(
            "records.edited",
            _undo(talk, done.journal_id),
            number=record_id,
            field=name,
            value=value,
            before=before,
        )
    ]


def _amend(talk: Talk, yard: YardRecord, record_id: int, text: str) -> list[Reply]:
    read = read_amount(text)
    if isinstance(read, Unread):
        problem = read.sentence(talk.chat.language)
        return [talk.reply("records.amount_unread", problem=problem)]
    record = uses.record_of(talk.work, yard, record_id)
    try:
        done = amending.set_amount(
            talk.work,
            yard,
            record,
            Amount(read.amount_si, read.unit),
            sight=sight_of(talk, yard),
            person_id=talk.person.id,
            now=talk.now,
        )
    except amending.NoProductOnRecord:
        return [talk.reply("records.amount_no_product", number=record_id)]
    except WeightAgainstVolume as mixed:
        return [talk.reply("applying.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    before = talk.say("records.no_amount")
    if done.before is not None:
        before = amount_text(done.before, talk.unit_system)
    after = amount_text(done.after, talk.unit_system)
    lines = [talk.say("records.amended", number=record_id, amount=after, before=before)]
    lines.append(rate_line(talk, done.achieved, done.planned))
    if done.is_over:
        lines.append(talk.say("records.amended_over"))
    return [Reply("\n".join(lines), _undo(talk, done.journal_id))]


def _redate(talk: Talk, yard: YardRecord, record_id: int, text: str) -> list[Reply]:
    when = find_when(text, talk.said_at(yard))
    if when is None:
        when = Unread(text, "reading.no_such_day", "3 April 5 pm, or yesterday 5 pm")
    if isinstance(when, Unread):
        return [Reply(when.sentence(talk.chat.language))]
    if when.is_future:
        return [talk.reply("records.future", said=when.said)]
    if is_long_ago(when.at, talk.now):
        return [talk.reply("records.long_ago", said=when.said, number=record_id)]
    sight = sight_of(talk, yard)
    done = uses.redate(
        talk.work,
        yard,
        record_id,
        when.at,
        sight=sight,
        person_id=talk.person.id,
        now=talk.now,
    )
    today = talk.today(yard)
    after = local(when.at, yard.timezone).date()
    before = datetime.fromisoformat(done.before or after.isoformat()).date()
    lines = [
        talk.say(
            "records.redated",
            number=record_id,
            on=say_day(after, today),
            before=say_day(before, today),
        )
    ]
    course = None if sight is None else sight.course
    half = next_half_on(talk.work, yard, Target.SUMMER_ANNUALS, talk.now, course)
    if half is not None:
        lines.append(talk.say("records.redated_half", on=say_day(half, today)))
    return [Reply("\n".join(lines), _undo(talk, done.journal_id))]


def _register(talk: Talk, yard: YardRecord, number: str) -> list[Reply]:
    journal_id = uses.register(talk.work, yard, number, person_id=talk.person.id, now=talk.now)
    if journal_id is None or yard.product_id is None:
        return [talk.reply("records.no_product")]
    product = products.product(talk.work, yard.product_id).said
    return [
        talk.reply("records.registered", _undo(talk, journal_id), number=number, product=product)
    ]


def _license(talk: Talk, yard: YardRecord, number: str) -> list[Reply]:
    number = number.strip()
    chats.change_person(talk.work, talk.person.id, licence=number)
    journal_id = journal.note(talk.work, yard.id, "person.licence", talk.person.id, number=number)
    return [talk.reply("records.licensed", _undo(talk, journal_id), number=number)]


#: A time that names no day.
_NO_DAY: Final = re.compile(
    r"\b(?:last|this|past|earlier\s+this)\s+(?:week(?:end)?|month|year|spring|summer|fall|autumn"
    r"|winter|season)\b|\b(?:recently|the\s+other\s+day|a\s+while\s+ago)\b",
    re.IGNORECASE,
)


def _by_others(talk: Talk, yard: YardRecord, who: str, rest: str, said: str) -> list[Reply]:
    zones = yards.zones(talk.work, yard.id)
    now = talk.said_at(yard)
    at = now
    when = find_when(rest, now)
    if isinstance(when, Unread):
        return [Reply(when.sentence(talk.chat.language))]
    if when is not None:
        if when.is_future:
            return [talk.reply("applying.future", said=when.said)]
        if is_long_ago(when.at, now):
            return [talk.reply("records.long_ago_by_others", said=when.said, who=who.casefold())]
        at, rest = when.at, when.rest
        if not when.has_time and when.at.date() != now.date():
            at = datetime.combine(when.at.date(), time(12), tzinfo=now.tzinfo)
    vague = _NO_DAY.search(rest)
    if when is None and vague is not None:
        return [
            talk.reply("applying.unclear", said=vague[0], names=names_of(zones), yard=yard.name)
        ]
    target, rest = find_target(rest)
    named, rest = _zones_at_end(zones, rest.strip(" .,"))
    if not named:
        return [talk.reply("applying.unclear", said=rest, names=names_of(zones), yard=yard.name)]
    kept, amount, problem = _their_product(rest, named)
    if problem is not None:
        return [talk.reply("records.amount_unread", problem=problem)]
    command = application_uses.Confirm(
        zones=named,
        applied_at=at,
        amount=amount,
        said=said,
        is_sure=True,
        target=target,
        by_whom=who.casefold(),
        product=kept,
        is_product_unknown=kept is None,
    )
    done = application_uses.confirm(
        talk.work,
        yard,
        command,
        person_id=talk.person.id,
        now=talk.now,
        sight=sight_of(talk, yard),
        details=weather_at(talk, yard, at),
    )
    on = say_day(done.applied_on, talk.today(yard))
    params = {"yard": yard.name, "who": who, "zones": names_of(named), "on": on}
    if kept is None:
        lines = [talk.say("records.by_others_unknown", zone=named[0].name, **params)]
    else:
        product = " + ".join(part["name"] for part in kept["ingredients"])
        if amount is not None:
            said_amount = amount_text(amount, talk.unit_system)
            product = talk.say("records.amount_of", amount=said_amount, product=product)
        lines = [talk.say("records.by_others", product=product, **params)]
        if amount is None:
            lines.append(talk.say("records.by_others_no_amount"))
    return [Reply("\n".join(lines), _undo(talk, done.journal_id))]


def _zones_at_end(zones: list[ZoneRecord], text: str) -> tuple[list[ZoneRecord], str]:
    """Return the zones named at the end of a text (all of them where none is), and the rest."""
    match = _ON_ZONES.search(text)
    if match is not None:
        named, leftover = find_zones(zones, match["zones"])
        if named:
            return named, f"{text[: match.start()].strip(' ,')} {leftover}".strip()
    named, leftover = find_zones(zones, text)
    if named and not leftover:
        return named, ""
    return [zone for zone in zones if zone.is_treated], text


def _their_product(
    text: str, zones: list[ZoneRecord]
) -> tuple[dict[str, Any] | None, Amount | None, str | None]:
    """Return what others put down as a product's snapshot, the amount in all, and any problem."""
    names = [item.names[0] for item in ingredients().values()]
    amount: Amount | None = None
    read = read_product(text, names)
    area_m2 = sum(zone.treated_m2 for zone in zones)
    rate = read.rate
    if rate is not None and not read.is_rate_of_ingredient:
        amount = amount_for(area_m2, rate)
    else:
        found = AMOUNT.search(text)
        if found is not None:
            said = re.sub(r"\s+of$", "", found[0], flags=re.IGNORECASE)
            total = read_amount(said)
            if isinstance(total, Unread):
                return None, None, total.sentence()
            amount = Amount(total.amount_si, total.unit)
            unit = "kg/ha" if amount.dimension == "mass" else "L/ha"
            rate = Rate(amount.si / area_m2 * 1e4, unit)
            read = read_product(text.replace(found[0], " "), names)
    if not read.ingredients:
        return None, None, None
    kept: dict[str, Any] = {
        "said": text,
        "form": read.form or "granule",
        "ingredients": ingredient_rows(read.ingredients),
        "rate_value": None if rate is None else rate.value,
        "rate_unit": "lb/1000 sq ft" if rate is None else rate.unit,
        "maxima": [],
    }
    return kept, amount, None


def _line(talk: Talk, yard: YardRecord, each: ApplicationRecord) -> str:
    total = sum(share.amount_si or 0.0 for share in each.shares)
    unit = each.shares[0].amount_unit if each.shares else None
    amount = talk.say("records.no_amount")
    if total and unit is not None:
        amount = amount_text(Amount(total, unit), talk.unit_system)
    return talk.say(
        "records.line",
        number=each.id,
        on=say_day(each.applied_on, talk.today(yard)),
        zones=", ".join(share.zone_name for share in each.shares),
        amount=amount,
        by="" if each.by_whom is None else talk.say("records.line_by", who=each.by_whom),
    )


def _field_names(talk: Talk) -> str:
    return ", ".join(talk.say(f"records.field_{name}") for name in SAID_FIELDS)


def _undo(talk: Talk, journal_id: int) -> Buttons:
    return rows([(talk.say("applying.button_undo"), f"undo:{journal_id}")])


def _slug(name: str) -> str:
    return re.sub(r"[^a-z0-9]+", "-", name.casefold()).strip("-") or "yard"
