"""What a turn says of the update it came from."""

import asyncio
from datetime import UTC, datetime
from functools import partial
from pathlib import Path
from types import SimpleNamespace
from typing import Any

import pytest
from telegram import Update
from telegram.error import NetworkError

from bot.telegram import Front
from bot.telegram_lines import MOST_WAITING
from bot.telegram_link import read_update
from bot.telegram_send import To
from bot.turn import Reply, Turn

NOW = datetime(2026, 4, 3, 7, tzinfo=UTC)
LAST_NIGHT = datetime(2026, 4, 2, 21, 5, tzinfo=UTC)
WHO = {"id": 7, "is_bot": False, "first_name": "Ada"}


class Listening:
    turns_at_once = 1

    def __init__(self) -> None:
        self.turns: list[Turn] = []

    def first_aid(self, turn: Turn) -> None:
        """Nobody needs help here."""

    def answer(self, turn: Turn) -> list[Reply]:
        self.turns.append(turn)
        return []


async def nobody(_chat_id: int) -> list[Any]:
    return []


def turn_of(tmp_path: Path, admins: Any = None, **content: Any) -> Turn:
    """Return the turn that an update becomes."""

    async def acknowledged(_query_id: str) -> bool:
        return True

    listening = Listening()
    bot = SimpleNamespace(
        id=99,
        username="yard_bot",
        answer_callback_query=acknowledged,
        get_chat_administrators=admins or nobody,
    )
    take(bot, listening, tmp_path, content)
    (turn,) = listening.turns
    return turn


def take(bot: Any, listening: Any, tmp_path: Path, content: dict[str, Any]) -> int:
    """Let an update be seen through; return how often it was said to be kept."""
    front = Front(bot, listening, None, None, lambda: NOW, tmp_path, None)  # type: ignore[arg-type]
    update = Update.de_json({"update_id": 1, **content}, None)
    kept: list[int] = []
    asyncio.run(front.take(update, lambda: kept.append(1)))
    return len(kept)


def message(**content: Any) -> dict[str, Any]:
    chat = {"id": 7, "type": "private", "first_name": "Ada"}
    date = int(LAST_NIGHT.timestamp())
    return {"message_id": 5, "date": date, "chat": chat, "from": WHO, **content}


def test_a_message_knows_when_it_was_said(tmp_path: Path) -> None:
    turn = turn_of(tmp_path, message=message(text="applied"))
    assert (turn.at, turn.said_at) == (NOW, LAST_NIGHT)


def test_when_a_button_was_tapped_nobody_knows(tmp_path: Path) -> None:
    query = {
        "id": "q",
        "from": WHO,
        "chat_instance": "1",
        "data": "apply:all:1",
        "message": message(text="The window is open"),
    }
    turn = turn_of(tmp_path, callback_query=query)
    assert (turn.at, turn.said_at) == (NOW, None)


GROUP = {"id": -5, "type": "group", "title": "Crew"}


def runs_chat(tmp_path: Path, admins: Any = None, **content: Any) -> bool:
    said = {**message(text="/crew"), "chat": GROUP, **content}
    turn = turn_of(tmp_path, admins, message=said)
    assert turn.is_group
    return turn.runs_chat


def test_in_private_everybody_runs_their_own_chat(tmp_path: Path) -> None:
    assert turn_of(tmp_path, message=message(text="/crew")).runs_chat


def test_a_group_is_run_by_its_admins_and_by_who_writes_in_its_own_name(tmp_path: Path) -> None:
    async def ada(_chat_id: int) -> list[Any]:
        return [SimpleNamespace(user=SimpleNamespace(id=7))]

    assert runs_chat(tmp_path, ada)
    assert not runs_chat(tmp_path, nobody)
    assert runs_chat(tmp_path, nobody, sender_chat=GROUP)
    # In the name of some other channel.
    channel = {"id": -9, "type": "channel", "title": "News"}
    assert not runs_chat(tmp_path, nobody, sender_chat=channel)


def test_where_the_platform_does_not_tell_who_runs_a_group_nobody_does(tmp_path: Path) -> None:
    async def down(_chat_id: int) -> list[Any]:
        raise NetworkError("502")

    assert not runs_chat(tmp_path, down)


def test_an_update_that_always_raises_is_told_of_and_holds_nobody_up(
    tmp_path: Path, caplog: pytest.LogCaptureFixture
) -> None:
    class Raising(Listening):
        def answer(self, turn: Turn) -> list[Reply]:
            raise ValueError("Zanzibar hedge")

    bot = SimpleNamespace(id=99, username="yard_bot")
    assert take(bot, Raising(), tmp_path, {"message": message(text="hello")}) == 1
    assert "update 1 was not seen through" in caplog.text


def test_an_update_the_library_trips_over_is_left_out_and_the_others_are_read(
    caplog: pytest.LogCaptureFixture,
) -> None:
    broken = {"update_id": 1, "message": message(text="Zanzibar hedge", chat="?")}
    sound = {"update_id": 2, "message": message(text="hello")}
    unread, read = [read_update(each, None) for each in (broken, sound)]
    assert unread.to_dict() == {"update_id": 1}
    assert (read.update_id, read.message.text) == (2, "hello")
    assert "update 1 cannot be read" in caplog.text
    assert "Zanzibar" not in caplog.text


def test_who_says_very_much_at_once_holds_nobody_up_and_is_told_what_was_not_taken(
    tmp_path: Path,
) -> None:
    class Answering(Listening):
        def answer(self, turn: Turn) -> list[Reply]:
            super().answer(turn)
            return [Reply(f"to {turn.text}")]

    class SlowSender:
        def __init__(self) -> None:
            self.sent: list[tuple[str, int | None]] = []
            self.may_send = asyncio.Event()

        async def answer(self, to: To, reply: Reply) -> None:
            await self.may_send.wait()
            self.sent.append((reply.text, to.answers))

    async def live() -> None:
        sender, listening = SlowSender(), Answering()
        bot = SimpleNamespace(id=99, username="yard_bot")
        front = Front(bot, listening, sender, None, lambda: NOW, tmp_path, None)  # type: ignore[arg-type]
        kept, all_kept = set[int](), asyncio.Event()
        told = [
            Update.de_json({"update_id": n, "message": message(text=str(n), message_id=n)}, None)
            for n in range(1, MOST_WAITING + 21)
        ]

        def keep(number: int) -> None:
            kept.add(number)
            if len(kept) == len(told):
                all_kept.set()

        taking = [
            asyncio.create_task(front.take(each, partial(keep, each.update_id))) for each in told
        ]
        await all_kept.wait()
        assert not sender.sent
        sender.may_send.set()
        await asyncio.gather(*taking)
        await asyncio.sleep(0)
        taken = [str(n) for n in range(1, MOST_WAITING + 1)]
        assert [turn.text for turn in listening.turns] == taken
        assert [text for text, _ in sender.sent[:-1]] == [f"to {each}" for each in taken]
        # Answers the first that was not taken.
        assert "nothing from here on" in sender.sent[-1][0]
        assert sender.sent[-1][1] == MOST_WAITING + 1
        await front.take(told[-1], lambda: None)
        assert listening.turns[-1].text == str(MOST_WAITING + 20)

    asyncio.run(asyncio.wait_for(live(), 20))
