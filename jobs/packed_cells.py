"""What is held of each weather cell, packed for keeping and unpacked for use.

A calendar year of a cell is one small block of 16-bit hundredths (°C, mm), so that ten years of
history cost a handful of rows rather than thousands.
"""

from __future__ import annotations

import math
import threading
from collections import OrderedDict
from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, timedelta
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from jobs.agronomy.made_once import MakesOnce
from jobs.agronomy.series import COLUMNS, DailySeries, FloatArray, Together
from jobs.sources.base import Cell, CellWeather, HourlyForecast
from storage import cells
from storage.cells import CellRecord
from storage.database import Work
from storage.gathering import Unread
from storage.held import kept

_MISSING: Final = -32768
_LIMIT: Final = 32767
_SCALE: Final = 100.0
_DTYPE: Final = "<i2"
#: A place whose years are still to come leans on those of a neighbour within this: the 55 °F
#: crossing is named 6.7 days off then, 9.1 by the region's usual year and 5.8 by its own years;
#: beyond 200 km a neighbour's say less than the region's (`tests.bench.first_outlook`).
LENDS_WITHIN_KM: Final = 30.0
_KM_A_DEGREE: Final = 111.2
#: Days both know, to tell how far they differ.
_ENOUGH_DAYS: Final = 21
#: So many cells that people ask about stay unpacked, some 0.3 MB each.
_LATEST: Final = 32


@dataclass(frozen=True, slots=True, eq=False)
class Packed(MakesOnce):
    """Days of a cell as they are kept, unpacked when somebody asks.

    ``blocks`` follow each other without a gap from ``first_day`` on, each as `pack` made it; of
    their days the first ``days`` count.
    """

    first_day: date
    blocks: tuple[bytes, ...]
    days: int

    @classmethod
    def of(cls, series: DailySeries) -> Packed:
        """Pack a series."""
        return cls(series.first_day, (pack(series),), len(series))

    @property
    def layout(self) -> tuple[int, ...]:
        """How many bytes each block has."""
        return tuple(map(len, self.blocks))

    @property
    def series(self) -> DailySeries:
        """Every column of every day."""
        return self.once("series", self._series)

    def _series(self) -> DailySeries:
        columns = _values(np.concatenate([_stored(block) for block in self.blocks], axis=1))
        return DailySeries(self.first_day, *columns[:, : self.days])


def together(cells: Sequence[Packed]) -> Together:
    """Return soil and air of cells that begin on the same day, know as many, and lie alike."""
    first, columns = cells[0], COLUMNS[:2]
    sizes = [size // len(COLUMNS) * len(columns) for size in first.layout]
    wanted = (b[:n] for cell in cells for b, n in zip(cell.blocks, sizes, strict=True))
    stored = np.frombuffer(b"".join(wanted), dtype=_DTYPE).reshape(len(cells), -1)
    values = np.empty((len(columns), len(cells), first.days), dtype=np.float32)
    day = start = 0
    for size in sizes:
        days = size // (np.dtype(_DTYPE).itemsize * len(columns))
        until = min(first.days, day + days)
        for out in values:
            part = stored[:, start : start + until - day]
            np.divide(part, np.float32(_SCALE), out=out[:, day:until])
            if part.size and part.min() == _MISSING:
                out[:, day:until][part == _MISSING] = np.nan
            start += days
        day = until
    return Together(first.first_day, *values)


assert COLUMNS[:2] == ("soil5_c", "tmean_c")


@dataclass(frozen=True, slots=True, eq=False)
class HeldCell:
    """Everything held of one cell: its record, its known days and its newest forecast.

    `lent` are the years of a neighbour where its own are still to come, moved to where its own days
    lie; None where nothing is lent.
    """

    record: CellRecord
    days: Packed
    forecast: DailySeries | None
    hourly: HourlyForecast | None
    lent: Packed | None = None

    @property
    def known(self) -> DailySeries:
        """The known days."""
        return self.days.series

    @property
    def past(self) -> Packed:
        """The days that tell of its usual year."""
        return self.days if self.lent is None else self.lent


def pack(series: DailySeries) -> bytes:
    """Pack a series into 16-bit hundredths, column after column; values beyond ±327 are cut."""
    return _packed(series).tobytes()


def _packed(series: DailySeries) -> NDArray[np.int16]:
    table = np.stack([getattr(series, name) for name in COLUMNS])
    table *= _SCALE
    np.rint(table, out=table)
    np.clip(table, -_LIMIT, _LIMIT, out=table)
    table[np.isnan(table)] = _MISSING
    return table.astype(_DTYPE)


def _by_year(series: DailySeries) -> Iterator[tuple[int, NDArray[np.int16]]]:
    """Return each calendar year of a series as it is kept, whole."""
    packed, first = _packed(series), series.first_day
    for year in range(first.year, series.last_day.year + 1) if len(series) else ():
        begins, ends = date(year, 1, 1), date(year + 1, 1, 1)
        whole = np.full((len(COLUMNS), (ends - begins).days), _MISSING, dtype=_DTYPE)
        at = (begins - first).days
        part = packed[:, max(0, at) : at + whole.shape[1]]
        start = max(0, -at)
        whole[:, start : start + part.shape[1]] = part
        yield year, whole


def unpack(first_day: date, block: bytes) -> DailySeries:
    """Return the series of a packed block that begins on ``first_day``."""
    return DailySeries(first_day, *_values(_stored(block)))


def _stored(block: bytes) -> NDArray[np.int16]:
    return np.frombuffer(block, dtype=_DTYPE).reshape(len(COLUMNS), -1)


def _values(stored: NDArray[np.int16]) -> FloatArray:
    table = stored.astype(np.float64)
    table /= _SCALE
    is_missing = stored == _MISSING
    if is_missing.any():
        table[is_missing] = np.nan
    return table


def held(work: Work, source: str, cell: Cell) -> HeldCell | None:
    """Return what is held of a cell, or None where nothing is; read once a unit of work."""
    return kept(work, (source, cell), lambda: _read(work, source, cell))


def _read(work: Work, source: str, cell: Cell) -> HeldCell | None:
    unread = cells.read_with_years(work, source, cell.lat_e2, cell.lon_e2)
    found = _LATELY.of(source, cell, unread)
    if found is None:
        record, blocks = cells.with_years(work, unread)
        found = None if record is None else _unpacked(record, blocks)
        if found is not None and found.record.recent_since is not None:
            return with_lent(work, found)
        _LATELY.keep(source, cell, unread, found)
    return found


class _Lately:
    """Cells unpacked lately: the very same again while the same rows are held of one."""

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._found: OrderedDict[tuple[str, Cell], tuple[Unread, HeldCell]] = OrderedDict()

    def of(self, source: str, cell: Cell, unread: Unread) -> HeldCell | None:
        with self._lock:
            found = self._found.get((source, cell))
            if found is None or found[0] != unread:
                return None
            self._found.move_to_end((source, cell))
            return found[1]

    def keep(self, source: str, cell: Cell, unread: Unread, held: HeldCell | None) -> None:
        if held is None:
            return
        with self._lock:
            self._found[source, cell] = unread, held
            self._found.move_to_end((source, cell))
            while len(self._found) > _LATEST:
                self._found.popitem(last=False)


_LATELY: Final = _Lately()


def held_of(work: Work, source: str, places: Collection[Cell]) -> dict[Cell, HeldCell]:
    """Return what is held of many cells, without their forecasts by the hour."""
    found = cells.lean_with_years(work, source, [_place(cell) for cell in places])
    unpacked = {_place(record): _unpacked(record, blocks) for record, blocks in found}
    return {
        cell: each if each.record.recent_since is None else with_lent(work, each)
        for cell in places
        if (each := unpacked.get(_place(cell))) is not None
    }


def with_lent(work: Work, young: HeldCell) -> HeldCell:
    """Return a cell whose past years are still to come with those of its nearest neighbour.

    The neighbour's soil is moved by how far it differs from the cell's own days.
    """
    record = young.record
    here, east = _place(record), math.cos(math.radians(record.lat_e2 / 100))
    most_e2 = 100 * LENDS_WITHIN_KM / _KM_A_DEGREE
    box = math.ceil(most_e2), math.ceil(most_e2 / max(east, 0.1))

    def apart_e2(place: tuple[int, int]) -> float:
        return math.hypot(place[0] - here[0], east * (place[1] - here[1]))

    around = cells.whole_within(work, record.source, here, *box)
    near = sorted((each for each in around if apart_e2(each) <= most_e2), key=apart_e2)[:1]
    for whole, blocks in cells.lean_with_years(work, record.source, near):
        lender, own = _unpacked(whole, blocks), young.known
        if lender is None or record.recent_since is None:
            continue
        before = lender.known.until(record.recent_since - timedelta(days=1))
        theirs = lender.known.on(own.first_day, own.last_day).soil5_c
        differs_c = own.soil5_c - theirs
        differs_c = differs_c[np.isfinite(differs_c)]
        if len(differs_c) < _ENOUGH_DAYS:
            continue
        moved = replace(before, soil5_c=before.soil5_c + float(differs_c.mean()))
        return replace(young, lent=Packed.of(moved))
    return young


def _unpacked(record: CellRecord, blocks: Mapping[int, bytes]) -> HeldCell | None:
    if record.last_known_day is None or not blocks:
        return None
    first = date(min(blocks), 1, 1)
    years = range(min(blocks), max(blocks) + 1)
    held = (date(years[-1], 12, 31) - first).days + 1
    days = Packed(
        first,
        tuple(blocks[year] if year in blocks else _empty(year) for year in years),
        min(held, (record.last_known_day - first).days + 1),
    )
    forecast = None
    if record.forecast is not None and record.forecast_first_day is not None:
        forecast = unpack(record.forecast_first_day, record.forecast)
    hourly = None if record.hourly is None else _hourly(record.hourly)
    return HeldCell(record, days, forecast, hourly)


def keep(
    work: Work,
    source: str,
    is_invented: bool,
    answers: Mapping[Cell, CellWeather],
    now: datetime,
    since: Mapping[Cell, date | None] | None = None,
) -> dict[Cell, CellRecord]:
    """Keep answers and return what was held of their cells before, where anything was.

    Known values replace older ones, and missing ones leave them be.

    Parameters
    ----------
    since
        From which day on cells were asked for; None for all that is ever wanted of one.
    """
    before = cells.lean(work, source, [_place(cell) for cell in answers])
    rows = {
        _place(cell): _row(weather, before.get(_place(cell)), is_invented, now)
        for cell, weather in answers.items()
    }
    for cell in answers:
        known = before.get(_place(cell))
        asked_since = (since or {}).get(cell)
        is_new = known is None or known.last_known_day is None
        kept = asked_since if is_new or asked_since is None else known and known.recent_since
        rows[_place(cell)]["recent_since"] = kept
    ids = cells.put(work, source, rows, before)
    fresh = {
        (ids[_place(cell)], year): block
        for cell, weather in answers.items()
        for year, block in _by_year(weather.known)
    }
    known_ids = [record.id for record in before.values()]
    first = min((year for _, year in fresh), default=0)
    blocks = cells.years(work, known_ids, first) if known_ids else {}
    added, changed = {}, {}
    for (cell_id, year), new in fresh.items():
        block = blocks.get(cell_id, {}).get(year)
        if block is None:
            added[cell_id, year] = new.tobytes()
            continue
        whole = np.where(new == _MISSING, _stored(block), new).tobytes()
        if whole != block:
            changed[cell_id, year] = whole
    cells.put_years(work, added, changed)
    return {cell: before[_place(cell)] for cell in answers if _place(cell) in before}


def _row(
    weather: CellWeather, before: CellRecord | None, is_invented: bool, now: datetime
) -> dict[str, Any]:
    forecast = weather.forecast
    was_out = before is not None and before.trouble_since is not None
    return {
        "place": weather.place,
        "is_invented": is_invented,
        "soil_is_modelled": weather.soil_is_modelled,
        "fetched_at": now,
        "observed_at": weather.observed_at,
        "forecast_first_day": None if forecast is None else forecast.first_day,
        "forecast": None if forecast is None else pack(forecast),
        "hourly": None if weather.hourly is None else _hourly_row(weather.hourly),
        "trouble": None,
        "trouble_since": None,
        "try_again_at": None,
        "disagrees_by_c": weather.disagrees_by_c,
        "out_since": before and (before.trouble_since if was_out else before.out_since),
        "back_at": now if was_out else before and before.back_at,
        "last_known_day": (
            weather.known.last_day if len(weather.known) else before and before.last_known_day
        ),
    }


def note_trouble(
    work: Work,
    source: str,
    troubles: Mapping[Cell, tuple[str, datetime]],
    now: datetime,
) -> list[Cell]:
    """Note that a source failed for cells and when to try again; return those new to trouble."""
    before = cells.lean(work, source, [_place(cell) for cell in troubles])
    rows, new = {}, []
    for cell, (trouble, again_at) in troubles.items():
        record = before.get(_place(cell))
        since = None if record is None or record.trouble is None else record.trouble_since
        if record is None or record.trouble is None:
            new.append(cell)
            since = now
        rows[_place(cell)] = {"trouble": trouble, "trouble_since": since, "try_again_at": again_at}
    cells.put(work, source, rows, before)
    return new


def _place(cell: Cell | CellRecord) -> tuple[int, int]:
    return cell.lat_e2, cell.lon_e2


def _empty(year: int) -> bytes:
    return pack(
        DailySeries.missing(date(year, 1, 1), (date(year + 1, 1, 1) - date(year, 1, 1)).days)
    )


def _hourly_row(hourly: HourlyForecast) -> dict[str, Any]:
    row: dict[str, Any] = {"first_hour": hourly.first_hour.isoformat()}
    for name in ("air_c", "rain_mm", "wind_m_s", "humidity_pct"):
        values = np.round(np.asarray(getattr(hourly, name), dtype=np.float64), 2)
        row[name] = values.tolist()
        if np.isnan(values).any():
            row[name] = [None if math.isnan(value) else value for value in row[name]]
    return row


def _hourly(row: Mapping[str, Any]) -> HourlyForecast:
    def values(name: str) -> tuple[float, ...]:
        return tuple(np.nan if value is None else float(value) for value in row[name])

    return HourlyForecast(
        first_hour=datetime.fromisoformat(row["first_hour"]),
        air_c=values("air_c"),
        rain_mm=values("rain_mm"),
        wind_m_s=values("wind_m_s"),
        humidity_pct=values("humidity_pct"),
    )


def since_for(
    record: CellRecord | None, newest: date, years: int, cheap_days: int | None = None
) -> date:
    """Return the first day to ask a source for now: a week's overlap, or the whole history.

    Of a new place only the newest days, where the years before them cost far more.
    """
    whole = first_wanted(newest, years)
    if record is None or record.last_known_day is None:
        return whole if cheap_days is None else newest - timedelta(days=cheap_days - 1)
    return max(whole, record.last_known_day - timedelta(days=7))


def first_wanted(newest: date, years: int) -> date:
    """Return the first day of the whole history of a place."""
    return date(newest.year - years, 1, 1)
