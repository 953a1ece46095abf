"""What people wish about days and messages: of a yard, of a chat, of one target's year."""

from __future__ import annotations

from dataclasses import asdict, dataclass, field
from datetime import datetime
from typing import Any, Final

from sqlalchemy import delete

from storage import held, models
from storage.database import Work
from storage.plain import plain

#: Quiet from 9 pm to 7 am until somebody says otherwise [minutes after midnight].
QUIET_FROM: Final = 21 * 60
QUIET_UNTIL: Final = 7 * 60
#: Messages a chat gets unasked on one day at most, until somebody says otherwise.
DAILY_CAP: Final = 4
#: Yards a crew does in a day: a crew of two does perhaps six (common practice, no source).
YARDS_A_DAY: Final = 6


@dataclass(frozen=True, slots=True)
class YardWishes:
    """A yard's ground and free hours, its sprinkler and the label's terms.

    `free_hours` maps a weekday's number as text (Monday ``"0"``) to ``[from, to]`` in minutes after
    midnight; None is any time. `label_terms` belong to the product `label_product_id` alone.
    """

    yard_id: int
    ground: str | None = None
    is_slope: bool = False
    free_hours: dict[str, Any] | None = None
    sprinkler_mm_h: float | None = None
    label_terms: dict[str, Any] = field(default_factory=dict)
    label_product_id: int | None = None


@dataclass(frozen=True, slots=True)
class Snooze:
    """Until when a chat hears no more of a yard, or until its soil is so warm [°C]; or neither."""

    until: datetime | None = None
    until_c: float | None = None


@dataclass(frozen=True, slots=True)
class ChatWishes:
    """When and how often a chat is written to; times in minutes after the yard's midnight.

    `quiet_from` equal to `quiet_until` means no quiet hours; `wake_at` is the hour of the day from
    which messages are welcome, or None for the end of the quiet hours. `posts_signs` and
    `notice_hours` are what their state asks for beside an application, as somebody there says.
    """

    chat_id: int
    quiet_from: int = QUIET_FROM
    quiet_until: int = QUIET_UNTIL
    wake_at: int | None = None
    daily_cap: int = DAILY_CAP
    yards_a_day: int = YARDS_A_DAY
    start_lat: float | None = None
    start_lon: float | None = None
    posts_signs: bool = False
    notice_hours: int | None = None


def of_yard(work: Work, yard_id: int) -> YardWishes:
    """Return a yard's wishes; nothing said yet is nothing wished."""
    row = next(iter(held.of_yard(work, models.YardWishes, yard_id)), None)
    return YardWishes(yard_id) if row is None else plain(row, YardWishes)


def keep_yard(work: Work, wishes: YardWishes) -> None:
    """Keep a yard's wishes in place of those held."""
    row = work.get(models.YardWishes, wishes.yard_id)
    if row is None:
        work.add(models.YardWishes(**asdict(wishes)))
    else:
        for name, value in asdict(wishes).items():
            setattr(row, name, value)
    work.flush()


def of_chat(work: Work, chat_id: int) -> ChatWishes:
    """Return a chat's wishes; nothing said yet is what most people like."""
    row = next(iter(held.of_chat(work, models.ChatWishes, chat_id)), None)
    return ChatWishes(chat_id) if row is None else plain(row, ChatWishes)


def keep_chat(work: Work, wishes: ChatWishes) -> None:
    """Keep a chat's wishes in place of those held."""
    row = work.get(models.ChatWishes, wishes.chat_id)
    if row is None:
        work.add(models.ChatWishes(**asdict(wishes)))
    else:
        for name, value in asdict(wishes).items():
            setattr(row, name, value)
    work.flush()


def snoozes(work: Work, yard_id: int) -> dict[int, Snooze]:
    """Return by chat how a yard was put off."""
    rows = held.of_yard(work, models.Snooze, yard_id)
    return {row.chat_id: plain(row, Snooze) for row in rows}


def put_off(work: Work, yard_id: int, chat_id: int, snooze: Snooze) -> None:
    """Put a yard off for a chat, in place of how it was put off."""
    rows = held.of_yard(work, models.Snooze, yard_id)
    row = next((each for each in rows if each.chat_id == chat_id), None)
    if row is None:
        work.add(models.Snooze(yard_id=yard_id, chat_id=chat_id, **asdict(snooze)))
    else:
        row.until, row.until_c = snooze.until, snooze.until_c
    work.flush()


def mute(
    work: Work, yard_id: int, target: str, year: int, *, person_id: int, now: datetime
) -> bool:
    """Say no more about a target this year; return whether that was news."""
    if (target, year) in muted(work, yard_id):
        return False
    work.add(models.Mute(yard_id=yard_id, target=target, year=year, at=now, person_id=person_id))
    work.flush()
    return True


def unmute(work: Work, yard_id: int, target: str, year: int) -> None:
    """Speak of a target again."""
    work.execute(
        delete(models.Mute).where(
            models.Mute.yard_id == yard_id, models.Mute.target == target, models.Mute.year == year
        )
    )


def muted(work: Work, yard_id: int) -> frozenset[tuple[str, int]]:
    """Return which targets are muted, and for which years."""
    return frozenset((row.target, row.year) for row in held.of_yard(work, models.Mute, yard_id))
