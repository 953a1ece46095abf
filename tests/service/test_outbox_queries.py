"""What the outbox asks is answered by index, however many alerts were ever sent."""

import os
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import Select, insert, select, text

from storage import models, outbox, outbox_state
from storage.database import Database
from tests.made_once import on_server
from tests.service.test_outbox import put

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
NOW = datetime(2026, 3, 20, 14, tzinfo=UTC)

ASKED: dict[str, tuple[Select, dict]] = {
    "when the next is due": (outbox.NEXT_DUE_AT, {}),
    "the longest due": (outbox.LONGEST_DUE, {"of_rank": 1, "until": NOW, "at_most": 9}),
    "what is due for chats": (outbox.DUE_OF_CHATS, {"of_chats": [1, 2], "until": NOW}),
    "what was lost": (outbox.LOST, {"now": NOW}),
    "what came to nothing": (outbox_state.TROUBLED, {}),
    "how many messages today": (
        select(models.Alert.id).where(models.Alert.chat_id == 1, models.Alert.told_at >= NOW),
        {},
    ),
}


def fill(db: Database, count: int) -> None:
    """Put in an outbox whose alerts were nearly all sent long ago."""
    db.upgrade()
    put(db, "window_open", due_at=NOW)
    old = NOW - timedelta(days=30)
    with db.writing() as work:
        rows = [
            {
                "chat_id": 1,
                "yard_id": 1,
                "target": "summer_annuals",
                "year": 2025,
                "kind": "state",
                "episode_key": f"old {number}",
                "facts": {},
                "created_at": old,
                "due_at": old,
                "state": "sent",
                "sent_at": old,
                "told_at": old,
            }
            for number in range(count)
        ]
        work.execute(insert(models.Alert), rows)


@pytest.fixture
def sqlite(tmp_path):
    db = Database(f"sqlite:///{tmp_path / 'many.sqlite3'}")
    fill(db, 2000)
    with db.writing() as work:
        work.execute(text("ANALYZE"))
    yield db
    db.close()


@pytest.fixture
def postgresql():
    with on_server(SERVER) as url:
        db = Database(url)
        fill(db, 20_000)
        with db.engine.begin() as connection:
            connection.execute(text("ANALYZE alert"))
        yield db
        db.close()


def plan_of(db: Database, asked: str, explain: str) -> str:
    statement, values = ASKED[asked]
    compiled = statement.params(**values).compile(db.engine)
    asked_as = compiled.construct_expanded_state()
    processors = {**compiled._bind_processors, **asked_as.processors}
    bound = {
        name: processors[name](value) if name in processors else value
        for name, value in asked_as.parameters.items()
    }
    if db.engine.dialect.name == "sqlite":
        bound = tuple(bound[name] for name in asked_as.positiontup)
    with db.reading() as work:
        return "\n".join(
            " ".join(str(part) for part in row)
            for row in work.connection().exec_driver_sql(f"{explain} {asked_as.statement}", bound)
        )


@pytest.mark.parametrize("asked", ASKED)
def test_on_sqlite_each_question_is_answered_by_index(sqlite, asked):
    plan = plan_of(sqlite, asked, "EXPLAIN QUERY PLAN")
    assert "USING" in plan
    assert "ix_alert_" in plan, plan
    assert "SCAN alert\n" not in plan + "\n", plan
    assert "TEMP B-TREE" not in plan, plan


@pytest.mark.postgresql
@pytest.mark.skipif(SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL names no server")
@pytest.mark.parametrize("asked", ASKED)
def test_on_postgresql_each_question_is_answered_by_index(postgresql, asked):
    plan = plan_of(postgresql, asked, "EXPLAIN")
    assert "ix_alert_" in plan, plan
    assert "Seq Scan" not in plan, plan
