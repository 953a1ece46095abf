"""Changing what is settled about a yard, with the note that takes it back."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import datetime
from typing import Any

from storage import journal, yards
from storage.database import Work
from storage.yards import YardRecord


def as_it_is(work: Work, yard: YardRecord) -> YardRecord:
    """Return a yard as it is now."""
    kept = yards.yard(work, yard.id)
    assert kept is not None
    return kept


def settle(work: Work, yard: YardRecord, values: Mapping[str, Any]) -> YardRecord:
    """Set named columns of a yard, and note it; return the yard as it is then."""
    yards.change(work, yard.id, **values)
    journal.note(work, yard.id, "yard.change", yard.id, name=yard.name)
    return as_it_is(work, yard)


def change_yard(
    work: Work, yard: YardRecord, values: Mapping[str, Any], *, now: datetime
) -> YardRecord:
    """Set named columns of a yard as `settle` does; it is looked at again at once."""
    settle(work, yard, values)
    yards.change(work, yard.id, next_check_at=now)
    return as_it_is(work, yard)
