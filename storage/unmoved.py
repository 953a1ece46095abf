"""Yards to which nothing happened since their last look, read and written many at a time.

Such a yard has no soil of its own, no seed to come, nothing put down that its season still counts,
and was told of no old data: what is true of it is true of every other that is set alike.
"""

from __future__ import annotations

import json
from collections.abc import Collection, Hashable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, date, datetime
from functools import cache
from itertools import groupby
from operator import itemgetter
from typing import Any, Final

from sqlalchemy import Select, String, bindparam, case, cast, exists, or_, select

from storage import held, models
from storage.database import Work
from storage.seasons import SeasonRecord
from storage.yards import YardRecord

_Y, _S = models.Yard, models.Season
_SETTINGS: Final = (
    "timezone",
    "lead_days",
    "split_days",
    "rounds",
    "has_late_summer_round",
    "has_dormant_half",
    "is_asked_what_came",
    "is_lead_set",
)
_SEASON: Final = ("target", "year", "state", "since")
#: What tells yards that are alike apart.
_OWN: Final = (_Y.id, _Y.version, _S.id, _S.version, _Y.lat, _Y.lon)
_YARD_ID: Final = itemgetter(0)
_SEASON_AT: Final = len(_OWN) + len(_SETTINGS) + 7


@dataclass(frozen=True, slots=True)
class Unmoved:
    """A yard to which nothing happened.

    Attributes
    ----------
    yard, seasons
        Its number and version, and those of its seasons by target.
    alike
        Equal where all that a look at one goes by is.
    """

    yard: tuple[int, int]
    seasons: dict[str, tuple[int, int]]
    alike: Hashable
    rows: Sequence[Any]


@dataclass(frozen=True, slots=True)
class Settings:
    """What a look at yards that are alike goes by, as one of them has it.

    Attributes
    ----------
    yard, seasons
        Without what no look goes by, such as its name.
    ingredients, smallest_interval_days
        Of its product; None without one.
    wake_at
        From when on its chat wants to hear [minutes after midnight].
    is_any_waiting
        Whether an alert of it waits to be sent.
    """

    yard: YardRecord
    seasons: dict[str, SeasonRecord]
    ingredients: list[Any] | None
    smallest_interval_days: int | None
    wake_at: int | None
    is_any_waiting: bool


def of_yards(
    work: Work,
    yard_ids: Collection[int],
    now: datetime,
    *,
    notes: tuple[str, ...],
    year: int,
    since: date,
) -> Iterator[Unmoved]:
    """Return those of yards that are due and unmoved.

    Parameters
    ----------
    notes
        What, noted of a zone, gives it a soil of its own.
    year, since
        What was put down for such a season or a later one, or since that day, moves a yard.
    """
    asked = {"yard_ids": list(yard_ids), "now": now, "year": year, "since": since}
    found = work.connection().execute(_of_yards(notes), asked).all()
    for _, group in groupby(found, key=_YARD_ID):
        rows = list(group)
        yard_id, version, *_ = rows[0]
        yield Unmoved(
            (yard_id, version),
            {row[_SEASON_AT]: (row[2], row[3]) for row in rows},
            tuple(row[len(_OWN) :] for row in rows),
            rows,
        )


def settings_of(unmoved: Unmoved) -> Settings:
    """Return what a look at a yard, and at all that are alike, goes by."""
    row = unmoved.rows[0]
    yard_id, version, _, _, lat, lon, *rest = row
    settings, rest = rest[: len(_SETTINGS)], rest[len(_SETTINGS) :]
    ingredients, smallest_interval_days, wake_at, is_any_waiting, *_ = rest
    never = datetime.min.replace(tzinfo=UTC)
    yard = YardRecord(
        id=yard_id,
        chat_id=0,
        name="",
        lat=lat,
        lon=lon,
        product_id=None,
        next_check_at=never,
        version=version,
        created_at=never,
        **dict(zip(_SETTINGS, settings, strict=True)),
    )
    seasons = {}
    for *own, told in (row for row in unmoved.rows):
        target, year, state, since = own[_SEASON_AT:]
        seasons[target] = SeasonRecord(
            own[2], yard_id, target, year, state, since, json.loads(told), None, own[3]
        )
    return Settings(
        yard,
        seasons,
        None if ingredients is None else json.loads(ingredients),
        smallest_interval_days,
        wake_at,
        bool(is_any_waiting),
    )


@cache
def _of_yards(notes: tuple[str, ...]) -> Select[Any]:
    def without(table: Any, *where: Any) -> Any:
        return ~exists(select(1).where(table.yard_id == _Y.id, *where).correlate(_Y))

    is_waiting = exists(select(1).where(models.Alert.yard_id == _Y.id, held.IS_DUE).correlate(_Y))
    noted = cast(models.Zone.notes, String)
    done = models.Application
    return (
        select(
            *_OWN,
            *(getattr(_Y, name) for name in _SETTINGS),
            cast(models.Product.ingredients, String),
            models.Product.smallest_interval_days,
            models.ChatWishes.wake_at,
            is_waiting,
            _Y.lat < 0,
            # Dates of late summer are published by region.
            case((_Y.has_late_summer_round, _Y.lat)),
            case((_Y.has_late_summer_round, _Y.lon)),
            *(getattr(_S, name) for name in _SEASON),
            cast(_S.told, String),
        )
        .join(_S, _S.yard_id == _Y.id)
        .outerjoin(models.Product, models.Product.id == _Y.product_id)
        .outerjoin(models.ChatWishes, models.ChatWishes.chat_id == _Y.chat_id)
        .where(
            _Y.id.in_(bindparam("yard_ids", expanding=True)),
            _Y.archived_at.is_(None),
            _Y.next_check_at <= bindparam("now"),
            without(models.Reading, models.Reading.undone_at.is_(None)),
            without(models.Seeding, models.Seeding.undone_at.is_(None)),
            without(models.Alert, models.Alert.kind == "data_stale"),
            without(
                done,
                done.undone_at.is_(None),
                or_(done.year >= bindparam("year"), done.applied_on >= bindparam("since")),
            ),
            without(
                models.Zone,
                models.Zone.removed_at.is_(None),
                or_(*(noted.contains(f'"{note}"') for note in notes)),
            ),
        )
        .order_by(_Y.id, _S.target)
    )
