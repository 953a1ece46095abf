"""Places that one process looks at while others look at the rest: where a database is shared."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from contextlib import contextmanager
from typing import Final

from sqlalchemy import text
from sqlalchemy.exc import SQLAlchemyError

from storage.cells import Place
from storage.database import Database

#: Locks of a connection, not of a transaction: they end with it, and hold nobody else up.
_TAKE: Final = text(
    "SELECT lat, lon FROM unnest(CAST(:lats AS integer[]), CAST(:lons AS integer[])) AS place(lat, "
    "lon) WHERE pg_try_advisory_lock(lat, lon)"
)
_GIVE_BACK: Final = text("SELECT pg_advisory_unlock_all()")


@contextmanager
def taken(db: Database, places: Collection[Place]) -> Iterator[set[Place]]:
    """Take places, but for those that another process has, until they have been looked at.

    A process that dies gives its places back. On a database of one machine all are ours.
    """
    if not db.is_shared:
        yield set(places)
        return
    with db.engine.connect().execution_options(isolation_level="AUTOCOMMIT") as line:
        lats, lons = [lat for lat, _ in places], [lon for _, lon in places]
        found = line.execute(_TAKE, {"lats": lats, "lons": lons})
        mine = {(lat, lon) for lat, lon in found}
        try:
            yield mine
        finally:
            try:
                line.execute(_GIVE_BACK)
            except SQLAlchemyError:
                # With the connection they are given back as well.
                line.invalidate()
