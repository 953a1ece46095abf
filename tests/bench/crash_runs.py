"""The machine killed over and over, at named points and at random, and what is left of it.

    python -m tests.bench.crash_runs [--minutes 30] [--seed N]

On SQLite, and on PostgreSQL where SOILBELL_TEST_POSTGRESQL_URL names a server, by turns: a new
database, people who register yards and zones and tap their alerts, and a process that dies. At the
end of each run nothing may be lost, doubled without a mark, or half kept. The exit code tells.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from contextlib import ExitStack
from pathlib import Path
from typing import Any

from sqlalchemy import func, select

from bot.saying.catalogue import say
from storage import models
from storage.database import Database, Work
from tests.made_once import on_server
from tests.service.altered import POINTS
from tests.service.bot_process import BotProcess
from tests.service.platform_standin import PlatformStandin

#: What each person says, one after another; nothing depends on the answer.
SAID = (
    "/start",
    "39.18, -96.57",
    "pool lawn 60x40, strip 5 by 80 ft",
    "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year",
    "/soil",
)
MARK = "You may have this already"
_FINAL = ("sent", "withdrawn", "uncertain", "dead")
#: A process that has not come to its point in so long is killed where it is [s].
_PATIENCE_S = 8.0


def run(folder: Path, database_url: str, kills: Sequence[str], seed: int = 0) -> list[str]:
    """Let a process die at each point in turn, then live; return what is wrong in the end."""
    draw = random.Random(seed)
    people = range(11, 14)
    settings: dict[str, Any] = {"clock_start": "2026-03-29T14:00", "clock_rate": 40_000}
    with PlatformStandin() as standin:
        # A confirmed update is one that was delivered: what is said is said once.
        bot = BotProcess(folder, standin, database_url=database_url, **settings)
        told = 0
        try:
            for number, kill_at in enumerate(kills):
                if number < len(SAID):
                    for person in people:
                        standin.say(person, SAID[number])
                        told += 1
                bot.start(kill_at or "none:0")
                until_s = time.monotonic() + (draw.uniform(1.5, _PATIENCE_S))
                while bot.is_running and (time.monotonic() < until_s or kill_at):
                    time.sleep(0.05)
                    if time.monotonic() > until_s + _PATIENCE_S:
                        break
                if bot.is_running:
                    bot.kill()
            for words in SAID[len(kills) :]:
                for person in people:
                    standin.say(person, words)
                    told += 1
            bot.start()
            standin.wait_for(lambda: not standin.unconfirmed(), 90)
            base = Database(database_url)
            standin.wait_for(lambda: _is_told(base), 90)
            time.sleep(0.5)
            bot.stop()
            found = [*_lost(base, standin, told, people), *_doubled(base, standin, people)]
            base.close()
            if "Traceback" in bot.log:
                found.append(f"a traceback: {bot.log[-3000:]}")
            return found
        finally:
            if bot.is_running:
                bot.kill()


def _is_told(base: Database) -> bool:
    """Tell whether the window was told of and no alert is under way."""
    with base.reading() as work:
        states = dict(
            work.execute(
                select(models.Alert.state, func.count())
                .where(models.Alert.kind == "window_open")
                .group_by(models.Alert.state)
            ).all()
        )
    return bool(states) and set(states) <= set(_FINAL)


def _lost(base: Database, standin: PlatformStandin, told: int, people: Sequence[int]) -> list[str]:
    """Return what was not kept, and alerts that never came: an answer may be lost, no message."""
    with base.reading() as work:

        def count(table: type[models.Base]) -> int:
            return work.scalar(select(func.count()).select_from(table)) or 0

        turns, yards, zones = count(models.Turn), count(models.Yard), count(models.Zone)
        called_for = work.execute(
            select(models.Chat.address, func.count(models.Alert.kind.distinct()))
            .join(models.Alert, models.Alert.chat_id == models.Chat.id)
            .where(models.Alert.state.in_(("sent", "uncertain", "dead")))
            .group_by(models.Chat.address)
        ).all()
        replies = _reply_heads(work)
    found = []
    if turns != told:
        found.append(f"{told} things said, {turns} turns kept")
    if (yards, zones) != (len(people), 2 * len(people)):
        found.append(f"{yards} yards and {zones} zones of {len(people)} people")
    for person, kinds in called_for:
        heads = {_head(message.text) for message in standin.messages(int(person))} - replies
        if len(heads) < kinds:
            found.append(f"{person} heard {sorted(heads)} of {kinds} kinds of alerts")
    return found


def _doubled(base: Database, standin: PlatformStandin, people: Sequence[int]) -> list[str]:
    """Return alerts told twice without a mark; replies may come again after a crash."""
    with base.reading() as work:
        replies = _reply_heads(work)
    found = []
    for person in people:
        texts = [message.text for message in standin.messages(person)]
        letters = Counter(each for each in texts if _head(each) not in replies and MARK not in each)
        found += [f"{times} times: {each!r}" for each, times in letters.items() if times > 1]
        if not any("window" in each.lower() for each in texts):
            found.append(f"{person} was never told of the window")
    return found


def _reply_heads(work: Work) -> set[str]:
    """Return the first lines of replies: what is looked up later may change those below."""
    rows = work.scalars(select(models.Turn.replies))
    # On a busy machine each process that takes long over an answer asks for patience.
    return {_head(each["text"]) for row in rows for each in row} | {say("telegram.waiting")}


def _head(said: str) -> str:
    """Return the first line of what was said, below the mark of a repeat."""
    lines = [line for line in said.split("\n") if line.strip() and MARK not in line]
    return lines[0] if lines else ""


def main() -> int:
    """Run; return the exit code."""
    options = argparse.ArgumentParser(description=__doc__)
    options.add_argument("--minutes", type=float, default=30)
    options.add_argument("--seed", type=int, default=0)
    asked = options.parse_args()
    until_s, runs, kills, wrong = time.monotonic() + 60 * asked.minutes, 0, 0, 0
    server = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
    while time.monotonic() < until_s:
        draw = random.Random(asked.seed + runs)
        points = [
            draw.choice(["", f"{draw.choice(list(POINTS))}:{draw.randrange(1, 9)}"])
            for _ in range(draw.randrange(3, 9))
        ]
        with ExitStack() as stack:
            scratch = tempfile.TemporaryDirectory(prefix="soilbell-crash-")
            folder = Path(stack.enter_context(scratch))
            url = f"sqlite:///{folder / 'bot.sqlite3'}"
            if server is not None and runs % 2:
                url = stack.enter_context(on_server(server))
            found = run(folder, url, points, asked.seed + runs)
        runs, kills, wrong = runs + 1, kills + len(points), wrong + bool(found)
        print(f"{runs}: {len(points)} kills on {url.split(':')[0]}: {found or 'well'}", flush=True)
        if found:
            print(f"   killed at {points}", flush=True)
    print(f"{runs} runs, {kills} kills, {wrong} runs with something wrong")
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
