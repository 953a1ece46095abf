"""Where yards stand with their targets, and how they came there."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from sqlalchemy import bindparam, select, update

from storage import models
from storage.database import StaleWrite, Work, changed_rows
from storage.plain import plain, plain_or_none


@dataclass(frozen=True, slots=True)
class SeasonRecord:
    """A yard's season for one target; `told` lists the alert kinds of the year already told."""

    id: int
    yard_id: int
    target: str
    year: int
    state: str
    since: date
    told: list[str]
    outlook: dict[str, Any] | None
    version: int


@dataclass(frozen=True, slots=True)
class SeasonEventRecord:
    """One change of state."""

    target: str
    year: int
    at: datetime
    state_before: str
    state_after: str
    why: str
    person_id: int | None


# Queries of every look are built once: building one costs as much as running it.
_SEASON = (
    select(models.Season)
    .where(
        models.Season.yard_id == bindparam("yard_id"), models.Season.target == bindparam("target")
    )
    .execution_options(populate_existing=True)
)
_SEASONS = (
    select(models.Season)
    .where(models.Season.yard_id == bindparam("yard_id"))
    .order_by(models.Season.id)
    .execution_options(populate_existing=True)
)
_SAVE = (
    update(models.Season)
    .where(models.Season.id == bindparam("season_id"), models.Season.version == bindparam("held"))
    .values(version=models.Season.version + 1)
    .execution_options(synchronize_session=False)
)


def of_yard(work: Work, yard_id: int) -> list[SeasonRecord]:
    """Return a yard's seasons, one a target that has been looked at."""
    return [plain(row, SeasonRecord) for row in work.scalars(_SEASONS, {"yard_id": yard_id})]


def season(work: Work, yard_id: int, target: str) -> SeasonRecord | None:
    """Return a yard's season for a target, or None before its first look."""
    row = work.scalar(_SEASON, {"yard_id": yard_id, "target": target})
    return plain_or_none(row, SeasonRecord)


def begin(
    work: Work, yard_id: int, target: str, *, year: int, state: str, since: date
) -> SeasonRecord:
    """Begin a yard's season for a target."""
    row = models.Season(
        yard_id=yard_id,
        target=target,
        year=year,
        state=state,
        since=since,
        told=[],
        outlook=None,
        version=0,
    )
    work.add(row)
    work.flush()
    return plain(row, SeasonRecord)


def save(work: Work, season: SeasonRecord) -> SeasonRecord:
    """Write a season back, compare-and-set on its version.

    Raises
    ------
    StaleWrite
        If it changed since it was read.
    """
    values = {
        "year": season.year,
        "state": season.state,
        "since": season.since,
        "told": season.told,
        "outlook": season.outlook,
    }
    held = {"season_id": season.id, "held": season.version}
    if changed_rows(work, _SAVE, values | held) != 1:
        raise StaleWrite(f"season {season.id} changed")
    return replace(season, version=season.version + 1)


def note_event(
    work: Work,
    *,
    yard_id: int,
    target: str,
    year: int,
    at: datetime,
    state_before: str,
    state_after: str,
    why: str,
    person_id: int | None,
    facts: dict[str, Any],
) -> None:
    """Note a change of state with its reason."""
    work.add(
        models.SeasonEvent(
            yard_id=yard_id,
            target=target,
            year=year,
            at=at,
            state_before=state_before,
            state_after=state_after,
            why=why,
            person_id=person_id,
            facts=facts,
        )
    )


def events(work: Work, yard_id: int) -> list[SeasonEventRecord]:
    """Return every change of state of a yard, oldest first."""
    rows = work.scalars(
        select(models.SeasonEvent)
        .where(models.SeasonEvent.yard_id == yard_id)
        .order_by(models.SeasonEvent.id)
    )
    return [plain(row, SeasonEventRecord) for row in rows]
