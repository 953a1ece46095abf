"""Nothing said is lost: kept before it is confirmed, an emergency answered before it is kept."""

import contextlib
import multiprocessing
import sqlite3
import time

from sqlalchemy import func, select

from storage import models
from storage.database import Database
from tests.service.bot_process import OUR_FAULT, BotProcess

ADA, BEA = 7, 8
WINTER = {"clock_start": "2026-11-01T14:00", "clock_rate": 1, "platform_timeout_s": 3}
FIRST_AID = "1-800-222-1222"


@contextlib.contextmanager
def locked(path):
    """Hold a database file against everybody."""
    with contextlib.closing(sqlite3.connect(path, isolation_level=None, timeout=30)) as other:
        other.execute("BEGIN EXCLUSIVE")
        yield
        other.execute("ROLLBACK")


def test_while_the_database_is_locked_nothing_said_is_confirmed_or_lost(tmp_path, standin):
    with BotProcess(tmp_path, standin, **WINTER) as bot:
        standin.say(ADA, "/start")
        standin.next_message(ADA, "Where is the lawn", seconds=60)
        standin.wait_for(lambda: not standin.unconfirmed())
        with locked(tmp_path / "bot.sqlite3"):
            said = standin.say(ADA, "39.18, -96.57")
            standin.say(BEA, "my dog ate the granules")
            # Help comes before and without the database, whatever the platform says to it.
            standin.fail("sendMessage", "502")
            standin.fail("sendMessage", "500")
            standin.next_message(BEA, FIRST_AID, seconds=5)
            standin.next_message(ADA, "No need to say it again", seconds=20)
            assert said in standin.unconfirmed()
            began_s = time.monotonic()
            assert bot.stop() == 0
            assert time.monotonic() - began_s < 10
            assert said in standin.unconfirmed()
        bot.start()
        standin.next_message(ADA, "is set up", seconds=60)
        standin.wait_for(lambda: not standin.unconfirmed())
        with bot.database().reading() as work:
            assert work.scalar(select(func.count()).select_from(models.Turn)) == 3
            assert work.scalar(select(func.count()).select_from(models.Yard)) == 1
        assert bot.stop() == 0
        assert not [words for words in OUR_FAULT if words in bot.log], bot.log


def test_of_two_that_poll_with_one_token_the_second_says_so_and_stops(tmp_path, standin):
    (tmp_path / "first").mkdir()
    (tmp_path / "second").mkdir()
    here_long_after = {"bot.telegram_poll._TRIAL_S": 1}
    with BotProcess(tmp_path / "first", standin, shorter=here_long_after, **WINTER) as first:
        standin.say(ADA, "/start")
        standin.next_message(ADA, "Where is the lawn", seconds=60)
        time.sleep(1.1)
        with BotProcess(tmp_path / "second", standin, **WINTER) as second:
            standin.watched.pop()
            assert second.wait(60) == 2
            assert "Another program polls with this token" in second.log
            assert "Traceback" not in second.log
        count = len(standin.messages(ADA))
        standin.say(ADA, "/help")
        standin.next_message(ADA, "What you can say", count, seconds=20)
        assert first.stop() == 0


def upgrade(url, ready, outcomes):
    """Bring a schema up to date at the same moment as others."""
    db = Database(url)
    ready.wait(60)
    try:
        db.upgrade()
        outcomes.put("well")
    except Exception as trouble:
        outcomes.put(repr(trouble))
    db.close()


def upgrade_at_once(url, count=4):
    """Return how it went for each of several processes on an empty database."""
    spawning = multiprocessing.get_context("spawn")
    ready, outcomes = spawning.Barrier(count), spawning.Queue()
    processes = [
        spawning.Process(target=upgrade, args=(url, ready, outcomes)) for _ in range(count)
    ]
    for process in processes:
        process.start()
    found = [outcomes.get(timeout=120) for _ in processes]
    for process in processes:
        process.join()
    return found


def test_several_started_at_once_on_an_empty_file_all_start(tmp_path):
    assert upgrade_at_once(f"sqlite:///{tmp_path / 'new.sqlite3'}") == ["well"] * 4
