"""Weather of the places yards lie in: asked for where it is not fresh, kept, and past years filled.

Sources are asked outside any transaction.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Final, TypeVar

from sqlalchemy.exc import IntegrityError

from jobs import packed_cells
from jobs.local_days import next_look_at
from jobs.sources.base import (
    Cell,
    CellRequest,
    CellWeather,
    QuotaSpent,
    Source,
    SourceTrouble,
    newest_known_day,
)
from jobs.sources.timezones import standard_offset
from storage import cells as cell_rows
from storage import yards
from storage.database import Database, Work
from storage.yards import DueYard

log = logging.getLogger(__name__)

#: Years of history asked of a source.
HISTORY_YEARS: Final = 16
#: Cells asked for at once.
CELLS_AT_ONCE: Final = 100
#: A cell fetched within this time is not asked for again.
_FRESH_FOR: Final = timedelta(hours=5)
#: For a yard that rests it will do until another day is known.
_FRESH_FOR_RESTING: Final = timedelta(hours=30)
_A_DAY: Final = timedelta(days=1)
#: A source in trouble is asked again after this.
_TRY_AGAIN_AFTER: Final = timedelta(hours=1)

#: Of the calls of a source that counts them, the shares that yards at rest, and past years, may
#: take; past years of so many places at once, again after so long.
_SHARE_OF_RESTING: Final = 0.9
_SHARE_OF_YEARS: Final = 0.8
_YEARS_AT_ONCE: Final = 8
_YEARS_EVERY: Final = timedelta(minutes=1)


class Weather:
    """The weather of places, as far as it is held and as it comes.

    Parameters
    ----------
    db, source
        Where it is kept, and where it comes from.
    is_stopping
        Asked between requests: where it says so, the rest is left for the next start.
    """

    def __init__(
        self, db: Database, source: Source, *, is_stopping: Callable[[], bool] = lambda: False
    ) -> None:
        self._db = db
        self._source = source
        self._is_stopping = is_stopping
        self._weather_at = self._years_at = datetime.min.replace(tzinfo=UTC)

    def fetch(
        self,
        by_cell: Mapping[Cell, Sequence[DueYard]],
        now: datetime,
        fresh_for: timedelta = _FRESH_FOR,
        share: float = 1.0,
    ) -> dict[Cell, datetime]:
        """Ask for what is not fresh of cells, by their yards, and keep it.

        Returns when to ask again where the source is in trouble. Of the calls of a source that
        counts them it may take a share.
        """
        return self._refresh(self._wanted(by_cell, now, fresh_for, share), now)

    def next_weather_at(self) -> datetime:
        """Return when places whose yards rest want their weather next."""
        return self._weather_at

    def fetch_for_resting(self, now: datetime) -> None:
        """Fetch the weather of places whose yards rest, once a morning: people ask about them."""
        with self._db.reading() as work:
            # Those looked at just now are among them: their weather is fresh.
            resting = yards.resting(work, now + _A_DAY)
        by_cell: dict[Cell, list[DueYard]] = {}
        for yard in resting:
            by_cell.setdefault(Cell.at(yard.lat, yard.lon), []).append(yard)
        for part in parts(nearest_first(by_cell, now), CELLS_AT_ONCE):
            if self._is_stopping():
                return
            self.fetch({c: by_cell[c] for c in part}, now, _FRESH_FOR_RESTING, _SHARE_OF_RESTING)
        mornings = (next_look_at(now, timezone) for timezone in {each.timezone for each in resting})
        self._weather_at = min(mornings, default=now + _A_DAY)

    def next_years_at(self) -> datetime | None:
        """Return when the past years of places that are new are asked for next."""
        if self._source.cheap_days is None:
            return None
        with self._db.reading() as work:
            is_any = bool(cell_rows.without_years(work, self._source.name))
        return self._years_at if is_any else None

    def fill_years(self, now: datetime) -> None:
        """Fetch the past years of places that were new, those with the nearest decision first.

        What they cost is spread: only a share of the calls goes to them. Their yards are looked at
        again with what has come.
        """
        with self._db.reading() as work:
            places = {Cell(*place) for place in cell_rows.without_years(work, self._source.name)}
            every = yards.due(work, datetime.max.replace(tzinfo=UTC))
        by_cell: dict[Cell, list[DueYard]] = {cell: [] for cell in places}
        for yard in every:
            if (cell := Cell.at(yard.lat, yard.lon)) in by_cell:
                by_cell[cell].append(yard)
        nearest = [cell for cell in nearest_first(by_cell, now) if by_cell[cell]]
        wanted = []
        for cell in nearest[:_YEARS_AT_ONCE]:
            offset = standard_offset(by_cell[cell][0].timezone)
            since = packed_cells.first_wanted(newest_known_day(now, offset), HISTORY_YEARS)
            wanted.append(CellRequest(cell, offset, since, _SHARE_OF_YEARS))
        answers = self._source.fetch(wanted, now) if wanted else {}
        waits = [_wait_after(each) for each in answers.values() if isinstance(each, SourceTrouble)]
        self._years_at = now + (min(waits) if waits else _YEARS_EVERY)
        came = {cell: each for cell, each in answers.items() if isinstance(each, CellWeather)}
        if came:
            with self._db.writing() as work:
                packed_cells.keep(work, self._source.name, self._source.is_invented, came, now)
                yards.look_again(work, [yard.id for cell in came for yard in by_cell[cell]], now)
        log.info("past years have come for %d places, %d wait", len(came), len(places) - len(came))

    def _wanted(
        self,
        due: Mapping[Cell, Sequence[DueYard]],
        now: datetime,
        fresh_for: timedelta = _FRESH_FOR,
        share: float = 1.0,
    ) -> list[CellRequest]:
        with self._db.reading() as work:
            held = cell_rows.lean(work, self._source.name, [(c.lat_e2, c.lon_e2) for c in due])
        requests = []
        for cell, yards_there in due.items():
            offset = standard_offset(yards_there[0].timezone)
            newest = newest_known_day(now, offset)
            record = held.get((cell.lat_e2, cell.lon_e2))
            if record is not None:
                if record.try_again_at is not None and record.try_again_at > now:
                    continue
                is_current = record.last_known_day is not None and record.last_known_day >= newest
                fetched_at = record.fetched_at or datetime.min.replace(tzinfo=UTC)
                if is_current and now - fetched_at < fresh_for:
                    continue
            since = packed_cells.since_for(record, newest, HISTORY_YEARS, self._source.cheap_days)
            requests.append(CellRequest(cell, offset, since, share))
        return requests

    def _refresh(self, wanted: Sequence[CellRequest], now: datetime) -> dict[Cell, datetime]:
        if not wanted:
            return {}
        answers = self._source.fetch(wanted, now)
        try:
            with self._db.writing() as work:
                return self._keep(work, wanted, answers, now)
        except IntegrityError:
            # Another process met the same new place at this moment: its rows are there by now.
            with self._db.writing() as work:
                return self._keep(work, wanted, answers, now)

    def _keep(
        self,
        work: Work,
        wanted: Sequence[CellRequest],
        answers: Mapping[Cell, object],
        now: datetime,
    ) -> dict[Cell, datetime]:
        name = self._source.name
        weather = {cell: each for cell, each in answers.items() if isinstance(each, CellWeather)}
        troubles = {cell: each for cell, each in answers.items() if isinstance(each, SourceTrouble)}
        assert len(weather) + len(troubles) == len(answers)
        again = {cell: now + _wait_after(trouble) for cell, trouble in troubles.items()}
        if troubles:
            told = {cell: (str(trouble), again[cell]) for cell, trouble in troubles.items()}
            newly = packed_cells.note_trouble(work, name, told, now)
            if newly:
                log.warning("%s fails for %d cells: %s", name, len(newly), troubles[newly[0]])
            short = [cell for cell, each in troubles.items() if isinstance(each, QuotaSpent)]
            if short:
                log.warning(
                    "calls to %s are short: %d of %d places keep what they have until %s; those "
                    "with the nearest decision were asked first",
                    *(name, len(short), len(answers), f"{min(again[c] for c in short):%H:%M} UTC"),
                )
        if weather:
            since = {request.cell: self._part_since(request, now) for request in wanted}
            before = packed_cells.keep(work, name, self._source.is_invented, weather, now, since)
            recovered = [cell for cell, record in before.items() if record.trouble is not None]
            if recovered:
                log.warning("%s is back for %d cells", name, len(recovered))
        return again

    @staticmethod
    def _part_since(request: CellRequest, now: datetime) -> date | None:
        newest = newest_known_day(now, request.utc_offset)
        whole = packed_cells.first_wanted(newest, HISTORY_YEARS)
        return None if request.since <= whole else request.since


def nearest_first(by_cell: Mapping[Cell, Sequence[DueYard]], now: datetime) -> list[Cell]:
    """Return cells by how near a decision of one of their yards is; new places come first."""
    today = now.date()

    def days(yard: DueYard) -> int:
        if yard.event_on is None:
            return -1
        return abs((date.fromisoformat(yard.event_on) - today).days)

    return sorted(by_cell, key=lambda cell: min(map(days, by_cell[cell]), default=-1))


Part = TypeVar("Part")


def parts(whole: Sequence[Part], size: int) -> Iterator[Sequence[Part]]:
    """Cut what is taken some at a time."""
    return (whole[start : start + size] for start in range(0, len(whole), size))


def _wait_after(trouble: SourceTrouble) -> timedelta:
    """Return how long to leave a source alone: as long as it says, where it says so."""
    if isinstance(trouble, QuotaSpent) and trouble.retry_after_s is not None:
        return timedelta(seconds=max(60.0, trouble.retry_after_s))
    return _TRY_AGAIN_AFTER
