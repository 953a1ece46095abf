"""`soilbell run`, `bot` and `worker`: the bot on the chat platform and the scheduler beside it.

Whoever ticks holds a lease, so that of several workers one does the work and another takes over
when it dies. Told to stop, the program finishes what is under way and leaves the rest for the next
start.
"""

from __future__ import annotations

import asyncio
import logging
import os
import signal
import socket
import threading
import time
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Final

from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from bot.settings import Settings, SettingsUnusable
from bot.telegram import UPDATES, Addresses, Front
from bot.telegram_admins import AdminNotes
from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_poll import Poller, TokenRefused, open_line
from bot.telegram_send import Sender, TelegramMessenger
from bot.wiring import (
    Clock,
    ClockTrouble,
    Machine,
    WallClock,
    assemble,
    source_named,
)
from jobs.schedule import Job, advance, by_the_wall
from jobs.sources.base import Source
from storage import clock as stored_clock
from storage import leases
from storage.database import Database, may_pass

log = logging.getLogger(__name__)

#: A worker renews its lease this often; one that died is replaced when its lease has run out.
_RENEW_EVERY: Final = timedelta(seconds=5)
_LEASE_LASTS: Final = timedelta(seconds=15)
_LEASE: Final = "tick"

#: A demonstration's clock moves by about so much at a time, but not more often than that [s].
_HOP: Final = timedelta(hours=2)
_SHORTEST_BEAT_S: Final = 0.05
_LONGEST_BEAT_S: Final = 1.0

#: Polls wait at the platform for so many time-outs' length, within reason [s].
_LONGEST_POLL_S: Final = 25


class CannotRun(Exception):
    """Raised when the program cannot start; carries one clear sentence."""


class CannotRunNow(CannotRun):
    """Raised where starting again later may do."""


@dataclass(frozen=True, slots=True)
class Duties:
    """What a process does: answer people, tick, or both."""

    answers: bool
    ticks: bool


def run(settings: Settings, duties: Duties) -> None:
    """Run until told to stop.

    Raises
    ------
    SettingsUnusable
        If a setting is missing, or two do not go together.
    CannotRun
        If the database cannot be used or the token is refused.
    ClockTrouble
        If the database belongs to another climate.
    """
    token = settings.token_text
    source = source_named(settings.source, settings=settings)
    is_demonstration = settings.clock_rate != 1 or settings.clock_start is not None
    if is_demonstration and not source.can_move_clock:
        raise SettingsUnusable(
            f"SOILBELL_CLOCK_RATE and SOILBELL_CLOCK_START are for demonstrations on invented or "
            f"recorded weather; {settings.source} is live. Leave them out, or set "
            "SOILBELL_SOURCE=simulated."
        )
    db = open_database(settings.database_url)
    try:
        clock = _clock(db, source, settings)
        asyncio.run(_live(settings, duties, token, db, source, clock))
    except TokenRefused:
        raise CannotRun(
            "The chat platform does not know this token. Copy it again from the platform's own "
            "account bot into SOILBELL_TOKEN."
        ) from None
    finally:
        db.close()


def open_database(url: str) -> Database:
    """Return the database with its schema at the newest revision.

    Raises
    ------
    CannotRun
        If it cannot be opened or upgraded; `CannotRunNow` if it is out of reach or locked.
    """
    db = None
    try:
        db = Database(url)
        db.upgrade()
    except (SQLAlchemyError, ImportError) as error:
        if db is not None:
            db.close()
        reason = str(getattr(error, "orig", None) or error).splitlines()[0]
        kind = CannotRunNow if may_pass(error) else CannotRun
        raise kind(f"The database (SOILBELL_DATABASE_URL) cannot be used: {reason}") from None
    return db


async def _live(
    settings: Settings, duties: Duties, token: str, db: Database, source: Source, clock: Clock
) -> None:
    stop = asyncio.Event()
    loop = asyncio.get_running_loop()
    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, stop.set)

    pause = timedelta(seconds=3 * settings.platform_timeout_s)
    line = LineReport()
    pacer = Pacer()
    bot = make_bot(token, settings.platform_url, settings.platform_timeout_s, pacer)
    addresses = Addresses(db)
    sender = Sender(bot, line, pause, silence=addresses.silence, move=addresses.move)
    messenger = TelegramMessenger(sender, pacer, loop, pause, clock_rate=settings.clock_rate)
    machine = assemble(
        db,
        source,
        messenger,
        owner=_own_name(),
        pictures=settings.pictures,
        keeps_unread=settings.keep_unread,
    )
    ticker = _ticker(machine, clock, settings) if duties.ticks else None
    notes = AdminNotes(sender, loop, settings.admin_ids, settings.secrets)
    logging.getLogger().addHandler(notes)
    log.info("Weather from %s, data in %s.", source.name, db.engine.url)
    try:
        if ticker is not None:
            # Weather is watched also while the chat platform is down.
            ticker.start()
        await open_line(bot, line, stop)
        if duties.answers and not stop.is_set():
            log.info("Answering as @%s.", bot.username)
            machine.conversation.invite_by(f"https://t.me/{bot.username}?start={{payload}}")
            front = Front(
                bot, machine.conversation, sender, addresses, clock.now, settings.pictures
            )
            poll_s = max(1, min(_LONGEST_POLL_S, int(2 * settings.platform_timeout_s)))
            await Poller(bot, line, UPDATES, poll_s).run(front.take, stop)
        else:
            await stop.wait()
        log.info("Stopping.")
    finally:
        logging.getLogger().removeHandler(notes)
        if ticker is not None:
            # Off the loop: a letter under way needs it to come through.
            await asyncio.to_thread(ticker.stop)
        await bot.shutdown()


def _clock(db: Database, source: Source, settings: Settings) -> Clock:
    """Return the wall's clock for live weather, and the database's own for the rest.

    Raises
    ------
    ClockTrouble
        If the database's clock belongs to another climate.
    """
    with db.reading() as work:
        stored = stored_clock.read(work)
    climate = settings.source if source.can_move_clock else source.name
    if stored is not None and stored[1] not in (climate, f"{climate}:0"):
        raise ClockTrouble(
            f"This database lives in the climate {stored[1]!r}, not {climate!r}. Take another "
            "with SOILBELL_DATABASE_URL, or leave SOILBELL_SOURCE as it was."
        )
    if not source.can_move_clock:
        return WallClock()
    kept = KeptClock(db, climate)
    if stored is None:
        try:
            kept.keep(settings.clock_start or WallClock().now())
        except IntegrityError:
            # The other half made it at the same moment.
            log.info("the clock was made by another process")
    return kept


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

    def now(self) -> datetime:
        """Return the present instant (UTC)."""
        with self._db.reading() as work:
            stored = stored_clock.read(work)
        assert stored is not None
        return stored[0]

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
        self._thread.join()
        self.give_back()

    def give_back(self) -> None:
        """End it early, if it is held."""
        self._held_until_s = 0.0
        try:
            with self._db.writing() as work:
                leases.give_back(work, _LEASE, self._owner, now=self._clock.now())
        except SQLAlchemyError as error:
            log.warning("the lease runs out by itself: %s", error)

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
            log.warning("the lease could not be renewed: %s", error)
            return
        self._held_until_s = asked_at_s + _LEASE_LASTS.total_seconds() if is_held else 0.0
        if is_held != self._was_held:
            self._was_held = is_held
            log.info("Ticking." if is_held else "Another worker ticks; standing by.")


class WallTicker:
    """Runs the jobs by the wall's clock while the lease is held."""

    def __init__(self, jobs: tuple[Job, ...], clock: Clock, lease: Lease) -> None:
        def guarded(job: Job) -> Job:
            return replace(job, next_due_at=lambda: job.next_due_at() if lease.is_held() else None)

        self._lease = lease
        self._scheduler = by_the_wall([guarded(job) for job in jobs], clock.now)

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
        except Exception:
            log.exception("a hop of the clock failed")


def _ticker(machine: Machine, clock: Clock, settings: Settings) -> WallTicker | DemonstrationTicker:
    lease = Lease(machine.db, _own_name(), WallClock())
    if isinstance(clock, KeptClock):
        return DemonstrationTicker(machine.jobs, clock, lease, settings.clock_rate)
    return WallTicker(machine.jobs, clock, lease)


def _own_name() -> str:
    return f"{socket.gethostname()}:{os.getpid()}"
