"""Changing what is settled about a yard, with the journal entry that takes it back."""

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


def settle(work: Work, yard: YardRecord, values: Mapping[str, Any]) -> tuple[YardRecord, int]:
    """Set named columns of a yard; return it as it is then, and the journal entry."""
    yards.change(work, yard.id, **values)
    journal_id = journal.note(work, yard.id, "yard.change", yard.id, name=yard.name)
    return as_it_is(work, yard), journal_id


def change_yard(
    work: Work, yard: YardRecord, values: Mapping[str, Any], *, person_id: int, now: datetime
) -> tuple[YardRecord, int]:
    """Set named columns of a yard that is looked at again at once; return as `settle` does."""
    _, journal_id = settle(work, yard, values)
    yards.change(work, yard.id, next_check_at=now)
    return as_it_is(work, yard), journal_id
