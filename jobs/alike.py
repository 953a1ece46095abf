"""Yards to which nothing happened, looked at together: one judgement for all of a cell set alike.

Most yards on most mornings are such. Where that judgement moves nothing but figures, they are
written at once; where anything is to be told or done, each is looked at by itself
(`jobs.resting.look_and_plan`), as are all others.
"""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from typing import Any, Final, get_args

from jobs.agronomy.ground import Lineage
from jobs.agronomy.place import Exposure
from jobs.local_days import local
from jobs.outlooks import CellOutlook
from jobs.resting import next_look
from jobs.season_facts import sight_of_cell
from jobs.sources.base import Cell
from jobs.standing import Standing
from jobs.watering_in import STILL_TOLD_FOR
from jobs.yard_look import age_days_told, moved_to, record_of, season_of, words_due
from storage import seasons, unmoved, yards
from storage.database import Work
from storage.products import ProductRecord
from storage.unmoved import Settings
from storage.wishes import ChatWishes, YardWishes

_EXPOSURES: Final[tuple[str, ...]] = get_args(Exposure)
#: A local day is never farther from the one in Greenwich.
_A_DAY: Final = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class _Figures:
    """What a look at yards that are alike leaves: columns of their seasons, and the next look."""

    seasons: dict[str, dict[str, Any]]
    next_look: datetime


def look_together(
    work: Work,
    cells: Mapping[int, Cell],
    outlooks: Mapping[Cell, CellOutlook | None],
    troubled: Mapping[Cell, datetime],
    now: datetime,
) -> set[int]:
    """Look at those of yards whose figures alone move; return their numbers.

    Parameters
    ----------
    cells
        By yard, where it lies.
    outlooks
        By cell; None while nothing is held of one.
    troubled
        When a cell's source is asked again, where it is in trouble.

    Raises
    ------
    StaleWrite
        If one changed meanwhile.
    """
    yards.hold(work, *cells)
    before = now - _A_DAY
    found = unmoved.of_yards(
        work,
        list(cells),
        now,
        notes=_EXPOSURES,
        year=before.year,
        since=before.date() - STILL_TOLD_FOR,
    )
    made: dict[tuple[Cell, Hashable], _Figures | None] = {}
    new_seasons, looked = [], []
    for each in found:
        cell = cells[each.yard[0]]
        key = cell, each.alike
        if key not in made:
            outlook = outlooks.get(cell)
            made[key] = (
                None if outlook is None else _figures_alone(outlook, unmoved.settings_of(each), now)
            )
        figures = made[key]
        if figures is None:
            continue
        for target, values in figures.seasons.items():
            number, version = each.seasons[target]
            new_seasons.append((number, version, values))
        again_at = min(figures.next_look, troubled.get(cell, figures.next_look))
        looked.append((*each.yard, again_at))
    seasons.save_all(work, new_seasons)
    yards.looked_at_all(work, looked)
    return {yard_id for yard_id, _, _ in looked}


def _figures_alone(cell: CellOutlook, settings: Settings, now: datetime) -> _Figures | None:
    """Return what a look leaves of yards set so, or None where it is more than figures."""
    today = local(now, settings.yard.timezone).date()
    standing, sight = _standing(settings), sight_of_cell(cell, settings.yard)
    moved, kept = [], {}
    for target, judged in sight.judged.items():
        record = standing.season(target)
        if record is None:
            return None
        before = season_of(record)
        season, change = moved_to(standing, record, judged, today, sight.course)
        if change.alerts or change.is_state_changed or season.year != before.year:
            return None
        after = record_of(record, season, judged.to_json())
        standing = replace(standing, seasons={**standing.seasons, target: after})
        kept[str(target)] = seasons.saved(after)
        moved.append(change)
    for change in moved:
        is_old = age_days_told(change, today) is not None
        if is_old or words_due(standing, change, sight.course, today):
            return None
    is_any_open = settings.is_any_waiting
    return _Figures(kept, next_look(standing, moved, sight.course, now, is_any_open=is_any_open))


def _standing(settings: Settings) -> Standing:
    """Return a yard set so, as it stands where nothing happened.

    Its label is one that allows everything: where that makes a difference, something is told, and
    each is looked at by itself.
    """
    product = None
    if settings.ingredients is not None:
        product = ProductRecord(
            id=0,
            chat_id=0,
            said="",
            form="granule",
            ingredients=settings.ingredients,
            rate_value=None,  # type: ignore[arg-type]
            rate_unit="",
            rate_si=0.0,
            maxima=[],
            smallest_interval_days=settings.smallest_interval_days,
        )
    return Standing(
        yard=settings.yard,
        zones=(),
        origins=(),
        lineage=Lineage(()),
        done=(),
        record=product,
        seasons=settings.seasons,
        seedings=(),
        waterings=(),
        readings=(),
        sightings=(),
        wishes=YardWishes(settings.yard.id),
        chat_wishes=ChatWishes(0, wake_at=settings.wake_at),
        snoozes={},
        muted=frozenset(),
        members=(),
    )
