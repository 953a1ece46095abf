"""Crews: who else may see, confirm or change a yard, and the invitations by which they came."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import or_, select, update

from storage import held, models
from storage.database import Work, changed_rows
from storage.plain import plain, plain_or_none
from storage.yards import YardRecord


@dataclass(frozen=True, slots=True)
class MemberRecord:
    """A membership that stands: the chat it holds in, who accepted it, and their role."""

    id: int
    yard_id: int
    chat_id: int
    person_id: int
    role: str
    since: datetime
    name: str
    is_of_all: bool = False


@dataclass(frozen=True, slots=True)
class InvitationRecord:
    """An invitation to a yard."""

    id: int
    code: str
    yard_id: int
    role: str
    created_by: int
    expires_at: datetime
    used_at: datetime | None
    is_of_all: bool = False


def invite(
    work: Work,
    yard_id: int,
    *,
    code: str,
    role: str,
    person_id: int,
    now: datetime,
    expires_at: datetime,
    is_of_all: bool = False,
) -> InvitationRecord:
    """Keep an invitation, to one yard or to all of its chat."""
    row = models.Invitation(
        code=code,
        yard_id=yard_id,
        role=role,
        created_at=now,
        created_by=person_id,
        expires_at=expires_at,
        used_at=None,
        used_by=None,
        is_of_all=is_of_all,
    )
    work.add(row)
    work.flush()
    return plain(row, InvitationRecord)


def invitation(work: Work, code: str) -> InvitationRecord | None:
    """Return the invitation of a code, or None."""
    return plain_or_none(
        work.scalar(select(models.Invitation).where(models.Invitation.code == code)),
        InvitationRecord,
    )


def use(work: Work, invitation_id: int, *, person_id: int, now: datetime) -> bool:
    """Use up an invitation; return False where somebody was faster."""
    changed = changed_rows(
        work,
        update(models.Invitation)
        .where(models.Invitation.id == invitation_id, models.Invitation.used_at.is_(None))
        .values(used_at=now, used_by=person_id),
    )
    return changed == 1


def drop_invitations(work: Work, yard_id: int, now: datetime) -> None:
    """Let every invitation to a yard that is still open run out now."""
    work.execute(
        update(models.Invitation)
        .where(
            models.Invitation.yard_id == yard_id,
            models.Invitation.used_at.is_(None),
            models.Invitation.expires_at > now,
        )
        .values(expires_at=now)
    )


def join(
    work: Work,
    yard_id: int,
    *,
    chat_id: int,
    person_id: int,
    role: str,
    invited_by: int,
    now: datetime,
    is_of_all: bool = False,
) -> int:
    """Let a chat share a yard in a role, in place of an earlier one; return the membership's id."""
    work.execute(
        update(models.Membership)
        .where(
            models.Membership.yard_id == yard_id,
            models.Membership.chat_id == chat_id,
            models.Membership.ended_at.is_(None),
        )
        .values(ended_at=now, ended_by=person_id)
    )
    row = models.Membership(
        yard_id=yard_id,
        chat_id=chat_id,
        person_id=person_id,
        role=role,
        invited_by=invited_by,
        since=now,
        ended_at=None,
        ended_by=None,
        is_of_all=is_of_all,
    )
    work.add(row)
    work.flush()
    return row.id


def end(work: Work, membership_id: int, *, person_id: int, now: datetime) -> None:
    """End a membership."""
    row = work.get_one(models.Membership, membership_id)
    row.ended_at = now
    row.ended_by = person_id
    work.flush()


def end_of_chat(work: Work, chat_id: int, now: datetime) -> int:
    """End every share a chat has, and every share and open invitation in its own yards.

    Returns
    -------
    int
        How many shares ended.
    """
    own = select(models.Yard.id).where(models.Yard.chat_id == chat_id)
    work.execute(
        update(models.Invitation)
        .where(
            models.Invitation.yard_id.in_(own),
            models.Invitation.used_at.is_(None),
            models.Invitation.expires_at > now,
        )
        .values(expires_at=now)
        .execution_options(synchronize_session=False)
    )
    return changed_rows(
        work,
        update(models.Membership)
        .where(
            or_(models.Membership.chat_id == chat_id, models.Membership.yard_id.in_(own)),
            models.Membership.ended_at.is_(None),
        )
        .values(ended_at=now)
        .execution_options(synchronize_session=False),
    )


def members(work: Work, yard_id: int) -> list[MemberRecord]:
    """Return a yard's memberships that stand, oldest first."""
    return [
        _member(row, work.get_one(models.Person, row.person_id).name)
        for row in held.of_yard(work, models.Membership, yard_id)
        if row.ended_at is None
    ]


def shared_since(work: Work, yard_id: int, chat_id: int) -> datetime | None:
    """Return since when a chat has shared a yard without a break, or None where it does not.

    Another role taken up in place of an earlier one is no break.
    """
    since: datetime | None = None
    rows = work.scalars(
        select(models.Membership)
        .where(models.Membership.yard_id == yard_id, models.Membership.chat_id == chat_id)
        .order_by(models.Membership.id.desc())
    )
    for row in rows:
        is_replaced = row.ended_at == since and row.ended_by in (None, row.person_id)
        if not is_replaced:
            break
        since = row.since
    return since


def shared_with(work: Work, chat_id: int) -> list[tuple[YardRecord, str]]:
    """Return the yards shared with a chat, each with the role it has there, oldest first."""
    shares = held.of_chat(work, models.Membership, chat_id)
    found = [
        (work.get_one(models.Yard, each.yard_id), each.role)
        for each in shares
        if each.ended_at is None
    ]
    return [(plain(yard, YardRecord), role) for yard, role in found if yard.archived_at is None]


def membership(work: Work, membership_id: int) -> MemberRecord | None:
    """Return a membership that stands, or None."""
    row = work.get(models.Membership, membership_id)
    if row is None or row.ended_at is not None:
        return None
    return _member(row, work.get_one(models.Person, row.person_id).name)


def person_names(work: Work, ids: set[int]) -> dict[int, str]:
    """Return the names of persons by their ids."""
    if not ids:
        return {}
    rows = work.execute(
        select(models.Person.id, models.Person.name).where(models.Person.id.in_(ids))
    )
    return {row.id: row.name for row in rows}


def _member(row: models.Membership, name: str) -> MemberRecord:
    return MemberRecord(
        row.id, row.yard_id, row.chat_id, row.person_id, row.role, row.since, name, row.is_of_all
    )
