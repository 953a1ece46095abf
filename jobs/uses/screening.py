"""Whether a pre-emergent is the right thing at all, whose the lawn is, and the licence for pay."""

from __future__ import annotations

from datetime import date, datetime
from typing import Any

from storage import chats, journal, yards
from storage.chats import PersonRecord
from storage.database import Work
from storage.yards import YardRecord


def answer(work: Work, yard: YardRecord, name: str, said: str) -> YardRecord:
    """Keep one answer with the yard; it is shown back and may be given again."""
    answers = {**(yard.screening or {}), name: said}
    return _keep(work, yard, answers)


def begin(work: Work, yard: YardRecord) -> YardRecord:
    """Note that the questions have been asked, so that they are asked once."""
    return yard if yard.screening is not None else _keep(work, yard, {})


def set_habit(
    work: Work, yard: YardRecord, *, person_id: int, now: datetime, **values: Any
) -> YardRecord:
    """Set how a yard is watered, who else treats it, or whose it is."""
    before = {name: getattr(yard, name) for name in values}
    yards.change(work, yard.id, **values)
    journal.note(
        work,
        at=now,
        chat_id=yard.chat_id,
        person_id=person_id,
        yard_id=yard.id,
        action="yard.change",
        subject_id=yard.id,
        before=before,
        after=values,
    )
    return _again(work, yard)


def set_licence(
    work: Work,
    yard: YardRecord,
    person: PersonRecord,
    number: str,
    until: date | None,
    now: datetime,
) -> PersonRecord:
    """Keep a person's licence as they say it; nobody here checks it."""
    was = None if person.licence_until is None else person.licence_until.isoformat()
    journal.note(
        work,
        at=now,
        chat_id=yard.chat_id,
        person_id=person.id,
        yard_id=yard.id,
        action="person.change",
        subject_id=person.id,
        before={"licence": person.licence, "licence_until": was},
        after={"licence": number},
    )
    return chats.change_person(work, person.id, licence=number, licence_until=until)


def _keep(work: Work, yard: YardRecord, answers: dict[str, Any]) -> YardRecord:
    yards.change(work, yard.id, screening=answers)
    return _again(work, yard)


def _again(work: Work, yard: YardRecord) -> YardRecord:
    kept = yards.yard(work, yard.id)
    assert kept is not None
    return kept
