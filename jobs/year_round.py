"""What is told of a year besides the season's own moves: each a word said once."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from jobs.agronomy.late_summer import autumn_date
from jobs.agronomy.season import STATE_CHANGE, Kind, Target
from jobs.agronomy.units import c_from_f
from jobs.barriers import ZoneBarrier, ends_on
from jobs.local_days import season_day
from jobs.rounds import DORMANT_UNTIL, PLANNED_DORMANT_FROM, weak_ingredients
from jobs.seeded import seeding_of
from jobs.standing import Standing

#: A dormant-season half goes down once the soil is this cold and before it freezes: 50 °F, our
#: inference (K-State Extension: November).
_DORMANT_C: Final = c_from_f(50.0)

#: Northern days on which people are asked what came of it, and for how long the question stands.
ASKED_ON: Final = ((6, 15), (8, 5))
_ASKED_FOR_DAYS: Final = 14

#: In this northern month the late-summer round is offered: before the earliest date by which it is
#: to be down (Univ. of Arkansas Extension 2009: 15 August), once a year.
OFFERED_IN: Final = 7


@dataclass(frozen=True, slots=True)
class Word:
    """One thing to tell, outside the season's own steps.

    Attributes
    ----------
    kind
        Its kind; `STATE_CHANGE` for what has no kind of its own.
    year
        The season's year it belongs to.
    about
        What of the year, for its episode key.
    facts
        For its wording.
    """

    kind: str
    year: int
    about: str
    facts: dict[str, Any]


def words_of(
    standing: Standing,
    target: Target,
    today: date,
    *,
    soil_5day_c: float | None,
    barriers: Sequence[ZoneBarrier],
    is_more_allowed: bool,
) -> list[Word]:
    """Return what is to be told of a target on a local day; the outbox drops what was told."""
    found = _capped(today, season_day(today, standing.yard.lat).year, barriers, is_more_allowed)
    if target is Target.SUMMER_ANNUALS:
        found += _dormant_half(standing, today, soil_5day_c)
        found += _what_came(standing, today)
        found += _late_summer_offer(standing, today)
        found += _seeding(standing, today)
    return found


def late_summer_facts(standing: Standing, year: int) -> dict[str, Any]:
    """Return what a call of late summer says besides the soil, in calendar days."""
    weak = list(weak_ingredients(standing, Target.WINTER_ANNUALS))
    yard = standing.yard
    if yard.lat < 0:
        return {"weak": weak}
    region = autumn_date(yard.lat, yard.lon)
    return {
        "weak": weak,
        "region_date": date(year, *region.last).isoformat(),
        "is_region_published": region.is_published,
    }


def is_word_so(standing: Standing, year: int, facts: Mapping[str, Any]) -> bool:
    """Tell whether a word that waits in the outbox is still so."""
    if facts.get("is_dormant"):
        begun = standing.of_season(Target.SUMMER_ANNUALS, year)
        return standing.yard.has_dormant_half and not begun
    if facts.get("is_late_summer_offer"):
        return not standing.yard.has_late_summer_round
    return True


def _capped(
    today: date, year: int, barriers: Sequence[ZoneBarrier], is_more_allowed: bool
) -> list[Word]:
    """The barrier is gone, weeds still sprout, and the label allows no more."""
    gone_on = ends_on(barriers)
    if is_more_allowed or gone_on is None or today < gone_on:
        return []
    zones = [
        each.zone
        for each in barriers
        if each.hold.ends is not None and each.hold.ends <= today <= each.sprouting_ends
    ]
    if not zones:
        return []
    return [Word(Kind.BARRIER_FADING, year, "capped", {"is_capped": True, "zones": zones})]


def _dormant_half(standing: Standing, today: date, soil_5day_c: float | None) -> list[Word]:
    yard = standing.yard
    day = season_day(today, yard.lat)
    is_time = PLANNED_DORMANT_FROM <= (day.month, day.day) <= DORMANT_UNTIL
    if not yard.has_dormant_half or not is_time:
        return []
    if soil_5day_c is None or not 0 < soil_5day_c <= _DORMANT_C:
        return []
    if standing.of_season(Target.SUMMER_ANNUALS, day.year + 1):
        return []
    return [Word(Kind.WINDOW_OPEN, day.year + 1, "dormant", {"is_dormant": True})]


def _what_came(standing: Standing, today: date) -> list[Word]:
    yard = standing.yard
    if not yard.is_asked_what_came:
        return []
    day = season_day(today, yard.lat)
    for number, (month, of_month) in enumerate(ASKED_ON, start=1):
        late = (day - date(day.year, month, of_month)).days
        if not 0 <= late < _ASKED_FOR_DAYS:
            continue
        if standing.of_season(Target.SUMMER_ANNUALS, day.year):
            return [Word(STATE_CHANGE, day.year, f"seen_any:{number}", {"is_seen_any": True})]
    return []


def _late_summer_offer(standing: Standing, today: date) -> list[Word]:
    """Whether to plan the late-summer round: nothing of it is told without a yes."""
    yard = standing.yard
    day = season_day(today, yard.lat)
    if not yard.is_asked_what_came or yard.has_late_summer_round or day.month != OFFERED_IN:
        return []
    facts = {"is_late_summer_offer": True, **late_summer_facts(standing, day.year)}
    return [Word(STATE_CHANGE, day.year, "late_summer_offer", facts)]


def _seeding(standing: Standing, today: date) -> list[Word]:
    found = []
    for each in standing.seedings:
        if each.is_done:
            continue
        history = standing.records.on(each.ground_id)
        answer = seeding_of(history, each.species, each.method, each.label_days)
        if answer.earliest is None or not answer.earliest <= today:
            continue
        facts = {"zone": each.zone_name, "seed_on": each.seed_on.isoformat()}
        year = season_day(today, standing.yard.lat).year
        found.append(Word(Kind.SEEDING_POSSIBLE, year, f"seed:{each.id}", facts))
    return found
