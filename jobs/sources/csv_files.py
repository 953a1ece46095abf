"""Rows of a CSV file, plain or gzip-compressed, with errors that name line and column."""

from __future__ import annotations

import csv
import gzip
import io
import math
import zlib
from collections.abc import Iterator, Sequence
from datetime import date
from pathlib import Path

from jobs.sources.base import AnswerUnusable

#: Years a record may span; a mistyped century would otherwise ask for a calendar without end.
_YEARS = range(1850, 2200)


class RecordUnreadable(AnswerUnusable):
    """A station or forecast file that cannot be read: says which file, line and column."""


def rows(path: Path, required: Sequence[str]) -> Iterator[tuple[int, dict[str, str]]]:
    """Yield a file's rows by column, each with its line number.

    Raises
    ------
    RecordUnreadable
        When the file is missing, no CSV text, lacks a required column or has a row of another
        length.
    """
    reader = csv.reader(io.StringIO(_text(path), newline=""))
    try:
        header = [name.strip() for name in next(reader, [])]
        if missing := [name for name in required if name not in header]:
            raise RecordUnreadable(f"{path.name}, line 1: no column {' or '.join(missing)}")
        for fields in reader:
            if not fields:
                continue
            if len(fields) != len(header):
                raise RecordUnreadable(
                    f"{path.name}, line {reader.line_num}: {len(fields)} fields, expected "
                    f"{len(header)}"
                )
            yield reader.line_num, dict(zip(header, fields, strict=True))
    except csv.Error as error:
        raise RecordUnreadable(f"{path.name}, line {reader.line_num}: {error}") from error


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


def as_date(path: Path, line: int, column: str, text: str) -> date:
    """Return a field as a day; raises `RecordUnreadable` naming line and column."""
    try:
        day = date.fromisoformat(text.strip())
    except ValueError:
        raise RecordUnreadable(
            f"{path.name}, line {line}, column {column}: {text!r} is no date like 2016-03-28"
        ) from None
    if day.year not in _YEARS:
        raise RecordUnreadable(f"{path.name}, line {line}, column {column}: {day} cannot be right")
    return day


def as_number(path: Path, line: int, column: str, text: str) -> float:
    """Return a field as a number, NaN when empty; raises `RecordUnreadable` likewise."""
    text = text.strip()
    if not text:
        return math.nan
    try:
        return float(text)
    except ValueError:
        raise RecordUnreadable(
            f"{path.name}, line {line}, column {column}: {text!r} is no number"
        ) from None
