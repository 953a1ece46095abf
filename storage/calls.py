"""Calls made to services that count them, as every program on the database sees them."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import delete, select

from storage import models
from storage.database import Work

#: When, and how many calls.
Spent = tuple[datetime, float]


def lock(work: Work, service: str) -> datetime | None:
    """Have nobody else spend on a service before this unit of work ends; return its closing."""
    line = work.get(models.CallLine, service, with_for_update=True)
    if line is None:
        line = models.CallLine(service=service, shut_until=None)
        work.add(line)
        work.flush()
    return line.shut_until


def shut_until(work: Work, service: str) -> datetime | None:
    """Return until when a service told us to make no calls."""
    line = work.get(models.CallLine, service)
    return None if line is None else line.shut_until


def shut(work: Work, service: str, until: datetime) -> None:
    """Note that a service told us to make no calls before an instant."""
    known = lock(work, service)
    if known is None or until > known:
        work.get_one(models.CallLine, service).shut_until = until


def since(work: Work, service: str, instant: datetime) -> list[Spent]:
    """Return what was spent on a service after an instant, the oldest first."""
    rows = work.execute(
        select(models.CallMade.made_at, models.CallMade.calls)
        .where(models.CallMade.service == service, models.CallMade.made_at > instant)
        .order_by(models.CallMade.made_at, models.CallMade.id)
    )
    return [(made_at, calls) for made_at, calls in rows]


def note(work: Work, service: str, at: datetime, calls: float, forget: datetime) -> None:
    """Note what is spent, and forget what was spent before another instant."""
    work.add(models.CallMade(service=service, made_at=at, calls=calls))
    work.execute(
        delete(models.CallMade).where(
            models.CallMade.service == service, models.CallMade.made_at <= forget
        )
    )
