"""The same in every test and made once a process: an empty database, an invented climate."""

import atexit
import shutil
import tempfile
from functools import cache
from pathlib import Path

from jobs.sources.simulated import SimulatedSource
from storage.database import Database

#: Its weather depends on the seed alone, so that tests may share what was worked out of it.
CLIMATE = SimulatedSource(0)


def database_at(path: Path, *, is_throwaway: bool = False) -> Database:
    """Return the database there, at the newest revision: migrations have tests of their own."""
    if not path.exists():
        shutil.copy(_empty(), path)
    return Database(f"sqlite:///{path}", is_throwaway=is_throwaway)


@cache
def _empty() -> Path:
    path = Path(tempfile.mkdtemp(prefix="soilbell-tests-")) / "empty.sqlite3"
    atexit.register(shutil.rmtree, path.parent, ignore_errors=True)
    db = Database(f"sqlite:///{path}")
    db.upgrade()
    db.close()
    return path
