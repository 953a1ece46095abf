"""The platform's pace is kept over all chats, in a chat and in a group; replies go first."""

import asyncio
import time
from datetime import timedelta
from itertools import pairwise

import pytest
from telegram.error import RetryAfter

from bot.bench.platform import Limits
from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer, is_letter_call
from bot.telegram_send import Sender, To
from bot.turn import Reply
from tests.service.platform_standin import TOKEN, PlatformStandin


@pytest.fixture
def standin():
    with PlatformStandin() as standin:
        standin.limits = Limits()
        for chat in range(1, 100):
            standin.chat(chat)
        standin.chat(-5)
        yield standin


def live(standin, doing):
    """Run with a sender that keeps the pace; return what comes out."""

    async def run():
        pacer = Pacer()
        bot = make_bot(TOKEN, standin.base_url, 5, pacer)
        sender = Sender(
            bot,
            LineReport(),
            timedelta(seconds=1),
            silence=lambda _: None,
            move=lambda _, __: None,
        )
        await bot.initialize()
        try:
            return await doing(sender, pacer)
        finally:
            await bot.shutdown()

    return asyncio.run(run())


async def letter(sender, chat):
    is_letter_call.set(True)
    await sender.deliver(To(str(chat)), Reply("Window open."))


def sent(standin):
    return [int(call.params["chat_id"]) for call in standin.calls_of("sendMessage")]


def test_a_wave_of_letters_never_meets_the_limit(standin):
    async def wave(sender, _pacer):
        await asyncio.gather(*(asyncio.create_task(letter(sender, n)) for n in range(1, 76)))

    began_s = time.monotonic()
    live(standin, wave)
    assert time.monotonic() - began_s >= 75 / 30 - 1
    assert not [call for call in standin.calls if call.fault]
    assert sorted(sent(standin)) == list(range(1, 76))


def test_replies_go_before_letters_that_wait(standin):
    async def wave(sender, pacer):
        letters = [asyncio.create_task(letter(sender, n)) for n in range(1, 31)]
        await asyncio.sleep(0.1)
        assert pacer.letters_waiting() > 20
        await sender.answer(To("90"), Reply("Here you are."))
        await asyncio.gather(*letters)

    live(standin, wave)
    assert sent(standin).index(90) < 20


def test_replies_in_a_burst_leave_at_once_and_letters_to_one_chat_a_second_apart(standin):
    async def talk(sender, _pacer):
        began_s = time.monotonic()
        for _ in range(5):
            await sender.answer(To("7"), Reply("Here you are."))
        burst_s = time.monotonic() - began_s
        await letter(sender, 8)
        await letter(sender, 8)
        return burst_s

    assert live(standin, talk) < 1
    times = [c.at_s for c in standin.calls_of("sendMessage") if c.params["chat_id"] == "8"]
    assert times[1] - times[0] > 0.9


def test_a_chat_that_talks_without_a_pause_gets_its_letter_all_the_same(standin):
    async def talk(sender, _pacer):
        alert = asyncio.create_task(letter(sender, 7))
        for _ in range(12):
            await sender.answer(To("7"), Reply("Here you are."))
            await asyncio.sleep(0.25)
        assert alert.done()
        await alert

    live(standin, talk)
    texts = [call.params["text"] for call in standin.calls_of("sendMessage")]
    assert texts.count("Window open.") == 1


def test_letters_that_wait_in_one_chat_together_leave_a_second_apart(standin):
    async def wave(sender, _pacer):
        await sender.answer(To("8"), Reply("Here you are."))
        await asyncio.gather(*(asyncio.create_task(letter(sender, 8)) for _ in range(3)))

    live(standin, wave)
    times = [call.at_s for call in standin.calls_of("sendMessage")]
    assert min(later - sooner for sooner, later in pairwise(times)) > 0.9


def test_a_group_gets_twenty_a_minute_and_letters_beyond_wait_in_the_outbox(standin):
    async def talk(sender, pacer):
        for _ in range(20):
            await sender.answer(To("-5", is_group=True), Reply("Here you are."))
        return pacer.wait_of_letter_s("-5")

    wait_s = live(standin, talk)
    assert 50 < wait_s < 61
    assert not [call for call in standin.calls if call.fault]


def test_told_to_wait_one_chat_waits_and_told_by_three_all_do(standin):
    standin.limits = None

    async def talk(sender, pacer):
        standin.fail("sendMessage", "429", times=1, retry_after=2)
        with pytest.raises(Exception, match="told to wait") as caught:
            await sender.deliver(To("1"), Reply("Here you are."))
        assert isinstance(caught.value.__cause__, RetryAfter)
        waits = [pacer.wait_of_letter_s(chat) for chat in ("1", "2")]
        standin.fail("sendMessage", "429", times=2, retry_after=2)
        for chat in ("3", "4"):
            with pytest.raises(Exception, match="told to wait"):
                await sender.deliver(To(chat), Reply("Here you are."))
        began_s = time.monotonic()
        await sender.deliver(To("2"), Reply("Here you are."))
        return waits, time.monotonic() - began_s

    (held, free), waited_s = live(standin, talk)
    assert 1.5 < held <= 2
    assert free == 0
    assert waited_s > 1.2
