"""Which round an application of late July belongs to, where a yard has both."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import UTC, date, datetime
from pathlib import Path

import pytest

from jobs.agronomy.season import State, Target
from jobs.rounds import belongs_to
from jobs.standing import standing_of
from storage import chats, seasons, yards
from storage.database import Database
from storage.yards import YardRecord
from tests.made_once import database_at

NOW = datetime(2026, 7, 20, 14, tzinfo=UTC)
DAY = date(2026, 7, 20)


@pytest.fixture
def db(tmp_path: Path) -> Iterator[Database]:
    base = database_at(tmp_path / "rounds.sqlite3")
    yield base
    base.close()


def target_of(db: Database, spring: State, late_summer: State) -> Target:
    with db.writing() as work:
        chat = chats.chat_at(work, "test", "1", title="", units="us", now=NOW)
        person = chats.person_at(work, "test", "1", name="", now=NOW)
        yard: YardRecord = yards.add(
            work,
            chat_id=chat.id,
            person_id=person.id,
            name="Yard 1",
            lat=46.1,
            lon=-93.0,
            timezone="America/Chicago",
            lead_days=21,
            split_days=56,
            rounds=2,
            now=NOW,
        )
        for target, state in (
            (Target.SUMMER_ANNUALS, spring),
            (Target.WINTER_ANNUALS, late_summer),
        ):
            seasons.begin(work, yard.id, target, year=2026, state=state, since=DAY)
        return belongs_to(standing_of(work, replace(yard, has_late_summer_round=True)), DAY)[0]


def test_a_spring_half_that_is_due_is_what_was_asked_for(db: Database) -> None:
    assert target_of(db, State.RETREAT_DUE, State.WAITING) is Target.SUMMER_ANNUALS


def test_an_open_late_summer_window_goes_first(db: Database) -> None:
    assert target_of(db, State.RETREAT_DUE, State.WINDOW_OPEN) is Target.WINTER_ANNUALS


def test_with_no_half_due_late_july_belongs_to_annual_bluegrass(db: Database) -> None:
    assert target_of(db, State.APPLIED, State.WAITING) is Target.WINTER_ANNUALS
