"""Changing what is settled about a yard, with the journal entry that takes it back."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from storage import journal, yards
from storage.database import Work
from storage.yards import YardRecord


def change_yard(
    work: Work, yard: YardRecord, values: dict[str, Any], *, person_id: int, now: datetime
) -> tuple[YardRecord, int]:
    """Set named columns of a yard; return it as it is then, and the journal entry.

    The yard is looked at again at once.
    """
    yards.change(work, yard.id, **values)
    journal_id = journal.note(work, yard.id, "yard.change", yard.id, name=yard.name)
    yards.change(work, yard.id, next_check_at=now)
    changed = yards.yard(work, yard.id)
    assert changed is not None
    return changed, journal_id
