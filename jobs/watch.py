"""One tick: what is due is fetched once a cell, judged, and each yard's season moved.

Cells are taken many at a time, so that memory is bounded: asked for in one request, kept and read
in a few statements, reckoned once for all their yards. Sources are asked outside any transaction.
Yards are taken some at a time: loaded in one statement, each moved by itself, and what comes of
them, states, alerts and next looks, is written together.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Iterator, Mapping, Sequence
from datetime import UTC, date, datetime, timedelta
from typing import Final, TypeVar

from sqlalchemy.exc import IntegrityError

from jobs import packed_cells
from jobs.alike import look_together
from jobs.local_days import next_look_at
from jobs.outlooks import CellOutlook, Outlooks
from jobs.packed_cells import HeldCell
from jobs.resting import look_and_plan
from jobs.season_facts import sight_of
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
from jobs.telling import Moved
from jobs.yard_look import begin_seasons
from storage import alerts, held, yards
from storage import cells as cell_rows
from storage.database import Database, StaleWrite, Work, may_pass
from storage.yards import DueYard, YardRecord

log = logging.getLogger(__name__)

#: Years of history asked of a source.
HISTORY_YEARS: Final = 16
#: Cells asked for and reckoned at once, and yards looked at in one unit of work, each by itself or
#: all that are alike: people who write meanwhile wait for that one.
_CELLS_AT_ONCE: Final = 100
_YARDS_AT_ONCE: Final = 50
_ALIKE_AT_ONCE: Final = 500
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

#: A yard that trips us up is looked at again after this.
_PUT_OFF: Final = timedelta(hours=1)

Listener = Callable[[YardRecord, datetime, Sequence[Moved]], None]


class Watch:
    """The tick over every yard that is due.

    Parameters
    ----------
    db
        The database.
    source
        Where weather comes from.
    listener
        Told of every look that moved something; replays print what it hears.
    keeps_quiet_hours
        False where alerts are wanted at once.
    puts_off_trouble
        False where a yard that trips us up should stop everything, as in a replay.
    cells_at_once, yards_at_once
        How many are taken together.
    is_stopping
        Asked between them: where it says so, the rest is left for the next start.
    """

    def __init__(
        self,
        db: Database,
        source: Source,
        outlooks: Outlooks,
        *,
        listener: Listener | None = None,
        keeps_quiet_hours: bool = True,
        puts_off_trouble: bool = True,
        cells_at_once: int = _CELLS_AT_ONCE,
        yards_at_once: int = _YARDS_AT_ONCE,
        is_stopping: Callable[[], bool] = lambda: False,
    ) -> None:
        self._db = db
        self._source = source
        self._outlooks = outlooks
        self._listener = listener
        self._keeps_quiet_hours = keeps_quiet_hours
        self._puts_off_trouble = puts_off_trouble
        self._cells_at_once = cells_at_once
        self._yards_at_once = yards_at_once
        self._alike_at_once = min(_ALIKE_AT_ONCE, yards_at_once * 10)
        self._is_stopping = is_stopping
        self._weather_at = self._years_at = datetime.min.replace(tzinfo=UTC)

    def next_due_at(self) -> datetime | None:
        """Return when the next yard wants to be looked at."""
        with self._db.reading() as work:
            return yards.next_due_at(work)

    def tick(self, now: datetime) -> None:
        """Look at every yard that is due at ``now``."""
        with self._db.reading() as work:
            due = yards.due(work, now)
        by_cell: dict[Cell, list[DueYard]] = {}
        for yard in due:
            by_cell.setdefault(Cell.at(yard.lat, yard.lon), []).append(yard)
        for part in _parts(_nearest_first(by_cell, now), self._cells_at_once):
            if self._is_stopping():
                return
            self._look_at_cells({cell: by_cell[cell] for cell in part}, now)

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
        for part in _parts(_nearest_first(by_cell, now), self._cells_at_once):
            if self._is_stopping():
                return
            these = {cell: by_cell[cell] for cell in part}
            self._refresh(self._wanted(these, now, _FRESH_FOR_RESTING, _SHARE_OF_RESTING), now)
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
        nearest = [cell for cell in _nearest_first(by_cell, now) if by_cell[cell]]
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

    def look_now(self, yard_id: int, now: datetime) -> None:
        """Look at one yard, if it is due: somebody who has just registered it waits for that."""
        with self._db.reading() as work:
            yard = yards.yard(work, yard_id)
        if yard is not None and yard.next_check_at <= now:
            due = DueYard(yard.id, yard.lat, yard.lon, yard.timezone)
            self._look_at_cells({Cell.at(yard.lat, yard.lon): [due]}, now)

    def _look_at_cells(self, due: Mapping[Cell, Sequence[DueYard]], now: datetime) -> None:
        troubled = self._refresh(self._wanted(due, now), now)
        outlooks = self._reckoned(due, now)
        cells = {yard.id: cell for cell, yards_there in due.items() for yard in yards_there}
        if self._listener is None:
            for part in _parts(list(cells), self._alike_at_once):
                if self._is_stopping():
                    return
                for yard_id in self._look_together(part, cells, outlooks, troubled, now):
                    del cells[yard_id]
        for part in _parts(list(cells), self._yards_at_once):
            if self._is_stopping():
                return
            self._look_at(part, outlooks, troubled, now)

    def _look_together(
        self,
        yard_ids: Sequence[int],
        cells: Mapping[int, Cell],
        outlooks: Mapping[Cell, CellOutlook | None],
        troubled: Mapping[Cell, datetime],
        now: datetime,
    ) -> set[int]:
        """Look at those of yards to which nothing happened; return the numbers of those done."""
        these = {yard_id: cells[yard_id] for yard_id in yard_ids}
        try:
            with self._db.writing() as work:
                return look_together(work, these, outlooks, troubled, now)
        except Exception as trouble:
            if may_pass(trouble) or not self._puts_off_trouble:
                raise
            # Each is looked at by itself then, so that one that trips us up holds back no other.
            log.info("%d yards could not be looked at together", len(yard_ids), exc_info=True)
            return set()

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
            newly = [
                f"{cell.lat:.2f},{cell.lon:.2f}: {troubles[cell]}"
                for cell in packed_cells.note_trouble(work, name, told, now)
            ]
            if newly:
                log.warning("%s fails for %d cells, first %s", name, len(newly), newly[0])
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

    def _reckoned(
        self, due: Mapping[Cell, Sequence[DueYard]], now: datetime
    ) -> dict[Cell, CellOutlook | None]:
        """Return the outlooks of cells; yards of one that cannot be reckoned are put off."""
        with self._db.reading() as work:
            held = packed_cells.held_of(work, self._source.name, list(due))
        issued = {
            cell: newest_known_day(now, standard_offset(yards_there[0].timezone))
            for cell, yards_there in due.items()
        }
        found: dict[Cell, CellOutlook | None] = {c: None for c in due if c not in held}
        return found | self._made({c: (held[c], issued[c]) for c in due if c in held}, due, now)

    def _made(
        self,
        wanted: Mapping[Cell, tuple[HeldCell, date]],
        due: Mapping[Cell, Sequence[DueYard]],
        now: datetime,
    ) -> dict[Cell, CellOutlook | None]:
        try:
            found = self._outlooks.make(list(wanted.values()))
        except Exception:
            if not self._puts_off_trouble:
                raise
            if len(wanted) > 1:
                # One that cannot be reckoned holds back no other.
                made: dict[Cell, CellOutlook | None] = {}
                for cell, each in wanted.items():
                    made.update(self._made({cell: each}, due, now))
                return made
            for cell in wanted:
                log.exception("cell %.2f,%.2f could not be reckoned", cell.lat, cell.lon)
                self._put_off([yard.id for yard in due[cell]], now)
            return {}
        return dict(zip(wanted, found, strict=True))

    def _put_off(self, yard_ids: Sequence[int], now: datetime) -> None:
        with self._db.writing() as work:
            for yard_id in yard_ids:
                yards.change(work, yard_id, next_check_at=now + _PUT_OFF)

    def _look_at(
        self,
        yard_ids: Sequence[int],
        outlooks: Mapping[Cell, CellOutlook | None],
        troubled: Mapping[Cell, datetime],
        now: datetime,
    ) -> None:
        try:
            looked = self._looks(yard_ids, outlooks, troubled, now)
        except Exception as trouble:
            if may_pass(trouble):
                raise
            if len(yard_ids) > 1:
                # One that trips us up holds back no other.
                for yard_id in yard_ids:
                    self._look_at([yard_id], outlooks, troubled, now)
            elif isinstance(trouble, StaleWrite):
                # A person changed the yard meanwhile; it is still due and is looked at again.
                log.info("yard %s changed during its look", yard_ids[0])
            elif self._puts_off_trouble:
                log.exception("yard %s could not be looked at", yard_ids[0])
                self._put_off(yard_ids, now)
            else:
                raise
            return
        if self._listener is not None:
            for yard, moved in looked:
                self._listener(yard, now, moved)

    def _looks(
        self,
        yard_ids: Sequence[int],
        outlooks: Mapping[Cell, CellOutlook | None],
        troubled: Mapping[Cell, datetime],
        now: datetime,
    ) -> list[tuple[YardRecord, list[Moved]]]:
        looked = []
        with self._db.writing() as work:
            yards.hold(work, *yard_ids)
            held.load(work, yard_ids)
            alerts.know_episodes(work, yard_ids, range(now.year - 1, now.year + 2))
            found = [yards.yard(work, yard_id) for yard_id in yard_ids]
            # Meanwhile somebody may have moved one, given it up, or looked at it.
            due = [
                yard
                for yard in found
                if yard is not None
                and yard.next_check_at <= now
                and Cell.at(yard.lat, yard.lon) in outlooks
            ]
            begin_seasons(work, due, now)
            held.load(work, yard_ids)
            with work.in_one_go():
                for yard in due:
                    cell = Cell.at(yard.lat, yard.lon)
                    moved = self._look(work, yard, outlooks[cell], now, troubled.get(cell))
                    looked.append((yard, moved))
        return looked

    def _look(
        self,
        work: Work,
        yard: YardRecord,
        cell: CellOutlook | None,
        now: datetime,
        again_at: datetime | None,
    ) -> list[Moved]:
        sight = None if cell is None else sight_of(work, yard, cell)
        return look_and_plan(
            work,
            yard,
            sight,
            now,
            again_at=again_at,
            keeps_quiet_hours=self._keeps_quiet_hours,
        )


def _nearest_first(by_cell: Mapping[Cell, Sequence[DueYard]], now: datetime) -> list[Cell]:
    """Return cells by how near a decision of one of their yards is; new places come first."""
    today = now.date()

    def days(yard: DueYard) -> int:
        if yard.event_on is None:
            return -1
        return abs((date.fromisoformat(yard.event_on) - today).days)

    return sorted(by_cell, key=lambda cell: min(map(days, by_cell[cell]), default=-1))


Part = TypeVar("Part")


def _parts(whole: Sequence[Part], size: int) -> Iterator[Sequence[Part]]:
    return (whole[start : start + size] for start in range(0, len(whole), size))


def _wait_after(trouble: SourceTrouble) -> timedelta:
    """Return how long to leave a source alone: as long as it says, where it says so."""
    if isinstance(trouble, QuotaSpent) and trouble.retry_after_s is not None:
        return timedelta(seconds=max(60.0, trouble.retry_after_s))
    return _TRY_AGAIN_AFTER
