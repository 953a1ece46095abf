"""Did it work: weeds seen and not seen, what that says about next year, and resistance."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime

from jobs.agronomy.history import Entry
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.season import Target
from jobs.local_days import local, season_day
from jobs.season_facts import plan_of
from jobs.standing import Standing, standing_of
from jobs.uses.yard_settings import LEADS_DAYS
from jobs.watering_in import WATER_IN_WITHIN_DAYS
from storage import journal, sightings
from storage.database import Work
from storage.sightings import SightingRecord
from storage.yards import YardRecord, ZoneRecord

#: Same group so many years running is worth a hint (practitioners' rule; no source).
YEARS_ON_ONE_GROUP = 3

#: From this northern month on only little still helps against grown crabgrass: it is past tillering
#: (common practice, no source).
_LATE_MONTH = 8

#: How far a rate may be under the label's and still count as done right.
_SHORT_OF_LABEL = 0.9

#: Days by which a lead is moved where weeds were early.
LEAD_STEP_DAYS = 7


@dataclass(frozen=True, slots=True)
class Seen:
    """What somebody saw.

    Attributes
    ----------
    zones
        Where; empty for the yard as a whole.
    weed
        Its name as the table of weeds has it.
    is_seen
        False where they looked and found none.
    on
        The day.
    said
        Their words.
    """

    zones: Sequence[ZoneRecord]
    weed: str
    is_seen: bool
    on: date
    said: str


@dataclass(frozen=True, slots=True)
class Lead:
    """A yard's lead as it is, and the longer one suggested [days]."""

    now_days: int
    suggested_days: int


@dataclass(frozen=True, slots=True)
class Found:
    """What a sighting means.

    Attributes
    ----------
    is_late
        Whether it is too late in the year for anything but spot treatment, pulling and planning.
    helps
        Ingredients with action on small seedings that are not certified-only, by the table.
    failed_though_right
        Zones where everything was done by the label and weeds came all the same, before the season
        was over: resistance is to be suspected.
    group_years
        Group number and years running on it, where that is `YEARS_ON_ONE_GROUP` or more.
    first_zone
        The zone that showed it first in this and an earlier year, if one did.
    longer_lead
        A longer lead for next year, where nothing was down before weeds came, or it came late.
    """

    is_late: bool
    helps: tuple[str, ...]
    failed_though_right: tuple[str, ...]
    group_years: tuple[int, int] | None
    first_zone: str | None
    longer_lead: Lead | None


def record(work: Work, yard: YardRecord, seen: Seen, *, person_id: int, now: datetime) -> Found:
    """Keep a sighting, and return what it means."""
    grounds: list[int | None] = [zone.ground_id for zone in seen.zones] or [None]
    for ground_id in grounds:
        sightings.add(
            work,
            yard_id=yard.id,
            ground_id=ground_id,
            weed=seen.weed,
            is_seen=seen.is_seen,
            seen_on=seen.on,
            said=seen.said,
            person_id=person_id,
            now=now,
        )
    journal.note(work, yard.id, "sighting.add", on=seen.on.isoformat())
    today = season_day(local(now, yard.timezone).date(), yard.lat)
    standing = standing_of(work, yard)
    entries = standing.records.entries
    if not seen.is_seen:
        groups = group_years(entries, yard.lat, today.year)
        return Found(False, (), (), groups, None, None)
    return Found(
        is_late=today.month >= _LATE_MONTH,
        helps=helps_on_seedlings(),
        failed_though_right=_failed(standing, seen.zones, seen.on),
        group_years=group_years(entries, yard.lat, today.year),
        first_zone=_first_twice(standing.sightings, yard.lat),
        longer_lead=_longer_lead(standing, seen),
    )


def group_years(entries: Sequence[Entry], lat: float, year: int) -> tuple[int, int] | None:
    """Return the group a yard has been on for years running up to a season's year, and how many.

    Alternating ingredients of one group does not rotate anything (Purdue, published; inference).
    """
    table = ingredients()
    groups: dict[int, set[int]] = {}
    for entry in entries:
        found = {
            table[name].group.value  # type: ignore[union-attr]
            for name in entry.product.ingredient_names
            if name in table and table[name].kind == "pre" and table[name].group is not None
        }
        groups.setdefault(season_day(entry.day, lat).year, set()).update(found)
    best: tuple[int, int] | None = None
    for group in groups.get(year, set()):
        running = 0
        while group in groups.get(year - running, set()):
            running += 1
        if running >= YEARS_ON_ONE_GROUP and (best is None or running > best[1]):
            best = (group, running)
    return best


def helps_on_seedlings() -> tuple[str, ...]:
    """Return ingredients that act on small grass seedlings and are not certified-only."""
    return tuple(
        key
        for key, item in ingredients().items()
        if (item.kind == "post_grass" or (item.early_post is not None and item.early_post.value))
        and not (item.certified_only is not None and item.certified_only.value)
    )


def _failed(standing: Standing, zones: Sequence[ZoneRecord], seen_on: date) -> tuple[str, ...]:
    year = season_day(seen_on, standing.yard.lat).year
    return tuple(zone.name for zone in zones if _was_right(standing, zone, year, seen_on))


def _was_right(standing: Standing, zone: ZoneRecord, year: int, seen_on: date) -> bool:
    """Tell whether a zone had the label's rate, watered in in time, before weeds were seen."""
    for application in standing.of_season(Target.SUMMER_ANNUALS, year):
        if application.applied_on >= seen_on or standing.covered(zone, application) < 1.0:
            continue
        for share in application.shares:
            is_here = standing.lineage.comes_of(zone.ground_id, {share.ground_id})
            if not is_here or share.watered_in_on is None:
                continue
            waited = (share.watered_in_on - application.applied_on).days
            if share.asked_si is None or share.amount_si is None or not share.is_amount_said:
                continue
            is_full = share.amount_si >= _SHORT_OF_LABEL * share.asked_si
            if is_full and waited <= WATER_IN_WITHIN_DAYS:
                return True
    return False


def _first_twice(seen: Sequence[SightingRecord], lat: float) -> str | None:
    """Return the zone that showed weeds first in the two newest years with any."""
    firsts: dict[int, SightingRecord] = {}
    for each in seen:
        if each.is_seen and each.ground_id is not None:
            firsts.setdefault(season_day(each.seen_on, lat).year, each)
    newest = [firsts[year] for year in sorted(firsts)[-2:]]
    is_same = len(newest) == 2 and newest[0].ground_id == newest[1].ground_id
    return newest[-1].zone_name if is_same else None


def _longer_lead(standing: Standing, seen: Seen) -> Lead | None:
    """Suggest a longer lead where weeds came before anything was down, or right after it."""
    year = season_day(seen.on, standing.yard.lat).year
    down = [each.applied_on for each in standing.of_season(Target.SUMMER_ANNUALS, year)]
    if not down or (seen.on - min(down)).days > WATER_IN_WITHIN_DAYS * 2:
        return None
    lead_days = plan_of(standing, Target.SUMMER_ANNUALS).lead_days
    longer = min(lead_days + LEAD_STEP_DAYS, LEADS_DAYS.stop - 1)
    return Lead(lead_days, longer) if longer > lead_days else None
