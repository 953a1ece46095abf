"""Applied: what is down, where, when and how much; and the water after it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from typing import Final

from bot.hearing.readers.dates import WhenRead, find_when, say_day
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.hearing.readers.quantities import read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.readings import read_depth, read_duration
from bot.hearing.readers.targets import find_target
from bot.saying.figures import say_area, say_depth, say_rate
from bot.talk import watering
from bot.talk import zones as zone_talk
from bot.talk.amounts import amount_text
from bot.talk.labelling import foliar_of
from bot.talk.naming import find_zones, names_of
from bot.talk.rounds import sight_of
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs import cells
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.ledger import TooManyApplications, TooSoon, UseUnknown
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import State, Target
from jobs.local_days import local, season_day
from jobs.record_details import RecordDetails, weather_then
from jobs.rounds import belongs_to
from jobs.season_facts import round_of
from jobs.sources.base import Cell
from jobs.turf_limits import fit, room
from jobs.uses import applications as uses
from jobs.uses import watering as watering_uses
from jobs.weather_of_day import water_terms
from storage import seasons, yards
from storage.yards import YardRecord, ZoneRecord

SURE_TOPIC: Final = "applying.sure"

#: A report of something older than this is taken for a slip of the year.
_LONG_AGO: Final = timedelta(days=6 * 365)
#: More water than this at once is a slip of the decimal point [mm]: 4 in.
_FLOOD_MM: Final = 101.6

_BEFORE: Final = (
    r"^(?:(?:i|we|i've|we've|i\s+have|we\s+have|have|just|only|also|already|finally|it\s+is|it's|is)"
    r"\s+)*"
)
_REPORT: Final = re.compile(
    rf"{_BEFORE}"
    r"(?:ap+l(?:ie|e|i|y|ye|yie)d|application|put\s+(?:it\s+)?down|spread|sprayed|treated|it\s+is\s+down"
    r"|did\s+(?:it|them)|(?<=\bi\s)put(?:\s+out)?|(?<=\bwe\s)put(?:\s+out)?"
    r"|(?:(?<=\bi\s)|(?<=\bwe\s)|(?<=only\s)|(?<=just\s)|(?<=also\s))did(?!\s+(?:not|n't)))"
    r"\b[\s:,]*"
    r"(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_WATERED: Final = re.compile(
    rf"{_BEFORE}(?:watered|irrigated|sprinkled)"
    r"(?:\s+(?:it|everything|all))?(?:\s+in)?\b[\s:,]*(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_DEPTH: Final = re.compile(
    r"(?:for\s+)?(?:(?:half|quarter)\s+(?:an?\s+)?|[\d½¼¾⅓⅔][\d.,/½¼¾⅓⅔ ]*\s*)"
    r"(?:inch(?:es)?\b|in\b|\"|″|mm\b|cm\b|min(?:ute)?s?\b|hours?\b|h\b)",
    re.IGNORECASE,
)
AMOUNT: Final = re.compile(
    r"(?<![\w.])\d[\d.,/½¼¾]*\s*(?:fl\.?\s*oz|fluid\s+ounces?|pounds?|lbs?|ounces?|oz|kilos?|kg"
    r"|grams?|g|ml|millilit\w+|l|lit(?:re|er)s?|gal(?:lons?)?|quarts?|qt|pints?|pt)\b"
    r"(?:\s+\d[\d.]*\s*(?:ounces?|oz)\b)?(?:\s+of\b)?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class _Report:
    zones: list[ZoneRecord]
    at: datetime
    amount: AmountSaid | None
    target: Target | None = None


def is_report(text: str) -> bool:
    """Tell whether a text says that something was applied."""
    return _REPORT.match(text.strip()) is not None


def is_watering(text: str) -> bool:
    """Tell whether a text says that something was watered."""
    return _WATERED.match(text.strip()) is not None


def is_long_ago(at: datetime, now: datetime) -> bool:
    """Tell whether something said to be down since then is likelier a slip of the year."""
    return now - at > _LONG_AGO


def report(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Take a report in words, such as ``applied 3.2 lb on the strip yesterday 5 pm``."""
    match = _REPORT.match(text.strip())
    rest = text if match is None else match["rest"]
    zones = yards.zones(talk.work, yard.id)
    if not zones:
        return zone_talk.show(talk, yard, "")
    read = _read(talk, yard, zones, rest)
    if isinstance(read, Reply):
        return [read]
    return _confirm(talk, yard, read, said=text, is_sure=False)


def confirm_all(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [It is down]: every zone still to do in this round."""
    return report(talk, yard, "applied")


def confirm_again(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Yes, again] after an application so lately that it was asked about."""
    if talk.topic != SURE_TOPIC:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    data = talk.data
    talk.settle()
    zones = [zone for zone in yards.zones(talk.work, yard.id) if zone.id in data["zones"]]
    if not zones:
        return [talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))]
    amount = None if data["amount"] is None else AmountSaid(*data["amount"])
    target = None if data.get("target") is None else Target(data["target"])
    read = _Report(zones, datetime.fromisoformat(data["at"]), amount, target)
    return _confirm(talk, yard, read, said=data["said"], is_sure=True)


def confirm_not(talk: Talk) -> list[Reply]:
    """Answer [No] after being asked about a second application."""
    number, amount = talk.data.get("record"), talk.data.get("amount")
    talk.settle()
    if number is None or amount is None:
        return [talk.reply("applying.left_out")]
    said = f"{figures(amount[0])} {amount[1]}"
    return [talk.reply("applying.left_out_amend", number=number, amount=said)]


def watered(talk: Talk, yard: YardRecord, text: str) -> list[Reply]:
    """Take a report of watering, such as ``watered 0.5 in``."""
    match = _WATERED.match(text.strip())
    rest = "" if match is None else match["rest"]
    now = talk.said_at(yard)
    on = now.date()
    when = find_when(rest, now)
    if isinstance(when, WhenRead):
        if when.is_future:
            return [talk.reply("applying.water_future", said=when.said)]
        rest, on = when.rest, when.at.date()
    rest = rest.rstrip(" .,!").lstrip(" ,")
    named, rest = _watered_zones(talk, yard, rest)
    dry = _waiting_elsewhere(talk, yard, named) if named else []
    if dry:
        zones, others = names_of(named), ", ".join(dry)
        return [talk.reply("applying.water_zones", zones=zones, others=others)]
    depth_mm = None
    if rest:
        depth = _depth_of_minutes(talk, yard, rest) or read_depth(rest)
        if isinstance(depth, Reply):
            return [depth]
        if isinstance(depth, Unread):
            return [talk.reply("applying.water_unread", problem=depth.sentence(talk.chat.language))]
        depth_mm = depth * 1000
        if depth_mm > _FLOOD_MM:
            return [talk.reply("applying.water_much", depth=say_depth(depth, talk.unit_system))]
    held = cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    try:
        done = uses.record_watering(
            talk.work,
            yard,
            depth_mm,
            None if held is None else held.known,
            on=on,
            person_id=talk.person.id,
            now=talk.now,
        )
    except uses.NothingToWaterIn:
        return [talk.reply("applying.nothing_to_water", yard=yard.name)]
    except uses.WateredBefore as before:
        today = now.date()
        day, applied = say_day(on, today), say_day(before.applied_on, today)
        return [talk.reply("applying.watered_before", day=day, applied=applied)]
    key = "applying.watered_in" if done.is_watered_in else "applying.watered_some"
    missing_mm = max(0.0, done.wanted_mm - done.had_mm)
    lines = [
        talk.say(
            key,
            yard=yard.name,
            added=say_depth(done.added_mm / 1000, talk.unit_system),
            had=say_depth(done.had_mm / 1000, talk.unit_system),
            missing=say_depth(missing_mm / 1000, talk.unit_system),
        )
    ]
    if not done.is_watered_in:
        lines.append(watering.missing_words(talk, yard, missing_mm))
    button = (talk.say("applying.button_undo"), f"undo:{done.journal_id}")
    return [Reply("\n".join(line for line in lines if line), rows([button]))]


def _watered_zones(talk: Talk, yard: YardRecord, text: str) -> tuple[list[ZoneRecord], str]:
    """Return the zones a report of watering names beside its depth, and the text without them."""
    depth = _DEPTH.search(text)
    around = text if depth is None else f"{text[: depth.start()]} {text[depth.end() :]}"
    named, leftover = find_zones(yards.zones(talk.work, yard.id), around)
    if not named or leftover:
        return [], text
    return named, "" if depth is None else depth[0]


def _waiting_elsewhere(talk: Talk, yard: YardRecord, named: list[ZoneRecord]) -> list[str]:
    """Return zones that wait for water too and are not named: water counts for a whole yard."""
    names = {zone.name.casefold() for zone in named}
    waiting = uses.waiting_for_water(talk.work, yard, talk.today(yard))
    found = (share.zone_name for done in waiting for share in done.shares)
    return list(dict.fromkeys(name for name in found if name.casefold() not in names))


def _depth_of_minutes(talk: Talk, yard: YardRecord, text: str) -> float | Reply | None:
    """Return the depth of ``20 min`` [m], or a question; None where the text is no time."""
    span = read_duration(re.sub(r"^for\s+", "", text, flags=re.IGNORECASE))
    if isinstance(span, Unread):
        return None
    minutes = span.total_seconds() / 60
    depth_mm = watering_uses.depth_of_minutes(talk.work, yard, minutes)
    if depth_mm is None:
        return talk.reply("watering.minutes_unknown", minutes=f"{minutes:.0f}")
    return depth_mm / 1000


def weather_at(talk: Talk, yard: YardRecord, at: datetime) -> RecordDetails:
    """Return the weather of an hour at a yard, for the record."""
    held = cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    return weather_then(held, at, yard.timezone)


def _read(talk: Talk, yard: YardRecord, zones: list[ZoneRecord], rest: str) -> _Report | Reply:
    now = talk.said_at(yard)
    at = now
    when = find_when(rest, now)
    if isinstance(when, Unread):
        return Reply(when.sentence(talk.chat.language))
    if when is not None:
        if when.is_future:
            return talk.reply("applying.future", said=when.said)
        if is_long_ago(when.at, now):
            return talk.reply("applying.long_ago", said=when.said)
        at, rest = when.at, when.rest
        if not when.has_time and when.at.date() != now.date():
            at = datetime.combine(when.at.date(), time(12), tzinfo=now.tzinfo)
    amount = None
    found = AMOUNT.search(rest)
    if found is not None:
        said = re.sub(r"\s+of$", "", found[0], flags=re.IGNORECASE)
        read = read_amount(said)
        if isinstance(read, Unread):
            return Reply(read.sentence(talk.chat.language))
        amount = read
        rest = rest[: found.start()] + " " + rest[found.end() :]
    target, rest = find_target(rest)
    named, leftover = find_zones(zones, rest)
    if leftover:
        return talk.reply("applying.unclear", said=leftover, names=names_of(zones), yard=yard.name)
    if not named:
        named = _still_to_do(talk, yard, zones)
    return _Report(named, at, amount, target)


def _still_to_do(talk: Talk, yard: YardRecord, zones: list[ZoneRecord]) -> list[ZoneRecord]:
    treated = [zone for zone in zones if zone.is_treated]
    target, _ = belongs_to(talk.work, yard, talk.today(yard))
    season = seasons.season(talk.work, yard.id, target)
    if season is not None and season.state == State.APPLIED:
        return treated
    today = talk.today(yard)
    ids = round_of(talk.work, yard, target, season_day(today, yard.lat)).zones
    remaining = [zone for zone in treated if zone.id in ids] or treated
    # What the grass or the label forbids got nothing.
    with_room = list(room(talk.work, yard, remaining, today).zones)
    return with_room or fit(talk.work, yard, remaining, today) or remaining


def _confirm(
    talk: Talk, yard: YardRecord, read: _Report, *, said: str, is_sure: bool
) -> list[Reply]:
    amount = None
    if read.amount is not None:
        amount = Amount(read.amount.amount_si, read.amount.unit)
    command = uses.Confirm(read.zones, read.at, amount, said, is_sure, read.target)
    most_si = None if amount is not None else _most_si(talk, yard, read)
    try:
        done = uses.confirm(
            talk.work,
            yard,
            command,
            person_id=talk.person.id,
            now=talk.now,
            sight=sight_of(talk, yard),
            details=weather_at(talk, yard, read.at),
        )
    except uses.AlreadyApplied as again:
        talk.expect(
            SURE_TOPIC,
            zones=[zone.id for zone in read.zones],
            at=read.at.isoformat(),
            amount=None if read.amount is None else [read.amount.value, read.amount.unit],
            said=said,
            target=read.target,
            record=again.record_id,
        )
        return [
            talk.reply(
                "applying.again",
                rows(
                    [
                        (talk.say("applying.button_again"), f"apply:again:{yard.id}"),
                        (talk.say("applying.button_not"), f"apply:not:{yard.id}"),
                    ]
                ),
                zones=", ".join(again.zones),
                on=say_day(again.on, talk.today(yard)),
            )
        ]
    except WeightAgainstVolume as mixed:
        return [talk.reply("applying.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    if talk.topic is not None:
        talk.settle()
    return [_recorded(talk, yard, done, most_si)]


def _most_si(talk: Talk, yard: YardRecord, read: _Report) -> float | None:
    """Return the most the label allowed there before [kg or L]; None: no limit, or none left."""
    on = local(read.at, yard.timezone).date()
    allowed = room(talk.work, yard, read.zones, on)
    if allowed.most is None or len(allowed.zones) < len(read.zones):
        return None
    return amount_for(sum(zone.treated_m2 for zone in read.zones), allowed.most).si


def _recorded(
    talk: Talk, yard: YardRecord, done: uses.Confirmed, most_si: float | None = None
) -> Reply:
    today = talk.today(yard)
    lines = [
        talk.say(
            "applying.recorded" if done.amount is None else "applying.recorded_amount",
            yard=yard.name,
            zones=", ".join(done.zones),
            area=say_area(done.area_m2, talk.unit_system),
            on=say_day(done.applied_on, today),
            amount=""
            if done.amount is None
            else amount_text(done.amount, talk.unit_system, most_si),
        )
    ]
    if done.over is not None:
        limit = f"{done.over.limit:.3g} {done.over.unit.replace('/', ' per ')}"
        key = "applying.over_with_earlier" if done.over.used else "applying.over"
        used = f"{done.over.used:.3g} {done.over.unit.replace('/', ' per ')}"
        lines.append(talk.say(key, limit=limit, used=used))
    elif done.achieved is not None and done.planned is not None:
        lines.append(rate_line(talk, done.achieved, done.planned))
    if done.planned is None:
        lines.append(talk.say("applying.no_product"))
    lines += _doubt_lines(talk, done, today)
    if done.open_zones:
        lines.append(talk.say("applying.still_open", zones=", ".join(done.open_zones)))
    leafy = foliar_of(talk, done.application_id)
    if leafy:
        # Wet leaves and no water for a day against water-in: the label's order, no advice of ours.
        lines.append(talk.say("labels.foliar_recorded", names=leafy))
        return _with_end(talk, yard, done, lines)
    if done.water_in_by >= today:
        wanted = water_terms(talk.work, yard).depth_mm
        water = say_depth(wanted / 1000, talk.unit_system)
        by = say_day(done.water_in_by, today)
        lines.append(talk.say("applying.water_in", depth=water, by=by))
        lines += watering.after_application(talk, yard, done.application_id)
    return _with_end(talk, yard, done, lines)


def rate_line(talk: Talk, achieved: Rate, planned: Rate) -> str:
    """Say how the rate that was put down compares with the one planned."""
    share = achieved.rate_si / planned.rate_si - 1
    key = "over" if share > 0.05 else ("under" if share < -0.05 else "right")
    percent = f"{abs(share) * 100:.0f}"
    return talk.say(f"applying.rate_{key}", planned=say_rate(planned), percent=percent)


def _doubt_lines(talk: Talk, done: uses.Confirmed, today: date) -> list[str]:
    """Return what else the label has against what is down, beside its maxima."""
    match done.doubt:
        case TooSoon() as soon:
            day, last = say_day(soon.allowed_from, today), say_day(soon.last, today)
            return [talk.say("applying.too_soon", day=day, last=last)]
        case TooManyApplications() as many:
            return [talk.say("applying.too_many", limit=many.limit)]
        case UseUnknown() as unknown:
            entry = unknown.entries[0]
            day = say_day(entry.day, today)
            return [talk.say("applying.unchecked", day=day, zone=entry.zone)]
    return []


def _with_end(talk: Talk, yard: YardRecord, done: uses.Confirmed, lines: list[str]) -> Reply:
    today = talk.today(yard)
    if not done.is_of_a_round:
        lines.append(talk.say("applying.for_no_round"))
    elif done.target == Target.WINTER_ANNUALS:
        lines.append(talk.say("applying.for_late_summer"))
    elif done.year > season_day(done.applied_on, yard.lat).year:
        lines.append(talk.say("applying.for_next_spring", year=done.year))
    half = done.next_half
    if half is not None and not half.is_allowed:
        lines.append(talk.say("applying.half_capped"))
    elif half is not None and half.on > today:
        lines.append(talk.say("applying.next_half", on=say_day(half.on, today)))
    lines.append(talk.say("applying.caution"))
    button = (talk.say("applying.button_undo"), f"undo:{done.journal_id}")
    return Reply("\n".join(lines), rows([button]))
