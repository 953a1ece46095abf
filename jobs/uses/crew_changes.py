"""Sharing a yard: invitations, joining, leaving and removing, and who did what lately."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Final, Literal, get_args

from jobs.standing import standing_of
from storage import crews, journal, yards
from storage.crews import MemberRecord
from storage.database import Work
from storage.yards import YardRecord

#: What somebody with whom a yard is shared may do: look; also confirm what was done; also change.
Role = Literal["see", "confirm", "change"]
ROLES: Final[tuple[Role, ...]] = get_args(Role)

#: An invitation can be taken up so long.
INVITED_FOR: Final = timedelta(days=3)
_NEWEST: Final = 3


class NoSuchInvitation(LookupError):
    """Raised for a code nobody gave out."""


class InvitationUsed(LookupError):
    """Raised for an invitation that somebody has taken up."""


class InvitationRanOut(LookupError):
    """Raised for an invitation that is too old."""


class OwnYard(ValueError):
    """Raised where the yard belongs to the chat already."""


@dataclass(frozen=True, slots=True)
class Invited:
    """An invitation just made."""

    code: str
    role: str
    expires_at: datetime


@dataclass(frozen=True, slots=True)
class Joined:
    """A yard that is shared from now on, and in which role."""

    yard: YardRecord
    role: str
    yards: int = 1


@dataclass(frozen=True, slots=True)
class Done:
    """Something somebody confirmed."""

    zones: tuple[str, ...]
    on: date
    by: str


@dataclass(frozen=True, slots=True)
class Crew:
    """Who shares a yard, and what was confirmed lately by whom."""

    members: tuple[MemberRecord, ...]
    lately: tuple[Done, ...]


def invite(
    work: Work,
    yard: YardRecord,
    role: str,
    code: str,
    *,
    person_id: int,
    now: datetime,
    is_of_all: bool = False,
) -> Invited:
    """Make an invitation to a yard, or all of its chat: for one taker, for a few days.

    Raises
    ------
    ValueError
        If there is no such role.
    """
    if role not in ROLES:
        raise ValueError(role)
    made = crews.invite(
        work,
        yard.id,
        code=code,
        role=role,
        person_id=person_id,
        now=now,
        expires_at=now + INVITED_FOR,
        is_of_all=is_of_all,
    )
    return Invited(made.code, made.role, made.expires_at)


def join(work: Work, code: str, *, chat_id: int, person_id: int, now: datetime) -> Joined:
    """Take up an invitation for a chat.

    Raises
    ------
    NoSuchInvitation, InvitationUsed, InvitationRanOut, OwnYard
        If it cannot be taken up.
    """
    found = crews.invitation(work, code)
    yard = None if found is None else yards.yard(work, found.yard_id)
    if found is None or yard is None:
        raise NoSuchInvitation(code)
    if yard.chat_id == chat_id:
        raise OwnYard(yard.name)
    if found.used_at is not None:
        raise InvitationUsed(code)
    if found.expires_at <= now:
        raise InvitationRanOut(code)
    if not crews.use(work, found.id, person_id=person_id, now=now):
        raise InvitationUsed(code)
    every = yards.of_chat(work, yard.chat_id) if found.is_of_all else [yard]
    for each in every:
        member_id = crews.join(
            work,
            each.id,
            chat_id=chat_id,
            person_id=person_id,
            role=found.role,
            invited_by=found.created_by,
            now=now,
            is_of_all=found.is_of_all,
        )
        journal.note(work, each.id, "crew.join", member_id)
    return Joined(yard, found.role, len(every))


def share_new(work: Work, yard: YardRecord, *, now: datetime) -> None:
    """Share a new yard with everybody who has a share in all yards of its chat."""
    others = [each for each in yards.of_chat(work, yard.chat_id) if each.id != yard.id]
    of_all = {
        member.chat_id: member
        for each in others
        for member in standing_of(work, each).members
        if member.is_of_all
    }
    for member in of_all.values():
        crews.join(
            work,
            yard.id,
            chat_id=member.chat_id,
            person_id=member.person_id,
            role=member.role,
            invited_by=member.person_id,
            now=now,
            is_of_all=True,
        )


def crew_of(work: Work, yard: YardRecord) -> Crew:
    """Return a yard's crew and what was confirmed lately."""
    done = standing_of(work, yard).done[-_NEWEST:][::-1]
    names = crews.person_names(work, {each.person_id for each in done})
    lately = tuple(
        Done(
            tuple(share.zone_name for share in each.shares),
            each.applied_on,
            names.get(each.person_id, ""),
        )
        for each in done
    )
    return Crew(standing_of(work, yard).members, lately)


def leave(work: Work, yard: YardRecord, chat_id: int, *, person_id: int, now: datetime) -> bool:
    """End a chat's share in a yard, at once; return False where it has none."""
    ended = [each for each in standing_of(work, yard).members if each.chat_id == chat_id]
    for each in ended:
        _end(work, yard, each, person_id=person_id, now=now)
    return bool(ended)


def remove(
    work: Work, yard: YardRecord, membership_id: int, *, person_id: int, now: datetime
) -> MemberRecord | None:
    """End somebody's share in a yard, at once; return who it was, None where it is over already.

    Whoever has a share in all yards loses it in all of them.

    Invitations that are still open are withdrawn with it: whoever holds one would come back by it.
    """
    member = crews.membership(work, membership_id)
    if member is None or member.yard_id != yard.id:
        return None
    every = yards.of_chat(work, yard.chat_id) if member.is_of_all else [yard]
    for each in every:
        for theirs in standing_of(work, each).members:
            is_meant = theirs.id == member.id or (
                member.is_of_all and theirs.is_of_all and theirs.chat_id == member.chat_id
            )
            if is_meant:
                _end(work, each, theirs, person_id=person_id, now=now)
        crews.drop_invitations(work, each.id, now)
    return member


def _end(
    work: Work, yard: YardRecord, member: MemberRecord, *, person_id: int, now: datetime
) -> None:
    crews.end(work, member.id, person_id=person_id, now=now)
    # Who may see a yard is for its people to say anew, not for an undo to bring back: shares are no
    # rows of the journal.
    journal.note(work, yard.id, "crew.end", member.id)
