"""When what goes on by itself last did."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import select, update

from storage import models
from storage.database import Work, changed_rows


def beat(work: Work, name: str, now: datetime) -> None:
    """Note that something went on now."""
    changed = changed_rows(
        work, update(models.Heartbeat).where(models.Heartbeat.name == name).values(at=now)
    )
    if changed == 0:
        work.add(models.Heartbeat(name=name, at=now))
        work.flush()


def last(work: Work, name: str) -> datetime | None:
    """Return when something last went on, or None where it never has."""
    return work.scalar(select(models.Heartbeat.at).where(models.Heartbeat.name == name))
