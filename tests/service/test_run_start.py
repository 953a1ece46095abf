"""Starting, refusing to start, stopping and being killed; and what the log never holds."""

import contextlib
import sqlite3
from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import func, select

from bot import cli, logs
from bot.saying.catalogue import say
from bot.talk.commands import COMMANDS
from bot.ticking import Lease
from storage import database, models
from storage.database import Database
from tests.service.bot_process import OUR_FAULT, BotProcess, closed_port, soilbell
from tests.service.platform_standin import TOKEN, PlatformStandin

ADA = 7
SECRET = TOKEN.partition(":")[2]
#: A winter, in which the machine has nothing to say by itself.
WINTER = {"clock_start": "2026-11-01T14:00", "clock_rate": 36_000, "platform_timeout_s": 1}


@pytest.mark.parametrize(
    ("settings", "words"),
    [
        ({}, "No bot token. Set SOILBELL_TOKEN"),
        ({"token": "tomorrow"}, "SOILBELL_TOKEN is no bot token"),
        ({"token": TOKEN, "platform_url": "ftp://x"}, "SOILBELL_PLATFORM_URL cannot be read"),
        ({"token": TOKEN, "database_url": "here"}, "SOILBELL_DATABASE_URL cannot be read"),
        ({"token": TOKEN, "log_level": "LOUD"}, "SOILBELL_LOG_LEVEL cannot be read"),
        ({"token": TOKEN, "admin_ids": "me"}, "SOILBELL_ADMIN_IDS cannot be read"),
        ({"token": TOKEN, "clock_rate": "0"}, "SOILBELL_CLOCK_RATE cannot be read"),
        ({"token": TOKEN, "source": "open-meteo"}, "SOILBELL_CONTACT"),
        ({"token": TOKEN, "source": "crystal ball"}, "no weather 'crystal ball'"),
        (
            {"token": TOKEN, "source": "nws", "contact": "a@example.org", "clock_rate": 60},
            "for demonstrations on invented or recorded weather; nws is live",
        ),
        (
            {"token": TOKEN, "source": "simulated", "database_url": "sqlite:////nowhere/x.db"},
            "The database (SOILBELL_DATABASE_URL) cannot be used",
        ),
    ],
)
def test_what_is_missing_or_malformed_is_told_in_one_sentence(
    tmp_path, monkeypatch, capsys, settings, words
):
    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr(logs, "set_up", lambda level, secrets: None)
    usual = {"database_url": f"sqlite:///{tmp_path / 'bot.sqlite3'}"}
    for name, value in {**usual, **settings}.items():
        monkeypatch.setenv(f"SOILBELL_{name.upper()}", str(value))
    assert cli.main(["run"]) == 2
    told = capsys.readouterr().err
    assert words in told
    assert told.count("\n") == 1
    assert SECRET not in told


@pytest.mark.parametrize("command", [["run"], ["db", "upgrade"]])
def test_a_database_out_of_reach_ends_with_a_code_after_which_it_is_started_again(
    tmp_path, monkeypatch, capsys, command
):
    url = f"postgresql+psycopg://ada@127.0.0.1:{closed_port()}/lawn"
    assert started(command, url, tmp_path, monkeypatch) == cli.NOT_NOW
    told = capsys.readouterr().err
    assert "database" in told
    assert told.count("\n") == 1


@pytest.mark.parametrize("command", [["run"], ["db", "upgrade"]])
@pytest.mark.parametrize("is_made", [True, False])
def test_a_locked_database_ends_with_a_code_after_which_it_is_started_again(
    tmp_path, monkeypatch, capsys, command, is_made
):
    for patience in ("BUSY_TIMEOUT_S", "_UPGRADE_WITHIN_S"):
        monkeypatch.setattr(database, patience, 0)
    path = tmp_path / "locked.sqlite3"
    if is_made:
        db = Database(f"sqlite:///{path}")
        db.engine.connect().close()
        db.close()
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        assert started(command, f"sqlite:///{path}", tmp_path, monkeypatch) == cli.NOT_NOW
    told = capsys.readouterr().err
    assert "locked" in told
    assert told.count("\n") == 1


def started(command, url, folder, monkeypatch):
    """Return the exit code of a command on a database."""
    monkeypatch.chdir(folder)
    monkeypatch.setattr(logs, "set_up", lambda level, secrets: None)
    for name, value in {"token": TOKEN, "source": "simulated", "database_url": url}.items():
        monkeypatch.setenv(f"SOILBELL_{name.upper()}", value)
    return cli.main(command)


def test_a_token_the_platform_does_not_know_ends_the_run(tmp_path, standin):
    other = f"{TOKEN[:-1]}X"
    done = soilbell(tmp_path, "run", token=other, platform_url=standin.base_url, source="simulated")
    assert done.returncode == 2
    assert "does not know this token" in done.stderr
    assert other.partition(":")[2] not in done.stderr
    assert "Traceback" not in done.stderr


def test_with_the_platform_down_at_boot_it_keeps_trying_and_drops_nothing(tmp_path):
    port = closed_port()
    with PlatformStandin(port) as standin:
        # Said before anybody listened; kept by the platform meanwhile.
        standin.say(ADA, "/start")
        standin.close()
        with BotProcess(tmp_path, standin, **WINTER) as bot:
            standin.wait_for(lambda: "cannot be used" in bot.log, 20)
            assert bot.is_running
            standin.open()
            standin.fail("setMyCommands", "429", retry_after=1)
            standin.next_message(ADA, "Where is the lawn", seconds=20)
            menu = standin.wait_for(lambda: standin.commands.get(None))
            standin.wait_for(lambda: standin.descriptions.get("es"))
            assert bot.stop() == 0
        # Every command stands in the menu, in its words.
        assert [entry["command"] for entry in menu] == [command.word for command in COMMANDS]
        assert set(standin.descriptions) == {None, "es"}
        assert menu[0]["description"] == say(f"commands.{COMMANDS[0].word}")
        news = [line for line in bot.log.splitlines() if "The chat platform" in line]
        assert ["cannot be used" in line for line in news] == [True, False]
        assert not [words for words in OUR_FAULT if words in bot.log], bot.log
        assert not standin.unconfirmed()
        assert standin.calls_of("deleteWebhook")[0].params.get("drop_pending_updates") != "true"


def test_killed_before_it_answered_it_answers_after_the_restart_and_does_nothing_twice(
    tmp_path, standin
):
    with BotProcess(tmp_path, standin, **WINTER) as bot:
        standin.say(ADA, "39.18, -96.57")
        standin.next_message(ADA, "is set up", seconds=20)
        # The turn is kept, its answer does not get through, and the update is not confirmed yet.
        standin.fail("sendMessage", "hang")
        standin.say(ADA, "front 60x40")
        standin.wait_for(lambda: turns(bot) == 2)
        bot.kill()
        assert standin.unconfirmed()
        bot.start()
        standin.next_message(ADA, "Total", seconds=20)
        standin.wait_for(lambda: not standin.unconfirmed())
        assert turns(bot) == 2
        standin.say(ADA, "keep")
        standin.next_message(ADA, "Saved", seconds=20)
        with bot.database().reading() as work:
            assert work.scalar(select(func.count()).select_from(models.Zone)) == 1
        assert bot.stop() == 0


def turns(bot):
    with bot.database().reading() as work:
        return work.scalar(select(func.count()).select_from(models.Turn))


def test_the_token_reaches_no_log_at_any_level(tmp_path, standin):
    quick = {**WINTER, "platform_timeout_s": 0.4}
    with BotProcess(tmp_path, standin, log_level="DEBUG", **quick) as bot:
        standin.say(ADA, "/start")
        standin.next_message(ADA, "Where is the lawn", seconds=20)
        for fault in ("502", "garbled", "drop", "hang", "429"):
            standin.fail("sendMessage", fault)
            standin.say(ADA, "/help")
        # The last of them is told to wait, and arrives all the same.
        standin.wait_for(lambda: standin.calls_of("sendMessage")[-1].was_done)
        standin.wait_for(lambda: len(standin.calls_of("sendMessage")) == 7)
        standin.fail("getUpdates", "502", times=2)
        standin.wait_for(lambda: "is back" in bot.log)
        standin.token = "1:another"
        standin.wait_for(lambda: "does not accept the token" in bot.log, 20)
        assert SECRET not in bot.log
        assert TOKEN not in bot.log
        assert bot.stop() == 0
    assert SECRET not in bot.log


def test_a_second_worker_stands_by_until_the_first_is_gone(tmp_path):
    db = Database(f"sqlite:///{tmp_path / 'bot.sqlite3'}")
    db.upgrade()
    clock = Hand(datetime(2026, 3, 20, 14, tzinfo=UTC))
    first, second, third = (Lease(db, name, clock) for name in ("first", "second", "third"))
    for lease in (first, second):
        lease.ask()
    assert (first.is_held(), second.is_held()) == (True, False)
    # One that gives it back is followed at once, one that died when its lease has expired.
    first.give_back()
    second.ask()
    assert (first.is_held(), second.is_held()) == (False, True)
    third.ask()
    assert not third.is_held()
    clock.at += timedelta(minutes=1)
    third.ask()
    second.ask()
    assert (second.is_held(), third.is_held()) == (False, True)
    db.close()


class Hand:
    """A clock that is set by hand."""

    def __init__(self, at):
        self.at = at

    def now(self):
        return self.at
