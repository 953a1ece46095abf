"""A person at a terminal: numbered buttons, completion, history, alerts above a half-typed line.

Where input or output is no terminal, lines are read and written plainly, as a pipe wants them.
"""

from __future__ import annotations

import re
import shutil
import sys
import textwrap
import threading
from collections.abc import Callable, Iterator
from contextvars import copy_context
from datetime import timedelta
from typing import Final

from prompt_toolkit import PromptSession, print_formatted_text
from prompt_toolkit.completion import CompleteEvent, Completer, Completion
from prompt_toolkit.document import Document
from prompt_toolkit.history import InMemoryHistory
from prompt_toolkit.patch_stdout import patch_stdout

from bot.saying.catalogue import say
from bot.saying.values import Moment
from bot.talk.commands import COMMANDS
from bot.terminal import NotARequest, Said, Session
from bot.turn import Button, Reply
from jobs.local_days import local

#: Lines longer than this are hard to read, however wide the window is.
_WIDEST: Final = 80
#: How often what has fallen due is looked for while nobody types [s].
_IDLE_S: Final = 5.0
#: Days from which on a day is told by its date.
_NOT_NEAR: Final = 2
_LEAVE: Final = ("/quit", "/exit")
#: What only a terminal has, by the sentence that explains it.
_OF_TERMINAL: Final = {"wait": "wait", "photo": "photo", "file": "file", "quit": "quit"}

Write = Callable[[str], object]


def run_for_people(session: Session) -> None:
    """Talk with a person until the input ends; alerts appear as they fall due."""
    if sys.stdin.isatty() and sys.stdout.isatty():
        AtPrompt(session).run()
        return
    _run_plainly(session)


class AtPrompt:
    """A conversation on a terminal that can be drawn on."""

    def __init__(self, session: Session, width: int | None = None) -> None:
        self._session = session
        self._width = width
        # One turn at a time: what falls due waits for the answer in progress.
        self._one = threading.Lock()
        self._ended = threading.Event()
        self._prompt: PromptSession[str] = PromptSession(
            "> ",
            completer=_Completer(session),
            history=InMemoryHistory(),
            complete_while_typing=False,
            enable_history_search=True,
        )

    def run(self) -> None:
        """Talk until the person leaves."""
        idle = threading.Thread(target=copy_context().run, args=(self._watch,), daemon=True)
        with patch_stdout(raw=True):
            self._show([Said(self._session.now, Reply(say("terminal.welcome")))])
            self._show(self._session.say("/start"))
            idle.start()
            try:
                self._listen()
            finally:
                self._ended.set()
        idle.join()

    def _listen(self) -> None:
        while True:
            try:
                line = self._prompt.prompt().strip()
            except KeyboardInterrupt:
                continue
            except EOFError:
                return
            if line.casefold() in _LEAVE:
                return
            if line:
                with self._one:
                    said = typed(self._session, line)
                self._show(said)

    def _watch(self) -> None:
        while not self._ended.wait(_IDLE_S):
            self.look()

    def look(self) -> None:
        """Show what has fallen due, above what is being typed."""
        with self._one:
            said = self._session.idle()
        self._show(said)

    def _show(self, said: list[Said]) -> None:
        width = self._width or shutil.get_terminal_size().columns
        with self._session.spoken():
            lines = list(_lines(self._session, said, min(width, _WIDEST), is_numbered=True))
        if lines:
            print_formatted_text("\n".join(lines))


def typed(session: Session, line: str) -> list[Said]:
    """Answer a typed line: a file, a button by its label or its number, else words."""
    sent = re.match(r"^/(photo|file)\s+(.+)$", line, re.IGNORECASE)
    number = re.match(r"^#(\d+)$", line)
    try:
        if sent is not None:
            send = session.photo if sent[1].casefold() == "photo" else session.document
            return send(sent[2].strip("'\""))
        if number is not None and 0 < int(number[1]) <= len(session.buttons):
            return session.tap(session.buttons[int(number[1]) - 1].action)
        if session.has_label(line):
            return session.tap(line)
        return session.say(line)
    except NotARequest as problem:
        return [Said(session.now, Reply(str(problem)))]


def show(session: Session, said: list[Said], write: Write, width: int | None = None) -> None:
    """Write messages plainly; one line of a message a line, where no width is given."""
    with session.spoken():
        for line in _lines(session, said, width, is_numbered=False):
            write(line)


def _run_plainly(session: Session) -> None:
    def told(said: list[Said]) -> None:
        show(session, said, print)
        sys.stdout.flush()

    told([Said(session.now, Reply(say("terminal.welcome")))])
    told(session.say("/start"))
    for line in sys.stdin:
        if line.strip().casefold() in _LEAVE:
            return
        told(session.idle())
        if line.strip():
            told(typed(session, line.strip()))


def _lines(
    session: Session, said: list[Said], width: int | None, *, is_numbered: bool
) -> Iterator[str]:
    for message in said:
        at = local(message.at, session.timezone)
        # Its date, never "today": the clock may be moved.
        stamp = Moment(at, at.date() + timedelta(days=_NOT_NEAR))
        yield ""
        yield say("terminal.stamp_alert" if message.alert else "terminal.stamp", at=stamp)
        for line in message.reply.text.splitlines():
            yield from _wrapped(line, width)
        labels = _labels(message.reply, is_numbered=is_numbered and message.reply.buttons != ())
        yield from _wrapped("  ".join(labels), width, are_words=False)
        for name in ("picture", "file"):
            path = getattr(message.reply, name)
            if path is not None:
                yield say(f"terminal.{name}", path=path)


def _labels(reply: Reply, *, is_numbered: bool) -> list[str]:
    """Return buttons as they are shown; spaces inside are kept together when lines are wrapped."""
    every = [button for row in reply.buttons for button in row]
    if not is_numbered:
        return [f"[{button.label}]" for button in every]
    return [f"#{number} {button.label}" for number, button in enumerate(every, start=1)]


def _wrapped(line: str, width: int | None, *, are_words: bool = True) -> list[str]:
    if not line.strip():
        return [] if not are_words else [""]
    if width is None:
        return [line]
    if not are_words:
        return _in_rows(line.split("  "), width)
    return textwrap.wrap(
        line, width, break_long_words=False, break_on_hyphens=False, subsequent_indent="  "
    )


def _in_rows(labels: list[str], width: int) -> list[str]:
    rows: list[str] = []
    for label in labels:
        if rows and len(rows[-1]) + 2 + len(label) <= width:
            rows[-1] += f"  {label}"
        else:
            rows.append(label)
    return rows


class _Completer(Completer):
    """Commands, and the buttons of the newest message by their number or their words."""

    def __init__(self, session: Session) -> None:
        self._session = session

    def get_completions(
        self, document: Document, complete_event: CompleteEvent
    ) -> Iterator[Completion]:
        begun = document.text_before_cursor
        with self._session.spoken():
            for word, about in self._offered():
                if begun and word.casefold().startswith(begun.casefold()):
                    yield Completion(word, start_position=-len(begun), display_meta=about)

    def _offered(self) -> Iterator[tuple[str, str]]:
        for command in COMMANDS:
            yield f"/{command.word}", say(f"commands.{command.word}")
        for word, key in _OF_TERMINAL.items():
            yield f"/{word}", say(f"terminal.about_{key}")
        buttons: tuple[Button, ...] = self._session.buttons
        for number, button in enumerate(buttons, start=1):
            yield f"#{number}", button.label
        for button in buttons:
            yield button.label, ""
