"""Tables in CSV files, plain or gzip-compressed, with errors that name line and column."""

from __future__ import annotations

import csv
import gzip
import io
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from jobs.sources.base import AnswerUnusable

if TYPE_CHECKING:
    import pandas as pd

#: Years a record may span; a mistyped century would otherwise ask for a calendar without end.
_YEARS = (1850, 2199)


class RecordUnreadable(AnswerUnusable):
    """A station or forecast file that cannot be read: says which file, line and column."""


@dataclass(frozen=True, slots=True)
class Table:
    """The rows of a file as they are written, by line number.

    Attributes
    ----------
    path
        The file.
    rows
        Text by column; the index is the line in the file.
    """

    path: Path
    rows: pd.DataFrame

    def days(self, column: str) -> pd.Series[pd.Timestamp]:
        """Return a column's days; raises `RecordUnreadable` naming line and column."""
        import pandas as pd

        said = self.rows[column].str.strip()
        days = pd.to_datetime(said, format="%Y-%m-%d", errors="coerce")
        self._refuse(~days.dt.year.between(*_YEARS), column, "is no date like 2016-03-28")
        return days

    def numbers(self, column: str) -> pd.Series[float]:
        """Return a column's numbers, NaN where empty; raises `RecordUnreadable` likewise."""
        import pandas as pd

        said = self.rows[column].str.strip() if column in self.rows else ""
        values = pd.Series(said, index=self.rows.index)
        found = pd.to_numeric(values, errors="coerce").astype(float)
        self._refuse(found.isna() & ~values.str.lower().isin(("", "nan")), column, "is no number")
        return found

    def unreadable(self, line: int, why: str) -> RecordUnreadable:
        """Return the error for a line."""
        return _unreadable(self.path, line, why)

    def _refuse(self, wrong: pd.Series[bool], column: str, why: str) -> None:
        if wrong.any():
            line = wrong.index[wrong][0]
            said = self.rows[column][line]
            raise _unreadable(self.path, line, f", column {column}: {said!r} {why}")


def read_table(path: Path, required: Sequence[str]) -> Table:
    """Read a file's rows.

    Raises
    ------
    RecordUnreadable
        When the file is missing, no CSV text, lacks a required column or has a row of another
        length.
    """
    import pandas as pd

    reader = csv.reader(io.StringIO(_text(path), newline=""))
    try:
        header = [name.strip() for name in next(reader, [])]
        if missing := [name for name in required if name not in header]:
            raise _unreadable(path, 1, f": no column {' or '.join(missing)}")
        lines, rows = [], []
        for fields in filter(None, reader):
            if len(fields) != len(header):
                why = f": {len(fields)} fields, expected {len(header)}"
                raise _unreadable(path, reader.line_num, why)
            lines.append(reader.line_num)
            rows.append(fields)
    except csv.Error as error:
        raise _unreadable(path, reader.line_num, f": {error}") from error
    return Table(path, pd.DataFrame(rows, index=lines, columns=header, dtype=str))


def _unreadable(path: Path, line: int, why: str) -> RecordUnreadable:
    return RecordUnreadable(f"{path.name}, line {line}{why}")


def _text(path: Path) -> str:
    try:
        data = path.read_bytes()
        if data[:2] == b"\x1f\x8b":
            data = gzip.decompress(data)
        return data.decode("utf-8-sig")
    except FileNotFoundError:
        raise RecordUnreadable(f"there is no file {path}") from None
    except (OSError, EOFError, zlib.error) as error:
        raise RecordUnreadable(f"{path}: cannot be read ({error})") from error
    except UnicodeDecodeError as error:
        raise RecordUnreadable(f"{path.name}: not a text file ({error.reason})") from error
