"""The rows a unit of work holds: read once, in a statement for all of a turn or a yard, kept alive.

What is written through the session is seen here at once; a statement that changes rows behind its
back, a rollback and waiting for others (see `storage.yards.hold`) let go of all of it.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Hashable, Iterable
from functools import cache
from operator import attrgetter
from typing import Any, Final, Literal, TypeAlias, TypeVar

from sqlalchemy import (
    ColumnElement,
    Delete,
    Integer,
    Update,
    bindparam,
    event,
    inspect,
    literal_column,
    select,
)
from sqlalchemy.orm import InstrumentedAttribute, ORMExecuteState, Session

from storage import models
from storage.database import Work
from storage.gathering import Gathering

Row = TypeVar("Row", bound=models.Base)
Made = TypeVar("Made")
_Owner: TypeAlias = tuple[Literal["yard", "chat"], int]
#: Which numbers in a column are meant.
_Means: TypeAlias = Callable[[InstrumentedAttribute[Any]], ColumnElement[bool]]

_KEY: Final = "held"


#: An alert that is due, in the words of the indexes of those.
IS_DUE: Final = models.Alert.state == literal_column("'due'")


def _of_yards(is_meant: _Means, is_owner: _Means, is_product: _Means) -> Gathering:
    """Return what is known of yards. What has left for good, such as what was undone, is left out.

    Each says which numbers are meant: of yards, of the chats they belong to, of their products.
    """
    grounds = select(models.Ground.id).where(is_meant(models.Ground.yard_id))
    stands = is_meant(models.Application.yard_id) & models.Application.undone_at.is_(None)
    done = select(models.Application.id).where(stands)
    crew = is_meant(models.Membership.yard_id) & models.Membership.ended_at.is_(None)
    return Gathering(
        (models.Yard, is_meant(models.Yard.id)),
        (models.Product, is_product(models.Product.id)),
        (models.Ground, is_meant(models.Ground.yard_id)),
        (models.GroundOrigin, models.GroundOrigin.ground_id.in_(grounds)),
        (models.Zone, is_meant(models.Zone.yard_id) & models.Zone.removed_at.is_(None)),
        (models.Season, is_meant(models.Season.yard_id)),
        (models.Application, stands),
        (models.ApplicationZone, models.ApplicationZone.application_id.in_(done)),
        (models.Watering, is_meant(models.Watering.yard_id) & models.Watering.undone_at.is_(None)),
        (models.Reading, is_meant(models.Reading.yard_id) & models.Reading.undone_at.is_(None)),
        (models.Seeding, is_meant(models.Seeding.yard_id) & models.Seeding.undone_at.is_(None)),
        (models.Sighting, is_meant(models.Sighting.yard_id) & models.Sighting.undone_at.is_(None)),
        (models.Mute, is_meant(models.Mute.yard_id)),
        (models.Snooze, is_meant(models.Snooze.yard_id)),
        (models.Membership, crew),
        (models.Person, models.Person.id.in_(select(models.Membership.person_id).where(crew))),
        # Each by an index of its own: the many that were sent are passed over.
        (models.Alert, is_meant(models.Alert.yard_id) & IS_DUE),
        (models.Alert, is_meant(models.Alert.yard_id) & (models.Alert.kind == "data_stale")),
        (models.YardWishes, is_meant(models.YardWishes.yard_id)),
        (models.ChatWishes, is_owner(models.ChatWishes.chat_id)),
        (models.Machine, is_owner(models.Machine.chat_id)),
    )


def _of_one_yard() -> Gathering:
    """Return the same of a single yard: most often asked for, and several times as fast."""
    yard = bindparam("yard", type_=Integer)
    chat = select(models.Yard.chat_id).where(models.Yard.id == yard).scalar_subquery()
    product = select(models.Yard.product_id).where(models.Yard.id == yard).scalar_subquery()
    return _of_yards(
        lambda column: column == yard,
        lambda column: column == chat,
        lambda column: column == product,
    )


def _of_many_yards() -> Gathering:
    # The yards meant stand once in the statement: many would be as long for every table.
    meant = (
        select(models.Yard.id, models.Yard.chat_id, models.Yard.product_id)
        .where(models.Yard.id.in_(bindparam("yards", expanding=True)))
        .cte("meant")
    )
    return _of_yards(
        lambda column: column.in_(select(meant.c.id)),
        lambda column: column.in_(select(meant.c.chat_id)),
        lambda column: column.in_(select(meant.c.product_id)),
    )


_OF_YARD: Final = _of_one_yard()
_OF_YARDS: Final = _of_many_yards()

_SPEAKER: Final = select(models.Person.id).where(
    models.Person.platform == bindparam("platform"), models.Person.address == bindparam("person")
)
_PLACE: Final = select(models.Chat.id).where(
    models.Chat.platform == bindparam("platform"), models.Chat.address == bindparam("chat")
)


def _of_chat(chats: Any) -> tuple[tuple[type[models.Base], Any], ...]:
    shared = models.Membership.chat_id.in_(chats) & models.Membership.ended_at.is_(None)
    with_it = models.Yard.id.in_(select(models.Membership.yard_id).where(shared))
    mine = models.Yard.chat_id.in_(chats) | with_it
    return (
        (models.Yard, mine & models.Yard.archived_at.is_(None)),
        (models.Membership, shared),
        (models.ChatWishes, models.ChatWishes.chat_id.in_(chats)),
        (models.Machine, models.Machine.chat_id.in_(chats)),
    )


_OF_CHATS: Final = Gathering(*_of_chat(bindparam("chats", expanding=True)))
#: What a turn begins with: whether it was answered, who speaks where, how far they came.
_OF_TURN: Final = Gathering(
    (models.Turn, models.Turn.key == bindparam("turn_key")),
    (models.Chat, models.Chat.id.in_(_PLACE)),
    (models.Person, models.Person.id.in_(_SPEAKER)),
    (
        models.Dialogue,
        models.Dialogue.chat_id.in_(_PLACE) & models.Dialogue.person_id.in_(_SPEAKER),
    ),
    *_of_chat(_PLACE),
)


class _Held:
    """The rows held, by table and by the yard and the chat they belong to."""

    def __init__(self) -> None:
        #: What is held whole: tables of chats, and yards.
        self.known: set[tuple[type[models.Base], _Owner]] = set()
        self.loaded: set[int] = set()
        self.rows: dict[tuple[type[models.Base], _Owner], list[Any]] = {}
        self.alive: dict[int, Any] = {}
        #: What was made of them, until anything is written.
        self.made: dict[Hashable, Any] = {}
        #: What was read besides, until it is written.
        self.kept: dict[Hashable, Any] = {}

    def put(self, work: Session, row: Any) -> None:
        """Hold a row, once."""
        self.alive[id(row)] = row
        for owner in _owners(work, row):
            rows = self.rows.setdefault((type(row), owner), [])
            if all(each is not row for each in rows):
                rows.append(row)

    def drop(self, work: Session, row: Any) -> None:
        """Hold a row no longer."""
        for owner in _owners(work, row):
            rows = self.rows.get((type(row), owner), [])
            self.rows[type(row), owner] = [each for each in rows if each is not row]

    def owned(self, table: type[Row], owner: _Owner) -> list[Row]:
        """Return the rows of a table that belong to a yard or a chat, by number."""
        rows = self.rows.get((table, owner), ())
        return list(rows) if len(rows) < 2 else sorted(rows, key=attrgetter(_key_of(table)))


@cache
def _key_of(table: type[models.Base]) -> str:
    (key,) = inspect(table).primary_key
    name: str = key.name
    return name


def of_yard(work: Work, table: type[Row], yard_id: int) -> list[Row]:
    """Return the rows of a table that belong to a yard, oldest first; alive, so for reading only.

    Those that were undone or taken out in this very unit of work may be among them.
    """
    held = _held(work)
    if yard_id not in held.loaded:
        load(work, [yard_id])
        held = _held(work)
    return held.owned(table, ("yard", yard_id))


def of_chat(work: Work, table: type[Row], chat_id: int) -> list[Row]:
    """Return the rows of a table that belong to a chat, or are shared with it, likewise."""
    held, owner = _held(work), ("chat", chat_id)
    if (table, owner) not in held.known:
        _take_chats(work, [chat_id])
    return held.owned(table, ("chat", chat_id))


def load_chats(work: Work, chat_ids: Collection[int]) -> None:
    """Hold the rows of chats, and the chats themselves, in two statements for all."""
    for row in work.scalars(select(models.Chat).where(models.Chat.id.in_(chat_ids))):
        _held(work).alive[id(row)] = row
    _take_chats(work, chat_ids)


def _take_chats(work: Work, chat_ids: Collection[int]) -> None:
    _take(work, _OF_CHATS, {"chats": list(chat_ids)})
    owners: list[_Owner] = [("chat", chat_id) for chat_id in chat_ids]
    _held(work).known |= {(table, owner) for table in _OF_CHATS.models for owner in owners}


def load(work: Work, yard_ids: Iterable[int]) -> None:
    """Hold the rows of yards, in one statement for all that are not held yet."""
    held = _held(work)
    missing = [each for each in yard_ids if each not in held.loaded]
    if not missing:
        return
    if len(missing) == 1:
        taken = _take(work, _OF_YARD, {"yard": missing[0]})
    else:
        taken = _take(work, _OF_YARDS, {"yards": missing})
    for row in taken:
        if isinstance(row, models.Yard):
            held.known |= {
                (each, ("chat", row.chat_id)) for each in (models.ChatWishes, models.Machine)
            }
    held.loaded.update(missing)


def of_turn(
    work: Work, key: str, platform: str, chat: str, person: str
) -> tuple[models.Turn | None, models.Chat | None, models.Person | None, models.Dialogue | None]:
    """Return what a turn begins with, as far as it is there; the yards it may mean are held."""
    said = {"turn_key": key, "platform": platform, "chat": chat, "person": person}
    found = {type(row): row for row in _take(work, _OF_TURN, said)}
    here = found.get(models.Chat)
    if here is not None:
        _held(work).known |= {(each, ("chat", here.id)) for each in _OF_CHATS.models}
    return (found.get(models.Turn), here, found.get(models.Person), found.get(models.Dialogue))


def made(work: Work, key: Hashable, make: Callable[[], Made]) -> Made:
    """Return what was made of a unit of work's rows under a key, made anew after every write."""
    kept = _held(work).made
    found: Made
    if key in kept:
        found = kept[key]
        return found
    # Making it may be what loads the rows.
    found = make()
    _held(work).made[key] = found
    return found


def remade(work: Work, key: Hashable, made_anew: Any) -> None:
    """Hold what was made of rows that are only written later, in place of what was made before."""
    _held(work).made[key] = made_anew


def kept(work: Work, key: Hashable, read: Callable[[], Made]) -> Made:
    """Return what was read of weather cells under a key, read anew once a cell is written."""
    found = _held(work).kept
    if key not in found:
        found[key] = read()
    read_before: Made = found[key]
    return read_before


def let_go(work: Session) -> None:
    """Forget what is held: it may be different now."""
    work.info.pop(_KEY, None)


def _held(work: Work) -> _Held:
    work.flush()
    found: _Held | None = work.info.get(_KEY)
    if found is None:
        found = work.info[_KEY] = _Held()
    return found


def _take(work: Work, gathering: Gathering, values: dict[str, Any]) -> list[Any]:
    held, found = _held(work), list(gathering.rows(work, values))
    for row in found:
        # What is held already is there.
        if id(row) not in held.alive:
            held.put(work, row)
    return found


#: Rows that belong to a yard through another: by which column, and to what it leads.
_THROUGH: Final[dict[type[models.Base], tuple[str, type[Any]]]] = {
    models.ApplicationZone: ("application_id", models.Application),
    models.GroundOrigin: ("ground_id", models.Ground),
}


def _owners(work: Session, row: Any) -> list[_Owner]:
    """Return the yard and the chat a row belongs to, where it belongs to any."""
    if type(row) in _THROUGH:
        column, leads_to = _THROUGH[type(row)]
        number = getattr(row, column)
        key = inspect(leads_to).identity_key_from_primary_key((number,))
        added = (each for each in work.new if isinstance(each, leads_to) and each.id == number)
        row = work.identity_map.get(key) or next(added, None)
    found: list[_Owner] = []
    for owner, name in _names_of_owners(row.__class__):
        # What stands in the row itself is read without the mapper's help: this is asked of each.
        number = row.__dict__.get(name) or getattr(row, name)
        if number is not None:
            found.append((owner, int(number)))
    return found


@cache
def _names_of_owners(table: Hashable) -> tuple[tuple[Literal["yard", "chat"], str], ...]:
    """Return the columns by which a table's rows name the yard and the chat they belong to."""
    names: tuple[tuple[Literal["yard", "chat"], str], ...] = (
        ("yard", "id" if table is models.Yard else "yard_id"),
        ("chat", "chat_id"),
    )
    return tuple((owner, name) for owner, name in names if hasattr(table, name))


_OF_CELLS: Final[tuple[type[models.Base], ...]] = (models.Cell, models.CellYear)
_TABLES: Final = {table.__table__ for table in (*_OF_YARDS.models, *_OF_CHATS.models, *_OF_CELLS)}


@event.listens_for(Session, "after_flush")
def _after_flush(session: Session, _context: Any) -> None:
    held = session.info.get(_KEY)
    if held is None:
        return
    held.made.clear()
    if any(isinstance(row, _OF_CELLS) for row in session.new):
        held.kept.clear()
    known = held.alive
    if any(isinstance(row, models.Application) and id(row) not in known for row in session.dirty):
        # One that was struck out stands again, with parts that were never read.
        let_go(session)
        return
    for row in (*session.new, *session.dirty):
        held.put(session, row)
    for row in session.deleted:
        held.drop(session, row)


@event.listens_for(Session, "do_orm_execute")
def _on_execute(state: ORMExecuteState) -> None:
    changes = state.statement
    if isinstance(changes, Update | Delete) and changes.table in _TABLES:
        let_go(state.session)


@event.listens_for(Session, "after_rollback")
@event.listens_for(Session, "after_soft_rollback")
def _after_rollback(session: Session, *_: Any) -> None:
    let_go(session)
