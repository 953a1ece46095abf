"""What is wrong with the data of a yard's place just now, as facts for people."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Final

from jobs.local_days import local
from jobs.sources.base import Cell
from storage import cells, held
from storage.cells import CellRecord
from storage.database import Work
from storage.yards import YardRecord

#: How long it is told that a source is back.
_BACK_IS_NEWS_FOR: Final = timedelta(days=1)
#: An outage shorter than this is nobody's concern: the next look makes up for it.
_OUTAGE_COUNTS_FROM: Final = timedelta(hours=12)
#: Known days older than this are old [days].
OLD_FROM_DAYS: Final = 3


@dataclass(frozen=True, slots=True)
class Trouble:
    """The data's trouble at one place.

    Attributes
    ----------
    is_missing
        Nothing is held at all.
    old_days
        Age of the newest known day where it is old, or None.
    out_since
        Since when the source fails, where it does, or None.
    back_after
        Since when it had failed, where it came back within a day, or None.
    disagrees_by_c
        How much warmer its soil is than another source's, where that is more than 3 °C, or None.
    """

    is_missing: bool = False
    old_days: int | None = None
    out_since: date | None = None
    back_after: date | None = None
    disagrees_by_c: float | None = None

    def to_json(self) -> dict[str, Any]:
        """Return primitives."""
        return {
            "is_missing": self.is_missing,
            "old_days": self.old_days,
            "out_since": None if self.out_since is None else self.out_since.isoformat(),
            "back_after": None if self.back_after is None else self.back_after.isoformat(),
            "disagrees_by_c": self.disagrees_by_c,
        }

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> Trouble:
        """Return what `to_json` wrote."""

        def day(name: str) -> date | None:
            return None if row[name] is None else date.fromisoformat(row[name])

        return cls(
            row["is_missing"],
            row["old_days"],
            day("out_since"),
            day("back_after"),
            row["disagrees_by_c"],
        )


def record_of(work: Work, source: str, place: Cell) -> CellRecord | None:
    """Return what is held of a cell besides its days; read once a unit of work."""
    know(work, source, [place])
    return _records(work, source)[place]


def know(work: Work, source: str, places: Iterable[Cell]) -> None:
    """Read that of many cells at once."""
    records = _records(work, source)
    missing = [place for place in places if place not in records]
    if missing:
        found = cells.lean(work, source, [(place.lat_e2, place.lon_e2) for place in missing])
        records.update({each: found.get((each.lat_e2, each.lon_e2)) for each in missing})


def _records(work: Work, source: str) -> dict[Cell, CellRecord | None]:
    return held.kept(work, ("records", source), dict[Cell, CellRecord | None])


def trouble_of(work: Work, yard: YardRecord, source: str, now: datetime) -> Trouble:
    """Return what is wrong with the data of a yard's place."""
    place = Cell.at(yard.lat, yard.lon)
    record = record_of(work, source, place)
    if record is None or record.last_known_day is None:
        since = None if record is None else record.trouble_since
        return Trouble(is_missing=True, out_since=_day(since, yard))
    age = (local(now, yard.timezone).date() - record.last_known_day).days - 1
    out_since = record.trouble_since
    if out_since is not None and now - out_since < _OUTAGE_COUNTS_FROM:
        out_since = None
    back_after = record.out_since if _is_back_news(record, now) else None
    return Trouble(
        old_days=age if age >= OLD_FROM_DAYS else None,
        out_since=_day(out_since, yard),
        back_after=_day(back_after, yard),
        disagrees_by_c=record.disagrees_by_c,
    )


def _is_back_news(record: CellRecord, now: datetime) -> bool:
    back_at, since = record.back_at, record.out_since
    if back_at is None or since is None or record.trouble_since is not None:
        return False
    return now - back_at <= _BACK_IS_NEWS_FOR and back_at - since >= _OUTAGE_COUNTS_FROM


def _day(at: datetime | None, yard: YardRecord) -> date | None:
    return None if at is None else local(at, yard.timezone).date()
