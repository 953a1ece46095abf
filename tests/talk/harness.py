"""A conversation in a test: the real machine on a file database, with a climate and a clock."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Final
from weakref import WeakValueDictionary

import pytest

from bot.pictures.render import PictureSpec, render
from bot.terminal import Said, Session, TerminalMessenger
from bot.turn import Reply
from bot.wiring import Machine, MovedClock, assemble
from jobs.sources.base import Source
from storage.database import Database
from tests.made_once import CLIMATE, copy_of, database_at

#: A made-up yard near the middle of the continent.
PLACE = (39.18, -96.57)
START = datetime(2026, 2, 10, 14, tzinfo=UTC)

ZONES = "pool lawn 60x40 ft, strip 5 by 80 ft, south bed 12 m x 9 m minus 3x4"
PRODUCT = (
    "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"
)


@dataclass(frozen=True, slots=True)
class _Lived:
    """What came of a beginning that several tests share: the database, the session, the answer."""

    database: Path
    now: datetime
    actions: frozenset[str]
    newest: Reply | None
    came: Said | None


#: By where they began and what was done since.
_LIVED: Final[dict[object, _Lived]] = {}
#: Who talks on which database, while they do.
_ON: Final[WeakValueDictionary[Path, Talker]] = WeakValueDictionary()


class Talker:
    """Somebody talking to the machine; replies are kept newest last.

    What has been lived through before in this process, such as a settled yard's way to its window,
    is not lived again: its database is copied. Pictures are drawn only for those who look at them.
    """

    def __init__(
        self,
        folder: Path,
        *,
        start: datetime = START,
        source: Source | None = None,
        user: int = 1,
        draws: bool = False,
    ) -> None:
        self._path = folder / "talk.sqlite3"
        is_new, other = not self._path.exists(), _ON.get(self._path)
        self.source = source or CLIMATE
        #: What was done so far; None where no other test can have done the same.
        self._trail: tuple[object, ...] | None = None
        if is_new and self.source is CLIMATE:
            self._trail = (start, user, draws)
        if other is not None:
            other._trail = None
        _ON[self._path] = self
        self._db = database_at(self._path)
        self._messenger = TerminalMessenger()
        self._clock = MovedClock(self._db, "test", start, stands_still=True)
        self._machine = assemble(
            self._db,
            self.source,
            self._messenger,
            owner="test",
            draw=render if draws else _undrawn,
        )
        self._session = Session(self._machine, self._messenger, self._clock, user)

    @property
    def db(self) -> Database:
        return self._alone()._db

    @property
    def messenger(self) -> TerminalMessenger:
        return self._alone()._messenger

    @property
    def clock(self) -> MovedClock:
        return self._alone()._clock

    @property
    def machine(self) -> Machine:
        return self._alone()._machine

    @property
    def session(self) -> Session:
        return self._alone()._session

    @session.setter
    def session(self, session: Session) -> None:
        self._alone()._session = session

    def _alone(self) -> Talker:
        """Go on by oneself: whoever has what is inside may do anything with it."""
        self._trail = None
        return self

    def say(self, text: str) -> list[Said]:
        self._note("say", text)
        return self._session.say(text)

    def ask(self, text: str) -> str:
        """Say something and return the text of everything that came back."""
        return text_of(self.say(text))

    def tap(self, label: str) -> str:
        self._note("tap", label)
        return text_of(self._session.tap(label))

    def take_back(self) -> str:
        """Undo, and say yes where that is asked first; return the text of what came back."""
        said = self.say("/undo")
        return self.tap("Undo it") if "Undo it" in labels_of(said) else text_of(said)

    def wait(self, span: str) -> list[Said]:
        self._note("wait", span)
        return self._session.wait(span)

    def settle_in(self) -> None:
        """Register the made-up yard with zones and a product."""

        def settle() -> None:
            self._session.say("/start")
            self._session.location(*PLACE)
            self._session.say(ZONES)
            self._session.say(PRODUCT)

        self._live(("settle in",), settle)

    def once(self, begin: Callable[[Talker], object]) -> Talker:
        """Live a beginning that several tests share, known by the function that lives it."""

        def live() -> None:
            begin(self)

        self._live((begin,), live)
        return self

    def until_alert(self, kind: str, days: int = 250) -> Said:
        """Wait day by day until an alert of a kind arrives."""

        def wait() -> Said:
            for _ in range(days):
                for said in self._session.wait("P1D"):
                    if said.alert == kind:
                        return said
            raise AssertionError(f"no {kind} within {days} days")

        came = self._live(("until", kind, days), wait)
        assert came is not None
        return came

    def _note(self, *done: object) -> None:
        if self._trail is not None:
            self._trail = (*self._trail, done)

    def _live(self, what: tuple[object, ...], live: Callable[[], Said | None]) -> Said | None:
        """Do something that takes long, or copy what came of it where it was done before."""
        self._note(*what)
        session, key = self._session, self._trail
        lived = None if key is None else _LIVED.get(key)
        if lived is None:
            came = live()
            # What was done meanwhile is part of it.
            self._trail = key
            if key is not None:
                actions, newest = frozenset(session._actions), session._newest
                copy = copy_of(self._path)
                _LIVED[key] = _Lived(copy, session.now, actions, newest, came)
            return came
        self._db.close()
        for beside in ("-wal", "-shm"):
            Path(f"{self._path}{beside}").unlink(missing_ok=True)
        shutil.copy(lived.database, self._path)
        self._clock.keep(lived.now)
        session._actions, session._newest = set(lived.actions), lived.newest
        return lived.came


def _undrawn(spec: PictureSpec, folder: Path) -> Path:
    """Return where the picture would be."""
    return folder / spec.file_name


def text_of(said: Sequence[Said]) -> str:
    return "\n".join(message.reply.text for message in said)


def labels_of(said: Sequence[Said]) -> list[str]:
    return [button.label for message in said for row in message.reply.buttons for button in row]


def lived(begin: Callable[[Talker], object]) -> Any:
    """Make a fixture of a beginning that several tests share; it is lived once a process."""
    return lived_from(START)(begin)


def lived_from(start: datetime) -> Callable[[Callable[[Talker], object]], Any]:
    """Make a fixture of a beginning at another time."""

    def made(begin: Callable[[Talker], object]) -> Any:
        @pytest.fixture(name=begin.__name__)
        def fixture(tmp_path: Path) -> Talker:
            return Talker(tmp_path, start=start).once(begin)

        return fixture

    return made
