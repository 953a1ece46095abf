"""What the platform tells about chats themselves."""

from datetime import UTC, datetime, timedelta

import pytest
from sqlalchemy import select

from bot.telegram_chats import Addresses
from jobs.uses.yard_settings import Register, register
from storage import chats, crews, machines, models, wishes, yards
from storage.recorder import Author, sign
from storage.wishes import ChatWishes
from tests.made_once import database_at

NOW = datetime(2026, 3, 20, 14, tzinfo=UTC)
DAY = timedelta(days=1)


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "addresses.sqlite3")
    yield base
    base.close()


def settle(db, address):
    """Return the id of a chat with a yard at an address."""
    with db.writing() as work:
        chat = chats.chat_at(work, "telegram", address, title="", units="us", now=NOW)
        ada = chats.person_at(work, "telegram", "7", name="Ada", now=NOW)
        sign(work, Author(ada.id, chat.id, NOW))
        register(work, Register(chat.id, ada.id, 39.18, -96.57, f"Yard at {address}"), NOW)
        return chat.id


def test_a_moved_chat_keeps_its_yards(db):
    old = settle(db, "-5")
    Addresses(db, lambda: NOW).move("-5", "-1005")
    with db.reading() as work:
        assert chats.find_chat(work, "telegram", "-1005").id == old
        assert chats.find_chat(work, "telegram", "-5") is None
        assert [yard.name for yard in yards.of_chat(work, old)] == ["Yard at -5"]


def test_a_chat_made_at_the_new_address_before_the_news_joins_the_old_one(db):
    old = settle(db, "-5")
    settle(db, "-1005")
    Addresses(db, lambda: NOW).move("-5", "-1005")
    with db.reading() as work:
        assert chats.find_chat(work, "telegram", "-1005").id == old
        names = {yard.name for yard in yards.of_chat(work, old)}
        assert names == {"Yard at -5", "Yard at -1005"}
        assert [chat.is_active for chat in work.scalars(select(models.Chat))] == [True, False]


def await_of(work, chat_id, topic):
    """Let something be awaited of the first person in a chat."""
    empty = {"yard_id": None, "schema": 0, "data": {}, "version": 0, "updated_at": NOW}
    work.add(models.Dialogue(chat_id=chat_id, person_id=1, topic=topic, **empty))


def topics_of(work, chat_id):
    return list(work.scalars(select(models.Dialogue.topic).filter_by(chat_id=chat_id)))


def share(db, yard_name, chat_id):
    """Let a chat share the yard of another."""
    with db.writing() as work:
        yard = work.scalars(select(models.Yard).where(models.Yard.name == yard_name)).one()
        of = {"chat_id": chat_id, "person_id": 1, "role": "confirm", "invited_by": 1, "now": NOW}
        crews.join(work, yard.id, **of)


def test_what_was_said_at_the_new_address_before_the_news_is_kept(db):
    old, new = settle(db, "-5"), settle(db, "-1005")
    settle(db, "-77")
    share(db, "Yard at -77", new)
    with db.writing() as work:
        machines.keep(work, new, "spreader", swath_m=1.5, now=NOW)
        wishes.keep_chat(work, ChatWishes(new, wake_at=330))
        await_of(work, new, "yards.name")
    Addresses(db, lambda: NOW).move("-5", "-1005")
    with db.reading() as work:
        assert [yard.name for yard, _ in crews.shared_with(work, old)] == ["Yard at -77"]
        assert machines.machine(work, old, "spreader").swath_m == 1.5
        assert wishes.of_chat(work, old).wake_at == 330
        assert topics_of(work, old) == ["yards.name"]


def test_what_the_old_chat_has_itself_stays_where_both_have_one(db):
    old, new = settle(db, "-5"), settle(db, "-1005")
    settle(db, "-77")
    for chat in (old, new):
        share(db, "Yard at -77", chat)
    share(db, "Yard at -5", new)
    share(db, "Yard at -1005", old)
    with db.writing() as work:
        for chat, swath_m, wake_at in ((old, 2.0, 300), (new, 1.5, 330)):
            machines.keep(work, chat, "spreader", swath_m=swath_m, now=NOW)
            wishes.keep_chat(work, ChatWishes(chat, wake_at=wake_at))
            await_of(work, chat, f"topic {chat}")
        machines.keep(work, new, "sprayer", tank_l=15.0, now=NOW)
    Addresses(db, lambda: NOW).move("-5", "-1005")
    with db.reading() as work:
        # One share of the third chat's yard, and none of what are its own yards now.
        assert [yard.name for yard, _ in crews.shared_with(work, old)] == ["Yard at -77"]
        assert crews.shared_with(work, new) == []
        assert machines.machine(work, old, "spreader").swath_m == 2.0
        assert machines.machine(work, old, "sprayer").tank_l == 15.0
        assert wishes.of_chat(work, old).wake_at == 300
        assert topics_of(work, old) == [f"topic {old}"]


def test_a_chat_nobody_knows_is_neither_moved_nor_silenced(db):
    Addresses(db, lambda: NOW).move("-5", "-1005")
    Addresses(db, lambda: NOW).silence("-5")
    with db.reading() as work:
        assert work.scalars(select(models.Chat)).all() == []


def test_what_a_group_shares_ends_with_it(db):
    group_id, ada_id = settle(db, "-5"), settle(db, "7")
    with db.writing() as work:
        ben = chats.chat_at(work, "telegram", "8", title="", units="us", now=NOW)
        of_group, of_ada = (yards.of_chat(work, each)[0].id for each in (group_id, ada_id))
        share = {"person_id": 1, "role": "change", "invited_by": 1, "now": NOW}
        crews.join(work, of_group, chat_id=ben.id, **share)
        crews.join(work, of_ada, chat_id=group_id, **share)
        invite = {"role": "see", "person_id": 1, "now": NOW, "expires_at": NOW + DAY}
        crews.invite(work, of_group, code="still-open", **invite)
    Addresses(db, lambda: NOW).silence("7")
    with db.reading() as work:
        # Who blocks the bot may come back to what is theirs.
        assert len(crews.shared_with(work, ben.id)) == len(crews.shared_with(work, group_id)) == 1
    Addresses(db, lambda: NOW).silence("-5")
    with db.reading() as work:
        assert crews.shared_with(work, ben.id) == crews.shared_with(work, group_id) == []
        assert crews.invitation(work, "still-open").expires_at == NOW
        assert len(yards.of_chat(work, group_id)) == 1
