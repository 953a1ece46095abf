"""`soilbell doctor`: looks at everything the bot stands on, and says what to fix."""

from __future__ import annotations

import asyncio
import os
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from email.utils import parsedate_to_datetime
from pathlib import Path
from typing import Final, TypeVar
from urllib.parse import urlsplit

import requests
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import SQLAlchemyError

from bot.settings import Settings, SettingsUnusable
from bot.telegram_check import KnownBot, PlatformTrouble, TokenUnknown, known_bot
from bot.wiring import UnknownClimate, WallClock, source_named
from jobs.source_steps import shared_step
from jobs.sources.base import Cell, CellRequest, SourceTrouble, newest_known_day
from jobs.sources.open_meteo_costs import FREE_LIMITS
from jobs.sources.timezones import standard_offset_at
from storage import calls, cells, yards
from storage.database import Database, Work
from storage.outbox_state import state, troubled

T = TypeVar("T")

#: A clock that is off by more than this tells people and the platform wrong times.
_MOST_SKEW: Final = timedelta(seconds=60)
#: Where sources are asked about while no yard is registered.
_SOMEWHERE: Final = (39.18, -96.57)
_LATELY: Final = timedelta(days=10)
_A_DAY: Final = timedelta(days=1)
#: Alerts that came to nothing are listed for so long, and so many of them.
_OF_LATE: Final = timedelta(days=14)
_MOST_LISTED: Final = 20
_STUCK_AFTER: Final = timedelta(hours=1)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing looked at: what it is, how it is, and what to do about it if it is not well.

    Something may be lacking without anything to do about it; it is not called well for that.
    """

    subject: str
    says: str
    fix: str | None = None
    is_lacking: bool = False

    @property
    def is_well(self) -> bool:
        """Whether nothing has to be done."""
        return self.fix is None

    @property
    def line(self) -> str:
        """The finding as a line to read."""
        mark = "FIX" if not self.is_well else "-- " if self.is_lacking else "ok "
        return f"{mark}  {self.subject}: {self.says}" + ("" if self.fix is None else f" {self.fix}")


def examine(settings: Settings) -> list[Finding]:
    """Return one finding for each thing looked at; nothing is changed."""
    return [
        *_platform(settings),
        _database(settings),
        *_outbox(settings),
        *_sources(settings),
        *calls_left(settings),
        *_past_of_source(settings),
        _clock(settings),
    ]


def summary(findings: Sequence[Finding]) -> str:
    """Return the last line: all well, or what is to be put right."""
    bad = [finding.subject for finding in findings if not finding.is_well]
    if not bad:
        return "All well."
    return f"FIX  {len(bad)} of {len(findings)} want putting right: {', '.join(bad)}."


def _read(settings: Settings, read: Callable[[Work], T]) -> T | None:
    """Return what is read from the database, None without one: its own finding says why."""
    if _is_missing_file(make_url(settings.database_url)):
        return None
    try:
        db = Database(settings.database_url)
    except (SQLAlchemyError, ImportError):
        return None
    try:
        with db.reading() as work:
            return read(work)
    except SQLAlchemyError:
        return None
    finally:
        db.close()


def _outbox(settings: Settings) -> Iterator[Finding]:
    """Yield what waits, and each alert of late that may never have arrived or was given up."""
    now = WallClock().now()
    read = _read(
        settings, lambda work: (state(work, now), troubled(work, now - _OF_LATE, _MOST_LISTED))
    )
    if read is None:
        return
    stands, listed = read
    for alert, why in listed:
        what = "was given up" if alert.state == "dead" else "may never have arrived"
        yield Finding(
            f"alert {alert.id}",
            f"{alert.kind} of {alert.created_at:%Y-%m-%d} for chat {alert.chat_id} {what} ({why}).",
            is_lacking=True,
        )
    says = (
        f"{stands.waiting} waiting, {stands.overdue} due, {stands.repeats} to be told once more; "
        f"ever in doubt {stands.doubts}, given up {stands.dead}."
    )
    if stands.oldest_due_at is not None and now - stands.oldest_due_at > _STUCK_AFTER:
        yield Finding("outbox", says, "Alerts do not get out: does `soilbell run` run?")
    else:
        yield Finding("outbox", says)


def _platform(settings: Settings) -> Iterator[Finding]:
    """Yield whose token it is, and how the platform hands over what people write."""
    subject = "token"
    try:
        known = asyncio.run(
            known_bot(settings.token_text, settings.platform_url, settings.platform_timeout_s)
        )
    except SettingsUnusable as problem:
        yield Finding(subject, "", str(problem))
    except TokenUnknown:
        fix = "Copy it again from the platform's own account bot into SOILBELL_TOKEN."
        yield Finding(subject, "the chat platform does not know it.", fix)
    except PlatformTrouble as problem:
        fix = "Is this machine online, and SOILBELL_PLATFORM_URL right?"
        yield Finding(subject, f"the chat platform gives no answer ({problem}).", fix)
    else:
        yield Finding(subject, f"the chat platform knows it as @{known.name}.")
        yield _updates(settings.webhook_url, known)


def _updates(wanted: str | None, known: KnownBot) -> Finding:
    """Return whether what people write comes in the way it is wanted."""
    subject = "updates"
    waiting = f"{known.waiting} waiting."
    if known.brings_to != (wanted or ""):
        # The path may be somebody's secret.
        there = urlsplit(known.brings_to).hostname
        if wanted is None:
            says = (
                f"the chat platform brings them to {there} until `soilbell run` starts; {waiting}"
            )
            return Finding(subject, says, is_lacking=True)
        if there is None:
            says = f"not brought to SOILBELL_WEBHOOK_URL before `soilbell bot` starts; {waiting}"
            return Finding(subject, says, is_lacking=True)
        fix = "Does another bot use this token? `soilbell bot` sets SOILBELL_WEBHOOK_URL anew."
        return Finding(subject, f"the chat platform brings them to {there}; {waiting}", fix)
    if wanted is None:
        return Finding(subject, f"asked for, {waiting}")
    if known.waiting and known.trouble is not None:
        when = "" if known.trouble_at is None else f" at {known.trouble_at:%Y-%m-%d %H:%M} UTC"
        says = f"one could not be brought{when} ({known.trouble}); {waiting}"
        fix = "Is the proxy before SOILBELL_WEBHOOK_LISTEN up, and its certificate good?"
        return Finding(subject, says, fix)
    return Finding(subject, f"brought to SOILBELL_WEBHOOK_URL, {waiting}")


def _database(settings: Settings) -> Finding:
    subject = "database"
    fix_url = "Check SOILBELL_DATABASE_URL, and that this user may read and write there."
    url = make_url(settings.database_url)
    if _is_missing_file(url):
        folder = Path(str(url.database)).absolute().parent
        if not (folder.is_dir() and os.access(folder, os.W_OK)):
            return Finding(subject, f"there is no folder {folder} to write to.", fix_url)
        return Finding(subject, f"{url}; it is made at the first start.")
    db = None
    try:
        db = Database(settings.database_url)
        revision, newest = db.revision(), db.newest_revision()
        if revision is None and not db.is_empty():
            return Finding(subject, "it holds tables of something else.", fix_url)
        with db.writing():
            pass
    except (SQLAlchemyError, ImportError) as problem:
        reason = str(getattr(problem, "orig", None) or problem).splitlines()[0]
        return Finding(subject, f"it cannot be used ({reason}).", fix_url)
    finally:
        if db is not None:
            db.close()
    where = f"{db.engine.url}, revision {revision or 'none yet'}"
    if revision is None:
        return Finding(subject, f"{where}; it is made at the first start.")
    if revision != newest:
        known = f"this program wants {newest}."
        return Finding(subject, f"{where}; {known}", "Run `soilbell db upgrade`.")
    return Finding(subject, f"{where}, the newest.")


def _is_missing_file(url: URL) -> bool:
    """Tell whether a database is a file that is not there; only looking would make it."""
    return url.get_backend_name() == "sqlite" and not Path(str(url.database)).exists()


def _sources(settings: Settings) -> Iterator[Finding]:
    """Yield a finding for each source that is used, each asked by itself."""
    # Behind the first live source stands the second.
    names = ("open-meteo", "nws") if settings.source == "open-meteo" else (settings.source,)
    for name in names:
        is_second = name != settings.source
        yield _source(settings, name, is_second=is_second)


def _source(settings: Settings, name: str, *, is_second: bool) -> Finding:
    subject = f"weather from {name}"
    try:
        source = source_named(name, settings=settings, alone=True)
    except (SettingsUnusable, UnknownClimate, SourceTrouble) as problem:
        return Finding(subject, "", str(problem))
    lat, lon = _place(settings)
    now = WallClock().now()
    offset = standard_offset_at(lat, lon)
    cell = Cell.at(lat, lon)
    since = newest_known_day(now, offset) - _LATELY
    answer = source.fetch([CellRequest(cell, offset, since)], now)[cell]
    if isinstance(answer, SourceTrouble):
        says = f"no weather for {lat:.2f}, {lon:.2f} ({answer})."
        if is_second:
            # It stands in where it can; outside its country it never does.
            says += " The first source has to do without its stand-in."
            return Finding(subject, says, is_lacking=True)
        fix = "Is this machine online, and are the service's address and key right?"
        return Finding(subject, says, fix)
    kind = "invented weather" if source.is_invented else "weather"
    newest = answer.known.last_day.isoformat()
    return Finding(subject, f"{kind} for {lat:.2f}, {lon:.2f} known to {newest}.")


def calls_left(settings: Settings) -> Iterator[Finding]:
    """Yield how many calls of a day are spent, and which places have to wait for some."""
    if settings.source != "open-meteo":
        return
    day, name = next(each for each in FREE_LIMITS if each.within == _A_DAY), settings.source
    found = _read(
        settings,
        lambda work: (
            calls.since(work, name, WallClock().now() - day.within),
            len(cells.without_years(work, name)),
            len(cells.left_out(work, name, WallClock().now())),
        ),
    )
    if found is None:
        return
    made, without_years, left_out = found
    spent = sum(each for _, each in made)
    yield Finding(
        f"calls to {name}",
        f"{spent:.0f} of {day.calls:.0f} a day spent; {left_out} places keep older weather for "
        f"now, {without_years} wait for their past years.",
        is_lacking=left_out > 0,
    )


def _past_of_source(settings: Settings) -> Iterator[Finding]:
    """Yield whether the source's soil has stepped away from its own past at many places."""
    found = _read(settings, lambda work: shared_step(work, settings.source))
    if found is None or found.step_c is None:
        return
    way = "warmer" if found.step_c > 0 else "colder"
    yield Finding(
        f"soil from {settings.source}",
        f"{abs(found.step_c):.1f} °C {way} for its air than in past years, over {found.places} "
        "places: its model may have changed, and with it every date.",
        "Hold it against a thermometer in the ground; ask the service what it changed.",
    )


def _place(settings: Settings) -> tuple[float, float]:
    """Return where to ask about: the first yard, if there is one."""
    first = _read(settings, lambda work: yards.due(work, datetime.max.replace(tzinfo=UTC), 1))
    return (first[0].lat, first[0].lon) if first else _SOMEWHERE


def _clock(settings: Settings) -> Finding:
    """Compare this machine's clock with the one of the chat platform."""
    subject = "clock"
    address = settings.platform_url.removesuffix("bot")
    try:
        answer = requests.head(address, timeout=settings.platform_timeout_s)
        theirs = parsedate_to_datetime(answer.headers["Date"])
    except (requests.RequestException, KeyError, ValueError):
        fix = "Is this machine online? `timedatectl` tells whether its clock is set by itself."
        return Finding(subject, "the chat platform did not tell the time.", fix)
    skew = WallClock().now() - theirs
    seconds = round(abs(skew.total_seconds()))
    if abs(skew) > _MOST_SKEW:
        way = "fast" if skew > timedelta(0) else "slow"
        fix = "Set it, and let it be set by itself (`timedatectl set-ntp true`)."
        return Finding(subject, f"this machine's is {seconds} seconds {way}.", fix)
    return Finding(subject, f"right within {seconds + 1} seconds.")
