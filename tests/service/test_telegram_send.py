"""Replies on the wire: split, edited in place, with buttons, pictures and files."""

import asyncio
import gc
import logging
import types
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from telegram import Message
from telegram.error import NetworkError

from bot.logs import DiscreetFormatter
from bot.telegram import used
from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_pinned import _write
from bot.telegram_poll import persist
from bot.telegram_send import LONGEST_TEXT, Sender, TelegramMessenger, To, split
from bot.turn import Button, Reply
from tests.service.platform_standin import TOKEN, PlatformStandin

ADA = 7
MENU = ((Button("Soil", "soil:1"), Button("Zones", "zones:list:1")),)


@pytest.fixture
def standin(monkeypatch):
    monkeypatch.setenv("NO_PROXY", "127.0.0.1")
    with PlatformStandin() as standin:
        standin.chat(ADA)
        yield standin


def send(standin, *replies, to=None):
    """Send replies as answers, one after the other; return whether the chat was silenced."""
    silenced = []

    async def go():
        bot = make_bot(TOKEN, standin.base_url, 1.0)
        await bot.initialize()
        pause = timedelta(seconds=0.1)
        sender = Sender(
            bot, LineReport(), pause, silence=silenced.append, move=lambda old, new: None
        )
        for reply in replies:
            await sender.answer(to or To(str(ADA)), reply)
        await bot.shutdown()

    asyncio.run(go())
    return silenced


def test_a_long_text_is_split_at_line_ends_with_the_buttons_under_the_last_part(standin):
    lines = [f"zone {number}: {'x' * 90}" for number in range(100)]
    send(standin, Reply("\n".join(lines), MENU))
    parts = standin.messages(ADA)
    assert len(parts) == 3
    assert [line for part in parts for line in part.text.splitlines()] == lines
    assert [bool(part.buttons) for part in parts] == [False, False, True]


@given(st.text(alphabet="ab 🌱\n", max_size=300), st.integers(8, 60))
def test_split_parts_fit_and_lose_nothing_but_space(text, longest):
    parts = split(text, longest)
    # The platform counts in UTF-16 units, of which a plant takes two.
    assert all(0 < len(part.encode("utf-16-le")) // 2 <= longest for part in parts)
    assert "".join("".join(parts).split()) == "".join(text.split())


def test_a_text_of_just_the_limit_is_one_message(standin):
    send(standin, Reply("x" * LONGEST_TEXT))
    assert len(standin.messages(ADA)) == 1


def test_a_reply_takes_the_place_of_the_message_whose_button_was_tapped(standin):
    send(standin, Reply("Soil?", MENU))
    (shown,) = standin.messages(ADA)
    to = To(str(ADA), tapped=shown.id)
    send(standin, Reply("48 °F", MENU, replaces=True), to=to)
    assert [message.text for message in standin.messages(ADA)] == ["48 °F"]
    # The same again changes nothing, and that is well.
    send(standin, Reply("48 °F", MENU, replaces=True), to=to)
    assert standin.calls_of("editMessageText")[-1].refusal.startswith("Bad Request: message is not")
    assert (len(standin.messages(ADA)), shown.edits) == (1, 1)


def test_an_edit_that_may_have_been_made_is_made_again(standin):
    send(standin, Reply("Soil?"))
    (shown,) = standin.messages(ADA)
    standin.fail("editMessageText", "lost answer")
    standin.fail("editMessageText", "502")
    send(standin, Reply("48 °F", replaces=True), to=To(str(ADA), tapped=shown.id))
    assert [message.text for message in standin.messages(ADA)] == ["48 °F"]


def test_what_cannot_be_edited_any_more_is_said_afresh(standin):
    send(standin, Reply("48 °F", replaces=True), to=To(str(ADA), tapped=999))
    assert [message.text for message in standin.messages(ADA)] == ["48 °F"]


def test_a_picture_carries_a_short_text_and_its_buttons(standin, tmp_path):
    picture = tmp_path / "yard.png"
    picture.write_bytes(b"\x89PNG" + bytes(100))
    send(standin, Reply("Your yard.", MENU, picture=str(picture)))
    (shown,) = standin.messages(ADA)
    assert (shown.picture, shown.text) == (picture.read_bytes(), "Your yard.")
    assert shown.buttons == {"Soil": "soil:1", "Zones": "zones:list:1"}


def test_a_text_too_long_for_a_caption_follows_its_picture(standin, tmp_path):
    picture = tmp_path / "yard.png"
    picture.write_bytes(b"\x89PNG")
    send(standin, Reply("x" * 1025, MENU, picture=str(picture)))
    shown, text = standin.messages(ADA)
    assert (shown.picture, shown.buttons) == (b"\x89PNG", {})
    assert len(text.text) == 1025


def test_a_file_is_sent_and_a_missing_one_does_not_cost_the_text(standin, tmp_path):
    book = tmp_path / "year.csv"
    book.write_text("day,zone\n")
    send(standin, Reply("The year.", file=str(book)))
    send(standin, Reply("No picture.", picture=str(tmp_path / "gone.png")))
    with_file, plain = standin.messages(ADA)
    assert (with_file.file, with_file.text) == (b"day,zone\n", "The year.")
    assert (plain.picture, plain.text) == (None, "No picture.")


def test_many_buttons_are_wrapped_to_what_the_platform_shows(standin):
    row = tuple(Button(f"Zone {number}", f"zone:{number}") for number in range(20))
    send(standin, Reply("Which?", (row,)))
    (shown,) = standin.messages(ADA)
    assert [len(line) for line in shown.markup["inline_keyboard"]] == [3, 3, 3, 3, 3, 3, 2]


def test_somebody_who_blocked_us_is_not_written_to_again(standin):
    standin.fail("sendMessage", "403", words="Forbidden: user is deactivated")
    assert send(standin, Reply("x" * (LONGEST_TEXT + 5))) == [str(ADA)]
    assert len(standin.calls_of("sendMessage")) == 1


def test_secrets_are_blotted_out_of_messages_and_tracebacks():
    formatter = DiscreetFormatter([TOKEN, TOKEN.partition(":")[2]])
    try:
        raise RuntimeError(f"https://example.org/bot{TOKEN}/getMe")
    except RuntimeError as error:
        record = logging.LogRecord(
            "x", logging.ERROR, "", 0, "called %s", (TOKEN,), (type(error), error, None)
        )
    line = formatter.format(record)
    assert TOKEN.partition(":")[2] not in line
    assert "[secret]" in line


def test_a_picture_is_uploaded_once_and_sent_by_its_name_after(standin, tmp_path):
    path = tmp_path / "chart.png"
    path.write_bytes(b"png")
    send(standin, *[Reply("", picture=str(path))] * 2)
    photos = [call.params["photo"] for call in standin.calls if call.method == "sendPhoto"]
    assert isinstance(photos[0], bytes)
    assert isinstance(photos[1], str)
    assert [message.picture for message in standin.messages(ADA)] == [b"png", b"png"]


async def given_up_late(*_arguments):
    try:
        await asyncio.sleep(60)
    except asyncio.CancelledError:
        raise NetworkError("what is closed cannot be read") from None


async def a_letter_given_up():
    sender = types.SimpleNamespace(deliver=given_up_late)
    loop = asyncio.get_running_loop()
    messenger = TelegramMessenger(sender, Pacer(), loop, timedelta(seconds=1))
    letter = types.SimpleNamespace(platform="telegram", address=str(ADA))
    messenger.begin(letter).cancel()
    future = messenger.begin(letter)
    await asyncio.sleep(0.01)
    future.cancel()


async def a_pinned_message_given_up():
    bot = types.SimpleNamespace(send_message=lambda **_: given_up_late())
    pin = types.SimpleNamespace(message_ref=None, address=str(ADA))
    loop = asyncio.get_running_loop()
    future = asyncio.run_coroutine_threadsafe(_write(bot, pin, "words"), loop)
    await asyncio.sleep(0.01)
    future.cancel()


async def a_poll_given_up_when_told_to_stop():
    stop = asyncio.Event()
    asyncio.get_running_loop().call_later(0.01, stop.set)
    assert await persist(given_up_late, LineReport(), stop) is None


async def a_call_whose_caller_is_given_up():
    caller = asyncio.create_task(persist(given_up_late, LineReport(), asyncio.Event()))
    await asyncio.sleep(0.01)
    caller.cancel()


@pytest.mark.parametrize(
    "what",
    [
        a_letter_given_up,
        a_pinned_message_given_up,
        a_poll_given_up_when_told_to_stop,
        a_call_whose_caller_is_given_up,
    ],
)
def test_what_is_given_up_leaves_no_trouble_behind_that_nobody_reads(monkeypatch, what):
    monkeypatch.setattr("bot.telegram_send.in_words", lambda letter: Reply("words"))
    unread = []

    async def go():
        loop = asyncio.get_running_loop()
        loop.set_exception_handler(lambda _, told: unread.append(told["message"]))
        await what()
        for _ in range(9):
            await asyncio.sleep(0)
        gc.collect()
        assert asyncio.all_tasks() == {asyncio.current_task()}

    asyncio.run(go())
    assert unread == []


def test_thanks_are_answered_with_a_sign_and_in_words_where_there_is_none(standin):
    send(standin, Reply("You're welcome.", reaction="👍"), to=To(str(ADA), said=5))
    assert [int(number) for number, _ in standin.reactions] == [5]
    assert standin.messages(ADA) == []
    send(standin, Reply("You're welcome.", reaction="👍"))
    assert [message.text for message in standin.messages(ADA)] == ["You're welcome."]


def keyboard(*labels_and_actions):
    rows = [[{"text": label, "callback_data": action}] for label, action in labels_and_actions]
    chat = {"id": ADA, "type": "private", "first_name": "Ada"}
    told = {"message_id": 5, "date": 1_770_000_000, "chat": chat, "text": "Right?"}
    return Message.de_json({**told, "reply_markup": {"inline_keyboard": rows}}, None)


def test_a_used_keyboard_shows_what_was_chosen_and_keeps_what_only_looks():
    asked = keyboard(("It is down", "apply:all:1"), ("Later", "later:ask:1"), ("Soil", "soil:1"))
    markup = used(asked, "apply:all:1")
    labels = [button.text for row in markup.inline_keyboard for button in row]
    assert labels == ["✓ It is down", "Soil"]
    assert used(asked, "no such button") is None
