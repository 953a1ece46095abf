"""A copy of a database, whole and of one moment, taken while it is in use.

SQLite is copied by its own online backup (sqlite.org/backup.html), page by page, begun again where
somebody writes meanwhile; the copy is checked before it gets its name. PostgreSQL is dumped by
its own ``pg_dump``, for ``pg_restore``. Whoever may read a copy may read everything: it is closed
to others.
"""

from __future__ import annotations

import os
import shutil
import sqlite3
import subprocess
from contextlib import closing, suppress
from pathlib import Path
from typing import Final

from sqlalchemy.engine import URL, make_url

#: Writers get a turn after so many pages; so many are copied at a time.
_PAGES: Final = 2048
_PAUSE_S: Final = 0.01
_BUSY_S: Final = 30.0


class NoBackup(Exception):
    """Raised where no copy could be made; carries one clear sentence."""


def suffix_for(url: str) -> str:
    """Return how a copy's file is best called."""
    return ".sqlite3" if make_url(url).get_backend_name() == "sqlite" else ".dump"


def back_up(url: str, to: Path) -> None:
    """Copy a database into a file that is not there yet.

    Raises
    ------
    NoBackup
        If it cannot be made; nothing is left behind then.
    """
    if to.exists():
        raise NoBackup(f"There is a {to} already; a backup never takes the place of another.")
    part = to.with_name(f"{to.name}.part")
    try:
        os.close(os.open(part, os.O_CREAT | os.O_WRONLY | os.O_TRUNC, 0o600))
        parsed = make_url(url)
        copy = _copy_file if parsed.get_backend_name() == "sqlite" else _dump
        copy(parsed, part)
        with part.open("rb+") as written:
            os.fsync(written.fileno())
        part.replace(to)
    except OSError as problem:
        raise NoBackup(f"{to} cannot be written: {problem.strerror}.") from None
    finally:
        with suppress(OSError):
            part.unlink(missing_ok=True)


def _copy_file(url: URL, to: Path) -> None:
    path = Path(str(url.database)).absolute()
    if not url.database or url.database == ":memory:" or not path.exists():
        raise NoBackup(f"There is no database {url.database or 'on disk'} to back up.")
    try:
        with (
            closing(sqlite3.connect(f"{path.as_uri()}?mode=ro", uri=True, timeout=_BUSY_S)) as held,
            closing(sqlite3.connect(to)) as copy,
        ):
            held.backup(copy, pages=_PAGES, sleep=_PAUSE_S)
            # One file, whatever the other's journal is.
            copy.execute("PRAGMA journal_mode=DELETE")
            found = copy.execute("PRAGMA integrity_check(1)").fetchone()[0]
    except sqlite3.Error as problem:
        raise NoBackup(f"The database cannot be copied: {problem}.") from None
    if found != "ok":
        raise NoBackup(f"The database is damaged, and so would be its copy: {found}.")


def _dump(url: URL, to: Path) -> None:
    program = shutil.which("pg_dump")
    if program is None:
        raise NoBackup(
            "pg_dump is not here, and PostgreSQL is backed up by it. Install PostgreSQL's client "
            "programs, of the server's version or newer."
        )
    # No password stands among the arguments: others can read those.
    told = {} if url.password is None else {"PGPASSWORD": str(url.password)}
    address = url.set(drivername="postgresql", password=None).render_as_string()
    done = subprocess.run(
        [program, "--format=custom", "--no-owner", f"--file={to}", f"--dbname={address}"],
        env={**os.environ, **told},
        capture_output=True,
        text=True,
        check=False,
    )
    if done.returncode != 0:
        why = (done.stderr.strip() or f"exit code {done.returncode}").splitlines()[0]
        raise NoBackup(f"pg_dump could not back it up: {why}.")
