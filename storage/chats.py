"""Chats, persons, the place a dialogue has reached, and turns already answered."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final

from sqlalchemy import ColumnElement, bindparam, delete, insert, literal, select, update
from sqlalchemy.orm import InstrumentedAttribute

from storage import held, models
from storage.database import StaleWrite, Work, changed_rows
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class ChatRecord:
    """A chat: its address on its platform, its language and units ('us' or 'metric')."""

    id: int
    platform: str
    address: str
    title: str
    language: str
    units: str
    is_active: bool
    stopped_at: datetime | None = None
    keeps_unread: bool = False

    @property
    def is_told(self) -> bool:
        """Whether alerts go there: it can be reached, and nobody said stop."""
        return self.is_active and self.stopped_at is None


@dataclass(frozen=True, slots=True)
class PersonRecord:
    """A person by the address their platform gives them."""

    id: int
    platform: str
    address: str
    name: str
    pace_m: float | None = None
    licence: str | None = None
    licence_until: date | None = None
    works_under: str | None = None
    under_licence: str | None = None
    scale_step: float | None = None
    scale_unit: str | None = None
    language: str | None = None
    units: str | None = None


@dataclass(frozen=True, slots=True)
class DialogueRecord:
    """Where one person stands in one chat; `topic` is None when nothing is awaited."""

    id: int
    chat_id: int
    person_id: int
    yard_id: int | None
    topic: str | None
    schema: int
    data: dict[str, Any]
    version: int
    updated_at: datetime


def chat_at(
    work: Work,
    platform: str,
    address: str,
    *,
    title: str,
    units: str,
    now: datetime,
    language: str = "en",
) -> ChatRecord:
    """Return the chat at an address, made now if it is new; a silent one speaks again.

    Units and language are those of a new one.
    """
    query = select(models.Chat)
    row = work.scalar(query.where(models.Chat.platform == platform, models.Chat.address == address))
    return _chat(work, row, platform, address, title=title, units=units, language=language, now=now)


def _chat(
    work: Work,
    row: models.Chat | None,
    platform: str,
    address: str,
    *,
    title: str,
    units: str,
    language: str,
    now: datetime,
) -> ChatRecord:
    if row is None:
        row = models.Chat(
            platform=platform,
            address=address,
            title=title,
            language=language,
            units=units,
            is_active=True,
            created_at=now,
        )
        work.add(row)
    # Set where it is so already, it would be looked through as a change.
    if not row.is_active or row.silent_at is not None:
        row.is_active = True
        row.silent_at = None
    work.flush()
    return plain(row, ChatRecord)


def own_tongue(work: Work, platform: str, address: str) -> tuple[str | None, str | None]:
    """Return in which language and units a person asked to be answered, None where they did not."""
    query = select(models.Person.language, models.Person.units)
    row = work.execute(
        query.where(models.Person.platform == platform, models.Person.address == address)
    ).first()
    return (None, None) if row is None else (row[0], row[1])


def find_chat(work: Work, platform: str, address: str) -> ChatRecord | None:
    """Return the chat at an address, or None where nobody has spoken yet."""
    return plain_or_none(
        work.scalar(
            select(models.Chat).where(
                models.Chat.platform == platform, models.Chat.address == address
            )
        ),
        ChatRecord,
    )


def chat(work: Work, chat_id: int) -> ChatRecord:
    """Return a chat by its id."""
    return plain(work.get_one(models.Chat, chat_id), ChatRecord)


def stop(work: Work, chat_id: int, at: datetime | None) -> None:
    """Tell a chat nothing unasked from an instant on; None: tell it again."""
    work.get_one(models.Chat, chat_id).stopped_at = at
    work.flush()


def keep_unread(work: Work, chat_id: int, *, keeps: bool) -> None:
    """Set whether texts of a chat that were not understood may be kept."""
    work.get_one(models.Chat, chat_id).keeps_unread = keeps
    work.flush()


def tell_in(
    work: Work, chat_id: int, *, language: str | None = None, units: str | None = None
) -> None:
    """Tell a chat what it is told unasked in a language, in units, from now on."""
    _speak_in(work.get_one(models.Chat, chat_id), language, units)
    work.flush()


def answer_in(
    work: Work, person_id: int, *, language: str | None = None, units: str | None = None
) -> None:
    """Answer a person in a language, in units, from now on, wherever they speak.

    What they are told unasked in their own chat comes so too.
    """
    row = work.get_one(models.Person, person_id)
    _speak_in(row, language, units)
    own = work.scalar(
        select(models.Chat).where(
            models.Chat.platform == row.platform, models.Chat.address == row.address
        )
    )
    if own is not None:
        _speak_in(own, language, units)
    work.flush()


def _speak_in(row: models.Chat | models.Person, language: str | None, units: str | None) -> None:
    row.language = language or row.language
    row.units = units or row.units


def silence(work: Work, chat_id: int, now: datetime) -> None:
    """Mark a chat that can no longer be reached; its data stays for a year."""
    row = work.get_one(models.Chat, chat_id)
    row.is_active = False
    row.silent_at = row.silent_at or now


#: Chats of one person that cannot be reached. Groups have negative numbers on their platform, and
#: what is theirs is nobody's alone.
_SILENT: Final = (
    select(models.Chat.id, models.Person.id, models.Chat.silent_at)
    .join(
        models.Person,
        (models.Person.platform == models.Chat.platform)
        & (models.Person.address == models.Chat.address),
    )
    .where(models.Chat.is_active.is_(False), models.Chat.silent_at.is_not(None))
    .order_by(models.Chat.silent_at)
)


def silent_since(work: Work, before: datetime) -> list[tuple[int, int]]:
    """Return chat and person of each that has not been reachable since an instant before."""
    rows = work.execute(_SILENT.where(models.Chat.silent_at < before)).all()
    return [(row[0], row[1]) for row in rows]


#: Since when the chat that has been silent longest cannot be reached.
LONGEST_SILENT_AT: Final = _SILENT.with_only_columns(models.Chat.silent_at).limit(1)


def move(work: Work, chat_id: int, new_address: str) -> None:
    """Give a chat the new address its platform told us.

    Where somebody spoke at the new address before we heard of the move, a chat of its own was made
    there: what belongs to it joins the old one, and it falls silent under an address nobody has.
    Of what a chat has one of each, such as wishes or a spreader, the old one's own stays.
    """
    row = work.get_one(models.Chat, chat_id)
    there = work.scalar(
        select(models.Chat).where(
            models.Chat.platform == row.platform,
            models.Chat.address == new_address,
            models.Chat.id != chat_id,
        )
    )
    if there is not None:
        for table in (models.Yard, models.Product, models.Alert, models.Journal, models.Turn):
            work.execute(update(table).where(table.chat_id == there.id).values(chat_id=chat_id))
        _join_shares(work, there.id, chat_id)
        for only_one, of in (
            (models.Dialogue, models.Dialogue.person_id),
            (models.Machine, models.Machine.kind),
            (models.ChatWishes, literal(1)),
            (models.Snooze, models.Snooze.yard_id),
        ):
            _join_but_own(work, only_one, of, there.id, chat_id)
        there.address = f"{new_address} joined {chat_id}"
        there.is_active = False
        work.flush()
    row.address = new_address
    work.flush()


def _join_shares(work: Work, from_id: int, chat_id: int) -> None:
    """Let a chat have another one's shares in yards; in its own yard, or twice, it needs none."""
    standing = models.Membership.ended_at.is_(None)
    own = select(models.Yard.id).where(models.Yard.chat_id == chat_id)
    shared = select(models.Membership.yard_id).where(models.Membership.chat_id == chat_id, standing)
    for chat, needless in ((chat_id, own), (from_id, own), (from_id, shared)):
        work.execute(
            delete(models.Membership)
            .where(
                models.Membership.chat_id == chat, standing, models.Membership.yard_id.in_(needless)
            )
            .execution_options(synchronize_session=False)
        )
    work.execute(
        update(models.Membership)
        .where(models.Membership.chat_id == from_id)
        .values(chat_id=chat_id)
    )


def _join_but_own(
    work: Work,
    table: type[models.Dialogue | models.Machine | models.ChatWishes | models.Snooze],
    of: ColumnElement[Any] | InstrumentedAttribute[Any],
    from_id: int,
    chat_id: int,
) -> None:
    """Let a chat have another one's rows, but for those it has itself."""
    own = select(of).where(table.chat_id == chat_id)
    work.execute(
        update(table)
        .where(table.chat_id == from_id, of.not_in(own))
        .values(chat_id=chat_id)
        .execution_options(synchronize_session=False)
    )


def person_at(work: Work, platform: str, address: str, *, name: str, now: datetime) -> PersonRecord:
    """Return the person at an address, made now if new; a changed name is taken over."""
    query = select(models.Person)
    row = work.scalar(
        query.where(models.Person.platform == platform, models.Person.address == address)
    )
    return _person(work, row, platform, address, name=name, now=now)


def _person(
    work: Work, row: models.Person | None, platform: str, address: str, *, name: str, now: datetime
) -> PersonRecord:
    if row is None:
        row = models.Person(platform=platform, address=address, name=name, created_at=now)
        work.add(row)
    elif name and row.name != name:
        row.name = name
    work.flush()
    return plain(row, PersonRecord)


def change_person(work: Work, person_id: int, **values: Any) -> PersonRecord:
    """Set named columns of a person."""
    row = work.get_one(models.Person, person_id)
    for name, value in values.items():
        if not hasattr(models.Person, name):
            raise AttributeError(name)
        setattr(row, name, value)
    work.flush()
    return plain(row, PersonRecord)


def person(work: Work, person_id: int) -> PersonRecord:
    """Return a person by their id."""
    return plain(work.get_one(models.Person, person_id), PersonRecord)


def ask_for_record(work: Work, chat_id: int, now: datetime) -> bool:
    """Tell whether a chat was not asked this year for what its records lack; now it was."""
    row = work.get_one(models.Chat, chat_id)
    if row.record_asked_at is not None and row.record_asked_at.year == now.year:
        return False
    row.record_asked_at = now
    work.flush()
    return True


def topic_of(work: Work, platform: str, chat: str, person: str) -> str | None:
    """Return what is awaited of a person in a chat, by the platform's addresses."""
    query = (
        select(models.Dialogue.topic)
        .join(models.Chat, models.Chat.id == models.Dialogue.chat_id)
        .join(models.Person, models.Person.id == models.Dialogue.person_id)
        .where(models.Chat.platform == platform, models.Chat.address == chat)
        .where(models.Person.platform == platform, models.Person.address == person)
    )
    return work.scalar(query)


def _dialogue(
    work: Work, row: models.Dialogue | None, chat_id: int, person_id: int, *, now: datetime
) -> DialogueRecord:
    if row is None:
        row = models.Dialogue(
            chat_id=chat_id,
            person_id=person_id,
            yard_id=None,
            topic=None,
            schema=0,
            data={},
            version=0,
            updated_at=now,
        )
        work.add(row)
        work.flush()
    return plain(row, DialogueRecord)


_DIALOGUES = models.table_of(models.Dialogue)
_SAVE_DIALOGUE = (
    update(_DIALOGUES)
    .where(_DIALOGUES.c.id == bindparam("of_id"), _DIALOGUES.c.version == bindparam("of_version"))
    .values(
        {
            name: bindparam(name)
            for name in ("yard_id", "topic", "schema", "data", "version", "updated_at")
        }
    )
)


def save_dialogue(work: Work, dialogue: DialogueRecord, *, now: datetime) -> None:
    """Write a dialogue back.

    Raises
    ------
    StaleWrite
        If another turn moved it on since it was read.
    """
    work.flush()
    saved = work.connection().execute(
        _SAVE_DIALOGUE,
        {
            "of_id": dialogue.id,
            "of_version": dialogue.version,
            "yard_id": dialogue.yard_id,
            "topic": dialogue.topic,
            "schema": dialogue.schema,
            "data": dialogue.data,
            "version": dialogue.version + 1,
            "updated_at": now,
        },
    )
    if saved.rowcount != 1:
        raise StaleWrite(f"dialogue {dialogue.id} moved on")


@dataclass(frozen=True, slots=True)
class TurnRecord:
    """A turn already answered: the replies it got."""

    id: int
    key: str
    person_id: int
    at: datetime
    replies: list[Any]


@dataclass(frozen=True, slots=True)
class Begun:
    """What a turn begins with; `answered` is the turn itself where it was answered before."""

    answered: TurnRecord | None
    chat: ChatRecord
    person: PersonRecord
    dialogue: DialogueRecord


def begin_turn(
    work: Work,
    key: str,
    platform: str,
    *,
    chat: str,
    title: str,
    person: str,
    name: str,
    units: str,
    language: str,
    now: datetime,
) -> Begun:
    """Return what a turn begins with, in one statement.

    Whoever and whatever is new is made now, as by `chat_at` and `person_at`.
    """
    answered, place, speaker, reached = held.of_turn(work, key, platform, chat, person)
    here = _chat(work, place, platform, chat, title=title, units=units, language=language, now=now)
    by = _person(work, speaker, platform, person, name=name, now=now)
    before = plain_or_none(answered, TurnRecord)
    return Begun(before, here, by, _dialogue(work, reached, here.id, by.id, now=now))


def replies_of_turn(work: Work, chat_id: int, turn_id: int) -> list[Any]:
    """Return the replies to a turn of a chat; none where there is no such turn."""
    row = work.get(models.Turn, turn_id)
    return row.replies if row is not None and row.chat_id == chat_id else []


def newest_turn_of(work: Work, chat_id: int, person_id: int) -> str | None:
    """Return the key of the newest turn of a person in a chat that was answered, or None."""
    return work.scalar(
        select(models.Turn.key)
        .where(models.Turn.chat_id == chat_id, models.Turn.person_id == person_id)
        .order_by(models.Turn.id.desc())
        .limit(1)
    )


#: When the oldest turn still kept was answered.
OLDEST_TURN_AT: Final = select(models.Turn.at).order_by(models.Turn.id).limit(1)


def forget_turns(work: Work, before: datetime) -> int:
    """Forget turns answered before an instant; return how many."""
    return changed_rows(work, delete(models.Turn).where(models.Turn.at < before))


_KEEP_TURN = insert(models.table_of(models.Turn))


def record_turn(
    work: Work,
    key: str,
    *,
    chat_id: int,
    person_id: int,
    at: datetime,
    said: dict[str, Any],
    replies: list[Any],
) -> int:
    """Note a turn and its answer, and return its id.

    The key is unique, so a rival of the same key rolls back.
    """
    work.flush()
    kept = work.connection().execute(
        _KEEP_TURN,
        {
            "key": key,
            "chat_id": chat_id,
            "person_id": person_id,
            "at": at,
            "said": said,
            "replies": replies,
        },
    )
    assert kept.inserted_primary_key is not None
    return int(kept.inserted_primary_key[0])
