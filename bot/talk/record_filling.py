"""A record filled in: many fields in one message, in one record or all of a season."""

from __future__ import annotations

from datetime import datetime, time
from typing import Final

from bot.dialogue import rights
from bot.dialogue.talk import Talk
from bot.hearing.forms.notice_forms import PostingSaid
from bot.hearing.forms.record_fields import FieldsSaid
from bot.hearing.forms.record_forms import UnderSaid
from bot.hearing.readers.times import read_time_of_day
from bot.letters.letter_facts import rule_lines
from bot.saying.values import Names
from bot.telling.rounds_said import sight_of
from bot.turn import Reply
from jobs.local_days import local, zone
from jobs.uses import filling_records as uses
from jobs.uses import recording
from jobs.uses.keeping_wishes import change_chat
from storage import wishes
from storage.yards import YardRecord

#: Fields that hold for more than the record: the yard's own, and the product's.
_OF_MORE: Final = frozenset({*uses.OF_THE_YARD, "registration"})


def fill(talk: Talk, yard: YardRecord, said: FieldsSaid) -> list[Reply]:
    """Set the fields that were said; of all records those that lack them."""
    if said.is_all:
        mine = [each for each in talk.yards() if talk.may(each, "confirm")]
        count = uses.fill_all(talk.work, mine, dict(said.fields), now=talk.now)
        names = _named(talk, said.fields)
        text = talk.say("records.filled_all", count=count, fields=names)
        return [Reply("\n".join([text, *_unplaced(talk, said)]), talk.undo())]
    if _OF_MORE & dict(said.fields).keys() and not talk.may(yard, "change"):
        return rights.refuse(talk, yard)
    newest = recording.newest(talk.work, yard)
    if newest is None:
        return [talk.reply("records.none", yard=yard.name)]
    number = newest.id if said.number is None else said.number
    try:
        record = recording.record_of(talk.work, yard, number)
        fields = dict(said.fields)
        started = _clock(fields.pop("started", None))
        if started is not None:
            day = local(record.applied_at, yard.timezone).date()
            at = datetime.combine(day, started, tzinfo=zone(yard.timezone))
            recording.redate(
                talk.work,
                yard,
                number,
                at,
                sight=sight_of(talk, yard),
                person_id=talk.person.id,
                now=talk.now,
            )
            recording.hour_known(talk.work, yard, number)
        done = uses.fill(talk.work, yard, number, fields)
    except recording.NoSuchRecord:
        return [talk.reply("records.no_record", number=number, yard=yard.name)]
    named = {"number": number, "yard": yard.name, "fields": _named(talk, said.fields)}
    lines = [talk.say("records.filled", **named)]
    if done.before:
        before = tuple((name, value) for name, value in done.before.items())
        lines.append(talk.say("records.filled_before", fields=_named(talk, before)))
    return [Reply("\n".join([*lines, *_unplaced(talk, said)]), talk.undo())]


def _unplaced(talk: Talk, said: FieldsSaid) -> list[str]:
    """Return that pieces of the message are in no field."""
    if not said.unread:
        return []
    return [talk.say("records.unplaced", said=Names(said.unread))]


def works_under(talk: Talk, yard: YardRecord, said: UnderSaid) -> list[Reply]:
    """Keep under whom, and under which licence, somebody works."""
    uses.works_under(talk.work, yard, talk.person.id, said.name, said.licence)
    key = "records.under" if said.licence is not None else "records.under_no_licence"
    return [talk.reply(key, talk.undo(), name=said.name, licence=said.licence or "")]


def ask_lines(talk: Talk, mine: list[YardRecord]) -> list[str]:
    """Return the question for what this year's records lack; once a season."""
    missing = uses.missing(talk.work, mine, talk.now)
    if not missing or not recording.ask_once(talk.work, talk.chat.id, talk.now):
        return []
    apart = [each for each in missing if each in ("registration", "licence")]
    lines = [talk.say(f"records.asked_{each}") for each in apart]
    names = [
        talk.say("records.wind_direction" if each == "wind_from" else f"records.field_{each}")
        for each in missing
        if each not in apart
    ]
    return [*lines, talk.say("records.asked_all", fields=Names(names))] if names else lines


def _named(talk: Talk, fields: tuple[tuple[str, str], ...]) -> Names:
    return Names(
        [
            talk.say("records.filled_field", field=talk.say(f"records.field_{name}"), value=value)
            for name, value in fields
        ]
    )


def _clock(said: str | None) -> time | None:
    minutes = None if said is None else read_time_of_day(said)
    return time(minutes // 60 % 24, minutes % 60) if isinstance(minutes, int) else None


def keep_rule(talk: Talk, yard: YardRecord, said: PostingSaid) -> list[Reply]:
    """Keep what somebody says their state asks for, beside what they said before."""
    is_none = not said.signs and said.hours is None
    before = wishes.of_chat(talk.work, talk.chat.id)
    signs = not is_none and (said.signs or before.posts_signs)
    hours = None if is_none else said.hours or before.notice_hours
    change_chat(
        talk.work, yard, talk.chat.id, {"posts_signs": signs, "notice_hours": hours}, now=talk.now
    )
    if is_none:
        return [talk.reply("notices.rule_none")]
    lines = [talk.say("notices.rule_kept"), *rule_lines(signs, hours)]
    if hours is not None:
        lines.append(talk.say("notices.rule_words"))
    return [Reply("\n".join(lines))]
