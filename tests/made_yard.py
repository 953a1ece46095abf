"""A made-up yard that random lives begin with: a chat, a person, products, no zones."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path

from sqlalchemy import select

from jobs.agronomy.labelled_product import Product
from jobs.labels import ingredient_rows, maximum_rows
from storage import chats, models, products, yards
from storage.alerts import AlertRecord
from storage.database import Database, Work
from storage.plain import plain
from tests.made_once import database_at


def made_yard(path: Path, labels: Sequence[Product], now: datetime) -> Database:
    """Return a database with yard 1 of person 1, and products 1, 2 ... by their labels.

    The yard's own product is the first.
    """
    db = database_at(path, is_throwaway=True)
    with db.writing() as work:
        chat = chats.chat_at(work, "test", "1", title="", units="us", now=now)
        person = chats.person_at(work, "test", "1", name="Ada", now=now)
        kept = []
        for label in labels:
            assert label.rate is not None
            record = products.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                said="made up",
                form=label.form,
                ingredients=ingredient_rows(label.ingredients),
                rate_value=label.rate.value,
                rate_unit=label.rate.unit,
                rate_si=label.rate.rate_si,
                maxima=maximum_rows(label.maxima),
                now=now,
            )
            kept.append(record.id)
        yard = yards.add(
            work,
            chat_id=chat.id,
            person_id=person.id,
            name="Meadow",
            lat=39.0,
            lon=-96.0,
            timezone="Etc/UTC",
            lead_days=21,
            split_days=56,
            rounds=2,
            now=now,
        )
        yards.change(work, yard.id, product_id=kept[0])
    return db


def alerts_of(work: Work, yard_id: int) -> list[AlertRecord]:
    """Return every alert of a yard, oldest first."""
    of_it = select(models.Alert).where(models.Alert.yard_id == yard_id)
    return [plain(row, AlertRecord) for row in work.scalars(of_it.order_by(models.Alert.id))]
