"""Who ticks, and by which clock: the lease, the jobs by the wall or a demonstration's clock."""

from __future__ import annotations

import logging
import threading
import time
from dataclasses import replace
from datetime import datetime, timedelta
from typing import Final

from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from bot.wiring import Clock, WallClock
from jobs.schedule import Job, advance, by_the_wall
from storage import clock as stored_clock
from storage import heartbeats, leases
from storage.database import Database, may_pass

log = logging.getLogger(__name__)

#: A worker renews its lease this often; one that died is replaced when its lease has run out.
_RENEW_EVERY: Final = timedelta(seconds=5)
_LEASE_LASTS: Final = timedelta(seconds=15)
_LEASE: Final = "tick"
#: Whoever ticks says so this often.
_BEAT_EVERY: Final = timedelta(minutes=1)
HEARTBEAT: Final = "tick"

#: On stopping, a database that does not answer in so long is left alone [s].
_ASK_WITHIN_S: Final = 1.0

#: A demonstration's clock moves by about so much at a time, but not more often than that [s].
_HOP: Final = timedelta(hours=2)
_SHORTEST_BEAT_S: Final = 0.05
_LONGEST_BEAT_S: Final = 1.0


class KeptClock:
    """The clock of a demonstration, as it is kept in the database; whoever ticks moves it.

    Parameters
    ----------
    db
        The database, in which a clock is kept already.
    climate
        The climate it belongs to.
    """

    def __init__(self, db: Database, climate: str) -> None:
        self._db = db
        self._climate = climate
        self._last: datetime | None = None

    def now(self) -> datetime:
        """Return the present instant (UTC); while the database is away, the last one read.

        Every turn begins with it, an emergency's too, which is answered without the database.
        """
        try:
            with self._db.reading() as work:
                stored = stored_clock.read(work)
        except SQLAlchemyError as trouble:
            if self._last is None or not may_pass(trouble):
                raise
            return self._last
        assert stored is not None
        self._last = stored[0]
        return self._last

    def keep(self, instant: datetime) -> None:
        """Move to an instant and keep it."""
        with self._db.writing() as work:
            stored_clock.advance(work, instant, self._climate)


class Lease:
    """The right to tick, renewed in a thread of its own.

    Parameters
    ----------
    db
        The database.
    owner
        This process.
    clock
        The wall's clock, whatever clock the jobs go by.
    """

    def __init__(self, db: Database, owner: str, clock: Clock) -> None:
        self._db = db
        self._owner = owner
        self._clock = clock
        self._held_until_s = 0.0
        self._was_held: bool | None = None
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._renew, name="lease", daemon=True)

    def start(self) -> None:
        """Begin to ask for it."""
        self._thread.start()

    def is_held(self) -> bool:
        """Tell whether this process may tick now."""
        return time.monotonic() < self._held_until_s

    def stop(self) -> None:
        """Ask no more, and give it back."""
        self._stopping.set()
        self._thread.join(_ASK_WITHIN_S)
        if self._thread.is_alive():
            log.warning("the lease runs out by itself: the database does not answer")
        else:
            self.give_back()

    def give_back(self) -> None:
        """End it early, if it is held."""
        self._held_until_s = 0.0
        try:
            with self._db.writing() as work:
                leases.give_back(work, _LEASE, self._owner, now=self._clock.now())
        except SQLAlchemyError as error:
            log.warning("the lease runs out by itself: %s", _first_line(error))

    def _renew(self) -> None:
        while True:
            self.ask()
            if self._stopping.wait(_RENEW_EVERY.total_seconds()):
                return

    def ask(self) -> None:
        """Take it, or renew it."""
        asked_at_s, now = time.monotonic(), self._clock.now()
        try:
            with self._db.writing() as work:
                is_held = leases.take(work, _LEASE, self._owner, now=now, until=now + _LEASE_LASTS)
        except IntegrityError:
            is_held = False
        except SQLAlchemyError as error:
            # What was held stays held until it runs out.
            log.warning("the lease could not be renewed: %s", _first_line(error))
            return
        self._held_until_s = asked_at_s + _LEASE_LASTS.total_seconds() if is_held else 0.0
        if is_held != self._was_held:
            self._was_held = is_held
            log.info("Ticking." if is_held else "Another worker has the lease; standing by.")


class WallTicker:
    """Runs the jobs by the wall's clock while the lease is held; those that are shared always."""

    def __init__(self, jobs: tuple[Job, ...], clock: Clock, lease: Lease) -> None:
        def guarded(job: Job) -> Job:
            if job.is_shared:
                return job
            return replace(job, next_due_at=lambda: job.next_due_at() if lease.is_held() else None)

        self._lease = lease
        self._scheduler = by_the_wall([guarded(job) for job in jobs], clock.now, WallClock().now)

    def start(self) -> None:
        """Begin."""
        self._lease.start()
        self._scheduler.start()

    def stop(self) -> None:
        """Let what is under way finish."""
        self._scheduler.shutdown(wait=True)
        self._lease.stop()


class DemonstrationTicker:
    """Moves a demonstration's clock and runs the jobs through each hop, while the lease is held.

    Time that the work itself takes does not count, so that a slow machine or platform slows the
    show down instead of skipping a part of it.

    Parameters
    ----------
    jobs
        The table.
    clock
        The database's clock.
    lease
        The right to tick.
    rate
        Seconds of the clock in one of the wall.
    """

    def __init__(self, jobs: tuple[Job, ...], clock: KeptClock, lease: Lease, rate: float) -> None:
        self._jobs = jobs
        self._clock = clock
        self._lease = lease
        self._rate = rate
        beat_s = _HOP.total_seconds() / rate
        self._beat_s = max(_SHORTEST_BEAT_S, min(_LONGEST_BEAT_S, beat_s))
        self._stopping = threading.Event()
        self._thread = threading.Thread(target=self._run, name="ticker", daemon=True)

    def start(self) -> None:
        """Begin."""
        self._lease.start()
        self._thread.start()

    def stop(self) -> None:
        """Let the hop under way finish."""
        self._stopping.set()
        self._thread.join()
        self._lease.stop()

    def _run(self) -> None:
        since_s = time.monotonic()
        while not self._stopping.wait(self._beat_s):
            now_s = time.monotonic()
            if self._lease.is_held():
                self._hop(timedelta(seconds=(now_s - since_s) * self._rate))
            since_s = time.monotonic()

    def _hop(self, span: timedelta) -> None:
        try:
            now = self._clock.now()
            advance(self._jobs, now, now + span, self._clock.keep)
        except Exception as trouble:
            if may_pass(trouble):
                log.warning("the clock waits for the database")
            else:
                log.exception("a hop of the clock failed")


def heartbeat(db: Database, clock: Clock) -> Job:
    """Return the job that tells that jobs are looked at at all."""

    def beat(now: datetime) -> None:
        with db.writing() as work:
            heartbeats.beat(work, HEARTBEAT, now)

    return Job("heartbeat", _BEAT_EVERY, beat, clock.now)


def _first_line(error: Exception) -> str:
    return str(error).splitlines()[0]
