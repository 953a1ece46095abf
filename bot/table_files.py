"""Tables people send as files: CSV and XLSX read into rows of cells, within bounds.

NoTable
├── TableTooLarge   more bytes, rows or columns than are taken
└── NotATable       neither CSV nor XLSX, or broken
"""

from __future__ import annotations

import zipfile
from collections.abc import Iterable
from datetime import date, datetime
from pathlib import Path
from typing import Final

from bot.hearing.readers.yard_lists import cut
from bot.turn import Grid

#: Largest file taken [bytes]; three hundred yards take some 60 kB.
MOST_BYTES: Final = 1_000_000
MOST_ROWS: Final = 400
MOST_COLUMNS: Final = 40
_LONGEST_CELL: Final = 200
#: A workbook is packed: so much of it is unpacked at most [bytes].
_MOST_UNPACKED: Final = 20_000_000
#: Suffixes by which a file is taken for a table at all.
SUFFIXES: Final = (".csv", ".tsv", ".txt", ".xlsx")


class NoTable(ValueError):
    """Raised for a file that is no table of ours."""


class TableTooLarge(NoTable):
    """Raised for a file with more in it than is taken."""


class NotATable(NoTable):
    """Raised for a file that cannot be read as a table."""


def is_table(name: str) -> bool:
    """Tell whether a file may be a table, by its name."""
    return Path(name).suffix.casefold() in SUFFIXES


def read_table(path: Path) -> Grid:
    """Return the rows of a CSV file, or of a workbook's first sheet that has any.

    Raises
    ------
    NoTable
        If it is none, or too large.
    OSError
        If it cannot be opened.
    """
    if path.stat().st_size > MOST_BYTES:
        raise TableTooLarge(path.name)
    rows = _of_workbook(path) if path.suffix.casefold() == ".xlsx" else _of_text(path.read_bytes())
    if len(rows) > MOST_ROWS or any(len(row) > MOST_COLUMNS for row in rows):
        raise TableTooLarge(path.name)
    if not rows:
        raise NotATable(path.name)
    return tuple(tuple(cell[:_LONGEST_CELL] for cell in row) for row in rows)


def _of_text(content: bytes) -> Grid:
    if b"\0" in content:
        raise NotATable("zeros")
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        # Older spreadsheets write their own code page.
        text = content.decode("cp1252", errors="replace")
    lines = [line for line in text.splitlines() if line.strip(" ,;\t")]
    return cut(lines[: MOST_ROWS + 1]) if lines else ()


def _of_workbook(path: Path) -> Grid:
    import openpyxl
    from openpyxl.utils.exceptions import InvalidFileException

    try:
        with zipfile.ZipFile(path) as packed:
            if sum(each.file_size for each in packed.infolist()) > _MOST_UNPACKED:
                raise TableTooLarge(path.name)
        book = openpyxl.load_workbook(path, read_only=True, data_only=True)
        try:
            for sheet in book.worksheets:
                rows = _cells(
                    sheet.iter_rows(
                        max_row=MOST_ROWS + 20, max_col=MOST_COLUMNS + 1, values_only=True
                    )
                )
                if rows:
                    return rows
        finally:
            book.close()
    except (zipfile.BadZipFile, InvalidFileException, KeyError, ValueError, OSError) as broken:
        if isinstance(broken, NoTable):
            raise
        raise NotATable(path.name) from broken
    return ()


def _cells(rows: Iterable[tuple[object, ...]]) -> Grid:
    """Return rows that hold anything, without the empty cells at their ends."""
    found = []
    for row in rows:
        cells = [_text(value) for value in row]
        while cells and not cells[-1]:
            cells.pop()
        if cells:
            found.append(tuple(cells))
    return tuple(found)


def _text(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, datetime | date):
        return value.isoformat()
    if isinstance(value, float):
        # Areas and postal codes are kept as numbers; a code's leading zero is not.
        return f"{value:.6f}".rstrip("0").rstrip(".")
    return " ".join(str(value).split())
