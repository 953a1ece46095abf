"""Statements a turn takes, and a look: the database is asked once for what is known.

``python -m tests.bench.reads`` plays a made-up season and prints, for some turns and for a quiet
look by the clock, how many statements reached the database (transaction control left out). With
``--show applied`` it prints that turn's statements, each with the code that asked.
"""

from __future__ import annotations

import argparse
import tempfile
import traceback
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from sqlalchemy import event

from storage.database import Database
from tests.talk.harness import Talker

_ROOMS = ("/bot/", "/jobs/", "/storage/")
_CONTROL = ("BEGIN", "COMMIT", "ROLLBACK", "SAVEPOINT", "RELEASE", "PRAGMA")


@dataclass(frozen=True, slots=True)
class Asked:
    """A statement and the lines of ours that asked it, innermost first."""

    statement: str
    by: tuple[str, ...]

    def passed(self, *places: str) -> bool:
        """Tell whether it was asked from within one of these files or functions."""
        return any(place in each.split(":") for each in self.by for place in places)


@contextmanager
def statements(db: Database) -> Iterator[list[Asked]]:
    """Gather the statements that reach a database."""
    found: list[Asked] = []

    def note(_conn: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if statement.startswith(_CONTROL):
            return
        ours = [
            f"{Path(frame.filename).name}:{frame.name}:{frame.lineno}"
            for frame in traceback.extract_stack()
            if any(room in frame.filename for room in _ROOMS) and ".venv" not in frame.filename
        ]
        found.append(Asked(" ".join(statement.split()), tuple(reversed(ours))))

    event.listen(db.engine, "before_cursor_execute", note)
    try:
        yield found
    finally:
        event.remove(db.engine, "before_cursor_execute", note)


def played(folder: Path) -> dict[str, list[Asked]]:
    """Play a season to its first round and return what was asked for each turn."""
    talker = Talker(folder)
    talker.settle_in()
    found: dict[str, list[Asked]] = {}

    def turn(name: str, text: str) -> None:
        with statements(talker.db) as asked:
            talker.say(text)
        found[name] = [each for each in asked if each.passed("conversation.py")]

    # Until then it rests.
    talker.wait("P28D")
    with statements(talker.db) as asked:
        talker.wait("P1D")
    found["a day by the clock"] = asked
    # Fetching a cell is not looking at a yard.
    found["a quiet look"] = [each for each in asked if each.passed("_look_at", "_reckoned")]
    talker.until_alert("window_open")
    turn("/yard", "/yard")
    turn("/amounts", "/amounts")
    turn("/soil", "/soil")
    turn("/today", "/today")
    turn("/day", "/day saturday")
    turn("/rounds", "/calendar")
    turn("applied", "applied")
    turn("watered half an inch", "watered half an inch")
    turn("/amounts, put down", "/amounts")
    turn("/record", "/record")
    turn("undo", "/undo")
    return found


def main() -> None:
    """Print the table."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--show", help="a turn whose statements are printed")
    wanted = parser.parse_args().show
    with tempfile.TemporaryDirectory() as folder:
        found = played(Path(folder))
    if wanted is not None:
        for each in found[wanted]:
            print(each.statement[:110], "\n     ", " < ".join(each.by[:7]))
    for name, asked in found.items():
        print(f"{name:28} {len(asked):4}")


if __name__ == "__main__":
    main()
