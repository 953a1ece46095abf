"""The same in every test and made once a process: an empty database, an invented climate."""

import atexit
import shutil
import sqlite3
import tempfile
import uuid
from collections import OrderedDict
from collections.abc import Iterator, Mapping, Sequence
from contextlib import closing, contextmanager
from datetime import datetime
from functools import cache
from pathlib import Path

from sqlalchemy import create_engine, make_url, text

from jobs.sources.base import Cell, CellRequest, CellWeather, SourceTrouble
from jobs.sources.simulated import SimulatedSource
from storage.database import Database

_KEPT_ANSWERS = 1000


class Remembering(SimulatedSource):
    """The simulated climate, which gives the same answer to the same question without thinking."""

    def __init__(self, seed: int = 0) -> None:
        super().__init__(seed)
        self._given: OrderedDict[object, Mapping[Cell, CellWeather | SourceTrouble]] = OrderedDict()

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        asked = (tuple(requests), now)
        if asked not in self._given:
            self._given[asked] = super().fetch(requests, now)
            if len(self._given) > _KEPT_ANSWERS:
                self._given.popitem(last=False)
        return self._given[asked]


#: Its weather depends on the seed alone, so that tests may share what was worked out of it.
CLIMATE = Remembering()


def database_at(path: Path, *, is_throwaway: bool = False) -> Database:
    """Return the database there, at the newest revision: migrations have tests of their own."""
    if not path.exists():
        shutil.copy(_empty(), path)
    return Database(f"sqlite:///{path}", is_throwaway=is_throwaway)


@contextmanager
def on_server(server_url: str) -> Iterator[str]:
    """Give the address of an empty database on a PostgreSQL server; it is dropped at the end."""
    name = f"soilbell_test_{uuid.uuid4().hex}"
    server = create_engine(server_url, isolation_level="AUTOCOMMIT")
    with server.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name}"))
    try:
        yield make_url(server_url).set(database=name).render_as_string(hide_password=False)
    finally:
        with server.connect() as connection:
            connection.execute(text(f"DROP DATABASE {name} WITH (FORCE)"))
        server.dispose()


def copy_of(path: Path) -> Path:
    """Copy a database, of one moment, to where it stays until the process ends."""
    copy = Path(tempfile.mkstemp(suffix=".sqlite3", dir=_folder())[1])
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(copy)) as target:
        source.backup(target)
    return copy


@cache
def _folder() -> Path:
    folder = Path(tempfile.mkdtemp(prefix="soilbell-tests-"))
    atexit.register(shutil.rmtree, folder, ignore_errors=True)
    return folder


@cache
def _empty() -> Path:
    path = _folder() / "empty.sqlite3"
    db = Database(f"sqlite:///{path}")
    db.upgrade()
    db.close()
    return path
