"""The moved clock of a chat database."""

from __future__ import annotations

from datetime import datetime

from storage import models
from storage.database import Work

_ONLY = 1


def read(work: Work) -> tuple[datetime, str] | None:
    """Return the clock and the climate it belongs to, or None before it was first set."""
    row = work.get(models.Clock, _ONLY)
    return None if row is None else (row.now, row.climate)


def advance(work: Work, now: datetime, climate: str) -> None:
    """Set the clock; it never goes back."""
    row = work.get(models.Clock, _ONLY)
    if row is None:
        work.add(models.Clock(id=_ONLY, now=now, climate=climate))
    elif now > row.now:
        row.now = now
    work.flush()
