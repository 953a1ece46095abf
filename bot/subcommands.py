"""What the `soilbell` command does, a function for each of its subcommands.

What only one of them needs is loaded by that one.
"""

from __future__ import annotations

import argparse
import json
import logging
import sys
import tempfile
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from sqlalchemy.exc import ArgumentError, DatabaseError

from bot import logs
from bot.hearing.readers.measurements import read_duration
from bot.hearing.readers.reading import Unread
from bot.settings import Settings, SettingsUnusable, load
from bot.terminal import Session, TerminalMessenger, run_json
from bot.wiring import (
    ClockTrouble,
    LiveClock,
    UnknownClimate,
    WallClock,
    assemble,
    moved_clock,
    source_named,
)
from jobs.sources.base import SourceTrouble
from storage.backing_up import NoBackup, back_up, suffix_for
from storage.database import Database, may_pass

#: Thresholds of the soil that a hindcast is asked for lie between these.
_COLDEST_F: Final = 32
_WARMEST_F: Final = 140


class CannotDo(Exception):
    """Raised for what a command line asks and we cannot do; carries one clear sentence."""


class CannotDoNow(CannotDo):
    """Raised where what stands in the way may pass by itself."""


def carry_out(options: argparse.Namespace) -> int:
    """Do what a command line asks; return its exit code.

    Raises
    ------
    CannotDo
        If that cannot be done, or `CannotDoNow`.
    """
    try:
        settings = load()
        logs.set_up(settings.log_level, settings.secrets)
        return _DUTIES[options.duty](options, settings)
    except (SettingsUnusable, UnknownClimate, ClockTrouble, SourceTrouble) as problem:
        raise CannotDo(str(problem)) from problem


def _chat(options: argparse.Namespace, settings: Settings) -> int:
    if not options.json:
        # People read their conversation, not our log.
        logging.getLogger().setLevel(logging.ERROR)
    source = source_named(options.climate, seed=options.seed, settings=settings)
    if options.start is not None and not source.can_move_clock:
        raise CannotDo("--start is for invented or recorded weather: live weather is now.")
    db = _opened(options.db or settings.database_url)
    try:
        messenger = TerminalMessenger()
        climate = f"simulated:{options.seed}" if options.climate == "simulated" else options.climate
        start = None if options.start is None else _instant(options.start)
        clock = (
            moved_clock(db, climate, start, stands_still=options.json)
            if source.can_move_clock
            else LiveClock()
        )
        machine = assemble(
            db,
            source_named(options.climate, seed=options.seed, settings=settings, db=db),
            messenger,
            owner=f"chat:{options.user}",
            keeps_unread=settings.keep_unread,
        )
        session = Session(machine, messenger, clock, options.user, options.language)
        if options.json:
            run_json(session, sys.stdin, sys.stdout)
        else:
            # Line editing takes its time to load, and programs have no use for it.
            from bot.terminal_people import run_for_people

            run_for_people(session)
        clock.keep(clock.now())
    finally:
        db.close()
    return 0


def _tour(options: argparse.Namespace, settings: Settings) -> int:
    from bot import tour

    source = source_named("simulated", seed=options.seed)
    with tempfile.TemporaryDirectory(prefix="soilbell-tour-") as folder:
        db = _opened(f"sqlite:///{Path(folder) / 'tour.sqlite3'}")
        try:
            messenger = TerminalMessenger()
            clock = moved_clock(db, "simulated", tour.BEGINS_AT, stands_still=True)
            session = Session(assemble(db, source, messenger, owner="tour"), messenger, clock, 1)
            tour.Tour(session, db, 1, print).play()
        except tour.StopMissed as missed:
            print(f"soilbell: {missed}", file=sys.stderr)
            return 1
        finally:
            db.close()
    return 0


def _run(options: argparse.Namespace, settings: Settings) -> int:
    # The chat platform's library takes its time to load, and only these commands need it.
    from bot import running

    try:
        running.run(settings, running.Duties(answers=options.answers, ticks=options.ticks))
    except running.CannotRunNow as problem:
        raise CannotDoNow(str(problem)) from None
    except running.CannotRun as problem:
        raise CannotDo(str(problem)) from None
    return 0


def _doctor(options: argparse.Namespace, settings: Settings) -> int:
    from bot import doctor

    findings = doctor.examine(settings)
    for finding in findings:
        print(finding.line)
    # The last line is what is read first.
    print(doctor.summary(findings))
    return 0 if all(finding.is_well for finding in findings) else 1


def _replay(options: argparse.Namespace, settings: Settings) -> int:
    from bot import backtests

    station = backtests.station_at(options.station, _place(options.at))
    first, last = _years(options.year)
    on_record = station.series.first_day.year, station.series.last_day.year
    if last < on_record[0] or first > on_record[1]:
        raise CannotDo(f"--year: the record has {on_record[0]}-{on_record[1]}, not {options.year}.")
    apply_after = None if options.apply_after is None else _span(options.apply_after)
    backtests.print_replay(
        station,
        first,
        last,
        apply_after=apply_after,
        units=options.units,
        as_json=options.json,
        out=sys.stdout,
    )
    return 0


def _hindcast(options: argparse.Namespace, settings: Settings) -> int:
    from bot import backtests

    if options.every_days < 1:
        raise CannotDo("--every-days is a number of days from 1 on, such as 7.")
    if not 1900 <= options.from_year <= options.to_year <= 2200:
        raise CannotDo("--from-year and --to-year: the first year comes first.")
    if not _COLDEST_F <= options.threshold_f <= _WARMEST_F:
        raise CannotDo(
            f"--threshold-f is a soil temperature from {_COLDEST_F} to {_WARMEST_F} °F, such as 55."
        )
    try:
        count = backtests.write_hindcast(
            backtests.station_at(options.station, _place(options.at)),
            threshold_f=options.threshold_f,
            from_year=options.from_year,
            to_year=options.to_year,
            every_days=options.every_days,
            forecast=None if options.forecast == "none" else Path(options.forecast),
            out=Path(options.out),
        )
    except OSError as problem:
        raise CannotDo(f"--out: {options.out} cannot be written ({problem.strerror}).") from None
    print(f"{count} rows written to {options.out}", file=sys.stderr)
    return 0


def _heard(options: argparse.Namespace, settings: Settings) -> int:
    from storage import unread

    if options.most < 1:
        raise CannotDo("--most is a number of texts from 1 on, such as 100.")
    db = _opened(options.db or settings.database_url)
    try:
        with db.reading() as work:
            found = unread.newest(work, options.most)
    finally:
        db.close()
    for each in found:
        print(f"{each.times:4}  {each.last_on}  {each.language}  {each.moment:8}  {each.said}")
    if not found:
        off = "" if settings.keep_unread else " SOILBELL_KEEP_UNREAD is off, so none is kept."
        print(f"No text is kept.{off}")
    return 0


def _upgrade(options: argparse.Namespace, settings: Settings) -> int:
    with _reachable(options.db or settings.database_url) as url:
        db = Database(url)
        try:
            before = db.revision()
            db.upgrade()
            print(f"Schema was at {before or 'nothing'}, is at {db.revision()}.")
        finally:
            db.close()
    return 0


def _backup(options: argparse.Namespace, settings: Settings) -> int:
    with _reachable(options.db or settings.database_url) as url:
        to = Path(options.to)
        if to.is_dir():
            to /= f"soilbell-{WallClock().now():%Y%m%dT%H%M%SZ}{suffix_for(url)}"
        try:
            back_up(url, to)
        except NoBackup as problem:
            raise CannotDo(str(problem)) from None
    print(f"{to}: {to.stat().st_size / 1e6:.1f} MB. Photos are beside the database, not in it.")
    return 0


def _opened(url: str) -> Database:
    with _reachable(url):
        db = Database(url)
        db.upgrade()
    return db


@contextmanager
def _reachable(url: str) -> Iterator[str]:
    """Say in one sentence that a database cannot be reached, or that its URL is none."""
    try:
        yield url
    except (ArgumentError, ImportError):
        raise CannotDo(
            "That is no URL of a database. Try sqlite:///FILE, or "
            "postgresql+psycopg://USER@HOST/NAME."
        ) from None
    except DatabaseError as problem:
        why = str(problem.orig).splitlines()[0]
        kind = CannotDoNow if may_pass(problem) else CannotDo
        raise kind(f"The database cannot be opened: {why}.") from None


def _instant(text: str) -> datetime:
    try:
        instant = datetime.fromisoformat(text)
    except ValueError:
        raise CannotDo(
            f"--start is a date and time, such as 2026-02-15T08:00, not {text!r}."
        ) from None
    return instant.replace(tzinfo=UTC) if instant.tzinfo is None else instant.astimezone(UTC)


def _span(text: str) -> timedelta:
    span = read_duration(text)
    if isinstance(span, Unread) or span < timedelta(0):
        raise CannotDo(f"--apply-after is a duration, such as P3D, not {text!r}.")
    return span


def _place(text: str | None) -> tuple[float, float] | None:
    if text is None:
        return None
    try:
        lat, lon = (float(part) for part in text.split(","))
    except ValueError:
        raise CannotDo(
            f"--at is latitude and longitude, such as 39.1,-96.6, not {text!r}."
        ) from None
    if not (-90 <= lat <= 90 and -180 <= lon <= 180):
        raise CannotDo("--at: latitude is -90 to 90, longitude -180 to 180.")
    return lat, lon


def _years(text: str) -> tuple[int, int]:
    first, _, last = text.partition("-")
    try:
        years = int(first), int(last or first)
    except ValueError:
        raise CannotDo(
            f"--year is a year or first-last, such as 2015-2019, not {text!r}."
        ) from None
    if not 1900 <= years[0] <= years[1] <= 2200:
        raise CannotDo(f"--year: the first year comes first, as in 2015-2019, not {text!r}.")
    return years


def _bench(options: argparse.Namespace, settings: Settings) -> int:
    from bot.bench import cell_outlooks, delivering, startup, talking, tick

    logging.getLogger().setLevel(logging.ERROR)
    for name in ("yards", "cells", "alerts", "chats", "turns"):
        if vars(options).get(name, 1) < 1:
            raise CannotDo(f"--{name} is a number from 1 on, such as 1000.")
    figures: dict[str, Any]
    match options.bench:
        case "startup":
            figures = startup.run()
        case "outlook":
            figures = cell_outlooks.run(options.cells)
        case "deliver":
            figures = delivering.run(
                options.alerts,
                options.history,
                latency_ms=options.latency_ms,
                replies_a_second=options.replies_a_second,
            )
        case "talk":
            figures = talking.run(
                options.chats,
                options.turns,
                charts=options.charts,
                pause_ms=options.pause_ms,
                has_baseline=options.baseline,
            )
        case _:
            figures = tick.run(
                options.yards, options.cells, url=options.postgres, has_baseline=options.baseline
            )
    print(json.dumps({"bench": options.bench, **figures}))
    return 0


_DUTIES: Final[Mapping[str, Callable[[argparse.Namespace, Settings], int]]] = {
    "backup": _backup,
    "bench": _bench,
    "chat": _chat,
    "doctor": _doctor,
    "heard": _heard,
    "hindcast": _hindcast,
    "replay": _replay,
    "run": _run,
    "tour": _tour,
    "upgrade": _upgrade,
}
