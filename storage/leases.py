"""Leases: which process may do what only one should do at a time."""

from __future__ import annotations

from datetime import datetime
from typing import Final

from sqlalchemy import or_, select, update

from storage import models
from storage.database import Work, changed_rows

#: A lease is void that would last this many times longer than the one asked for.
_VOID_AFTER: Final = 3


def take(work: Work, name: str, owner: str, *, now: datetime, until: datetime) -> bool:
    """Take or renew a lease; return whether it is the owner's until ``until``.

    One that would last much longer than any does was taken before the clock was set back, and is
    void.

    Two that take a new lease at the same moment meet at its primary key: one of them fails with
    an integrity error and has not got it.
    """
    changed = changed_rows(
        work,
        update(models.Lease)
        .where(
            models.Lease.name == name,
            or_(
                models.Lease.owner == owner,
                models.Lease.until <= now,
                models.Lease.until > until + _VOID_AFTER * (until - now),
            ),
        )
        .values(owner=owner, until=until),
    )
    if changed == 1:
        return True
    if work.scalar(select(models.Lease.name).where(models.Lease.name == name)) is not None:
        return False
    work.add(models.Lease(name=name, owner=owner, until=until))
    work.flush()
    return True


def give_back(work: Work, name: str, owner: str, *, now: datetime) -> None:
    """End a lease early, if it is the owner's."""
    work.execute(
        update(models.Lease)
        .where(models.Lease.name == name, models.Lease.owner == owner)
        .values(until=now)
    )
