"""Lists of yards: a table with headings, or lines that begin with a name and hold a place.

``name,customer,town,zones`` and a row a yard; or ``Birch St 12, Wahoo NE, front 60x40, back 30x9``.
What a cell holds is read by the readers of sizes, places and grasses; what cannot be read is named
row by row, and the rest of the row holds.
"""

from __future__ import annotations

import csv
import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.readers.yard_cells import YardRow, plain_row, titled_row
from bot.turn import Grid

#: The head of a table stands within its first rows: above it may be a title.
_HEAD_WITHIN: Final = 5
_FEWEST_CELLS: Final = 3
_FIGURE: Final = re.compile(r"\d")


@dataclass(frozen=True)
class YardListSaid:
    """A list of yards, as the rows of a table; or one more yard, given whole."""

    grid: Grid
    is_one: bool = False


@dataclass(frozen=True)
class TemplateAsked:
    """Somebody wants a file to fill in."""


@dataclass(frozen=True)
class YardsRead:
    """The yards of a list, and headings of columns that mean nothing here."""

    rows: tuple[YardRow, ...]
    strangers: tuple[str, ...] = ()


def find_list(text: str) -> Grid | None:
    """Return the rows of a text that is a list of yards, None for other texts.

    It is one where it has a head, or where two lines or more begin with a name and hold a place.
    """
    lines = [line for line in text.splitlines() if line.strip()]
    if len(lines) < 2:
        return None
    grid = cut(lines)
    if _head(grid) is not None:
        return grid
    return grid if sum(_is_yard(row) for row in grid) >= max(2, len(grid) - 1) else None


def find_line(text: str) -> Grid | None:
    """Return the one row of a line that gives a yard whole: name, place and sizes."""
    grid = cut([" ".join(text.split())])
    # A name, a place and sizes are three cells: what has fewer is not read at all.
    if len(grid) != 1 or sum(map(bool, grid[0])) < _FEWEST_CELLS or not _FIGURE.search(text):
        return None
    return grid if _is_yard(grid[0]) and plain_row(grid[0], 1, "ft").zones else None


def cut(lines: Sequence[str]) -> Grid:
    """Return lines cut into cells: at tabs, else at semicolons, else at commas."""
    marks = ("\t", ";", ",")
    mark = next(
        (each for each in marks if sum(each in line for line in lines) * 2 > len(lines)), ","
    )
    found = csv.reader(lines, delimiter=mark, skipinitialspace=True)
    return tuple(tuple(" ".join(cell.split()) for cell in row) for row in found)


def read_yards(grid: Grid, length_unit: str, lawn: str) -> YardsRead:
    """Read a list of yards.

    Parameters
    ----------
    grid : Grid
        The rows of the table.
    length_unit : str
        Unit of figures without one, ``ft`` or ``m``; areas are in its square.
    lawn : str
        What a yard's only part is called where a row gives an area alone.
    """
    head = _head(grid)
    if head is None:
        found = [plain_row(row, line, length_unit) for line, row in enumerate(grid, 1) if any(row)]
        return YardsRead(tuple(found))
    at, columns = head
    titles = grid[at]
    rows = []
    used: set[int] = set()
    for line, row in enumerate(grid[at + 1 :], at + 2):
        if any(row):
            read, seen = titled_row(row, line, columns, titles, length_unit, lawn)
            used |= seen
            rows.append(read)
    strangers = [
        title
        for place, title in enumerate(titles)
        if title and not columns[place] and place not in used
    ]
    return YardsRead(tuple(rows), tuple(strangers))


# --- with headings --------------------------------------------------------------------------------


def _head(grid: Grid) -> tuple[int, tuple[str, ...]] | None:
    """Return the row of the headings, and what stands in each column (empty: none of ours)."""
    kinds = words.canon("columns", "columns")
    for at, row in enumerate(grid[:_HEAD_WITHIN]):
        columns = tuple(kinds.get(words.bare(_plain(cell)), "") for cell in row)
        known = [each for each in columns if each]
        if len(known) >= 2 and {"name", "address", "customer"} & set(known):
            return at, columns
    return None


def _plain(title: str) -> str:
    """Return a heading without what stands in brackets, and with spaces for its signs."""
    return " ".join(re.sub(r"\(.*?\)|[_*:#]", " ", title).split())


# --- without headings -----------------------------------------------------------------------------


def _is_yard(row: Sequence[str]) -> bool:
    """Tell whether a row without headings begins with a name and holds a place."""
    read = plain_row(row, 1, "ft")
    return bool(read.name) and (read.point is not None or bool(read.place))
