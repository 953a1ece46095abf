"""One yard of a list: what the cells of its row say, under headings or without."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

from bot.hearing import words
from bot.hearing.readers.grass_words import read_grass
from bot.hearing.readers.places import read_place
from bot.hearing.readers.sizes import ZoneRead, read_zones

#: An area beyond this is no lawn but a slip [m²].
_LARGEST_M2: Final = 400_000.0
_ZIP: Final = re.compile(r"(?:.*\D)?\d{5}(?:-\d{4})?")
_TOWN: Final = re.compile(
    r"[A-Za-z][A-Za-z .'’-]+,?\s+(?-i:[A-Z]{2})(?:\s+\d{5}(?:-\d{4})?)?", re.IGNORECASE
)
_STATE: Final = re.compile(r"[A-Z]{2}(?:\s+\d{5}(?:-\d{4})?)?")
_DEGREES: Final = re.compile(r"-?\d{1,3}\.\d+")
_SIZE: Final = re.compile(r"\d")
_NUMBER: Final = re.compile(r"\d[\d,]*(?:\.\d+)?")


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


def titled_row(
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


def plain_row(row: Sequence[str], line: int, length_unit: str) -> YardRow:
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
