"""What the platform tells about chats themselves."""

from datetime import UTC, datetime

import pytest
from sqlalchemy import select

from bot.telegram import Addresses
from jobs.uses.yards import Register, register
from storage import chats, models, yards
from storage.database import Database

NOW = datetime(2026, 3, 20, 14, tzinfo=UTC)


@pytest.fixture
def db(tmp_path):
    base = Database(f"sqlite:///{tmp_path / 'addresses.sqlite3'}")
    base.upgrade()
    yield base
    base.close()


def settle(db, address):
    """Return the id of a chat with a yard at an address."""
    with db.writing() as work:
        chat = chats.chat_at(work, "telegram", address, title="", units="us", now=NOW)
        ada = chats.person_at(work, "telegram", "7", name="Ada", now=NOW)
        register(work, Register(chat.id, ada.id, 39.18, -96.57, f"Yard at {address}"), NOW)
        return chat.id


def test_a_moved_chat_keeps_its_yards(db):
    old = settle(db, "-5")
    Addresses(db).move("-5", "-1005")
    with db.reading() as work:
        assert chats.find_chat(work, "telegram", "-1005").id == old
        assert chats.find_chat(work, "telegram", "-5") is None
        assert [yard.name for yard in yards.of_chat(work, old)] == ["Yard at -5"]


def test_a_chat_made_at_the_new_address_before_the_news_joins_the_old_one(db):
    old = settle(db, "-5")
    settle(db, "-1005")
    Addresses(db).move("-5", "-1005")
    with db.reading() as work:
        assert chats.find_chat(work, "telegram", "-1005").id == old
        names = {yard.name for yard in yards.of_chat(work, old)}
        assert names == {"Yard at -5", "Yard at -1005"}
        assert [chat.is_active for chat in work.scalars(select(models.Chat))] == [True, False]


def test_a_chat_nobody_knows_is_neither_moved_nor_silenced(db):
    Addresses(db).move("-5", "-1005")
    Addresses(db).silence("-5")
    with db.reading() as work:
        assert work.scalars(select(models.Chat)).all() == []
