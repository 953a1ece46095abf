"""The real machine played over a station's measured years, for what it would have said and when.

Each year starts afresh in a database of its own, with what the record holds before 1 January as its
whole history. The climate is the record, the clock is moved, and everything between is what runs
for people: watch, season, outbox.
"""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta, timezone
from pathlib import Path
from typing import Any, Final

from jobs.agronomy.season import STATE_CHANGE, Kind, State, Target
from jobs.deliver import deliver_due
from jobs.deliver import next_due_at as next_delivery_at
from jobs.judged import Judged
from jobs.messenger import Letter
from jobs.outlooks import Outlooks
from jobs.schedule import Job, advance
from jobs.sources.recorded import RecordedSource, Station
from jobs.standing import standing_of
from jobs.telling import Moved
from jobs.watch import Watch
from jobs.yard_look import look
from storage import applications, chats, yards
from storage.applications import ZoneShare
from storage.database import Database
from storage.yards import NewZone, YardRecord

#: One made-up zone, so that an application can be confirmed.
_ZONE: Final = NewZone("lawn", "100 m²", "100 m²", "", 100.0)
_PLATFORM: Final = "replay"


@dataclass(frozen=True, slots=True)
class ReplayLine:
    """One change of state or one alert.

    Attributes
    ----------
    at
        Local standard time.
    kind
        The alert's kind, or ``state`` for a bare change of state.
    days_to_emergence
        p10, p50 and p90 in days from the local date of ``at``; None where it is not in sight, or
        the emergence in sight is another year's.
    letter
        The alert as it went out, or None for a bare change of state.
    """

    at: datetime
    kind: str
    target: str
    state: str
    soil_5day_c: float | None
    days_to_emergence: dict[str, int] | None
    letter: Letter | None


class _Ear:
    """A messenger that keeps the letters it is given."""

    def __init__(self) -> None:
        self.letters: list[Letter] = []

    def send(self, letter: Letter) -> None:
        self.letters.append(letter)


def replay_year(
    station: Station, year: int, *, apply_after: timedelta | None = None, units: str = "us"
) -> Iterator[ReplayLine]:
    """Play one calendar year of a station and yield what happened, in order.

    Parameters
    ----------
    station
        The record; only what it holds up to each moment is seen.
    year
        The calendar year.
    apply_after
        How long after a call to apply (window open, or second half due) the whole yard is
        confirmed as treated; None: nobody ever applies.
    units
        Units of the texts, ``us`` or ``metric``.
    """
    with tempfile.TemporaryDirectory(prefix="soilbell-replay-") as folder:
        db = Database(f"sqlite:///{Path(folder) / 'replay.sqlite3'}", is_throwaway=True)
        try:
            db.upgrade()
            yield from _Play(db, station, year, apply_after, units).lines()
        finally:
            db.close()


class _Play:
    def __init__(
        self, db: Database, station: Station, year: int, apply_after: timedelta | None, units: str
    ) -> None:
        self._db = db
        self._apply_after = apply_after
        self._zone = timezone(station.utc_offset)
        self._ear = _Ear()
        self._lines: list[ReplayLine] = []
        self._apply_at: datetime | None = None
        self._start = datetime.combine(date(year, 1, 1), time(), tzinfo=self._zone)
        self._end = datetime.combine(date(year, 12, 31), time(23, 59), tzinfo=self._zone)
        self._watch = Watch(
            db,
            RecordedSource(station),
            Outlooks(judges_springs=False),
            listener=self._heard,
            keeps_quiet_hours=False,
            puts_off_trouble=False,
        )
        self._yard_id, self._person_id = self._register(station, units)

    def lines(self) -> Iterator[ReplayLine]:
        jobs = (
            Job("watch", timedelta(minutes=1), self._watch.tick, self._watch.next_due_at),
            Job("apply", timedelta(minutes=1), self._apply, lambda: self._apply_at),
            Job("deliver", timedelta(minutes=1), self._deliver, lambda: next_delivery_at(self._db)),
        )
        now = self._start.astimezone(UTC)
        end = self._end.astimezone(UTC)
        # Week by week, so that lines appear while a long replay runs.
        while now < end:
            until = min(now + timedelta(days=7), end)
            advance(jobs, now, until)
            now = until
            yield from self._lines
            self._lines.clear()

    def _register(self, station: Station, units: str) -> tuple[int, int]:
        now = self._start.astimezone(UTC)
        hours = station.utc_offset / timedelta(hours=1)
        # IANA's fixed zones count westward; local standard time has no summer time.
        zone = f"Etc/GMT{-hours:+.0f}" if hours else "Etc/GMT"
        with self._db.writing() as work:
            chat = chats.chat_at(work, _PLATFORM, "1", title="", units=units, now=now)
            person = chats.person_at(work, _PLATFORM, "1", name="replay", now=now)
            yard = yards.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                name=station.name,
                lat=station.lat,
                lon=station.lon,
                timezone=zone,
                lead_days=21,
                split_days=56,
                rounds=2,
                now=now + timedelta(hours=8),
            )
            yards.keep_zones(work, yard.id, [_ZONE], person_id=person.id, now=now)
        return yard.id, person.id

    def _heard(self, yard: YardRecord, now: datetime, moved: Sequence[Moved]) -> None:
        for change in moved:
            if change.is_state_changed and not change.alerts:
                self._note(now, STATE_CHANGE, change.target, change.state, change.judged, None)

    def _deliver(self, now: datetime) -> None:
        deliver_due(self._db, self._ear, now, owner=_PLATFORM)
        for letter in self._ear.letters:
            facts = letter.facts
            judged = Judged.from_json(dict(facts)) if "p50" in facts else None
            self._note(now, letter.kind, letter.target, facts["state"], judged, letter)
            is_call = letter.kind in (Kind.WINDOW_OPEN, Kind.SECOND_HALF_DUE)
            if is_call and self._apply_after is not None:
                self._apply_at = now + self._apply_after
        self._ear.letters.clear()

    def _apply(self, now: datetime) -> None:
        self._apply_at = None
        on = now.astimezone(self._zone).date()
        with self._db.writing() as work:
            yard = yards.yard(work, self._yard_id)
            assert yard is not None
            standing = standing_of(work, yard)
            zone, season = standing.zones[0], standing.season(Target.SUMMER_ANNUALS)
            assert season is not None
            if season.state not in (State.WINDOW_OPEN, State.RETREAT_DUE):
                return
            share = ZoneShare(
                zone.id,
                zone.ground_id,
                zone.name,
                zone.area_m2,
                zone.area_m2,
                asked_si=None,
                amount_si=None,
                amount_unit=None,
                is_amount_said=False,
            )
            applications.add(
                work,
                yard_id=yard.id,
                target=Target.SUMMER_ANNUALS,
                year=season.year,
                applied_at=now,
                applied_on=on,
                person_id=self._person_id,
                product_id=None,
                product=None,
                said="replay",
                shares=[share],
                now=now,
            )
            moved = look(work, yard, {}, None, now, keeps_quiet_hours=False)
        self._heard(yard, now, moved)

    def _note(
        self,
        now: datetime,
        kind: str,
        target: str,
        state: str,
        judged: Judged | None,
        letter: Letter | None,
    ) -> None:
        at = now.astimezone(self._zone)
        self._lines.append(
            ReplayLine(
                at=at,
                kind=kind,
                target=target,
                state=state,
                soil_5day_c=None if judged is None else judged.soil_5day_c,
                days_to_emergence=_days_to_emergence(judged, at.date()),
                letter=letter,
            )
        )


def _days_to_emergence(judged: Judged | None, today: date) -> dict[str, int] | None:
    if judged is None or judged.p50 is None or judged.p50.year != today.year:
        return None
    return judged.days_until(today)


def replay_years(
    station: Station,
    first_year: int,
    last_year: int,
    *,
    apply_after: timedelta | None = None,
    units: str = "us",
    started: Callable[[int], Any] = lambda _: None,
) -> Iterator[ReplayLine]:
    """Play several years, each afresh."""
    for year in range(first_year, last_year + 1):
        started(year)
        yield from replay_year(station, year, apply_after=apply_after, units=units)
