"""How fast alerts leave: a full outbox against a stand-in that enforces the platform's limits.

The stand-in runs in a process of its own. ``python -m tests.bench.delivery --alerts 2000`` prints
one JSON object: the share of the permitted 30 messages a second, refusals, CPU and statements an
alert, and the reply's p95 while the wave goes out, where replies are asked for.
"""

from __future__ import annotations

import argparse
import asyncio
import json
import multiprocessing
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path

from sqlalchemy import event, func, insert, select, update

from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_send import Sender, TelegramMessenger, To
from bot.turn import Reply, Turn
from bot.wiring import assemble
from jobs.deliver import deliver_due
from jobs.digests import Manners
from jobs.messenger import Letter
from jobs.schedule import advance
from jobs.sources.simulated import SimulatedSource
from storage import models
from storage.database import Database
from tests.service.platform_standin import TOKEN, Limits, PlatformStandin

PERMITTED_A_SECOND = 30
CELLS = 40


def serve(port, count: int, latency_s: float, stop, refused) -> None:
    """Run the stand-in until told to stop."""
    standin = PlatformStandin()
    standin.latency_s, standin.limits = latency_s, Limits()
    for chat in range(1, count + 2):
        standin.chat(chat)
    with standin:
        port.value = int(standin.base_url.rsplit(":", 1)[1].split("/")[0])
        stop.wait()
        refused.value = sum(call.fault == "429" for call in standin.calls)


def fill(db: Database, count: int, history: int) -> datetime:
    """Bring one yard to its call by the real machine, and multiply it; return the time it is.

    The yards lie in forty weather cells; of the old alerts each chat has its share.
    """
    db.upgrade()
    now = _bring_to_its_call(db)
    with db.writing() as work:
        alert = _values(work.scalars(select(models.Alert).where(models.Alert.state == "due")).one())
        yard = _values(work.get_one(models.Yard, 1))
        rows = {
            table: [_values(row) for row in work.scalars(select(table))]
            for table in (models.Chat, models.Zone, models.Season, models.Product, models.Cell)
        }
        years = [_values(row) for row in work.scalars(select(models.CellYear))]
        for number in range(1, CELLS):
            for cell in rows[models.Cell]:
                at = {"id": cell["id"] + 1000 * number, "lat_e2": cell["lat_e2"] + number}
                work.execute(insert(models.Cell), [{**cell, **at}])
            alike = [{**y, "id": None, "cell_id": y["cell_id"] + 1000 * number} for y in years]
            for year in alike:
                del year["id"]
            work.execute(insert(models.CellYear), alike)
        many: dict[type, list[dict]] = {table: [] for table in (*rows, models.Yard, models.Alert)}
        for n in range(2, count + 1):
            place = {"lat": yard["lat"] + n % CELLS / 100}
            chat = {**rows[models.Chat][0], "id": n, "address": str(n)}
            many[models.Chat].append(chat)
            product = rows[models.Product][0]
            many[models.Product].append({**product, "id": n, "chat_id": n})
            many[models.Yard].append({**yard, **place, "id": n, "chat_id": n, "product_id": n})
            for table in (models.Zone, models.Season):
                many[table] += [
                    {k: v for k, v in row.items() if k != "id"} | {"yard_id": n}
                    for row in rows[table]
                ]
            told = {"id": n + 10_000_000, "chat_id": n, "yard_id": n, "episode_key": f"{n}"}
            many[models.Alert].append({**alert, **told})
        for table in (models.Chat, models.Product, models.Yard, models.Zone, models.Season):
            if many[table]:
                work.execute(insert(table), many[table])
        old_at = now - timedelta(days=9)
        times = {"due_at": old_at, "sent_at": old_at, "told_at": old_at, "created_at": old_at}
        for start in range(0, history, 10_000):
            old = [
                {k: v for k, v in alert.items() if k != "id"}
                | {"chat_id": n % count + 1, "yard_id": n % count + 1, "state": "sent", **times}
                | {"episode_key": f"old {n}", "kind": "state"}
                for n in range(start, min(history, start + 10_000))
            ]
            work.execute(insert(models.Alert), old)
        if many[models.Alert]:
            work.execute(insert(models.Alert), many[models.Alert])
    return now


def _bring_to_its_call(db: Database) -> datetime:
    with tempfile.TemporaryDirectory() as folder:
        machine = assemble(db, SimulatedSource(0), Nobody(), owner="bench", pictures=Path(folder))
        now = datetime(2026, 2, 15, 18, tzinfo=UTC)
        for number, said in enumerate(
            (
                {"place": (38.72, -96.41)},
                {"text": "mill lawn 60x40, ditch strip 5 by 80 ft"},
                {"text": "prodiamine 0.38% granule, 3.2 lb/1000 sq ft, max 6.4 lb/1000 a year"},
            )
        ):
            machine.conversation.handle(Turn(f"fill:{number}", "telegram", "1", "1", now, **said))
        while True:
            advance(machine.jobs, now, now + timedelta(days=1))
            now += timedelta(days=1)
            with db.writing() as work:
                called = work.scalar(
                    select(models.Alert).where(models.Alert.kind == "window_open").limit(1)
                )
                if called is not None:
                    # It is told again; what else there was is over.
                    work.execute(update(models.Alert).values(state="sent"))
                    called.state, called.due_at, called.told_at = "due", now, None
                    return now


def _values(row: object) -> dict:
    return {column.name: getattr(row, column.name) for column in row.__table__.columns}


class Nobody:
    """A messenger that delivers without fail."""

    def send(self, letter: Letter) -> None:
        """Take a letter."""


async def run(db: Database, url: str, now: datetime, replies_a_second: float) -> dict[str, object]:
    """Empty the outbox; return the figures."""
    loop, pacer, line = asyncio.get_running_loop(), Pacer(), LineReport()
    bot = make_bot(TOKEN, url, 10, pacer)
    pause = timedelta(seconds=5)
    sender = Sender(bot, line, pause, silence=lambda _: None, move=lambda _, __: None)
    messenger = TelegramMessenger(sender, pacer, loop, pause)
    statements = 0

    @event.listens_for(db.engine, "before_cursor_execute")
    def count(*_: object) -> None:
        nonlocal statements
        statements += 1

    waits: list[float] = []

    async def talk() -> None:
        while True:
            await asyncio.sleep(1 / replies_a_second)
            began_s = time.monotonic()
            await sender.answer(To(str(len(waits) % 500 + 1)), Reply("Here you are."))
            waits.append(time.monotonic() - began_s)

    await bot.initialize()
    talking = asyncio.create_task(talk()) if replies_a_second else None
    began_s, cpu_s = time.monotonic(), time.process_time()
    sent = await asyncio.to_thread(
        deliver_due,
        db,
        messenger,
        now,
        owner="bench",
        manners=Manners("simulated"),
        clock=lambda: now + timedelta(seconds=time.monotonic() - began_s),
    )
    took_s, cpu_s = time.monotonic() - began_s, time.process_time() - cpu_s
    if talking is not None:
        talking.cancel()
    await bot.shutdown()
    with db.reading() as work:
        states = dict(
            work.execute(
                select(models.Alert.state, func.count())
                .where(models.Alert.due_at >= now - timedelta(hours=1))
                .group_by(models.Alert.state)
            ).all()
        )
    waits.sort()
    return {
        "sent": sent,
        "states": states,
        "seconds": round(took_s, 2),
        "share_of_permitted": round((sent + len(waits)) / took_s / PERMITTED_A_SECOND, 3),
        "cpu_ms_an_alert": round(1000 * cpu_s / max(1, sent), 2),
        "statements_an_alert": round(statements / max(1, sent), 2),
        "reply_p95_ms": round(1000 * waits[int(0.95 * len(waits))], 1) if waits else None,
        "replies": len(waits),
    }


def main() -> None:
    """Print the figures of one run."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--alerts", type=int, default=1000)
    parser.add_argument("--history", type=int, default=0)
    parser.add_argument("--latency-ms", type=float, default=100)
    parser.add_argument("--replies-a-second", type=float, default=0)
    options = parser.parse_args()
    spawning = multiprocessing.get_context("spawn")
    port, refused, stop = spawning.Value("i", 0), spawning.Value("i", 0), spawning.Event()
    latency_s = options.latency_ms / 1000
    server = spawning.Process(target=serve, args=(port, options.alerts, latency_s, stop, refused))
    server.start()
    with tempfile.TemporaryDirectory() as folder:
        db = Database(f"sqlite:///{Path(folder) / 'bench.sqlite3'}")
        now = fill(db, options.alerts, options.history)
        while not port.value:
            time.sleep(0.05)
        url = f"http://127.0.0.1:{port.value}/bot"
        figures = asyncio.run(run(db, url, now, options.replies_a_second))
        db.close()
    stop.set()
    server.join()
    print(json.dumps({**vars(options), **figures, "refused": refused.value}))


if __name__ == "__main__":
    main()
