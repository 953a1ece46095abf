"""`soilbell run`, `bot` and `worker`: the bot on the chat platform and the scheduler beside it.

Whoever ticks holds a lease, so that of several workers one does the work and another takes over
when it dies. Told to stop, the program finishes what is under way and leaves the rest for the next
start; within ten seconds it is gone, whatever is locked or hangs.
"""

from __future__ import annotations

import asyncio
import logging
import os
import signal
import socket
import threading
from dataclasses import dataclass, replace
from datetime import timedelta
from typing import Final

from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from bot.health import Health, HealthServer, look
from bot.heap import keep_small, keep_what_is_loaded
from bot.pictures.studio import Studio
from bot.settings import Settings, SettingsUnusable
from bot.telegram import UPDATES, Front
from bot.telegram_admins import AdminNotes
from bot.telegram_chats import Addresses
from bot.telegram_link import Bot, LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_pinned import Pinned
from bot.telegram_poll import AnotherPolls, Poller, TokenRefused, open_line
from bot.telegram_send import Sender, TelegramMessenger
from bot.telegram_webhook import Hook
from bot.ticking import HEARTBEAT, DemonstrationTicker, KeptClock, Lease, WallTicker, heartbeat
from bot.wiring import Clock, ClockTrouble, Machine, SteadyClock, WallClock, assemble, source_named
from jobs.sources.base import Source
from storage import clock as stored_clock
from storage import heartbeats
from storage.database import Database, may_pass

log = logging.getLogger(__name__)

#: Told to stop, the program ends within so long, and what is done beside turns a little sooner [s].
_LEAVE_WITHIN_S: Final = 7.0
_FINISH_WITHIN_S: Final = 4.0

#: Grammars, weights and tables are loaded when they are first needed; by then they mostly are [s].
_LOADED_AFTER_S: Final = 600

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
        # Its calls are counted where every program on the database sees them.
        source = source_named(settings.source, settings=settings, db=db)
        clock = _clock(db, source, settings)
        asyncio.run(_live(settings, duties, token, db, source, clock))
    except AnotherPolls:
        raise CannotRun(
            "Another program polls with this token already, and only one can. Stop it, or give "
            "this one a token of its own."
        ) from None
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
    stop, stopping = asyncio.Event(), threading.Event()
    loop = asyncio.get_running_loop()
    keep_small(loop)

    def told_to_stop() -> None:
        if not stopping.is_set():
            stopping.set()
            stop.set()
            _leave_in_time()

    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, told_to_stop)

    pause = timedelta(seconds=3 * settings.platform_timeout_s)
    line = LineReport()
    pacer = Pacer()
    bot = make_bot(token, settings.platform_url, settings.platform_timeout_s, pacer)
    addresses = Addresses(db, clock.now)
    sender = Sender(bot, line, pause, silence=addresses.silence, move=addresses.move)
    messenger = TelegramMessenger(sender, pacer, loop, pause, clock_rate=settings.clock_rate)
    machine = assemble(
        db,
        source,
        messenger,
        owner=_own_name(),
        pictures=settings.pictures,
        keeps_unread=settings.keep_unread,
        has_pins=True,
        clock=None if isinstance(clock, KeptClock) else clock,
        is_stopping=stopping.is_set,
    )
    pinned = Pinned(
        db,
        machine.around,
        bot,
        line,
        loop,
        is_patient=not isinstance(clock, KeptClock),
        is_stopping=stopping.is_set,
    )
    machine = replace(machine, jobs=(*machine.jobs, pinned.job))
    ticker = _ticker(machine, clock, settings) if duties.ticks else None
    notes = AdminNotes(sender, loop, settings.admin_ids, settings.secrets)
    logging.getLogger().addHandler(notes)
    log.info("Weather from %s, data in %s.", source.name, db.engine.url)
    updates: Poller | Hook | None = None
    front = None
    health = _health(settings, db, clock)
    try:
        if ticker is not None:
            # Weather is watched also while the chat platform is down.
            ticker.start()
        await open_line(bot, line, stop)
        if duties.answers and not stop.is_set():
            log.info("Answering as @%s.", bot.username)
            machine.conversation.invite_by(f"https://t.me/{bot.username}?start={{payload}}")
            studio = Studio(settings.pictures)
            front = Front(
                bot, machine.conversation, sender, addresses, clock.now, settings.pictures, studio
            )
            updates = _updates(settings, bot, line, db)
            loop.call_later(_LOADED_AFTER_S, keep_what_is_loaded)
            await updates.run(front.take, stop)
        else:
            await stop.wait()
        log.info("Stopping.")
    finally:
        logging.getLogger().removeHandler(notes)
        stopping.set()
        if health is not None:
            health.stop()
        # Off the loop: a letter under way needs it to come through.
        ending = [] if ticker is None else [asyncio.to_thread(ticker.stop)]
        if front is not None and updates is not None:
            front.stop()
            ending += [updates.finish(), front.finish(_FINISH_WITHIN_S)]
        await asyncio.gather(*ending)
        await bot.shutdown()


def _updates(settings: Settings, bot: Bot, line: LineReport, db: Database) -> Poller | Hook:
    """Return what takes updates: brought by the platform where it was told an address, or fetched.

    Raises
    ------
    CannotRun
        If nobody can listen there.
    """
    if settings.webhook_url is None:
        poll_s = max(1, min(_LONGEST_POLL_S, int(2 * settings.platform_timeout_s)))
        return Poller(bot, line, UPDATES, poll_s)
    try:
        url, address = settings.webhook_url, settings.webhook_address
        return Hook(bot, line, UPDATES, url, address, settings.webhook_secret, db.is_reachable)
    except OSError as error:
        raise CannotRun(f"SOILBELL_WEBHOOK_LISTEN cannot be used: {error.strerror}.") from None


def _health(settings: Settings, db: Database, clock: Clock) -> HealthServer | None:
    """Begin to tell how the machine fares, where that is asked for.

    Raises
    ------
    CannotRun
        If nobody can listen there.
    """
    address = settings.health_address
    if address is None:
        return None
    by_the_wall = not isinstance(clock, KeptClock)

    def examine() -> Health:
        return look(db, clock.now(), ticks_by_the_wall=by_the_wall)

    try:
        server = HealthServer(address, examine, has_metrics=settings.metrics)
    except OSError as error:
        raise CannotRun(f"SOILBELL_HEALTH cannot be used: {error.strerror}.") from None
    server.start()
    return server


def _leave_in_time() -> None:
    """See to it that the program ends soon, whatever is locked or hangs.

    All that matters is kept, or is neither kept nor confirmed: the next start goes on from there.
    """

    def leave() -> None:
        log.warning("Stopped in the middle of something; the next start goes on from there.")
        logging.shutdown()
        os._exit(0)

    timer = threading.Timer(_LEAVE_WITHIN_S, leave)
    timer.daemon = True
    timer.start()


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
        with db.reading() as work:
            return SteadyClock(heartbeats.last(work, HEARTBEAT))
    kept = KeptClock(db, climate)
    if stored is None:
        try:
            kept.keep(settings.clock_start or WallClock().now())
        except IntegrityError:
            # The other half made it at the same moment.
            log.info("the clock was made by another process")
    return kept


def _ticker(machine: Machine, clock: Clock, settings: Settings) -> WallTicker | DemonstrationTicker:
    lease = Lease(machine.db, _own_name(), WallClock())
    if isinstance(clock, KeptClock):
        return DemonstrationTicker(machine.jobs, clock, lease, settings.clock_rate)
    return WallTicker((*machine.jobs, heartbeat(machine.db, clock)), clock, lease)


def _own_name() -> str:
    return f"{socket.gethostname()}:{os.getpid()}"
