"""One tick: what is due is fetched once a cell, judged, and each yard's season moved.

Cells are taken many at a time, so that memory is bounded: asked for in one request, kept and read
in a few statements, reckoned once for all their yards. Sources are asked outside any transaction.
Yards are taken some at a time: loaded in one statement, each moved by itself, and what comes of
them, states, alerts and next looks, is written together.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from datetime import date, datetime, timedelta
from typing import Final

from jobs import packed_cells
from jobs.alike import look_together
from jobs.outlooks import CellOutlook, Outlooks
from jobs.packed_cells import HeldCell
from jobs.resting import look_and_plan
from jobs.season_facts import sight_of
from jobs.sources.base import Cell, Source, newest_known_day
from jobs.sources.timezones import standard_offset
from jobs.telling import Moved
from jobs.weather_in import CELLS_AT_ONCE, Weather, nearest_first, parts
from jobs.yard_look import begin_seasons
from storage import alerts, held, yards
from storage.database import Database, StaleWrite, Work, may_pass
from storage.places_taken import taken
from storage.yards import DueYard, YardRecord

log = logging.getLogger(__name__)

#: Yards looked at in one unit of work, each by itself or all that are alike: people who write
#: meanwhile wait for that one.
_YARDS_AT_ONCE: Final = 50
_ALIKE_AT_ONCE: Final = 500
#: Outlooks are held of so many cells, which are reckoned in one go.
_RECKONED_AT_ONCE: Final = 50
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
        cells_at_once: int = CELLS_AT_ONCE,
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
        self.weather = Weather(db, source, is_stopping=is_stopping)

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
        for part in parts(nearest_first(by_cell, now), self._cells_at_once):
            if self._is_stopping():
                return
            # What another worker looks at just now, or did meanwhile, is not ours.
            with taken(self._db, [(cell.lat_e2, cell.lon_e2) for cell in part]) as mine:
                ours = {c: by_cell[c] for c in part if (c.lat_e2, c.lon_e2) in mine}
                self._look_at_cells(self._still_due(ours, now), now)

    def _still_due(
        self, by_cell: Mapping[Cell, Sequence[DueYard]], now: datetime
    ) -> Mapping[Cell, Sequence[DueYard]]:
        if not self._db.is_shared or not by_cell:
            return by_cell
        every = [yard.id for yards_there in by_cell.values() for yard in yards_there]
        with self._db.reading() as work:
            due = yards.still_due(work, every, now)
        left = {c: [y for y in there if y.id in due] for c, there in by_cell.items()}
        return {cell: yards_there for cell, yards_there in left.items() if yards_there}

    def look_now(self, yard_id: int, now: datetime) -> None:
        """Look at one yard, if it is due: somebody who has just registered it waits for that."""
        with self._db.reading() as work:
            yard = yards.yard(work, yard_id)
        if yard is not None and yard.next_check_at <= now:
            due = DueYard(yard.id, yard.lat, yard.lon, yard.timezone)
            self._look_at_cells({Cell.at(yard.lat, yard.lon): [due]}, now)

    def _look_at_cells(self, due: Mapping[Cell, Sequence[DueYard]], now: datetime) -> None:
        if not due:
            return
        troubled = self.weather.fetch(due, now)
        for part in parts(list(due), _RECKONED_AT_ONCE):
            self._look_at_reckoned({cell: due[cell] for cell in part}, troubled, now)

    def _look_at_reckoned(
        self,
        due: Mapping[Cell, Sequence[DueYard]],
        troubled: Mapping[Cell, datetime],
        now: datetime,
    ) -> None:
        outlooks = self._reckoned(due, now)
        cells = {yard.id: cell for cell, yards_there in due.items() for yard in yards_there}
        if self._listener is None:
            for part in parts(list(cells), self._alike_at_once):
                if self._is_stopping():
                    return
                for yard_id in self._look_together(part, cells, outlooks, troubled, now):
                    del cells[yard_id]
        for part in parts(list(cells), self._yards_at_once):
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
                yard_ids = [yard.id for yard in due[cell]]
                log.exception("the cell of yard %s could not be reckoned", yard_ids[0])
                self._put_off(yard_ids, now)
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
            work, yard, sight, now, again_at=again_at, keeps_quiet_hours=self._keeps_quiet_hours
        )
