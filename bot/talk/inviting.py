"""Crew: inviting, joining, leaving, removing; and who did what, from the record."""

from __future__ import annotations

import secrets
from typing import Final

from bot.dialogue import rights
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.forms.crew_forms import PAYLOAD
from bot.hearing.heard import ActHeard
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day, Names
from bot.telling import crew_told
from bot.turn import Reply, rows
from jobs.local_days import local
from jobs.uses import crew_changes as uses
from jobs.uses.crew_changes import INVITED_FOR, ROLES
from storage.applications import ApplicationRecord
from storage.crews import person_names
from storage.yards import YardRecord, ZoneRecord

#: Letters of codes: none that is mistaken for another when read out.
_LETTERS: Final = "abcdefghjkmnpqrstuvwxyz23456789"
_CODE_LENGTH: Final = 12


def on_join(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Take up an invitation; without a code say where to find it."""
    code = heard.slots.read
    return join(talk, code) if isinstance(code, str) else [talk.reply("crews.no_invitation")]


def join(talk: Talk, code: str) -> list[Reply]:
    """Take up an invitation."""
    try:
        joined = uses.join(
            talk.work, code, chat_id=talk.chat.id, person_id=talk.person.id, now=talk.now
        )
    except uses.OwnYard as own:
        return [talk.reply("crews.own_yard", yard=str(own))]
    except uses.NoSuchInvitation:
        return [talk.reply("crews.no_invitation")]
    except uses.InvitationUsed:
        return [talk.reply("crews.used")]
    except uses.InvitationRanOut:
        return [talk.reply("crews.ran_out")]
    talk.settle()
    talk.yard_id = joined.yard.id
    role = talk.say(f"crews.role_{joined.role}")
    if joined.yards > 1:
        return [
            talk.reply(
                "crews.joined_all",
                talk.row(("many.button_today", "round:page:0")),
                count=joined.yards,
                role=role,
            )
        ]
    return [
        talk.reply(
            "crews.joined",
            talk.row(("yards.button_soil", f"soil:{joined.yard.id}")),
            yard=joined.yard.name,
            role=role,
        )
    ]


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the crew's buttons."""
    _, verb, _, *rest = action.split(":")
    if not talk.turn.runs_chat and verb in ("leave", "invite", "all", "remove"):
        return [talk.reply("crews.admins_only")]
    if verb == "leave":
        return _leave(talk, yard)
    if talk.role(yard) != OWNER:
        return rights.refuse(talk, yard)
    if verb in ("invite", "all") and rest and rest[0] in ROLES:
        return _invite(talk, yard, rest[0], is_of_all=verb == "all")
    if verb == "remove" and rest and rest[0].isdigit():
        return _remove(talk, yard, int(rest[0]))
    return crew_told.show(talk, yard)


def _invite(talk: Talk, yard: YardRecord, role: str, *, is_of_all: bool) -> list[Reply]:
    code = "".join(secrets.choice(_LETTERS) for _ in range(_CODE_LENGTH))
    made = uses.invite(
        talk.work, yard, role, code, person_id=talk.person.id, now=talk.now, is_of_all=is_of_all
    )
    until = Day(local(made.expires_at, yard.timezone).date(), talk.today(yard))
    payload = f"{PAYLOAD}{made.code}"
    key, how = "crews.invited", f"/start {payload}"
    if talk.around.invite_link is not None:
        key, how = "crews.invited_link", talk.around.invite_link.format(payload=payload)
    role_words = talk.say(f"crews.role_{role}")
    name = talk.say("crews.all_of_them") if is_of_all else yard.name
    return [talk.reply(key, yard=name, role=role_words, until=until, how=how)]


def _leave(talk: Talk, yard: YardRecord) -> list[Reply]:
    if talk.role(yard) == OWNER:
        return crew_told.show(talk, yard)
    uses.leave(talk.work, yard, talk.chat.id, person_id=talk.person.id, now=talk.now)
    talk.yard_id = None
    talk.settle()
    return [talk.reply("crews.left", yard=yard.name)]


def _remove(talk: Talk, yard: YardRecord, membership_id: int) -> list[Reply]:
    member = uses.remove(talk.work, yard, membership_id, person_id=talk.person.id, now=talk.now)
    if member is None:
        return [talk.reply("crews.gone_already")]
    name = member.name or talk.say("sharing.somebody")
    return [talk.reply("crews.removed", yard=yard.name, name=name)]


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
        asked_of = {zone.name.casefold() for zone in zones}
        done = [d for d in done if any(s.zone_name.casefold() in asked_of for s in d.shares)]
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


HANDLERS: Final = {"join": on_join, "share": on_share, "ask_who": on_ask_who}
