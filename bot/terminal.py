"""A session of turns and replies without a chat platform, and --json for programs."""

from __future__ import annotations

import json
import re
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import Any, Final, TextIO

from bot.hearing.readers.measurements import read_duration
from bot.hearing.readers.reading import Unread
from bot.letters import letters
from bot.saying.catalogue import say
from bot.saying.voice import speaking
from bot.turn import Button, Reply, Turn
from bot.wiring import LiveClock, Machine, MovedClock
from jobs import letters_due
from jobs.messenger import Letter
from jobs.schedule import advance
from storage import chats, yards
from storage.database import Database
from storage.shown import newest_shown

PLATFORM: Final = "terminal"

#: Longest time the clock is moved at once; a typing slip should not cost ten years.
_LONGEST_WAIT: Final = timedelta(days=800)
_STORED_MESSAGES: Final = 50


class NotARequest(ValueError):
    """Raised for a line that is no valid request; the message says what is wrong."""


@dataclass(frozen=True, slots=True)
class Said:
    """One message out: when, what, and the kind of alert it is, if it is one."""

    at: datetime
    reply: Reply
    alert: str | None = None

    def to_json(self) -> dict[str, Any]:
        """Return the message as the JSON chat shows it."""
        return {
            "at": self.at.isoformat(),
            "text": self.reply.text,
            "buttons": [
                [{"label": button.label, "action": button.action} for button in row]
                for row in self.reply.buttons
            ],
            "picture": self.reply.picture,
            "file": self.reply.file,
            "alert": self.alert,
        }


class TerminalMessenger:
    """Keeps letters for the session that prints them."""

    def __init__(self) -> None:
        self._letters: list[Letter] = []

    def send(self, letter: Letter) -> None:
        """Take a letter."""
        self._letters.append(letter)

    def collect(self) -> list[Said]:
        """Return what has come since the last call, in words."""
        said = [Said(letter.at, letters.write(letter), letter.kind) for letter in self._letters]
        self._letters.clear()
        return said


class Session:
    """One person talking to a machine whose clock can be moved.

    Parameters
    ----------
    machine
        What answers, and the jobs.
    messenger
        The machine's messenger.
    clock
        The database's clock.
    user
        Number of the person, who is also their own chat.
    language
        Code of the language a new chat begins in.
    """

    def __init__(
        self,
        machine: Machine,
        messenger: TerminalMessenger,
        clock: MovedClock | LiveClock,
        user: int,
        language: str | None = None,
    ) -> None:
        self._machine = machine
        self._messenger = messenger
        self._clock = clock
        self._user = str(user)
        self._language = language
        self._actions, self._newest = _remembered(machine.db, self._user, clock.now())

    @property
    def now(self) -> datetime:
        """The session's present instant."""
        return self._clock.now()

    def say(self, text: str) -> list[Said]:
        """Say something; ``/wait 3 days`` moves the clock."""
        waiting = re.match(r"^/wait\b\s*(.*)$", text.strip(), re.IGNORECASE)
        if waiting is not None:
            try:
                return self.wait(waiting[1])
            except NotARequest as problem:
                return self._remember([Said(self.now, Reply(str(problem)))])
        return self._turn(text=text)

    def tap(self, wanted: str) -> list[Said]:
        """Tap a button, by its action or by its label in the newest message with buttons.

        Raises
        ------
        NotARequest
            If no button matches.
        """
        if wanted in self._actions:
            return self._turn(tap=wanted)
        for button in self.buttons:
            if button.label.casefold() == wanted.strip().strip("[]").casefold():
                return self._turn(tap=button.action)
        raise NotARequest(say("terminal.no_button", wanted=wanted))

    @property
    def buttons(self) -> tuple[Button, ...]:
        """The buttons of the newest message that has any."""
        return tuple(
            button for row in (self._newest.buttons if self._newest else ()) for button in row
        )

    def has_label(self, text: str) -> bool:
        """Tell whether a text is the label of a button in the newest message with buttons."""
        return text.strip().strip("[]").casefold() in [
            each.label.casefold() for each in self.buttons
        ]

    @property
    def timezone(self) -> str:
        """The time zone of this person's newest yard; UTC before there is one."""
        with self._machine.db.reading() as work:
            chat = chats.find_chat(work, PLATFORM, self._user)
            mine = [] if chat is None else yards.of_chat(work, chat.id)
        return mine[-1].timezone if mine else "UTC"

    @contextmanager
    def spoken(self) -> Iterator[None]:
        """Speak the chat's language within the block."""
        with self._machine.db.reading() as work:
            chat = chats.find_chat(work, PLATFORM, self._user)
        with speaking(self._language if chat is None else chat.language):
            yield

    def location(self, lat: float, lon: float) -> list[Said]:
        """Share a place."""
        return self._turn(place=(lat, lon))

    def photo(self, path: str) -> list[Said]:
        """Send a photo.

        Raises
        ------
        NotARequest
            If there is no such file.
        """
        return self._turn(photo=_found(path))

    def document(self, path: str) -> list[Said]:
        """Send a file.

        Raises
        ------
        NotARequest
            If there is no such file.
        """
        return self._turn(document=_found(path))

    def wait(self, text: str) -> list[Said]:
        """Move the clock and run the scheduler through the interval.

        Raises
        ------
        NotARequest
            If the text is no duration.
        """
        if not self._machine.source.can_move_clock:
            return self._remember([Said(self.now, Reply(say("terminal.clock_fixed")))])
        span = read_duration(text) if text.strip() else Unread(text, "", "")
        if isinstance(span, Unread) or not timedelta(0) < span <= _LONGEST_WAIT:
            raise NotARequest(say("terminal.no_duration", said=text, days=_LONGEST_WAIT.days))
        return self._remember(self.run_until(self.now + span))

    def run_until(self, until: datetime) -> list[Said]:
        """Run the jobs up to an instant and return what they told."""
        advance(self._machine.jobs, self.now, until, self._clock.keep)
        return self._messenger.collect()

    def idle(self) -> list[Said]:
        """Run what has fallen due while nobody typed."""
        return self._remember(self.run_until(self.now))

    def _turn(
        self,
        *,
        text: str | None = None,
        tap: str | None = None,
        place: tuple[float, float] | None = None,
        photo: str | None = None,
        document: str | None = None,
    ) -> list[Said]:
        now = self.now
        turn = Turn(
            key=f"{PLATFORM}:{uuid.uuid4().hex}",
            platform=PLATFORM,
            chat=self._user,
            person=self._user,
            at=now,
            text=text,
            tap=tap,
            place=place,
            photo=photo,
            document=document,
            language=self._language,
        )
        said = [Said(now, reply) for reply in self._machine.conversation.handle(turn)]
        return self._remember([*said, *self.run_until(now)])

    def _remember(self, said: list[Said]) -> list[Said]:
        for message in said:
            if message.reply.buttons:
                self._newest = message.reply
                self._actions |= _actions_of(message.reply)
        return said


def _found(path: str) -> str:
    """Return a path where there is a file; else there is no such request."""
    if not Path(path).is_file():
        raise NotARequest(say("terminal.no_file", path=path))
    return path


def run_json(session: Session, lines: TextIO, out: TextIO) -> None:
    """Answer one JSON object a line with one JSON object a line."""
    for line in lines:
        if not line.strip():
            continue
        try:
            said = _answer(session, line)
            answer: dict[str, Any] = {"replies": [message.to_json() for message in said]}
            heard = next((m.reply.understood for m in said if m.reply.understood), None)
            if heard is not None:
                answer = {"understood": heard, **answer}
        except NotARequest as problem:
            answer = {"replies": [], "error": str(problem)}
        out.write(json.dumps({"now": session.now.isoformat(), **answer}, ensure_ascii=False) + "\n")
        out.flush()


def _answer(session: Session, line: str) -> list[Said]:
    try:
        request = json.loads(line)
    except ValueError:
        raise NotARequest(say("terminal.no_json")) from None
    if not isinstance(request, dict) or len(request) != 1:
        raise NotARequest(say("terminal.no_request"))
    (kind, value), *_ = request.items()
    match kind, value:
        case "say", str():
            return session.say(value)
        case "tap", str():
            return session.tap(value)
        case "location", [int() | float() as lat, int() | float() as lon]:
            if not (-90 <= lat <= 90 and -180 <= lon <= 180):
                raise NotARequest(say("terminal.no_place"))
            return session.location(float(lat), float(lon))
        case "photo", str():
            return session.photo(value)
        case "file", str():
            return session.document(value)
        case "wait", str():
            if not value.strip().upper().startswith("P"):
                raise NotARequest(say("terminal.no_duration", said=value, days=_LONGEST_WAIT.days))
            return session.wait(value)
        case _:
            raise NotARequest(say("terminal.no_request"))


def _actions_of(reply: Reply) -> set[str]:
    return {button.action for row in reply.buttons for button in row}


def _remembered(db: Database, user: str, now: datetime) -> tuple[set[str], Reply | None]:
    """Return the actions shown lately, and the newest message with buttons, from what is kept."""
    with db.reading() as work:
        chat = chats.find_chat(work, PLATFORM, user)
        if chat is None:
            return set(), None
        turns, sent = newest_shown(work, chat.id, _STORED_MESSAGES)
        shown = [(turn.at, Reply.from_json(row)) for turn in turns for row in turn.replies]
        for alert, sent_at in sent:
            letter = letters_due.letter_of(work, alert, sent_at)
            if letter is not None:
                shown.append((sent_at, letters.write(replace(letter, at=now))))
    with_buttons = [(at, reply) for at, reply in shown if reply.buttons]
    actions = {action for _, reply in with_buttons for action in _actions_of(reply)}
    # Sorting keeps the order of what came at one instant: answers first, then alerts.
    in_order = sorted(with_buttons, key=lambda pair: pair[0])
    return actions, in_order[-1][1] if in_order else None
