"""Trouble told to admins: once, sparingly, and without secrets."""

import asyncio
import logging
from collections.abc import Iterator

import pytest

from bot.telegram_admins import AdminNotes


class Sent:
    def __init__(self) -> None:
        self.told: list[tuple[str, str]] = []

    async def answer(self, to, reply) -> None:
        self.told.append((to.chat, reply.text))


@pytest.fixture
def loop() -> Iterator[asyncio.AbstractEventLoop]:
    made = asyncio.new_event_loop()
    yield made
    made.close()


def told_of(loop, *records: tuple[str, int, str]) -> list[tuple[str, str]]:
    sent = Sent()
    notes = AdminNotes(sent, loop, [11, 12], ["123:secret"])  # type: ignore[arg-type]
    for name, level, text in records:
        notes.emit(logging.LogRecord(name, level, "", 0, text, (), None))
    loop.run_until_complete(asyncio.sleep(0.01))
    return sent.told


def test_every_admin_is_told_of_an_error_once_an_hour(loop) -> None:
    told = told_of(loop, *[("jobs.deliver", logging.ERROR, "alert 5 failed")] * 3)
    assert [chat for chat, _ in told] == ["11", "12"]
    assert "alert 5 failed" in told[0][1]


def test_a_failing_source_is_told_of_and_other_warnings_are_not(loop) -> None:
    told = told_of(
        loop,
        ("jobs.weather_in", logging.WARNING, "open-meteo fails for 3 cells"),
        ("jobs.schedule", logging.WARNING, "job was missed"),
        ("jobs.watch", logging.INFO, "yard changed"),
    )
    assert len(told) == 2


def test_trouble_on_the_way_to_the_platform_is_not_sent_that_way(loop) -> None:
    assert told_of(loop, ("bot.telegram_link", logging.ERROR, "out of reach")) == []


def test_no_secret_reaches_an_admin_chat(loop) -> None:
    told = told_of(loop, ("jobs.deliver", logging.ERROR, "asked bot123:secret/getMe"))
    assert "123:secret" not in told[0][1]


def test_a_storm_of_errors_is_a_handful_of_messages(loop) -> None:
    storm = [("jobs.deliver", logging.ERROR, f"error {number}") for number in range(100)]
    assert len(told_of(loop, *storm)) == 2 * 6
