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
    before = {name: getattr(yard, name) for name in values}
    yards.change(work, yard.id, **values)
    journal_id = journal.note(
        work,
        at=now,
        chat_id=yard.chat_id,
        person_id=person_id,
        yard_id=yard.id,
        action="yard.change",
        subject_id=yard.id,
        before=before,
        after=dict(values),
    )
    yards.change(work, yard.id, next_check_at=now)
    changed = yards.yard(work, yard.id)
    assert changed is not None
    return changed, journal_id
