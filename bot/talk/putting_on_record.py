"""A report put on record: with its weather, its parts and what is strange about it asked first."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field, replace
from datetime import datetime, timedelta
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.hearing.readers.times import ended_in
from bot.saying.values import Area, Day, LabelRate, Names
from bot.telling import second_passes, work_hours, zones_out
from bot.telling.applied_said import recorded
from bot.telling.rounds_said import sight_of
from bot.turn import Reply, rows
from jobs import packed_cells
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.rates import WeightAgainstVolume
from jobs.agronomy.season import Target
from jobs.local_days import local
from jobs.record_details import RecordDetails, weather_then
from jobs.sources.base import Cell
from jobs.turf_limits import room
from jobs.uses import confirming as uses
from jobs.uses import filling_records
from jobs.uses.parts import Part, PartTooLarge, PartUnknown
from jobs.uses.strange import (
    AfterEmergence,
    AppliedAgain,
    FarOff,
    LongAgo,
    LongBefore,
    Oddity,
    Strange,
)
from storage.yards import YardRecord, ZoneRecord

#: A report of something older than this is taken for a slip of the year.
_LONG_AGO: Final = timedelta(days=6 * 365)


@dataclass(frozen=True, slots=True)
class Report:
    """What went down where and when, as far as it was said."""

    zones: list[ZoneRecord]
    at: datetime
    amount: AmountSaid | None
    target: Target | None = None
    parts: dict[int, Part] = field(default_factory=dict)
    is_first_pass: bool = False
    has_hour: bool = True


def is_long_ago(at: datetime, now: datetime) -> bool:
    """Tell whether something said to be down since then is likelier a slip of the year."""
    return now - at > _LONG_AGO


def confirm_part(
    talk: Talk,
    yard: YardRecord,
    zone: ZoneRecord,
    part: Part | None,
    amount: AmountSaid | None,
    *,
    is_first_pass: bool = False,
) -> list[Reply]:
    """Answer a button that puts a part of a zone on record; None: all that is left of it."""
    parts = {} if part is None else {zone.id: part}
    read = Report([zone], talk.said_at(yard), amount, parts=parts, is_first_pass=is_first_pass)
    return confirm(talk, yard, read, said="applied", is_sure=False)


def weather_at(
    talk: Talk, yard: YardRecord, at: datetime, *, has_hour: bool = True
) -> RecordDetails:
    """Return the weather of an hour at a yard for the record; of the day where none was said."""
    held = packed_cells.held(talk.work, talk.around.source, Cell.at(yard.lat, yard.lon))
    if has_hour or held is None:
        return weather_then(held, at, yard.timezone)
    of_day = weather_then(replace(held, hourly=None), at, yard.timezone)
    return replace(of_day, is_hour_open=True)


def _details(talk: Talk, yard: YardRecord, command: uses.Confirm) -> RecordDetails:
    """Return what a record can be given unasked: the weather of its hour, and the machine."""
    weather = weather_at(talk, yard, command.applied_at, has_hour=command.has_hour)
    begun = local(command.applied_at, yard.timezone)
    ended = ended_in(command.said, begun.hour * 60 + begun.minute) if command.has_hour else None
    if ended is not None:
        weather = replace(weather, ended=f"{ended // 60:02}:{ended % 60:02}")
    elif talk.turn.tap is not None and talk.now - command.applied_at <= work_hours.A_TICK:
        # Who taps that it is done has just finished; another hour can be said.
        weather = replace(weather, ended=f"{local(talk.now, yard.timezone):%H:%M}")
    if command.by_whom is not None:
        return weather
    # How much of a part was covered is settled with the report: its carrier is left open.
    area_m2 = 0.0 if command.parts else sum(zone.treated_m2 for zone in command.zones)
    return filling_records.with_machine(talk.work, yard, weather, area_m2)


def confirm(talk: Talk, yard: YardRecord, read: Report, *, said: str, is_sure: bool) -> list[Reply]:
    """Put a report on record and say so; ask first about what is strange, unless they are sure."""
    amount = None
    if read.amount is not None:
        amount = Amount(read.amount.amount_si, read.amount.unit)
    command = uses.Confirm(
        read.zones,
        read.at,
        amount,
        said,
        is_sure,
        read.target,
        parts=read.parts,
        is_first_pass=read.is_first_pass,
        has_hour=read.has_hour,
    )
    most_si = None if amount is not None else _most_si(talk, yard, read)
    try:
        done = put_on_record(talk, yard, command)
    except Strange as strange:
        again = next((e for e in strange.oddities if isinstance(e, AppliedAgain)), None)
        talk.expect(
            topics.APPLY_SURE,
            zones=[zone.id for zone in read.zones],
            at=read.at.isoformat(),
            amount=None if read.amount is None else [read.amount.value, read.amount.unit],
            said=said,
            target=read.target,
            parts={zone_id: asdict(part) for zone_id, part in read.parts.items()},
            is_first_pass=read.is_first_pass,
            has_hour=read.has_hour,
            record=None if again is None else again.record_id,
        )
        which = ("right", "wrong") if again is None else ("again", "not")
        yes, no = (talk.say(f"applying.button_{each}") for each in which)
        lines = [strange_line(talk, yard, each) for each in strange.oddities]
        buttons = rows([(yes, f"apply:again:{yard.id}"), (no, f"apply:not:{yard.id}")])
        if again is not None and amount is None:
            # "I only did the front", of all that is on record, may put that right.
            part = zones_out.of_newest(talk, yard, read.zones, are_kept=True)
            buttons += () if part is None else zones_out.button(talk, yard, part)
        return [Reply("\n".join(lines), buttons)]
    except WeightAgainstVolume as mixed:
        return [talk.reply("applying.wrong_kind", said=mixed.unit, wanted=mixed.other)]
    if isinstance(done, Reply):
        return [done]
    if talk.topic is not None and talk.topic != topics.WHICH_DAY:
        talk.settle()
    reply = recorded(talk, yard, done, most_si, is_first_pass=read.is_first_pass)
    to_come = second_passes.buttons(talk, yard) if read.is_first_pass else ()
    return [replace(reply, buttons=(*to_come, *reply.buttons))]


def put_on_record(talk: Talk, yard: YardRecord, command: uses.Confirm) -> uses.Confirmed | Reply:
    """Put a report on record with its weather; return a question where a part is not clear.

    Raises
    ------
    Strange, WeightAgainstVolume
        As `uses.confirm` does.
    """
    try:
        return uses.confirm(
            talk.work,
            yard,
            command,
            person_id=talk.person.id,
            now=talk.now,
            sight=sight_of(talk, yard),
            details=_details(talk, yard, command),
        )
    except PartTooLarge as part:
        area, of = (Area(m2) for m2 in (part.area_m2, part.of_m2))
        return talk.reply("applying.part_too_large", area=area, zone=part.zone, of=of)
    except PartUnknown as part:
        return talk.reply("applying.part_how_much", zone=part.zone)


def strange_line(talk: Talk, yard: YardRecord, oddity: Oddity) -> str:
    """Say what is strange about a report, with its figure, and ask."""
    today = talk.today(yard)
    match oddity:
        case AppliedAgain(zones, on, _):
            return talk.say("applying.again", zones=Names(zones), on=Day(on, today))
        case LongBefore(expected_on, days):
            day = Day(expected_on, today)
            return talk.say("applying.strange_early", day=day, days=days)
        case AfterEmergence(expected_on, days):
            day = Day(expected_on, today)
            return talk.say("applying.strange_late", day=day, days=days)
        case FarOff(_, label, times):
            share = f"{times:.0f}" if times >= 1 else f"{times:.2f}"
            return talk.say("applying.strange_rate", times=share, label=LabelRate.of_rate(label))
        case LongAgo(on, days):
            return talk.say("applying.strange_long_ago", day=Day(on, today), days=days)


def _most_si(talk: Talk, yard: YardRecord, read: Report) -> float | None:
    """Return the most the label allowed there before [kg or L]; None: no limit, or none left."""
    on = local(read.at, yard.timezone).date()
    allowed = room(talk.standing(yard), read.zones, on)
    if allowed.most is None or len(allowed.zones) < len(read.zones):
        return None
    return amount_for(sum(zone.treated_m2 for zone in read.zones), allowed.most).si
