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
from bot.hearing.readers.grass_words import read_grass
from bot.hearing.readers.places import read_place
from bot.hearing.readers.sizes import ZoneRead, read_zones
from bot.turn import Grid

#: The head of a table stands within its first rows: above it may be a title.
_HEAD_WITHIN: Final = 5
#: An area beyond this is no lawn but a slip [m²].
_LARGEST_M2: Final = 400_000.0
_ZIP: Final = re.compile(r"(?:.*\D)?\d{5}(?:-\d{4})?")
_TOWN: Final = re.compile(
    r"[A-Za-z][A-Za-z .'’-]+,?\s+(?-i:[A-Z]{2})(?:\s+\d{5}(?:-\d{4})?)?", re.IGNORECASE
)
_STATE: Final = re.compile(r"[A-Z]{2}(?:\s+\d{5}(?:-\d{4})?)?")
_DEGREES: Final = re.compile(r"-?\d{1,3}\.\d+")
_SIZE: Final = re.compile(r"\d")
_FEWEST_CELLS: Final = 3
_NUMBER: Final = re.compile(r"\d[\d,]*(?:\.\d+)?")


@dataclass(frozen=True)
class YardListSaid:
    """A list of yards, as the rows of a table; or one more yard, given whole."""

    grid: Grid
    is_one: bool = False


@dataclass(frozen=True)
class TemplateAsked:
    """Somebody wants a file to fill in."""


@dataclass(frozen=True)
class CellUnread:
    """A cell that could not be read: its column and what stands in it."""

    column: str
    said: str


@dataclass(frozen=True)
class YardRow:
    """One yard of a list; empty text and None where nothing is said.

    Attributes
    ----------
    line : int
        Its row in the table, the first one being 1.
    name, customer, address : str
        What it is called, whose it is, its street address.
    point : (float, float) or None
        Latitude and longitude in degrees.
    place : str
        A postal code, or a town with its state.
    zones : tuple of ZoneRead
        Its measured parts.
    grass : str or None
        A species' key.
    product : str
        What a label says, as written.
    unread : tuple of CellUnread
        Cells that could not be read.
    """

    line: int
    name: str
    customer: str = ""
    address: str = ""
    point: tuple[float, float] | None = None
    place: str = ""
    zones: tuple[ZoneRead, ...] = ()
    grass: str | None = None
    product: str = ""
    unread: tuple[CellUnread, ...] = ()


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
    if len(grid) != 1 or sum(map(bool, grid[0])) < _FEWEST_CELLS or not _SIZE.search(text):
        return None
    return grid if _is_yard(grid[0]) and _row_of(grid[0], 1, "ft").zones else None


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
        found = [_row_of(row, line, length_unit) for line, row in enumerate(grid, 1) if any(row)]
        return YardsRead(tuple(found))
    at, columns = head
    titles = grid[at]
    rows = []
    used: set[int] = set()
    for line, row in enumerate(grid[at + 1 :], at + 2):
        if any(row):
            read, seen = _titled(row, line, columns, titles, length_unit, lawn)
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


def _titled(
    row: Sequence[str],
    line: int,
    columns: Sequence[str],
    titles: Sequence[str],
    length_unit: str,
    lawn: str,
) -> tuple[YardRow, set[int]]:
    """Return a row under headings, and the columns without one of ours that were of use."""
    cells = list(row)
    if len(cells) > len(columns):
        # Sizes with commas between them, in the last column of a table cut at commas.
        last = len(columns) - 1
        cells[last:] = [", ".join(each for each in cells[last:] if each)]
    by_kind: dict[str, str] = {}
    sizes: list[str] = []
    used: set[int] = set()
    for place, cell in enumerate(cells):
        kind = columns[place]
        if not cell:
            continue
        if kind:
            by_kind.setdefault(kind, cell)
        elif _SIZE.search(cell) and read_zones(f"{titles[place]} {cell}", length_unit).zones:
            # A column of its own for each part: "front" over "60x40".
            sizes.append(f"{titles[place]} {cell}")
            used.add(place)
    unread: list[CellUnread] = []
    zones = _sizes(by_kind.get("zones", ""), sizes, length_unit, unread)
    if not zones and "area" in by_kind:
        zones = _area(by_kind["area"], length_unit, lawn, unread)
    address = by_kind.get("address", "")
    name = by_kind.get("name", "") or address or by_kind.get("customer", "")
    town = ", ".join(by_kind[each] for each in ("town", "state") if each in by_kind)
    read = YardRow(
        line,
        name,
        by_kind.get("customer", ""),
        address,
        _point(by_kind, unread),
        by_kind.get("zip", "") or town or _of_address(address),
        zones,
        _grass(by_kind.get("grass", ""), unread),
        by_kind.get("product", ""),
        tuple(unread),
    )
    return read, used


def _sizes(
    cell: str, more: Sequence[str], length_unit: str, unread: list[CellUnread]
) -> tuple[ZoneRead, ...]:
    zones: dict[str, ZoneRead] = {}
    for text in (cell, *more):
        if not text:
            continue
        read = read_zones(text, length_unit)
        for zone in read.zones:
            zones[(zone.name or "").casefold()] = zone
        unread += [CellUnread("zones", question.said) for question in read.questions]
    return tuple(zones.values())


def _area(cell: str, length_unit: str, lawn: str, unread: list[CellUnread]) -> tuple[ZoneRead, ...]:
    unit = "m2" if length_unit == "m" else "sq ft"
    said = f"{cell} {unit}" if _NUMBER.fullmatch(cell) else cell
    zones = read_zones(f"{lawn} {said}", length_unit).zones
    if len(zones) != 1 or zones[0].area_m2 > _LARGEST_M2:
        unread.append(CellUnread("area", cell))
        return ()
    return zones


def _point(by_kind: dict[str, str], unread: list[CellUnread]) -> tuple[float, float] | None:
    said = by_kind.get("coordinates", "")
    if "lat" in by_kind and "lon" in by_kind:
        said = f"{by_kind['lat']}, {by_kind['lon']}"
    if not said:
        return None
    place = read_place(said)
    if isinstance(place, tuple):
        return place
    unread.append(CellUnread("coordinates", said))
    return None


def _grass(cell: str, unread: list[CellUnread]) -> str | None:
    if not cell:
        return None
    grass = _grass_in(cell)
    if grass is None:
        unread.append(CellUnread("grass", cell))
    return grass


def _grass_in(cell: str) -> str | None:
    """Return a species' key by its name in any of our languages."""
    fact = read_grass(cell)
    return words.canon("grasses").get(words.bare(cell)) if fact is None else fact.grass


def _of_address(address: str) -> str:
    """Return the postal code, or the town and state, that an address ends in."""
    code = re.search(r"\b(\d{5})(?:-\d{4})?\s*$", address)
    if code is not None and not address.startswith(code[1]):
        return code[1]
    town = re.search(r"(?:^|,\s*)([A-Za-z .'’-]+,?\s+[A-Z]{2})\s*$", address)
    return town[1] if town is not None else ""


# --- without headings -----------------------------------------------------------------------------


def _is_yard(row: Sequence[str]) -> bool:
    """Tell whether a row without headings begins with a name and holds a place."""
    read = _row_of(row, 1, "ft")
    return bool(read.name) and (read.point is not None or bool(read.place))


def _row_of(row: Sequence[str], line: int, length_unit: str) -> YardRow:
    """Return a row without headings, each cell by what it can be."""
    first, *rest = [cell for cell in row if cell] or [""]
    name = first if re.search(r"[^\W\d_]", first) and not _TOWN.fullmatch(first) else ""
    if name and read_zones(name, length_unit).zones:
        name = ""
    point: tuple[float, float] | None = None
    place = ""
    sizes: list[str] = []
    others: list[str] = []
    unread: list[CellUnread] = []
    grass: str | None = None
    while rest:
        cell = rest.pop(0)
        pair = f"{cell}, {rest[0]}" if rest and _DEGREES.fullmatch(cell) else cell
        read = read_place(pair)
        named = None if _SIZE.search(cell) else _grass_in(cell)
        if point is None and isinstance(read, tuple):
            point = read
            if pair != cell:
                rest.pop(0)
        elif not place and rest and _is_town_alone(cell) and _STATE.fullmatch(rest[0]):
            place = f"{cell} {rest.pop(0)}"
        elif not place and (_TOWN.fullmatch(cell) or _ZIP.fullmatch(cell)) and len(cell) < 60:
            place = cell
        elif named is not None and grass is None:
            grass = named
        elif _SIZE.search(cell) or (sizes and not others):
            sizes.append(cell)
        else:
            others.append(cell)
    zones = _sizes(", ".join(sizes), (), length_unit, unread)
    # Of words that are nothing else the first is whose it is: a person has no figures.
    customer, *more = others or [""]
    unread += [CellUnread("zones", each) for each in more]
    return YardRow(line, name, customer, "", point, place, zones, grass, "", tuple(unread))


def _is_town_alone(cell: str) -> bool:
    return re.fullmatch(r"[A-Za-z][A-Za-z .'’-]+", cell) is not None
