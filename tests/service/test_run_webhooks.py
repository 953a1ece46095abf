"""The platform brings updates itself: to several processes, kept before they are confirmed."""

import asyncio
import contextlib
import os
import threading
from types import SimpleNamespace

import pytest
import requests
from sqlalchemy import func, select

from bot.telegram_link import LineReport
from bot.telegram_webhook import Hook
from storage import models
from storage.database import Database
from tests.made_once import on_server
from tests.service.bot_process import OUR_FAULT, BotProcess, closed_port
from tests.service.platform_standin import PlatformStandin

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
URL = "https://bot.example.org/turf"
SECRET = "s3cret"
UPDATE = {"update_id": 5}


@pytest.fixture
def hook():
    """Yield what a hook answers, what it was given, and switches for how it fares."""
    state = SimpleNamespace(taken=[], keeps=True, is_up=True)
    asked = {}

    async def set_webhook(url, **more):
        asked.update(more, url=url)
        ready.set()
        return True

    async def offered(*_, **__):
        return True

    async def take(update, kept):
        state.taken.append(update.update_id)
        if state.keeps:
            kept()

    async def live(ends):
        bot = SimpleNamespace(
            set_webhook=set_webhook,
            set_my_commands=offered,
            set_my_description=offered,
            set_my_short_description=offered,
        )
        address, stop = ("127.0.0.1", 0), asyncio.Event()
        one = Hook(bot, LineReport(), ("message",), URL, address, SECRET, lambda: state.is_up)
        running = asyncio.create_task(one.run(take, stop))
        state.port = one._server.server_address[1]
        await asyncio.to_thread(ends.wait)
        stop.set()
        await running
        await one.finish()

    ready, ends = threading.Event(), threading.Event()
    thread = threading.Thread(target=lambda: asyncio.run(live(ends)))
    thread.start()
    ready.wait(10)
    state.asked = asked
    state.post = lambda path="/turf", secret=SECRET, **more: (
        requests.post(
            f"http://127.0.0.1:{state.port}{path}",
            headers={"X-Telegram-Bot-Api-Secret-Token": secret} if secret else {},
            timeout=10,
            **({"json": UPDATE} | more),
        ).status_code
    )
    state.get = lambda path: requests.get(f"http://127.0.0.1:{state.port}{path}", timeout=10)
    yield state
    ends.set()
    thread.join()


def test_who_does_not_send_the_secret_to_the_right_place_is_not_heard(hook):
    assert hook.post() == 200
    wrong = ("", "S3cret", SECRET + "x", SECRET[:-1], "\u00e9".encode().decode("latin-1"))
    assert [hook.post(secret=each) for each in wrong] == [403] * len(wrong)
    assert hook.post("/") == hook.post("/turf/more") == hook.post("/health") == 404
    assert hook.get("/turf").status_code == 404
    assert hook.taken == [5]


def test_the_platform_is_told_where_to_bring_what_and_drops_nothing(hook):
    assert hook.asked["url"] == URL
    assert hook.asked["secret_token"] == SECRET
    assert hook.asked["drop_pending_updates"] is False


def test_what_is_not_kept_is_given_back(hook):
    hook.keeps = False
    assert hook.post() == 503
    hook.keeps = True
    assert hook.post() == 200


def test_what_is_no_update_does_no_harm(hook):
    for body in (b"", b"{", b"[1]", b"null", b"\xff\xfe", b"{}", b'{"update_id": {}}'):
        assert hook.post(json=None, data=body) in (200, 413), body
    assert hook.post(json=None, data=b"x" * 1_000_001) == 413
    assert hook.post() == 200


def test_health_tells_whether_updates_can_be_taken_and_nothing_else(hook):
    assert hook.get("/health").status_code == 200
    assert hook.get("/health").text == ""
    hook.is_up = False
    assert hook.get("/health").status_code == 503


# --- processes on PostgreSQL ----------------------------------------------------------------------

#: Whoever ticks is replaced soon after its death.
SOON = {"bot.ticking._LEASE_LASTS": 5, "bot.ticking._RENEW_EVERY": 1}


@pytest.fixture
def database_url():
    with on_server(SERVER) as url:
        yield url


@pytest.mark.postgresql
@pytest.mark.skipif(SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL names no server")
def test_two_that_answer_and_two_that_tick_share_one_database(tmp_path, database_url):
    people = range(11, 17)
    with PlatformStandin() as standin, contextlib.ExitStack() as stack:
        ports = [closed_port(), closed_port()]
        usual = {"database_url": database_url, "clock_rate": 1, "clock_start": "2026-11-01T14:00"}
        hooks = [
            {"webhook_url": URL, "webhook_listen": f"127.0.0.1:{port}", **usual} for port in ports
        ]
        # All at once, on an empty database.
        bots = [
            stack.enter_context(BotProcess(tmp_path, standin, "bot", f"bot{number}", **hook))
            for number, hook in enumerate(hooks)
        ]
        workers = [
            stack.enter_context(
                BotProcess(tmp_path, standin, "worker", f"worker{number}", shorter=SOON, **usual)
            )
            for number in range(2)
        ]
        standin.hook_ports = ports
        for person in people:
            standin.say(person, "/start")
        for person in people:
            standin.next_message(person, "Where is the lawn", seconds=60)
            standin.say(person, "39.18, -96.57")
        for person in people:
            standin.next_message(person, "is set up", seconds=30)
        standin.wait_for(lambda: not standin.unconfirmed())
        assert {port for _, port, status in standin.brought if status == 200} == set(ports)
        # One answer each, whoever gave it.
        for person in people:
            answers = [each.text for each in standin.messages(person)]
            assert sum("Where is the lawn" in each for each in answers) == 1
        is_told = lambda: sum("Ticking." in worker.log for worker in workers)  # noqa: E731
        standin.wait_for(lambda: is_told() == 1, 30)
        held, other = sorted(workers, key=lambda worker: "Ticking." not in worker.log)
        standin.wait_for(lambda: "standing by" in other.log, 30)
        # One of each dies; the others go on.
        held.kill()
        bots[0].kill()
        standin.say(99, "/start")
        standin.next_message(99, "Where is the lawn", seconds=30)
        standin.wait_for(lambda: "Ticking." in other.log, 40)
        base = Database(database_url)
        with base.reading() as work:
            assert work.scalar(select(func.count()).select_from(models.Yard)) == len(people)
            assert work.scalar(select(func.count()).select_from(models.Turn)) == 2 * 6 + 1
        base.close()
        assert bots[1].stop() == 0
        assert other.stop() == 0
        for each in (*bots, *workers):
            assert not [words for words in OUR_FAULT if words in each.log], each.log
