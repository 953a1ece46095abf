"""Three days of two thousand yards while platform, weather and database are in trouble.

    python -m tests.bench.soak [--yards 2000] [--minutes 20] [--seed N]

On SQLite, and on PostgreSQL where SOILBELL_TEST_POSTGRESQL_URL names a server: the day on which the
window opens, from six hours before the word, and the two days after it, 72 hours in so many
minutes, people talking all the while. One call in ten to the platform goes wrong; every second one
for weather finds it away, hanging, wrong or its quota spent; the database is locked for 3 s a
minute. Prints one JSON object a database: alerts lost, told twice without a mark, given up in doubt
after two silences (those are listed for the operator), turns lost, and the most memory held in each
six hours of the clock. The first 24 hours warm up: programs load what they use, what is kept of
cells and statements fills up to its bounds, every yard is told. Memory has grown by the most held
in the third 24 hours over the most held in the second: each has a morning with the looks at all
yards, talk and trouble. The exit code tells whether anything was lost or doubled, or memory grew by
over 5 %.
"""

from __future__ import annotations

import argparse
import json
import os
import random
import re
import sys
import tempfile
import threading
import time
from collections import Counter
from collections.abc import Mapping
from contextlib import ExitStack
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from sqlalchemy import func, make_url, select, text

from bot.bench.filling import machine_on, multiply, multiply_weather, one_yard
from jobs.schedule import advance
from storage import clock, models
from storage.database import Database
from tests.bench.crash_runs import MARK
from tests.made_once import on_server
from tests.service.bot_process import BotProcess
from tests.service.platform_standin import PlatformStandin
from tests.service.test_run_faults import WORDS

_FIRST: Final = datetime(2026, 2, 15, 18, tzinfo=UTC)
_YARDS_A_CELL: Final = 20
#: One call in so many goes wrong, of those to the platform and of those for weather.
_TROUBLE: Final = 10
_WEATHER_TROUBLE: Final = 2
_FAULTS: Final = ("429", "502", "500", "drop", "hang", "lost answer", "garbled")
_SAID: Final = ("/yard", "is it time yet?", "/amounts", "/soil", "thanks", "when do i put it down")
#: Each of the three days has its morning, with the looks at all yards.
_LASTS: Final = timedelta(hours=72)
_SPAN: Final = timedelta(hours=6)
#: Memory may grow by so much.
_MOST_GROWTH: Final = 1.05


def run(url: str, yards: int, minutes: float, seed: int) -> dict[str, Any]:
    """Live through the days on an empty database; return what is left of it."""
    eve = _fill(url, yards)
    end = eve + _LASTS
    draw, said, memory_mb = random.Random(seed), 0, [0.0] * (_LASTS // _SPAN)
    with PlatformStandin() as standin, tempfile.TemporaryDirectory() as folder:
        standin.trouble = _Trouble(seed)
        rate = _LASTS / timedelta(minutes=minutes)
        told: dict[str, Any] = {"database_url": url, "clock_rate": rate}
        told["weather_trouble"] = _WEATHER_TROUBLE
        with BotProcess(Path(folder), standin, **told) as bot:
            standin.wait_for(lambda: "Ticking" in bot.log, 60)
            base, next_lock_s = bot.database(), time.monotonic()
            for person in range(1, yards + 1):
                # They have spoken before.
                standin.chat(person)
            while (now := _now(base)) < end:
                standin.say(draw.randrange(1, yards + 1), draw.choice(_SAID))
                said += 1
                span = (now - eve) // _SPAN
                memory_mb[span] = max(memory_mb[span], bot.memory_kb / 1024)
                if time.monotonic() > next_lock_s:
                    threading.Thread(target=_lock, args=(base, 3.0)).start()
                    next_lock_s = time.monotonic() + 60
                time.sleep(0.2)
            standin.wait_for(lambda: not standin.unconfirmed(), 600)
            standin.wait_for(lambda: _is_settled(base), 120)
            bot.stop()
            found: dict[str, Any] = {
                **_told(base, standin, eve),
                "turns": said,
                "turns_lost": said - _turns(base),
                "weather_faults": Counter(re.findall("weather fault: (.+)", bot.log)),
            }
            before, trouble, after = bot.log.partition("Traceback")
            if trouble:
                found["traceback"] = before[-300:] + trouble + after[:3000]
    day = timedelta(hours=24) // _SPAN
    growth = max(memory_mb[2 * day :]) / max(memory_mb[day : 2 * day])
    return {
        "database": make_url(url).get_backend_name(),
        "yards": yards,
        **found,
        "platform_faults": standin.trouble.drawn.total(),
        "memory_mb": [round(most) for most in memory_mb],
        "memory_growth": round(growth, 3),
    }


class _Trouble:
    """Draws trouble for one call in so many."""

    def __init__(self, seed: int) -> None:
        self._draw = random.Random(seed)
        self.drawn: Counter[str] = Counter()

    def __call__(self, method: str, _params: Mapping[str, Any]) -> str | None:
        if method not in ("sendMessage", "getUpdates") or self._draw.randrange(_TROUBLE):
            return None
        fault = self._draw.choice(_FAULTS)
        self.drawn[fault] += 1
        return fault


def _fill(url: str, yards: int) -> datetime:
    """Bring a yard to the night before its window opens, and multiply it; return the time."""
    with tempfile.TemporaryDirectory() as folder:
        trial = Database(f"sqlite:///{Path(folder) / 'trial.sqlite3'}")
        opens = _lived(trial, until=None)
        trial.close()
    db = Database(url)
    eve = _lived(db, until=opens - timedelta(hours=6))
    cells = max(1, yards // _YARDS_A_CELL)
    with db.writing() as work:
        multiply(work, yards, cells)
        multiply_weather(work, cells)
        clock.advance(work, eve, "simulated")
    db.close()
    return eve


def _lived(db: Database, until: datetime | None) -> datetime:
    """Set up a yard and live until then, or until its window opens; return the time it is."""
    db.upgrade()
    machine, now = machine_on(db), _FIRST
    one_yard(machine, now)
    while until is None or now < until:
        step = timedelta(hours=4) if until is None else min(timedelta(hours=4), until - now)
        advance(machine.jobs, now, now + step)
        now += step
        with db.reading() as work:
            opened = select(models.Alert.id).where(models.Alert.kind == "window_open")
            if until is None and work.scalar(opened) is not None:
                break
    return now


def _now(base: Database) -> datetime:
    with base.reading() as work:
        kept = clock.read(work)
        assert kept is not None
        return kept[0]


def _turns(base: Database) -> int:
    with base.reading() as work:
        turns = select(func.count()).select_from(models.Turn)
        return work.scalar(turns.where(models.Turn.key.not_like("fill:%"))) or 0


def _lock(base: Database, seconds: float) -> None:
    """Keep everybody else from writing for a while."""
    with base.writing() as work:
        if base.engine.dialect.name == "postgresql":
            work.execute(text("LOCK TABLE alert, turn IN EXCLUSIVE MODE"))
        time.sleep(seconds)


def _is_settled(base: Database) -> bool:
    late = _now(base) - timedelta(hours=1)
    with base.reading() as work:
        waiting = select(models.Alert.id).where(
            models.Alert.state.in_(("due", "sending")), models.Alert.due_at < late
        )
        return work.scalar(waiting.limit(1)) is None


def _told(base: Database, standin: PlatformStandin, eve: datetime) -> dict[str, int]:
    """Return how many alerts were sent, lost, doubled without a mark, and left in doubt."""
    with base.reading() as work:
        rows = work.execute(
            select(models.Chat.address, models.Alert.kind, models.Alert.state)
            .join(models.Chat, models.Chat.id == models.Alert.chat_id)
            .where(models.Alert.due_at > eve, models.Alert.kind.in_(WORDS))
        ).all()
        since = {address for address, _, _ in rows}
    heard: Counter[tuple[str, str]] = Counter()
    marked: Counter[tuple[str, str]] = Counter()
    for address in since:
        for message in standin.messages(int(address)):
            for kind, words in WORDS.items():
                if re.search(words, message.text):
                    (marked if message.text.startswith(MARK) else heard)[address, kind] += 1
    sent = Counter((address, kind) for address, kind, state in rows if state == "sent")
    doubts = Counter(state for _, _, state in rows)["uncertain"]
    lost = sum(not heard[each] + marked[each] for each in sent if each[1] == "window_open")
    doubled = sum(count - 1 for count in heard.values() if count > 1)
    return {
        "sent": sent.total(),
        "lost": lost,
        "doubled": doubled,
        "repeated_with_a_mark": marked.total(),
        "in_doubt": doubts,
    }


def main() -> int:
    """Run; return the exit code."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--yards", type=int, default=2000)
    options.add_argument("--minutes", type=float, default=20)
    options.add_argument("--seed", type=int, default=0)
    asked = options.parse_args()
    is_well = True
    with ExitStack() as stack:
        folder = stack.enter_context(tempfile.TemporaryDirectory(prefix="soilbell-soak-"))
        urls = [f"sqlite:///{Path(folder) / 'bot.sqlite3'}"]
        server = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
        if server is not None:
            urls.append(stack.enter_context(on_server(server)))
        for url in urls:
            found = run(url, asked.yards, asked.minutes, asked.seed)
            print(json.dumps(found), flush=True)
            is_well &= not (found["lost"] or found["doubled"] or found["turns_lost"])
            is_well &= found["memory_growth"] <= _MOST_GROWTH and "traceback" not in found
    return 0 if is_well else 1


if __name__ == "__main__":
    sys.exit(main())
