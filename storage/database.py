"""Engine, units of work and the particulars of SQLite and PostgreSQL.

A unit of work is one transaction: everything in it is kept, or nothing is. Writers on SQLite begin
immediately, because a read that later wants to write cannot wait its turn there.
"""

from __future__ import annotations

import os
import sqlite3
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager, nullcontext, suppress
from datetime import UTC, datetime
from importlib import resources
from pathlib import Path
from typing import Any, Final, TypeAlias

from sqlalchemy import (
    DateTime,
    Delete,
    Dialect,
    Engine,
    Update,
    create_engine,
    event,
    inspect,
    text,
)
from sqlalchemy.engine import URL, Connection, CursorResult, make_url
from sqlalchemy.exc import OperationalError, SQLAlchemyError
from sqlalchemy.exc import TimeoutError as PoolTimeout
from sqlalchemy.orm import Session
from sqlalchemy.orm.exc import StaleDataError
from sqlalchemy.types import TypeDecorator

from storage.recorder import Author, recorder_of, sign, watch

#: How long a writer waits for another before giving up, and how long PostgreSQL may take over a
#: lock, a statement, and a transaction in which nothing happens [s].
BUSY_TIMEOUT_S = 5
_STATEMENT_TIMEOUT_S: Final = 30
_IDLE_TIMEOUT_S: Final = 60
#: Where the schema's revision is kept.
_REVISION: Final = "alembic_version"
_CONNECT_TIMEOUT_S: Final = 5
#: Bringing the schema up to date may take longer, and others wait for it so long [s].
_UPGRADE_WITHIN_S: Final = 120
#: The lock under which it is done on PostgreSQL; any number that nobody else takes.
_UPGRADE_LOCK: Final = 7_205_759


_IN_ONE_GO: Final = "in one go"


class StaleWrite(Exception):
    """Raised when a row changed under a writer that had read it earlier."""


class Work(Session):
    """An open unit of work, as the floors above pass it around; it journals what is changed."""

    def flush(self, objects: Sequence[Any] | None = None) -> None:
        """Write what was changed.

        Raises
        ------
        StaleWrite
            If a row that counts its versions changed since it was read.
        """
        if self.is_in_one_go:
            return
        try:
            super().flush(objects)
        except StaleDataError as stale:
            raise StaleWrite(str(stale)) from stale

    @contextmanager
    def in_one_go(self) -> Iterator[None]:
        """Keep what is changed within until its end, and write it in as few statements as it takes.

        Rows added within have no number before, and what was made of rows is not made anew.

        Raises
        ------
        StaleWrite
            At the end, as by `flush`.
        """
        waiting: _Waiting = {}
        self.info[_IN_ONE_GO] = waiting
        try:
            yield
        finally:
            del self.info[_IN_ONE_GO]
        self.flush()
        for statement, rows in waiting.items():
            self.write_all(statement, rows)

    def write_all(self, statement: Update, rows: Sequence[dict[str, Any]]) -> None:
        """Change rows, each by the same statement, which goes by the version that was read.

        Raises
        ------
        StaleWrite
            If one of them changed since.
        """
        if not rows:
            return
        done = self.connection().execute(statement, rows)
        if done.rowcount != len(rows):
            raise StaleWrite(f"of {len(rows)} rows {len(rows) - done.rowcount} changed")

    @property
    def is_in_one_go(self) -> bool:
        """Whether what is changed now is written later."""
        return _IN_ONE_GO in self.info

    def write_later(self, statement: Update, row: dict[str, Any]) -> None:
        """Change one row by a statement at the end of what is written in one go."""
        self.info[_IN_ONE_GO].setdefault(statement, []).append(row)


_Waiting: TypeAlias = dict[Update, list[dict[str, Any]]]


watch(Work)


class NaiveInstant(ValueError):
    """Raised when an instant without a time zone is about to be stored."""


class UtcDateTime(TypeDecorator[datetime]):
    """Instants: naive values are refused, UTC is stored, aware values come back."""

    impl = DateTime(timezone=True)
    cache_ok = True

    def process_bind_param(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Store an aware instant in UTC."""
        if value is None:
            return None
        if value.tzinfo is None:
            raise NaiveInstant(f"{value!r} has no time zone")
        value = value.astimezone(UTC)
        return value.replace(tzinfo=None) if dialect.name == "sqlite" else value

    def process_result_value(self, value: datetime | None, dialect: Dialect) -> datetime | None:
        """Return an aware instant in UTC."""
        if value is None:
            return None
        return value.replace(tzinfo=UTC) if value.tzinfo is None else value.astimezone(UTC)


def may_pass(trouble: Exception) -> bool:
    """Tell whether trouble with a database may be over by itself: out of reach, locked, disk full.

    A server that knows no such user or database cannot be told from one that is out of reach.
    """
    if isinstance(trouble, PoolTimeout) or getattr(trouble, "connection_invalidated", False):
        return True
    if not isinstance(trouble, OperationalError):
        return False
    of_sqlite = getattr(trouble.orig, "sqlite_errorname", None)
    return of_sqlite is None or of_sqlite.startswith(_MAY_PASS)


_MAY_PASS: Final = ("SQLITE_BUSY", "SQLITE_LOCKED", "SQLITE_FULL", "SQLITE_IOERR")


def changed_rows(
    work: Work, statement: Update | Delete, values: Mapping[str, Any] | None = None
) -> int:
    """Run an update and return how many rows its condition let it change."""
    result = work.execute(statement, values)
    assert isinstance(result, CursorResult)
    return result.rowcount


class Database:
    """One database: its engine, its schema and its units of work.

    Parameters
    ----------
    url
        SQLAlchemy URL; ``sqlite:///file`` or ``postgresql+psycopg://...``.
    is_throwaway
        True for a file nobody will miss (a replay): it is not forced to disk.
    """

    def __init__(self, url: str, *, is_throwaway: bool = False) -> None:
        self.url = url
        self.engine = _engine(url, is_throwaway=is_throwaway)
        self._reading_engine = self.engine.execution_options(only_reads=True)
        #: Whether several processes may work on it at once, on several machines.
        self.is_shared = self.engine.dialect.name != "sqlite"
        self._queue = threading.Lock()

    @contextmanager
    def writing(self, by: Author | None = None) -> Iterator[Work]:
        """Open a unit of work; commit at the end, or roll back on any exception.

        Parameters
        ----------
        by
            Who changes something in it: every row changed is journalled under that. None for what
            no person does, and where the person is only found in it (see `storage.recorder.sign`).
        """
        queued = nullcontext() if self.is_shared else self._queued()
        with queued, Work(self.engine, expire_on_commit=False) as work, work.begin():
            if by is not None:
                sign(work, by)
            yield work
            recorder = recorder_of(work)
            if recorder is not None:
                recorder.write(work)

    @contextmanager
    def _queued(self) -> Iterator[None]:
        """Let this process' writers wait for each other here.

        SQLite makes them ask again after growing pauses, in which nobody writes.
        """
        if not self._queue.acquire(timeout=BUSY_TIMEOUT_S):
            raise PoolTimeout("other writers of this process take too long")
        try:
            yield
        finally:
            self._queue.release()

    @contextmanager
    def reading(self, *, of_many: bool = False) -> Iterator[Work]:
        """Open a transaction that only reads (and does not queue behind writers on SQLite).

        Where the same rows are asked for over and over, `of_many` holds on to each row read by its
        id, so that it is read once; they are seen as they were then.
        """
        with Work(self._reading_engine, expire_on_commit=False) as work:
            if of_many:
                # The session itself forgets a row as soon as nobody else holds it.
                held: list[object] = []
                event.listen(work, "loaded_as_persistent", lambda _session, row: held.append(row))
            yield work

    def upgrade(self) -> None:
        """Bring the schema to the newest revision; does nothing when it is there already.

        Several processes may do so at once: one does, the others wait for it.
        """
        if self.revision() == self.newest_revision():
            return
        with self.engine.connect() as connection:
            if not self.is_shared:
                # Its transaction has the whole file from the beginning, and others wait for it.
                _wait_for_others(connection, _UPGRADE_WITHIN_S)
            with connection.begin():
                if self.is_shared:
                    for limit in ("lock_timeout", "statement_timeout"):
                        connection.exec_driver_sql(f"SET LOCAL {limit} = '{_UPGRADE_WITHIN_S}s'")
                    connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_UPGRADE_LOCK})")
                _upgrade(connection)
            if not self.is_shared:
                _wait_for_others(connection, BUSY_TIMEOUT_S)

    def revision(self) -> str | None:
        """Return the schema revision the database is at, or None for an empty one."""
        with self._reading_engine.connect() as connection:
            if not inspect(connection).has_table(_REVISION):
                return None
            found: str | None = connection.scalar(text(f"SELECT version_num FROM {_REVISION}"))
            return found

    @staticmethod
    def newest_revision() -> str:
        """Return the newest schema revision this program knows."""
        # The numbers stand in the names of files: nothing of the migrations is loaded for this.
        files = resources.files("storage.migrations.versions").iterdir()
        return max(file.name[:4] for file in files if file.name[:4].isdigit())

    def is_reachable(self) -> bool:
        """Tell whether the database answers at all; one that is locked does."""
        try:
            self.revision()
        except SQLAlchemyError:
            return False
        return True

    def is_empty(self) -> bool:
        """Tell whether the database holds no tables yet."""
        return not inspect(self.engine).get_table_names()

    def close(self) -> None:
        """Release every connection."""
        self.engine.dispose()


def _engine(url: str, *, is_throwaway: bool) -> Engine:
    parsed = make_url(url)
    # What people say and where they live stands in parameters, and errors are logged.
    alike: dict[str, Any] = {"hide_parameters": True}
    if parsed.get_backend_name() != "sqlite":
        return create_engine(
            parsed,
            pool_pre_ping=True,
            pool_timeout=_STATEMENT_TIMEOUT_S,
            connect_args={
                "connect_timeout": _CONNECT_TIMEOUT_S,
                "options": f"-c lock_timeout={BUSY_TIMEOUT_S}s "
                f"-c statement_timeout={_STATEMENT_TIMEOUT_S}s "
                f"-c idle_in_transaction_session_timeout={_IDLE_TIMEOUT_S}s",
            },
            **alike,
        )

    _close_to_others(parsed)
    # Writers come one after the other: with one connection they find its pages as they left them.
    engine = create_engine(
        parsed, pool_use_lifo=True, connect_args={"timeout": BUSY_TIMEOUT_S}, **alike
    )

    @event.listens_for(engine, "connect")
    def prepare(connection: Any, _record: Any) -> None:
        # The driver's own implicit transactions would begin too late; `begin` below does it.
        connection.isolation_level = None
        cursor = connection.cursor()
        cursor.execute(f"PRAGMA busy_timeout={BUSY_TIMEOUT_S * 1000}")
        _set_journal(cursor, "MEMORY" if is_throwaway else "WAL")
        cursor.execute(f"PRAGMA synchronous={'OFF' if is_throwaway else 'NORMAL'}")
        cursor.execute("PRAGMA foreign_keys=ON")
        cursor.close()

    @event.listens_for(engine, "begin")
    def begin(connection: Connection) -> None:
        only_reads = connection.get_execution_options().get("only_reads", False)
        connection.exec_driver_sql("BEGIN" if only_reads else "BEGIN IMMEDIATE")

    return engine


def _close_to_others(url: URL) -> None:
    """Make a new file, or an old one, readable by its owner alone, whatever the umask."""
    path = url.database
    if not path or path == ":memory:" or path.startswith("file:"):
        return
    with suppress(OSError):
        # Where it cannot be made, opening it says why.
        os.close(os.open(path, os.O_CREAT | os.O_RDWR, 0o600))
        for each in (path, f"{path}-wal", f"{path}-shm"):
            with suppress(FileNotFoundError):
                Path(each).chmod(0o600)


def _wait_for_others(connection: Connection, seconds: int) -> None:
    """Let a connection to SQLite, on which nothing is begun, wait so long for other writers."""
    cursor = connection.connection.cursor()
    cursor.execute(f"PRAGMA busy_timeout={seconds * 1000}")
    cursor.close()


def _set_journal(cursor: Any, mode: str) -> None:
    """Set how SQLite keeps its journal; that does not wait for others by itself."""
    until_s = time.monotonic() + BUSY_TIMEOUT_S
    while True:
        try:
            cursor.execute(f"PRAGMA journal_mode={mode}")
        except sqlite3.OperationalError:
            if time.monotonic() > until_s:
                raise
            time.sleep(0.05)
        else:
            return


def _upgrade(connection: Connection) -> None:
    # Most starts have nothing to migrate and do not wait for what can.
    from alembic import command
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", "storage:migrations")
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
