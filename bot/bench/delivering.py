"""How fast alerts leave: a full outbox against a platform that enforces its pace."""

from __future__ import annotations

import asyncio
import tempfile
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final

from sqlalchemy import func, select, update

from bot.bench.filling import machine_on, multiply, multiply_weather, one_yard, remember
from bot.bench.meter import Meter, peak_mb
from bot.bench.platform import PERMITTED_A_SECOND, TOKEN, Plan, platform
from bot.telegram_link import LineReport, make_bot
from bot.telegram_pace import Pacer
from bot.telegram_send import Sender, TelegramMessenger, To
from bot.turn import Reply
from jobs.deliver import deliver_due
from jobs.digests import Manners
from jobs.schedule import advance
from storage import models
from storage.database import Database

#: Alerts lie in cells of so many yards.
_YARDS_A_CELL: Final = 25


def run(alerts: int, history: int, *, latency_ms: int, replies_a_second: int) -> dict[str, Any]:
    """Return the figures of so many alerts that are due, behind so many that were sent before.

    Meanwhile people are answered so often; then how long they wait is told too.
    """
    plan = Plan(latency_s=latency_ms / 1000, is_strict=True)
    with tempfile.TemporaryDirectory() as folder, platform(plan) as there:
        db = Database(f"sqlite:///{Path(folder) / 'bench.sqlite3'}")
        try:
            now = _fill(db, alerts, history)
            figures = asyncio.run(_deliver(db, there.url, now, replies_a_second))
        finally:
            db.close()
        seen = there.seen()
    asked = {"alerts": alerts, "history": history, "latency_ms": latency_ms}
    return {**asked, **figures, "refused": seen.refused, "peak_mb": peak_mb()}


def _fill(db: Database, count: int, history: int) -> datetime:
    """Bring one yard to its call by the real machine, and multiply it; return the time it is."""
    db.upgrade()
    machine = machine_on(db)
    now = datetime(2026, 2, 15, 18, tzinfo=UTC)
    one_yard(machine, now)
    called = None
    while called is None:
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
    with db.writing() as work:
        multiply(work, count, max(1, count // _YARDS_A_CELL))
        multiply_weather(work, max(1, count // _YARDS_A_CELL))
        remember(work, history, now - timedelta(days=9))
    return now


async def _deliver(db: Database, url: str, now: datetime, replies_a_second: int) -> dict[str, Any]:
    """Empty the outbox; return the figures."""
    loop, pacer, line = asyncio.get_running_loop(), Pacer(), LineReport()
    bot = make_bot(TOKEN, url, 10, pacer)
    pause = timedelta(seconds=5)
    sender = Sender(bot, line, pause, silence=lambda _: None, move=lambda _, __: None)
    messenger = TelegramMessenger(sender, pacer, loop, pause)
    meter = Meter()
    meter.count_statements(db)
    waits: list[float] = []

    async def talk() -> None:
        while True:
            await asyncio.sleep(1 / replies_a_second)
            began_s = time.monotonic()
            await sender.answer(To(str(len(waits) % 500 + 1)), Reply("Here you are."))
            waits.append(time.monotonic() - began_s)

    await bot.initialize()
    talking = asyncio.create_task(talk()) if replies_a_second else None
    began_s = time.monotonic()
    with meter.running():
        sent = await asyncio.to_thread(
            deliver_due,
            db,
            messenger,
            now,
            owner="bench",
            manners=Manners("simulated"),
            clock=lambda: now + timedelta(seconds=time.monotonic() - began_s),
        )
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
        "wall_s": round(meter.wall_s, 2),
        "share_of_permitted": round((sent + len(waits)) / meter.wall_s / PERMITTED_A_SECOND, 3),
        "cpu_ms_an_alert": round(1000 * meter.cpu_s / max(1, sent), 2),
        "statements_an_alert": round(meter.statements / max(1, sent), 2),
        "reply_p95_ms": round(1000 * waits[int(0.95 * len(waits))], 1) if waits else None,
        "replies": len(waits),
    }
