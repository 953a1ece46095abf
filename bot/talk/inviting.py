"""Crew: inviting, joining, leaving, removing, and what somebody with a share may do."""

from __future__ import annotations

import secrets
from typing import Final

from bot.dialogue.rights import refuse
from bot.dialogue.talk import OWNER, Talk
from bot.hearing.forms.crew_forms import PAYLOAD
from bot.hearing.heard import ActHeard
from bot.saying.values import Day
from bot.telling.crew_told import show
from bot.turn import Reply
from jobs.local_days import local
from jobs.uses import crew_changes as uses
from jobs.uses.crew_changes import ROLES
from storage.yards import YardRecord

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
        return refuse(talk, yard)
    if verb in ("invite", "all") and rest and rest[0] in ROLES:
        return _invite(talk, yard, rest[0], is_of_all=verb == "all")
    if verb == "remove" and rest and rest[0].isdigit():
        return _remove(talk, yard, int(rest[0]))
    return show(talk, yard)


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
        return show(talk, yard)
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


HANDLERS: Final = {"join": on_join}
