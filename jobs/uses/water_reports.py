"""Water that somebody reports: which zones it was on, and what it carried in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from jobs.agronomy.series import DailySeries
from jobs.local_days import local
from jobs.standing import Standing, standing_of
from jobs.watering_in import is_enough, waiting_for_water, waters_since
from jobs.weather_of_day import water_terms
from storage import applications, journal
from storage.database import Work
from storage.yards import YardRecord, ZoneRecord


@dataclass(frozen=True, slots=True)
class Watered:
    """What a reported watering came to: depth had since the application, and depth wanted [mm].

    `still_dry` are zones that wait for water too and did not get this.
    """

    added_mm: float
    had_mm: float
    wanted_mm: float
    is_watered_in: bool
    still_dry: tuple[str, ...]


class NothingToWaterIn(LookupError):
    """Raised when no application is waiting for water there."""


class WateredBefore(ValueError):
    """Raised for water of a day before everything that waits for it went down."""

    def __init__(self, applied_on: date) -> None:
        super().__init__(f"put down {applied_on}")
        self.applied_on = applied_on


def record_watering(
    work: Work,
    yard: YardRecord,
    depth_mm: float | None,
    known: DailySeries | None,
    *,
    on: date,
    person_id: int,
    now: datetime,
    zones: Sequence[ZoneRecord] | None = None,
) -> Watered:
    """Record a reported watering; without a depth the person's word is taken for all of it.

    Parameters
    ----------
    depth_mm
        How much [mm]; None where nobody said.
    known
        The cell's known days, for the rain.
    on
        The day.
    zones
        The zones that got it; None for the whole yard.

    Raises
    ------
    NothingToWaterIn
        If no application waits for water there.
    WateredBefore
        If the day is before everything that waits.
    """
    standing = standing_of(work, yard)
    grounds = None if zones is None else _grounds(standing, zones)
    waiting = [
        (done, share)
        for done in waiting_for_water(standing, local(now, yard.timezone).date())
        for share in done.shares
        if share.watered_in_on is None
    ]
    wet = [each for each in waiting if grounds is None or each[1].ground_id in grounds]
    if not wet:
        raise NothingToWaterIn(yard.name)
    below = [each for each in wet if each[0].applied_on <= on]
    if not below:
        raise WateredBefore(wet[0][0].applied_on)
    wanted_mm = water_terms(work, yard).depth_mm
    waters = waters_since(work, yard, known, below[0][0].applied_on)
    had_mm = [waters.on_share(done, share) for done, share in below]
    added_mm = max(0.0, wanted_mm - had_mm[0]) if depth_mm is None else depth_mm
    watering_id = applications.add_watering(
        work,
        yard_id=yard.id,
        watered_on=on,
        depth_mm=added_mm,
        person_id=person_id,
        now=now,
        grounds=None if grounds is None else sorted(grounds),
    )
    in_now: dict[int, list[int]] = {}
    for (done, share), before_mm in zip(below, had_mm, strict=True):
        if is_enough(before_mm + added_mm, wanted_mm):
            in_now.setdefault(done.id, []).append(share.zone_id)
    for application_id, ids in in_now.items():
        applications.set_watered_in(work, application_id, dict.fromkeys(ids, on))
    journal.note(
        work,
        yard.id,
        "watering.add",
        watering_id,
        hangs_on=[("application", each) for each in sorted({done.id for done, _ in below})],
        on=on.isoformat(),
    )
    first, share = below[0]
    dry = [each.zone_name for _, each in waiting if grounds and each.ground_id not in grounds]
    return Watered(
        added_mm=added_mm,
        had_mm=had_mm[0] + added_mm,
        wanted_mm=wanted_mm,
        is_watered_in=share.zone_id in in_now.get(first.id, ()),
        still_dry=tuple(dict.fromkeys(dry)),
    )


def water_in_by(work: Work, yard: YardRecord, applied_on: date) -> date:
    """Return the last day for watering in what was put down on a day."""
    return applied_on + timedelta(days=water_terms(work, yard).within_days)


def _grounds(standing: Standing, zones: Sequence[ZoneRecord]) -> set[int]:
    """Return the ground that got all the water of some zones: what lies in them and in no other."""
    every = {share.ground_id for done in standing.done for share in done.shares}
    every |= {zone.ground_id for zone in standing.zones}
    named = {zone.id for zone in zones}
    lineage = standing.lineage
    found = set()
    for ground in every:
        on = [z.id for z in standing.zones if lineage.comes_of(z.ground_id, {ground})]
        if on and named.issuperset(on):
            found.add(ground)
    return found
