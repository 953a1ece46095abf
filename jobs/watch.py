"""One tick: what is due is fetched once a cell, judged, and each yard's season moved.

Sources are asked outside any transaction; each yard's new state, its alerts and its next look are
written together.
"""

from __future__ import annotations

import logging
from collections.abc import Callable, Mapping, Sequence
from datetime import UTC, datetime, timedelta
from typing import Final

from jobs import cells
from jobs.digests import tell_back
from jobs.local_days import next_look_at
from jobs.outlooks import CellOutlook, Outlooks
from jobs.season_facts import sight_of
from jobs.seasons import look
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
from storage import cells as cell_rows
from storage import wishes, yards
from storage.database import Database, StaleWrite, Work
from storage.yards import YardRecord

log = logging.getLogger(__name__)

#: Years of history asked of a source.
HISTORY_YEARS: Final = 16
#: Yards looked at in one tick; the rest waits for the next, which follows at once.
_YARDS_A_TICK: Final = 500
#: A cell fetched within this time is not asked for again.
_FRESH_FOR: Final = timedelta(hours=5)
#: A source in trouble is asked again after this.
_TRY_AGAIN_AFTER: Final = timedelta(hours=1)

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
    ) -> None:
        self._db = db
        self._source = source
        self._outlooks = outlooks
        self._listener = listener
        self._keeps_quiet_hours = keeps_quiet_hours
        self._puts_off_trouble = puts_off_trouble

    def next_due_at(self) -> datetime | None:
        """Return when the next yard wants to be looked at."""
        with self._db.reading() as work:
            return yards.next_due_at(work)

    def tick(self, now: datetime) -> None:
        """Look at every yard that is due at ``now``."""
        with self._db.reading() as work:
            due = yards.due(work, now, _YARDS_A_TICK)
            wanted = self._wanted(work, due, now)
        troubled = self._refresh(wanted, now)
        outlooks: dict[Cell, CellOutlook | None] = {}
        for yard in due:
            cell = Cell.at(yard.lat, yard.lon)
            try:
                if cell not in outlooks:
                    outlooks[cell] = self._outlook(cell, yard, now)
                self._look(yard, outlooks[cell], now, again_at=troubled.get(cell))
            except Exception:
                if not self._puts_off_trouble:
                    raise
                # One yard that trips us up must not hold back the others, nor be retried at once.
                log.exception("yard %s could not be looked at", yard.id)
                with self._db.writing() as work:
                    yards.change(work, yard.id, next_check_at=now + _PUT_OFF)

    def _wanted(self, work: Work, due: Sequence[YardRecord], now: datetime) -> list[CellRequest]:
        requests: dict[Cell, CellRequest] = {}
        for yard in due:
            cell = Cell.at(yard.lat, yard.lon)
            if cell in requests:
                continue
            offset = standard_offset(yard.timezone)
            newest = newest_known_day(now, offset)
            record = cell_rows.cell(work, self._source.name, cell.lat_e2, cell.lon_e2)
            if record is not None:
                if record.try_again_at is not None and record.try_again_at > now:
                    continue
                is_current = record.last_known_day is not None and record.last_known_day >= newest
                fetched_at = record.fetched_at or datetime.min.replace(tzinfo=UTC)
                if is_current and now - fetched_at < _FRESH_FOR:
                    continue
            since = cells.since_for(record, newest, HISTORY_YEARS)
            requests[cell] = CellRequest(cell, offset, since)
        return list(requests.values())

    def _refresh(self, wanted: Sequence[CellRequest], now: datetime) -> dict[Cell, datetime]:
        if not wanted:
            return {}
        answers = self._source.fetch(wanted, now)
        with self._db.writing() as work:
            return self._keep(work, answers, now)

    def _keep(
        self, work: Work, answers: Mapping[Cell, object], now: datetime
    ) -> dict[Cell, datetime]:
        troubled: dict[Cell, datetime] = {}
        newly: list[str] = []
        recovered: list[str] = []
        for cell, answer in answers.items():
            name = self._source.name
            if isinstance(answer, SourceTrouble):
                again = troubled[cell] = now + _wait_after(answer)
                if cells.note_trouble(work, name, cell, str(answer), now=now, try_again_at=again):
                    newly.append(f"{cell.lat:.2f},{cell.lon:.2f}: {answer}")
                continue
            assert isinstance(answer, CellWeather)
            before = cells.keep(work, name, self._source.is_invented, cell, answer, now)
            if before is not None and before.trouble is not None:
                recovered.append(f"{cell.lat:.2f},{cell.lon:.2f}")
        if newly:
            log.warning("%s fails for %d cells, first %s", self._source.name, len(newly), newly[0])
        if recovered:
            log.warning("%s is back for %d cells", self._source.name, len(recovered))
        return troubled

    def _outlook(self, cell: Cell, yard: YardRecord, now: datetime) -> CellOutlook | None:
        with self._db.reading() as work:
            held = cells.held(work, self._source.name, cell)
        if held is None:
            return None
        issued = newest_known_day(now, standard_offset(yard.timezone))
        return self._outlooks.of(held, issued)

    def _look(
        self,
        yard: YardRecord,
        cell: CellOutlook | None,
        now: datetime,
        *,
        again_at: datetime | None,
    ) -> None:
        next_at = next_look_at(now, yard.timezone)
        if again_at is not None:
            next_at = min(next_at, again_at)
        try:
            with self._db.writing() as work:
                yards.hold(work, yard.id)
                sight = None if cell is None else sight_of(work, yard, cell)
                moved = look(
                    work,
                    yard,
                    {} if sight is None else sight.judged,
                    None if sight is None else sight.known,
                    now,
                    keeps_quiet_hours=self._keeps_quiet_hours,
                    course=None if sight is None else sight.course,
                )
                if self._keeps_quiet_hours:
                    tell_back(work, yard, now)
                wake_at = wishes.of_chat(work, yard.chat_id).wake_at
                if wake_at is not None:
                    next_at = min(next_at, next_look_at(now, yard.timezone, wake_at))
                yards.looked_at(work, yard, next_at)
        except StaleWrite:
            # A person changed the yard meanwhile; it is still due and is looked at again at once.
            log.info("yard %s changed during its look", yard.id)
            return
        if self._listener is not None:
            self._listener(yard, now, moved)


def _wait_after(trouble: SourceTrouble) -> timedelta:
    """Return how long to leave a source alone: as long as it says, where it says so."""
    if isinstance(trouble, QuotaSpent) and trouble.retry_after_s is not None:
        return timedelta(seconds=max(60.0, trouble.retry_after_s))
    return _TRY_AGAIN_AFTER
