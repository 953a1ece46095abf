"""Sharing: somebody named is to help; and who did what, from the record."""

from __future__ import annotations

from typing import Final

from bot.dialogue import rights
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.heard import ActHeard
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Names
from bot.telling import crew_told
from bot.turn import Reply, rows
from jobs.local_days import local
from jobs.uses.crew_changes import INVITED_FOR, ROLES
from storage.applications import ApplicationRecord
from storage.crews import person_names
from storage.yards import YardRecord, ZoneRecord

#: Records told at most; more is in the export.
_MOST: Final = 6
#: A name is shown up to so many letters.
_LONGEST_NAME: Final = 30


def on_share(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say how to invite whoever was named, by role; without a name show the crew."""
    named = " ".join((heard.slots.person or heard.slots.name or "").split())
    if not named:
        return crew_told.show(talk, yard)
    if talk.role(yard) != OWNER:
        return rights.refuse(talk, yard)
    if not talk.turn.runs_chat:
        return [talk.reply("crews.admins_only")]
    name = named if len(named) <= _LONGEST_NAME else f"{named[: _LONGEST_NAME - 1]}…"
    lines = [talk.say("sharing.invite", name=name, yard=yard.name)]
    lines += [talk.say(f"sharing.role_{role}") for role in ROLES]
    lines.append(talk.say("sharing.how", days=INVITED_FOR.days))
    if talk.turn.is_group:
        lines.append(talk.say("crews.group"))
    buttons = [
        [(talk.say(f"crews.button_invite_{role}"), f"crew:invite:{yard.id}:{role}")]
        for role in ROLES
    ]
    return [Reply("\n".join(lines), rows(*buttons))]


def on_ask_who(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Say who did what at the zones asked about, newest first."""
    slots = heard.slots
    zones = zones_said(talk.standing(yard).zones, slots)
    done = list(talk.standing(yard).done[::-1])
    if zones:
        done = [each for each in done if _is_on(each, zones)]
    if slots.on is not None:
        asked = local(slots.on.at, yard.timezone).date()
        done = [each for each in done if each.applied_on == asked]
    names = person_names(talk.work, {each.person_id for each in done})
    if slots.person is not None:
        wanted = slots.person.casefold()
        theirs = [each for each in done if wanted in _who(talk, each, names).casefold()]
        done = theirs or done
    where = names_of(zones) or yard.name
    if not done:
        return [talk.reply("sharing.who_none", where=where)]
    lines = [talk.say("sharing.who_head", where=where)]
    lines += [_line(talk, yard, each, names, zones) for each in done[:_MOST]]
    if len(done) > _MOST:
        lines.append(talk.say("sharing.who_more", count=len(done) - _MOST))
    return [Reply("\n".join(lines))]


def _line(
    talk: Talk,
    yard: YardRecord,
    done: ApplicationRecord,
    names: dict[int, str],
    zones: list[ZoneRecord],
) -> str:
    """Return one application: day, who, zones, and what these zones got of it."""
    asked = {zone.name.casefold() for zone in zones}
    shares = [each for each in done.shares if not asked or each.zone_name.casefold() in asked]
    amount: object = talk.say("records.no_amount")
    known = [each.amount_si for each in shares if each.amount_si is not None]
    unit = shares[0].amount_unit if shares else None
    if unit is not None and len(known) == len(shares):
        amount = Quantity(sum(known), unit)
    return talk.say(
        "sharing.who_line",
        on=Day(done.applied_on, talk.today(yard)),
        who=_who(talk, done, names),
        zones=Names([each.zone_name for each in shares]),
        amount=amount,
    )


def _who(talk: Talk, done: ApplicationRecord, names: dict[int, str]) -> str:
    """Return who put it down: a service or another person named, else who confirmed it."""
    applicator = done.details.get("applicator")
    who = done.by_whom or applicator or names.get(done.person_id)
    return str(who) if who else talk.say("sharing.somebody")


def _is_on(done: ApplicationRecord, zones: list[ZoneRecord]) -> bool:
    asked = {zone.name.casefold() for zone in zones}
    return any(share.zone_name.casefold() in asked for share in done.shares)


HANDLERS: Final = {"share": on_share, "ask_who": on_ask_who}
