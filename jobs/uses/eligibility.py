"""Whether a pre-emergent is the right thing at all, whose the lawn is, and the licence for pay."""

from __future__ import annotations

from datetime import date
from typing import Any

from jobs.yard_changes import as_it_is, settle
from storage import chats, journal, yards
from storage.chats import PersonRecord
from storage.database import Work
from storage.yards import YardRecord


def answer(work: Work, yard: YardRecord, name: str, said: str) -> YardRecord:
    """Keep one answer with the yard; it is shown back and may be given again."""
    answers = {**(yard.screening or {}), name: said}
    journal.note(work, yard.id, "yard.answer", yard.id, name=yard.name)
    return _keep(work, yard, answers)


def begin(work: Work, yard: YardRecord) -> YardRecord:
    """Note that the questions have been asked, so that they are asked once."""
    return yard if yard.screening is not None else _keep(work, yard, {})


def set_habit(work: Work, yard: YardRecord, **values: Any) -> YardRecord:
    """Set how a yard is watered, who else treats it, or whose it is."""
    return settle(work, yard, values)


def set_licence(
    work: Work, yard: YardRecord, person: PersonRecord, number: str, until: date | None
) -> PersonRecord:
    """Keep a person's licence as they say it; nobody here checks it."""
    journal.note(work, yard.id, "person.licence", person.id, number=number)
    return chats.change_person(work, person.id, licence=number, licence_until=until)


def _keep(work: Work, yard: YardRecord, answers: dict[str, Any]) -> YardRecord:
    yards.change(work, yard.id, screening=answers)
    return as_it_is(work, yard)
