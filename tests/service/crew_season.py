"""A crew's season over real HTTP: the bot in this process, its clock moved, the platform stood in.

Everything people do and read goes through the platform's stand-in; only the days are not waited
for. The yards and people are invented, and so is their weather.
"""

from __future__ import annotations

import asyncio
import re
import threading
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from bot.pictures.studio import Studio
from bot.telegram import UPDATES, Front
from bot.telegram_chats import Addresses
from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_poll import Poller, open_line
from bot.telegram_send import Sender, TelegramMessenger
from bot.wiring import Machine, MovedClock, assemble
from jobs.agronomy.season import State, Target
from jobs.schedule import advance
from storage import applications, seasons, yards
from storage.database import Database
from tests.made_once import CLIMATE, database_at
from tests.service.platform_standin import TOKEN, Message, PlatformStandin

OWNER: Final = 7
HELPER: Final = 8
#: Few places: what costs time is the weather of each.
TOWNS: Final = ("Wahoo NE", "Lincoln NE")
NAMES: Final = ("Cobb", "Lee", "Reyes", "Hale", "Pratt", "Dutton")
GRANULE: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"
LIQUID: Final = (
    "dithiopyr 2 lb per gal liquid, 0.5 fl oz per 1000 sq ft, max 1.5 fl oz per 1000 sq ft a year"
)
#: What is said meanwhile on a machine that is busy.
PATIENCE: Final = "No need to say it again"
#: Every so many yards one is sprayed.
SPRAYED: Final = 4
#: What only people know of a record, in one message.
FIELDS: Final = (
    "all records wind 5 mph from NW, air 61 F, humidity 48%, re-entry when dry, posted yes"
)


@dataclass
class Crew:
    """Two people, their round, and what came of it."""

    standin: PlatformStandin
    machine: Machine
    clock: MovedClock
    count: int
    #: Messages people sent, and alerts the owner got, by local day.
    sent: Counter[date] = field(default_factory=Counter)
    told: list[tuple[date, str]] = field(default_factory=list)
    #: What stood on the pages on which yards are answered one by one.
    pages: list[str] = field(default_factory=list)
    _waters: bool = False

    @property
    def db(self) -> Database:
        return self.machine.db

    # -- over the platform

    def say(self, text: str, who: int = OWNER, answers: int = 1) -> list[Message]:
        """Say something and return what it was answered with."""
        return self._done(who, lambda: self.standin.say(who, text), answers)

    def tap(self, message: Message, label: str, who: int = OWNER) -> list[Message]:
        """Tap a button by its label."""
        action = message.buttons[label]
        return self._done(who, lambda: self.standin.tap(who, action, message), 1)

    def wait(self, span: timedelta) -> list[Message]:
        """Let time pass; return what the owner was told meanwhile."""
        before = len(self.standin.messages(OWNER))
        until = self.clock.now() + span
        while self.clock.now() < until:
            came = len(self.standin.messages(OWNER))
            day = min(until, self.clock.now() + timedelta(days=1))
            advance(self.machine.jobs, self.clock.now(), day, self.clock.keep)
            self.told += [(self.today, each.text) for each in self.standin.messages(OWNER)[came:]]
        return self.standin.messages(OWNER)[before:]

    @property
    def today(self) -> date:
        return (self.clock.now() - timedelta(hours=6)).date()

    def _done(self, who: int, doing: Callable[[], Any], answers: int) -> list[Message]:
        self.sent[self.today] += 1
        calls = ("sendMessage", "sendDocument", "editMessageText", "setMessageReaction")
        count, shown = len(self._calls(who, calls)), len(self.standin.messages(who))
        edits = [message.edits for message in self.standin.messages(who)]
        doing()
        self.standin.wait_for(lambda: len(self._calls(who, calls)) >= count + answers, 20)
        after = self.standin.messages(who)
        changed = [
            message for message, was in zip(after, edits, strict=False) if message.edits != was
        ]
        new = [message for message in after[shown:] if not message.text.startswith(PATIENCE)]
        return new or changed

    def _calls(self, who: int, methods: tuple[str, ...]) -> list[Any]:
        return [
            call
            for call in self.standin.calls_of(*methods)
            if call.was_done
            and str(call.params.get("chat_id")) == str(who)
            and not str(call.params.get("text", "")).startswith(PATIENCE)
        ]

    # -- what they do

    def set_up(self) -> None:
        """From nothing to a round with products, machines, licences and a helper."""
        self.say("/start")
        lines = [
            f"Birch {n}, {chr(65 + n % 26)}. {NAMES[n % 6]}, {TOWNS[n % 2]}, front {40 + n}x40,"
            " back 30x20"
            for n in range(self.count)
        ]
        (shown, *_) = self.say("\n".join(lines))
        self.tap(shown, f"Add {self.count} yards")
        (kept,) = self.say(GRANULE)
        self.tap(kept, f"Use it at my other {self.count - 1} yards too")
        self.say("epa 1234-56")
        self.say("swath 8 ft")
        self.say("2.4 lb over 8 x 93.75 ft, setting 5")
        for n in range(0, self.count, SPRAYED):
            self.say(f"yard Birch {n}", answers=2)
            self.say(LIQUID)
        self.say("epa 7777-12")
        self.say("tank 4 gal")
        self.say("caught 60 oz over 1000 sq ft")
        self.say("license 12345")
        self.say("my state asks for signs and notice 48 hours before")
        (crew,) = self.say("/crew")
        (invited,) = self.tap(crew, f"To all {self.count} yards, to confirm")
        code = re.search(r"join_\w+", invited.text)
        assert code is not None, invited.text
        self.say(f"/start {code[0]}", HELPER)
        self.say("I work under A. Cobb, license 12345", HELPER)

    def live(self, until: datetime) -> None:
        """Go on until then: the list is ticked off in turns, what is due watered."""
        while self.clock.now() < until:
            # Nobody looks in while nothing is due; alerts come by themselves all the same.
            is_due = self._is_anything_due()
            self._water(self.wait(timedelta(days=1 if is_due or self._waters else 3)))
            if self._is_anything_due():
                for who in (OWNER, HELPER):
                    self._tick(who, most=4)

    def _water(self, news: list[Message]) -> None:
        """Answer a call for water, at first yard by yard, then all at once."""
        self._waters = False
        for message in news:
            if "All of these are watered" not in message.buttons:
                continue
            if "Yard by yard" in message.buttons and not self.pages:
                (page,) = self.tap(message, "Yard by yard")
                first = next(label for label in page.buttons if label.startswith("Watered: "))
                self.pages.append(page.text)
                (page,) = self.tap(page, first)
                self.pages.append(page.text)
            self.tap(message, "All of these are watered")

    def _tick(self, who: int, most: int) -> None:
        (listed,) = self.say("/today", who)
        for _ in range(most):
            ticks = [label for label in listed.buttons if label.startswith("Done: ")]
            if not ticks:
                return
            (listed,) = self.tap(listed, ticks[0], who)
            self._waters = True

    def _is_anything_due(self) -> bool:
        with self.db.reading() as work:
            states = [
                season.state
                for yard in yards.of_chat(work, self._chat)
                if (season := seasons.season(work, yard.id, Target.SUMMER_ANNUALS)) is not None
            ]
        return any(state in (State.WINDOW_OPEN, State.RETREAT_DUE) for state in states)

    @property
    def _chat(self) -> int:
        return 1

    def days_of(self) -> dict[str, list[date]]:
        """Return the days of each yard's applications, from the database."""
        with self.db.reading() as work:
            return {
                yard.name: [each.applied_on for each in applications.of_yard(work, yard.id)]
                for yard in yards.of_chat(work, self._chat)
            }

    def files(self, words: str) -> dict[str, bytes]:
        """Ask for files and return them by kind."""
        said = self.say(words, answers=4)
        files = [each.file for each in said if each.file is not None]
        kinds = {b"%PDF": ".pdf", b"PK\x03\x04": ".xlsx", b"BEGI": ".ics"}
        return {kinds.get(file[:4], ".csv"): file for file in files}


@contextmanager
def crew(folder: Path, count: int, start: datetime | None = None) -> Iterator[Crew]:
    """Return a crew with the bot answering them over HTTP."""
    begin = start or datetime(2026, 3, 1, 14, tzinfo=UTC)
    db = database_at(folder / "crew.sqlite3")
    with PlatformStandin() as standin:
        answering = _Answering(db, standin, folder, begin)
        answering.start()
        try:
            machine, clock = answering.ready()
            yield Crew(standin, machine, clock, count)
        finally:
            answering.stop()
            db.close()


class _Answering:
    """The bot on a thread of its own."""

    def __init__(
        self, db: Database, standin: PlatformStandin, folder: Path, begin: datetime
    ) -> None:
        self._db, self._standin, self._folder, self._begin = db, standin, folder, begin
        self._is_ready = threading.Event()
        self._made: tuple[Machine, MovedClock] | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._stop: asyncio.Event | None = None
        self._thread = threading.Thread(target=lambda: asyncio.run(self._live()), daemon=True)

    def start(self) -> None:
        self._thread.start()

    def ready(self) -> tuple[Machine, MovedClock]:
        assert self._is_ready.wait(20)
        assert self._made is not None
        return self._made

    def stop(self) -> None:
        assert self._loop is not None
        assert self._stop is not None
        self._loop.call_soon_threadsafe(self._stop.set)
        self._thread.join(20)

    async def _live(self) -> None:
        self._loop, self._stop = asyncio.get_running_loop(), asyncio.Event()
        clock = MovedClock(self._db, "test", self._begin, stands_still=True)
        line, pause = LineReport(), timedelta(seconds=1)
        # Without the platform's pace: the stand-in has no limits, and nobody is in a hurry.
        bot = make_bot(TOKEN, self._standin.base_url, 10.0)
        addresses = Addresses(self._db, clock.now)
        sender = Sender(bot, line, pause, silence=addresses.silence, move=addresses.move)
        messenger = TelegramMessenger(sender, Pacer(), self._loop, pause)
        machine = assemble(
            self._db, CLIMATE, messenger, owner="test", pictures=self._folder, clock=clock
        )
        await open_line(bot, line, self._stop)
        studio = Studio(self._folder)
        front = Front(bot, machine.conversation, sender, addresses, clock.now, self._folder, studio)
        self._made = machine, clock
        self._is_ready.set()
        poller = Poller(bot, line, UPDATES, 5)
        await poller.run(front.take, self._stop)
        front.stop()
        await asyncio.gather(poller.finish(), front.finish(4.0))
        await bot.shutdown()
