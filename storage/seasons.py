"""Where yards stand with their targets, and how they came there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final

from sqlalchemy import bindparam, insert, select, update
from sqlalchemy.orm.attributes import set_committed_value

from storage import held, models
from storage.database import StaleWrite, Work
from storage.plain import plain


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


_SAVED: Final = ("year", "state", "since", "told", "outlook")
_SEASON = models.table_of(models.Season)
#: The session itself would write one after another, as they count their versions.
_SAVE = (
    update(_SEASON)
    .where(_SEASON.c.id == bindparam("season_id"), _SEASON.c.version == bindparam("held"))
    .values({name: bindparam(name) for name in (*_SAVED, "version")})
)


def of_yard(work: Work, yard_id: int) -> list[SeasonRecord]:
    """Return a yard's seasons, one a target that has been looked at."""
    rows = held.of_yard(work, models.Season, yard_id)
    return [plain(row, SeasonRecord) for row in rows]


def season(work: Work, yard_id: int, target: str) -> SeasonRecord | None:
    """Return a yard's season for a target, or None before its first look."""
    return next((each for each in of_yard(work, yard_id) if each.target == target), None)


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


def begin_missing(work: Work, wanted: Iterable[tuple[int, str, date]], *, state: str) -> None:
    """Begin seasons of many yards at once: of each the yard, the target, and since which day.

    Those that have begun are left as they are.
    """
    rows: list[dict[str, Any]] = [
        {
            "yard_id": yard_id,
            "target": target,
            "year": since.year,
            "state": state,
            "since": since,
            "told": [],
            "outlook": None,
            "version": 0,
        }
        for yard_id, target, since in wanted
        if all(row.target != target for row in held.of_yard(work, models.Season, yard_id))
    ]
    if rows:
        work.connection().execute(insert(_SEASON), rows)
        held.let_go(work)


def save(work: Work, season: SeasonRecord) -> SeasonRecord:
    """Write a season back, compare-and-set on its version.

    Raises
    ------
    StaleWrite
        If it changed since it was read.
    """
    row = work.get_one(models.Season, season.id)
    if row.version != season.version:
        raise StaleWrite(f"season {season.id} changed")
    values = saved(season) | {"version": season.version + 1}
    if work.is_in_one_go:
        work.write_later(_SAVE, {**values, "season_id": season.id, "held": season.version})
    for name, value in values.items():
        # What is written later is not to be written by the session as well.
        (set_committed_value if work.is_in_one_go else setattr)(row, name, value)
    work.flush()
    return plain(row, SeasonRecord)


def saved(season: SeasonRecord) -> dict[str, Any]:
    """Return what is written of a season."""
    return {name: getattr(season, name) for name in _SAVED}


def save_all(work: Work, new: Iterable[tuple[int, int, Mapping[str, Any]]]) -> None:
    """Write seasons in one statement: of each its number, the version read, and what is saved.

    Raises
    ------
    StaleWrite
        If one changed since it was read.
    """
    rows = [
        {**values, "version": version + 1, "season_id": number, "held": version}
        for number, version, values in new
    ]
    work.write_all(_SAVE, rows)


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
