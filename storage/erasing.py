"""All that is kept of one chat and its person: told whole, and deleted whole.

What belongs to what is read off the tables themselves: a row goes with the chat, yard, application,
alert or machine it points at. A new table is covered as soon as it points at one of them.
"""

from __future__ import annotations

import base64
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from pathlib import Path
from typing import Any, Final

from sqlalchemy import ColumnElement, Table, delete, false, func, or_, select, update

from storage import erased_journal, models
from storage.database import Work, changed_rows
from storage.recorder import unsign

#: Columns by which a row belongs to what it points at. All others merely name something.
_BELONGS_BY: Final = frozenset(
    {"chat_id", "yard_id", "application_id", "alert_id", "machine_id", "journal_id", "ground_id"}
)

#: But here the yard is only the one that was being talked about.
_TALKED_ABOUT: Final = (("dialogue", "yard_id"), ("journal", "yard_id"))

#: Who stands in the rows of others for somebody who was erased.
_NOBODY: Final = ("", "erased")

_TABLES: Final = models.Base.metadata.sorted_tables


@dataclass(frozen=True, slots=True)
class Kept:
    """How much is kept of a chat: its yards, records of what was done or seen, photos, messages."""

    yards: int
    records: int
    photos: int
    messages: int


def count(work: Work, chat_id: int) -> Kept:
    """Count what is kept of a chat."""

    def rows(*names: str) -> int:
        return sum(
            work.scalar(select(func.count()).select_from(table).where(_is_of(table, chat_id))) or 0
            for table in _TABLES
            if table.name in names
        )

    return Kept(
        yards=rows("yard"),
        records=rows("application", "watering", "reading", "sighting", "seeding"),
        photos=rows("yard_photo"),
        messages=rows("turn"),
    )


def everything(work: Work, chat_id: int, person_id: int | None) -> dict[str, list[dict[str, Any]]]:
    """Return every row kept of a chat, and of a person if one is given, by table, in plain values.

    What the person did in yards of others is among it; what others keep of them is not.
    """
    found: dict[str, list[dict[str, Any]]] = {}
    for table in _TABLES:
        wanted = _is_of(table, chat_id)
        if person_id is not None:
            wanted = or_(wanted, _is_by(table, person_id))
        rows = [_plain(row) for row in work.execute(select(table).where(wanted)).mappings()]
        if rows:
            found[table.name] = rows
    return found


def files(work: Work, chat_id: int) -> list[Path]:
    """Return the photos a chat sent, but for those that another chat keeps as well."""
    photos, turns = models.YardPhoto, models.Turn
    mine = select(models.Yard.id).where(models.Yard.chat_id == chat_id)
    paths = set(work.scalars(select(photos.path).where(photos.yard_id.in_(mine))))
    said = work.scalars(select(turns.said).where(turns.chat_id == chat_id))
    paths |= {str(each["photo"]) for each in said if "photo" in each}
    kept = set(work.scalars(select(photos.path).where(photos.yard_id.not_in(mine))))
    return [Path(path) for path in sorted(paths - kept)]


def drawings(work: Work, chat_id: int) -> list[dict[str, Any]]:
    """Return the pictures drawn for a chat, as they were told with its turns."""
    replies = work.scalars(select(models.Turn.replies).where(models.Turn.chat_id == chat_id))
    return [each["drawing"] for turn in replies for each in turn if each.get("drawing")]


def yard_ids(work: Work, chat_id: int) -> list[int]:
    """Return the ids of all yards of a chat, those given up included."""
    return list(work.scalars(select(models.Yard.id).where(models.Yard.chat_id == chat_id)))


def erase(work: Work, chat_id: int, person_id: int, now: datetime) -> int:
    """Delete a chat, its person and all that belongs to them; return how many rows that was.

    What the person did in yards of others stays there, without their name and their words. A
    product of theirs that others use becomes the others' own.
    """
    work.flush()
    # What is deleted is not to live on in the journal of this very unit of work.
    unsign(work)
    _hand_over_products(work, chat_id)
    _let_go_of_yards(work, chat_id)
    persons = _persons_of(work, chat_id) | {person_id}
    erased_journal.part(work, chat_id, person_id)
    gone = 0
    for table in reversed(_TABLES):
        gone += changed_rows(work, delete(table).where(_is_of(table, chat_id)))
    for table in _TABLES:
        if table.name in ("dialogue", "turn"):
            gone += changed_rows(work, delete(table).where(table.c.person_id == person_id))
    _put_nobody(work, person_id, now)
    for each in persons:
        if each == person_id or not _is_named(work, each):
            gone += changed_rows(work, delete(models.Person).where(models.Person.id == each))
    work.expire_all()
    return gone


# --- inside ---------------------------------------------------------------------------------------


def _is_of(table: Table, chat_id: int) -> ColumnElement[bool]:
    """Return the condition that a row belongs to a chat, over as many steps as it takes."""
    if table.name == "chat":
        return table.c.id == chat_id
    steps = [
        table.c[name].in_(select(parent.c.id).where(_is_of(parent, chat_id)))
        for name, parent in _parents(table)
    ]
    return or_(*steps) if steps else false()


def _parents(table: Table) -> Iterator[tuple[str, Table]]:
    for key in table.foreign_keys:
        name = key.parent.name
        if name in _BELONGS_BY and (table.name, name) not in _TALKED_ABOUT:
            yield name, key.column.table


def _is_by(table: Table, person_id: int) -> ColumnElement[bool]:
    """Return the condition that a row is a person's own, or names them as who did it."""
    if table.name == "person":
        return table.c.id == person_id
    named = [name for name in _naming(table) if name == "person_id"]
    return or_(*(table.c[name] == person_id for name in named)) if named else false()


def _naming(table: Table) -> list[str]:
    """Return the columns of a table that name a person."""
    return sorted(k.parent.name for k in table.foreign_keys if k.column.table.name == "person")


def _persons_of(work: Work, chat_id: int) -> set[int]:
    """Return everybody named in what belongs to a chat."""
    found: set[int] = set()
    for table in _TABLES:
        for name in _naming(table):
            column = table.c[name]
            found |= set(work.scalars(select(column).where(_is_of(table, chat_id)).distinct()))
    return {each for each in found if each is not None}


def _is_named(work: Work, person_id: int) -> bool:
    """Tell whether anything that is kept names a person."""
    return any(
        work.scalar(select(table.c[name]).where(table.c[name] == person_id).limit(1)) is not None
        for table in _TABLES
        for name in _naming(table)
    )


def _hand_over_products(work: Work, chat_id: int) -> None:
    """Make a product that yards of others use their own; it is on their record."""
    product, yard = models.Product, models.Yard
    mine = select(product.id).where(product.chat_id == chat_id)
    used = [
        select(yard.product_id, yard.chat_id).where(yard.product_id.in_(mine)),
        select(models.Application.product_id, yard.chat_id)
        .join(yard, yard.id == models.Application.yard_id)
        .where(models.Application.product_id.in_(mine)),
        select(models.YardWishes.label_product_id, yard.chat_id)
        .join(yard, yard.id == models.YardWishes.yard_id)
        .where(models.YardWishes.label_product_id.in_(mine)),
    ]
    for query in used:
        for product_id, owner in work.execute(query.where(yard.chat_id != chat_id)).all():
            work.execute(update(product).where(product.id == product_id).values(chat_id=owner))


def _let_go_of_yards(work: Work, chat_id: int) -> None:
    """Let dialogues in other chats talk about a shared yard no more."""
    mine = select(models.Yard.id).where(models.Yard.chat_id == chat_id)
    work.execute(
        update(models.Dialogue)
        .where(models.Dialogue.yard_id.in_(mine), models.Dialogue.chat_id != chat_id)
        .values(yard_id=None, topic=None, data={}, version=models.Dialogue.version + 1)
        .execution_options(synchronize_session=False)
    )


def _put_nobody(work: Work, person_id: int, now: datetime) -> None:
    """Put nobody in a person's place in the rows of others."""
    named = [(table, name) for table in _TABLES for name in _naming(table)]
    if not any(
        work.scalar(select(table.c[name]).where(table.c[name] == person_id).limit(1)) is not None
        for table, name in named
    ):
        return
    platform, address = _NOBODY
    nobody = work.scalar(
        select(models.Person.id).where(
            models.Person.platform == platform, models.Person.address == address
        )
    )
    if nobody is None:
        row = models.Person(platform=platform, address=address, name="", created_at=now)
        work.add(row)
        work.flush()
        nobody = row.id
    for table, name in named:
        work.execute(
            update(table).where(table.c[name] == person_id).values({table.c[name]: nobody})
        )


def _plain(row: Mapping[Any, Any]) -> dict[str, Any]:
    return {str(name): _value(value) for name, value in row.items()}


def _value(value: Any) -> Any:
    if isinstance(value, date | datetime):
        return value.isoformat()
    return base64.b64encode(value).decode() if isinstance(value, bytes) else value
