"""What is kept is nobody else's to read, what is logged tells nothing of anybody; health."""

import json
import logging
import os
import shutil
import stat
import subprocess
import sys
from datetime import UTC, datetime, timedelta

import pytest
import requests
from sqlalchemy.exc import IntegrityError

from bot.health import look, metrics
from bot.logs import DiscreetFormatter, set_up
from bot.settings import Settings
from storage import heartbeats, outbox
from storage.database import Database
from tests.made_once import database_at
from tests.service.bot_process import ROOT, BotProcess, closed_port
from tests.service.test_outbox import T0, put

ADA = 7
SECRET_WORDS = ("Zanzibar hedge", "41.2345", "-96.7654", "TX-99-1234-Q")


#: As in `deploy/compose.yaml`: files that cannot be written to but for the data and a scratch
#: folder, a user of its own, no capability and no way to new ones.
_BOUNDS = """
set -e
mount --make-rprivate /
mount --bind "$1" /mnt
chown -R 10001:10001 /mnt
case $2 in
/root/*) # Python itself may live where only root may look.
    held=$(mktemp -d)
    mount --bind "$2" "$held"
    mount -t tmpfs -o mode=755 home /root
    mkdir -p "$2"
    mount --move "$held" "$2"
    ;;
esac
mount -o remount,bind,ro /
mount -t tmpfs scratch /tmp
cd /mnt
shift 2
exec setpriv --reuid 10001 --regid 10001 --clear-groups --no-new-privs \\
    --bounding-set=-all --inh-caps=-all "$@"
"""


def test_it_runs_without_root_or_capabilities_on_files_it_cannot_write_to(tmp_path, standin):
    bounds = ["unshare", "--mount", "sh", "-c", _BOUNDS, "sh", str(tmp_path), sys.base_prefix]
    here = {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT), "PYTHONDONTWRITEBYTECODE": "1"}
    again = (
        "import subprocess, sys, bot.cli; subprocess.run([sys.executable, '-c', ''], check=True)"
    )
    can = [*bounds, sys.executable, "-c", again]
    if shutil.which("unshare") is None or subprocess.run(can, env=here, check=False).returncode:
        pytest.skip("no file system of one's own here, or Python is out of others' reach")
    settings = {"database_url": "sqlite:////mnt/bot.sqlite3", "home": "/mnt"}
    with BotProcess(tmp_path, standin, within=bounds, **settings) as bot:
        standin.say(ADA, "41.23, -96.77")
        standin.next_message(ADA, "is set up", seconds=60)
        standin.say(ADA, "front 60x40")
        standin.next_message(ADA, "2,400 sq ft", seconds=20)
        standin.tap(ADA, "sketch:show:1")
        standin.wait_for(lambda: any(each.picture for each in standin.messages(ADA)), 60)
        assert bot.stop() == 0
        assert "Read-only" not in bot.log


def test_at_every_level_the_log_holds_no_texts_places_or_licences_and_files_are_closed(
    tmp_path, standin
):
    port = closed_port()
    before = os.umask(0o000)
    try:
        settings = {"log_level": "DEBUG", "clock_start": "2026-11-01T14:00", "clock_rate": 1}
        told = {"health": f"127.0.0.1:{port}", "metrics": "true"}
        with BotProcess(tmp_path, standin, **settings, **told) as bot:
            standin.say(ADA, "41.2345, -96.7654")
            standin.next_message(ADA, "is set up", seconds=60)
            for words in ("Zanzibar hedge 40x30", "my licence is TX-99-1234-Q until 2027-05-01"):
                count = len(standin.messages(ADA))
                standin.say(ADA, words)
                standin.wait_for(lambda count=count: len(standin.messages(ADA)) > count, 20)
            count = len(standin.messages(ADA))
            standin.fail("sendMessage", "500")
            standin.tap(ADA, "sketch:show:1")
            standin.wait_for(lambda: len(standin.messages(ADA)) > count, 30)
            answer = requests.get(f"http://127.0.0.1:{port}/health", timeout=10)
            assert answer.json()["outbox"]["doubts"] == 0
            assert set(answer.json()["last_good_data"]) == {"simulated"}
            assert answer.status_code == 200
            scraped = requests.get(f"http://127.0.0.1:{port}/metrics", timeout=10).text
            assert "soilbell_outbox_waiting 0.0" in scraped
            assert requests.get(f"http://127.0.0.1:{port}/yard", timeout=10).status_code == 404
            assert bot.stop() == 0
            found = [words for words in SECRET_WORDS if words in bot.log]
            assert not found, [line for line in bot.log.splitlines() if found[0] in line]
    finally:
        os.umask(before)
    ours = [path for path in tmp_path.rglob("*") if path.suffix != ".log"]
    assert len(ours) >= 2
    for path in ours:
        wanted = 0o700 if path.is_dir() else 0o600
        assert stat.S_IMODE(path.stat().st_mode) == wanted, path


def test_an_old_database_that_others_may_read_is_closed_to_them(tmp_path):
    path = tmp_path / "old.sqlite3"
    path.touch()
    path.chmod(0o644)
    db = Database(f"sqlite:///{path}")
    db.upgrade()
    modes = {stat.S_IMODE(each.stat().st_mode) for each in tmp_path.iterdir()}
    db.close()
    assert modes == {0o600}


def formatted(trouble):
    try:
        raise trouble
    except Exception:
        record = logging.LogRecord("x", logging.ERROR, "x", 1, "turn failed", (), sys.exc_info())
    return DiscreetFormatter([]).format(record)


def test_of_an_exception_that_may_quote_somebody_only_the_kind_is_told():
    line = formatted(ValueError("Zanzibar hedge"))
    assert "Zanzibar" not in line
    assert "ValueError" in line
    assert "in formatted" in line
    assert "no space left" in formatted(OSError("no space left"))


def test_what_a_database_server_quotes_is_left_out():
    row = 'null value in column "title"\nDETAIL:  Failing row contains (1, Zanzibar hedge\n, x).'
    for says in (row, 'invalid input for integer: "Zanzibar hedge"'):
        line = formatted(IntegrityError("INSERT INTO zone ...", None, Exception(says)))
        assert "Zanzibar" not in line
        assert says[:12] in line
        assert "INSERT INTO zone" in line


def test_the_chat_library_which_quotes_whole_messages_is_heard_at_no_level(monkeypatch):
    monkeypatch.setattr(logging, "basicConfig", lambda **_: None)
    monkeypatch.setattr(logging, "captureWarnings", lambda _: None)
    library = logging.getLogger("telegram")
    before = library.level
    try:
        set_up("DEBUG", [])
        # "Error while parsing updates! Received data was ..." comes at the highest.
        assert not logging.getLogger("telegram.Bot").isEnabledFor(logging.CRITICAL)
    finally:
        library.setLevel(before)


def test_places_in_addresses_are_blotted_out():
    line = formatted(OSError("url: /v1/forecast?latitude=41.2345,40.1&longitude=-96.7654&x=1"))
    assert "41.2" not in line
    assert "96.7" not in line
    assert "41.2" not in formatted(OSError("url: /points/41.2345,-96.7654"))
    assert "80,31" not in formatted(OSError("url: /gridpoints/OAX/80,31/forecast"))


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "health.sqlite3")
    yield base
    base.close()


def test_health_tells_of_ticks_and_of_alerts_that_do_not_get_out(db):
    assert look(db, T0).trouble == ("nobody ticks",)
    with db.writing() as work:
        heartbeats.beat(work, "tick", T0)
    assert look(db, T0).is_well
    put(db, "window_open", due_at=T0)
    assert look(db, T0 + timedelta(minutes=4)).is_well
    late = look(db, T0 + timedelta(hours=2))
    assert late.trouble == ("nobody ticks", "alerts do not get out")
    assert late.outbox.overdue == 1
    assert late.outbox.oldest_due_at == T0
    json.dumps(late.to_json())
    assert b"soilbell_outbox_overdue 1.0" in metrics(late)
    # Nobody is told any of it who was not asked for.
    assert (Settings(source="simulated").health, Settings(source="simulated").metrics) == (
        None,
        False,
    )


def test_health_counts_doubts_and_what_was_given_up(db):
    put(db, "window_open", "act_now", due_at=T0)
    with db.writing() as work:
        ids = [alert.id for alert in outbox.due(work, T0, 9)]
        outbox.claim(work, [ids], owner="a", now=T0)
        outbox.call(work, ids, owner="a", now=T0)
        words = ("uncertain", "dead")
        outcomes = {n: outbox.Outcome(word) for n, word in zip(ids, words, strict=True)}
        outbox.settle(work, outcomes, T0)
    stands = look(db, T0).outbox
    assert (stands.doubts, stands.dead, stands.waiting) == (1, 1, 0)


def test_health_of_a_database_out_of_reach(tmp_path):
    base = Database(f"sqlite:///{tmp_path / 'empty.sqlite3'}")
    found = look(base, datetime(2026, 3, 1, tzinfo=UTC))
    base.close()
    assert not found.is_well
    assert "cannot be read" in found.trouble[0]
