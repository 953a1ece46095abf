"""The one composition root: settings to database, source, messenger, clock and jobs.

Tests pass stand-ins here. Nothing else asks the wall what time it is.
"""

from __future__ import annotations

import logging
import os
import socket
import threading
import time
from collections.abc import Callable
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Final, Protocol

from bot.conversation import Conversation, Draw
from bot.dialogue.talk import Surroundings
from bot.forgetting import delete_files
from bot.pictures.render import render
from bot.settings import Settings, pictures_beside
from jobs import deliver, tidy
from jobs.digests import Manners
from jobs.messenger import Messenger
from jobs.outlooks import Outlooks
from jobs.schedule import Job
from jobs.sources.base import Source
from jobs.sources.recorded import RecordedSource
from jobs.sources.simulated import SimulatedSource
from jobs.watch import Watch
from storage import clock as stored_clock
from storage.database import Database

#: How often the wall driver looks whether a job is due.
_LOOK_EVERY: Final = timedelta(seconds=20)
_TIDY_EVERY: Final = timedelta(hours=1)
#: A wall that is behind by more than this was set back; where by more than the other, the program
#: may have run on a clock that was far ahead, and goes by the wall again.
_SET_BACK: Final = timedelta(minutes=1)
_MOST_SET_BACK: Final = timedelta(days=7)

log = logging.getLogger(__name__)


class UnknownClimate(ValueError):
    """Raised for a climate that is none of ours; carries a sentence for the person."""


class ClockTrouble(ValueError):
    """Raised when a database's clock and the start asked for do not go together."""


class Clock(Protocol):
    """Tells the time."""

    def now(self) -> datetime:
        """Return the present instant (UTC)."""
        ...


class WallClock:
    """The wall's own time."""

    def now(self) -> datetime:
        """Return the present instant (UTC)."""
        return datetime.now(UTC)


class SteadyClock:
    """The wall's own time, carried on by the time that has passed while the wall is set back.

    Parameters
    ----------
    not_before
        Where it stood when the program last ran: a wall that is behind was set back meanwhile.
    wall
        Tells the wall's time.
    elapsed_s
        Counts the time that passes [s].
    """

    def __init__(
        self,
        not_before: datetime | None = None,
        wall: Callable[[], datetime] | None = None,
        elapsed_s: Callable[[], float] = time.monotonic,
    ) -> None:
        self._wall = wall or WallClock().now
        self._elapsed_s = elapsed_s
        self._looking = threading.Lock()
        self._since_s = elapsed_s()
        self._now = now = self._wall()
        self.is_behind = False
        if not_before is not None and _SET_BACK < not_before - now < _MOST_SET_BACK:
            self._now = not_before
            self._note(not_before - now)

    def now(self) -> datetime:
        """Return the present instant (UTC); it never goes back."""
        with self._looking:
            wall, elapsed_s = self._wall(), self._elapsed_s()
            carried_on = self._now + timedelta(seconds=elapsed_s - self._since_s)
            behind = carried_on - wall
            if behind > _SET_BACK:
                self._note(behind)
                self._now = carried_on
            else:
                if self.is_behind:
                    log.warning("This machine's clock is right again.")
                self.is_behind = False
                # A wall that was put right by seconds stands still for them.
                self._now = max(self._now, wall)
            self._since_s = elapsed_s
            return self._now

    def _note(self, behind: timedelta) -> None:
        if not self.is_behind:
            log.error(
                "This machine's clock was set back by %s. I go on by the time that passes; see to "
                "the clock, then start me again.",
                timedelta(seconds=round(behind.total_seconds())),
            )
        self.is_behind = True


class LiveClock(WallClock):
    """The wall's own time where a clock that can be moved might stand."""

    def keep(self, instant: datetime) -> None:
        """Do nothing: the wall keeps its time itself."""


class MovedClock:
    """A clock that can be moved forward and is kept in the database.

    Between moves it stands still, or runs along with the wall.
    """

    def __init__(self, db: Database, climate: str, start: datetime, *, stands_still: bool) -> None:
        self._db = db
        self._climate = climate
        self._now = start
        self._wall = None if stands_still else WallClock()
        self._offset = timedelta(0) if self._wall is None else start - self._wall.now()
        self._kept: datetime | None = None
        self.keep(start)

    def now(self) -> datetime:
        """Return the present instant (UTC); it never goes back."""
        if self._wall is not None:
            self._now = max(self._now, self._wall.now() + self._offset)
        return self._now

    def keep(self, instant: datetime) -> None:
        """Move to an instant and keep it."""
        if self._wall is not None and instant > self.now():
            self._offset += instant - self._now
        self._now = max(self._now, instant)
        if self._kept != self._now:
            with self._db.writing() as work:
                stored_clock.advance(work, self._now, self._climate)
            self._kept = self._now


@dataclass(frozen=True, slots=True)
class Machine:
    """Everything wired together: what answers turns, and the jobs that run by themselves."""

    db: Database
    source: Source
    around: Surroundings
    conversation: Conversation
    jobs: tuple[Job, ...]


def assemble(
    db: Database,
    source: Source,
    messenger: Messenger,
    *,
    owner: str | None = None,
    keeps_quiet_hours: bool = True,
    units: str = "us",
    pictures: Path | None = None,
    keeps_unread: bool = False,
    has_pins: bool = False,
    clock: Clock | None = None,
    is_stopping: Callable[[], bool] = lambda: False,
    draw: Draw = render,
) -> Machine:
    """Wire a machine on an upgraded database; pictures go beside it where no folder is given.

    With a clock, alerts that take long to send go by it; told that it is stopping, nothing more is
    begun.
    """
    outlooks = Outlooks()
    watch = Watch(
        db, source, outlooks, keeps_quiet_hours=keeps_quiet_hours, is_stopping=is_stopping
    )
    weather = watch.weather
    name = owner or f"{socket.gethostname()}:{os.getpid()}"
    drawn = pictures or pictures_beside(db.url)
    around = Surroundings(
        source=source.name,
        is_invented=source.is_invented,
        can_move_clock=source.can_move_clock,
        credit=source.credit,
        outlooks=outlooks,
        files=drawn / "exports",
        keeps_unread=keeps_unread,
        has_pins=has_pins,
    )

    manners = Manners(source.name) if keeps_quiet_hours else None

    def send(now: datetime) -> None:
        deliver.deliver_due(
            db,
            messenger,
            now,
            owner=name,
            manners=manners,
            clock=None if clock is None else clock.now,
            is_stopping=is_stopping,
        )

    def forget(now: datetime) -> None:
        tidy.tidy(db, now)
        for chat_id, erased in tidy.forget_the_gone(db, now):
            delete_files(erased, chat_id, drawn, around.files)

    def due(next_due_at: Callable[[], datetime | None]) -> Callable[[], datetime | None]:
        # What is left for the next start is not due any more.
        return lambda: None if is_stopping() else next_due_at()

    return Machine(
        db=db,
        source=source,
        around=around,
        conversation=Conversation(
            db, around, pictures=drawn, units=units, look=watch.look_now, draw=draw
        ),
        jobs=(
            Job("watch", _LOOK_EVERY, watch.tick, due(watch.next_due_at), is_shared=db.is_shared),
            Job("weather", _LOOK_EVERY, weather.fetch_for_resting, due(weather.next_weather_at)),
            Job("years", _LOOK_EVERY, weather.fill_years, due(weather.next_years_at)),
            Job("deliver", _LOOK_EVERY, send, due(lambda: deliver.next_due_at(db))),
            Job("tidy", _TIDY_EVERY, forget, lambda: tidy.next_due_at(db)),
        ),
    )


def source_named(
    climate: str,
    *,
    seed: int = 0,
    at: tuple[float, float] | None = None,
    settings: Settings | None = None,
    alone: bool = False,
    db: Database | None = None,
) -> Source:
    """Return the source of a climate; the live ones need settings, and count calls in a database.

    Behind open-meteo stands nws, unless it is wanted alone.

    Raises
    ------
    UnknownClimate
        If it is none of ours.
    SettingsUnusable
        If a live one lacks a setting.
    """
    kind, _, rest = climate.partition(":")
    if climate == "simulated":
        return SimulatedSource(seed)
    if kind == "simulated" and rest.isdigit():
        return SimulatedSource(int(rest))
    if kind == "recorded" and rest:
        if not Path(rest).exists():
            raise UnknownClimate(f"There is no file or folder {rest}.")
        return RecordedSource(rest, at)
    if settings is not None and climate in ("open-meteo", "nws"):
        # What calls over the network takes its time to load.
        from bot import live_weather

        return live_weather.source_named(climate, settings, alone=alone, db=db)
    raise UnknownClimate(
        f"I know no weather {climate!r}. Try open-meteo, nws, simulated, or recorded:PATH with a "
        "station's CSV."
    )


def moved_clock(
    db: Database, climate: str, start: datetime | None, *, stands_still: bool
) -> MovedClock:
    """Return the clock of a chat database: where it stood, else at ``start``, else now.

    Raises
    ------
    ClockTrouble
        If the database has a clock already and the start is another, or belongs to another
        climate.
    """
    with db.reading() as work:
        stored = stored_clock.read(work)
    if stored is None:
        return MovedClock(db, climate, start or WallClock().now(), stands_still=stands_still)
    stood_at, stood_in = stored
    if stood_in != climate:
        raise ClockTrouble(
            f"This database lives in the climate {stood_in!r}, not {climate!r}. "
            "Take another database with --db, or leave --climate and --seed as they were."
        )
    if start is not None and start != stood_at:
        raise ClockTrouble(
            f"This database's clock stands at {stood_at.isoformat()}: --start is for a new "
            "database only. Leave --start out, or take another database with --db."
        )
    return MovedClock(db, climate, stood_at, stands_still=stands_still)
