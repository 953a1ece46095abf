"""The database locked, full or gone for a while: nothing is half kept, all is kept after."""

from __future__ import annotations

import contextlib
import itertools
import os
import threading
import time
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import create_engine, event, func, make_url, select, text
from sqlalchemy.exc import SQLAlchemyError

from bot.bench.filling import machine_on
from bot.conversation import Conversation, NotKept
from bot.ticking import KeptClock
from bot.turn import Turn
from jobs.deliver import deliver_due
from jobs.messenger import Letter
from storage import database, models
from storage.database import Database
from tests.made_once import database_at, on_server
from tests.service.test_outbox import Post, put, states

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
NOW = datetime(2026, 2, 20, 14, tzinfo=UTC)
number = itertools.count()
both = pytest.mark.parametrize(
    "kind",
    [
        "sqlite",
        pytest.param(
            "postgresql",
            marks=[
                pytest.mark.postgresql,
                pytest.mark.skipif(SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL is unset"),
            ],
        ),
    ],
)


@pytest.fixture
def db(kind: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Database]:
    # Nobody sits through the five seconds that a lock is waited for.
    monkeypatch.setattr(database, "BUSY_TIMEOUT_S", 0.2)
    with contextlib.ExitStack() as stack:
        if kind == "sqlite":
            base = database_at(tmp_path / "away.sqlite3")
        else:
            assert SERVER is not None
            base = Database(stack.enter_context(on_server(SERVER)))
            base.upgrade()
        stack.callback(base.close)
        yield base


@contextlib.contextmanager
def locked(db: Database) -> Iterator[None]:
    other = Database(db.url)
    with other.engine.connect() as connection, connection.begin():
        if db.engine.dialect.name == "postgresql":
            connection.execute(text("LOCK TABLE turn, alert IN ACCESS EXCLUSIVE MODE"))
        yield
    other.close()


@contextlib.contextmanager
def gone(db: Database) -> Iterator[None]:
    """Let a server know nobody for a while, as when it is started again."""
    assert SERVER is not None
    url = make_url(db.url)
    server = create_engine(SERVER, isolation_level="AUTOCOMMIT")
    with server.connect() as connection:
        connection.execute(text(f"ALTER DATABASE {url.database} WITH ALLOW_CONNECTIONS false"))
        connection.execute(
            text("SELECT pg_terminate_backend(pid) FROM pg_stat_activity WHERE datname = :name"),
            {"name": url.database},
        )
        yield
        connection.execute(text(f"ALTER DATABASE {url.database} WITH ALLOW_CONNECTIONS true"))
    server.dispose()


@contextlib.contextmanager
def full(db: Database) -> Iterator[None]:
    """Let a file grow no more, as on a full disk."""

    def hold(connection: Any, _record: Any, _proxy: Any) -> None:
        connection.execute("PRAGMA max_page_count=1")

    def let_go(connection: Any, _record: Any, _proxy: Any) -> None:
        connection.execute("PRAGMA max_page_count=4294967294")

    event.listen(db.engine, "checkout", hold)
    yield
    event.remove(db.engine, "checkout", hold)
    event.listen(db.engine, "checkout", let_go)


def said(words: str) -> Turn:
    return Turn(f"away:{next(number)}", "telegram", "1", "1", NOW, text=words)


@both
def test_nothing_is_waited_for_without_end(db: Database, kind: str) -> None:
    asked = {
        "sqlite": {"PRAGMA busy_timeout": 200},
        "postgresql": {"SHOW lock_timeout": "200ms", "SHOW statement_timeout": "30s"},
    }
    with db.reading() as work:
        for question, answer in asked[kind].items():
            assert work.scalar(text(question)) == answer


TROUBLES = [("sqlite", locked), ("sqlite", full), ("postgresql", locked), ("postgresql", gone)]


@both
def test_what_is_said_meanwhile_is_kept_whole_or_not_at_all_and_answered_after(
    db: Database, kind: str
) -> None:
    conversation = machine_on(db).conversation
    assert conversation.answer(said("39.18, -96.57"))
    for trouble in [each for where, each in TROUBLES if where == kind]:
        before = kept(db)
        with trouble(db):
            # In a file that is full a turn or two may still find room.
            turns = [said("front 60x40, back 50x30") for _ in range(20)]
            at = next(at for at, turn in enumerate(turns) if not is_kept(conversation, turn))
            aid = conversation.first_aid(said("my dog ate the granules"))
            assert aid is not None
            assert "1-800-222-1222" in aid.text
        assert kept(db) == before + at
        assert conversation.answer(turns[at]) == conversation.answer(turns[at])
        assert kept(db) == before + at + 1


def is_kept(conversation: Conversation, turn: Turn) -> bool:
    try:
        conversation.answer(turn)
    except NotKept:
        return False
    return True


def kept(db: Database) -> int:
    with db.reading() as work:
        return work.scalar(select(func.count()).select_from(models.Turn)) or 0


@both
def test_the_clock_of_a_demonstration_with_which_first_aid_begins_is_told_meanwhile(
    db: Database, kind: str
) -> None:
    clock = KeptClock(db, "invented")
    clock.keep(NOW)
    assert clock.now() == NOW
    for trouble in [each for where, each in TROUBLES if where == kind]:
        with trouble(db):
            assert clock.now() == NOW
    clock.keep(NOW + timedelta(days=1))
    assert clock.now() == NOW + timedelta(days=1)


@both
def test_an_alert_is_not_sent_before_that_can_be_noted_and_once_after(
    db: Database, kind: str
) -> None:
    put(db, "window_open", due_at=NOW)
    # What is noted of an alert takes no more room: on a full disk it goes on.
    for trouble in [each for where, each in TROUBLES if where == kind and each is not full]:
        post = Post()
        with trouble(db), pytest.raises(SQLAlchemyError) as raised:
            deliver_due(db, post, NOW, owner="a")
        assert database.may_pass(raised.value)
        assert post.sent == []
    for minutes in (0, 60, 120):
        deliver_due(db, post, NOW + timedelta(minutes=minutes), owner="a")
    assert len(post.sent) == 1


@both
def test_what_was_sent_is_not_forgotten_while_others_hold_the_database(
    db: Database, kind: str
) -> None:
    put(db, "window_open", due_at=NOW)
    is_held = threading.Event()

    def hold() -> None:
        with db.writing() as work:
            if kind == "postgresql":
                work.execute(text("LOCK TABLE alert IN ACCESS EXCLUSIVE MODE"))
            is_held.set()
            time.sleep(3 * database.BUSY_TIMEOUT_S)

    holding = threading.Thread(target=hold)

    class HeldBehind(Post):
        def send(self, letter: Letter) -> None:
            super().send(letter)
            holding.start()
            is_held.wait()

    post = HeldBehind()
    assert deliver_due(db, post, NOW, owner="a") == 1
    holding.join()
    assert states(db) == {"window_open": "sent"}
    assert deliver_due(db, post, NOW + timedelta(hours=1), owner="a") == 0
    assert len(post.sent) == 1
