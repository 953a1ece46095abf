"""The message of a yard that always says how it stands, over the platform's stand-in."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path
from typing import Any

import pytest
from sqlalchemy import update

from bot.telegram_link import PLATFORM, LineReport, make_bot
from bot.telegram_pinned import Pinned
from bot.terminal import Session
from bot.wiring import assemble
from storage import chats, models, pins, yards
from tests.service.platform_standin import TOKEN, Chat, Message, PlatformStandin
from tests.talk.harness import Talker

ADA = 7


class Board:
    """A yard of somebody on the platform; what they say goes the short way, by the terminal."""

    def __init__(self, standin: PlatformStandin, folder: Path) -> None:
        self.ada = Talker(folder)
        self.ada.settle_in()
        self.ada.wait("PT1H")
        machine = assemble(
            self.ada.db, self.ada.source, self.ada.messenger, owner="test", has_pins=True
        )
        self.ada.session = Session(machine, self.ada.messenger, self.ada.clock, 1)
        self.chat: Chat = standin.chat(ADA)
        with self.ada.db.writing() as work:
            pins.want(work, 1, self.ada.clock.now())
        self._loop = asyncio.new_event_loop()
        self._thread = threading.Thread(target=self._loop.run_forever, daemon=True)
        self._thread.start()
        self._bot = make_bot(TOKEN, standin.base_url, 1.0)
        self._live(self._bot.initialize())
        self.pinned = Pinned(self.ada.db, machine.around, self._bot, LineReport(), self._loop)

    def look(self) -> Message | None:
        """Let the messages be written; return the one there is now."""
        self._call_it(PLATFORM, str(ADA))
        self.pinned.write(self.ada.clock.now())
        self._call_it("terminal", "1")
        return self.chat.silent[-1] if self.chat.silent else None

    def due_at(self) -> Any:
        return self.pinned.job.next_due_at()

    def close(self) -> None:
        self._live(self._bot.shutdown())
        self._loop.call_soon_threadsafe(self._loop.stop)
        self._thread.join()
        self._loop.close()

    def _call_it(self, platform: str, address: str) -> None:
        with self.ada.db.writing() as work:
            work.execute(update(models.Chat).values(platform=platform, address=address))

    def _live(self, doing: Any) -> None:
        asyncio.run_coroutine_threadsafe(doing, self._loop).result(10)


@pytest.fixture
def standin(monkeypatch: pytest.MonkeyPatch) -> Iterator[PlatformStandin]:
    monkeypatch.setenv("NO_PROXY", "127.0.0.1")
    with PlatformStandin() as standin:
        yield standin


@pytest.fixture
def board(standin: PlatformStandin, tmp_path: Path) -> Iterator[Board]:
    board = Board(standin, tmp_path)
    yield board
    board.close()


def test_one_message_is_pinned_and_then_edited_as_the_yard_goes_on(
    board: Board, standin: PlatformStandin
) -> None:
    first = board.look()
    assert first is not None
    assert "Apply between" in first.text
    assert "Soil: " in first.text
    assert board.chat.pinned == [first.id]
    # As long as nothing changes nothing is due, and nothing is written.
    assert board.due_at() is None
    board.ada.until_alert("window_open")
    board.look()
    assert "Apply and water in by" in first.text
    board.ada.say("applied")
    board.look()
    assert "Last application: today" in first.text
    assert "Needs watering in: 0.5 in" in first.text
    board.ada.say("watered 0.5 in")
    board.look()
    assert "Needs watering in" not in first.text
    board.ada.say("/language es")
    board.look()
    assert "Última aplicación" in first.text
    # Sent and pinned once, without a sound; no alert is among it.
    assert len(board.chat.silent) == 1
    assert board.chat.messages == []
    assert len(standin.calls_of("pinChatMessage")) == 1


def test_refused_the_pin_it_is_edited_all_the_same_and_deleted_it_comes_once_more(
    board: Board, standin: PlatformStandin
) -> None:
    board.chat.may_pin = False
    first = board.look()
    board.chat.silent.clear()
    board.ada.wait("P3W")
    second = board.look()
    assert first is not None
    assert second is not None
    assert second.id != first.id
    board.ada.wait("P3W")
    board.look()
    assert second.edits == 1
    board.chat.silent.clear()
    for _ in range(2):
        board.ada.wait("P3W")
        assert board.look() is None
    assert len(standin.calls_of("sendMessage")) == 2


def test_an_answer_that_is_lost_holds_nothing_up_and_is_tried_again_later(
    board: Board, standin: PlatformStandin
) -> None:
    standin.fail("sendMessage", "429", retry_after=3)
    assert board.look() is None
    assert board.due_at() == board.ada.clock.now() + timedelta(minutes=15)
    board.ada.wait("PT15M")
    shown = board.look()
    assert shown is not None
    board.ada.wait("P3W")
    standin.fail("editMessageText", "502")
    board.look()
    assert shown.edits == 0
    board.ada.wait("PT15M")
    board.look()
    assert shown.edits == 1


@pytest.mark.parametrize("is_old", [False, True])
def test_of_a_yard_that_was_given_up_nothing_stays_pinned(
    board: Board, standin: PlatformStandin, is_old: bool
) -> None:
    shown = board.look()
    assert shown is not None
    if is_old:
        standin.too_old.add(shown.id)
    with board.ada.db.writing() as work:
        yards.change(work, 1, archived_at=board.ada.clock.now())
    board.look()
    assert board.chat.pinned == []
    assert board.chat.silent == ([shown] if is_old else [])
    assert not is_old or shown.text == "Yard 1 is no longer looked after here."
    # Taken up again it has a message of its own again.
    with board.ada.db.writing() as work:
        yards.change(work, 1, archived_at=None)
    again = board.look()
    assert again is not None
    assert board.chat.pinned == [again.id]


def test_a_new_yard_gets_its_own_as_soon_as_it_has_a_zone(board: Board) -> None:
    board.look()
    board.ada.say("add another yard in Wahoo, Nebraska")
    board.look()
    assert len(board.chat.silent) == 1
    board.ada.say("front 60x40 ft")
    board.ada.tap("Keep")
    shown = board.look()
    assert shown is not None
    assert shown.text.startswith("Yard 2, Feb 10\n")


def test_whoever_said_stop_is_shown_nothing_new(board: Board) -> None:
    with board.ada.db.writing() as work:
        chats.stop(work, 1, board.ada.clock.now())
    assert board.look() is None
    assert board.due_at() is None
