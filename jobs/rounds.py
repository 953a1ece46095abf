"""Which rounds a yard has, and which of them an application belongs to."""

from __future__ import annotations

from datetime import date
from typing import Final

from jobs.agronomy.history import History
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.season import PLANS, State, Target
from jobs.local_days import season_day
from jobs.standing import Progress, Standing
from storage.yards import YardRecord, ZoneRecord

#: From this northern day on what is put down against summer annuals is a first half for next spring
#: (K-State Extension: prodiamine may go on in November for the next spring).
DORMANT_FROM: Final = (11, 1)
#: The same where the yard's plan has a dormant-season half.
PLANNED_DORMANT_FROM: Final = (9, 15)
#: About when such a half goes down: it is called for once the soil is cold, which takes a month or
#: so from the first day (common practice, no source; for seeing collisions beforehand only).
DORMANT_ABOUT: Final = (10, 15)

#: Until when a dormant-season half is called for.
DORMANT_UNTIL: Final = (12, 20)

#: The late-summer round may go down from here on (Univ. of Arkansas: by 15 August).
LATE_SUMMER_FROM: Final = (7, 20)


#: What goes down before is meant for annual bluegrass, planned or not; later it may be a first half
#: for spring (common practice, no source).
_MEANT_UNTIL: Final = (10, 1)


def targets_of(yard: YardRecord) -> tuple[Target, ...]:
    """Return the targets a yard is looked at for."""
    if yard.has_late_summer_round:
        return (Target.SUMMER_ANNUALS, Target.WINTER_ANNUALS)
    return (Target.SUMMER_ANNUALS,)


def belongs_to(
    standing: Standing, applied_on: date, said: Target | None = None, *, is_report: bool = False
) -> tuple[Target, int]:
    """Return the target an application of a local day is for, and the season's year.

    Parameters
    ----------
    said
        The target the person named, if they did.
    is_report
        Whether it went down: in late summer it is annual bluegrass's then, planned or not.
    """
    yard = standing.yard
    day = season_day(applied_on, yard.lat)
    month_day = (day.month, day.day)
    is_meant = is_report and not yard.has_dormant_half and month_day < _MEANT_UNTIL
    is_expected = yard.has_late_summer_round or is_meant
    target = said or _by_the_calendar(standing, day, is_expected=is_expected)
    if target is Target.WINTER_ANNUALS:
        return target, day.year
    from_day = PLANNED_DORMANT_FROM if yard.has_dormant_half else DORMANT_FROM
    return target, day.year + (month_day >= from_day)


def planned_for(standing: Standing, on: date) -> tuple[Target, int]:
    """Return the target and the season's year of the round to come on a local day.

    What is put down belongs to its year; once nothing more is to go down in it, the next round is
    the first of next spring's.
    """
    target, year = belongs_to(standing, on)
    day = season_day(on, standing.yard.lat)
    is_over = year == day.year and (day.month, day.day) >= PLANS[target].season_ends
    return target, year + is_over


def begun(standing: Standing, zone: ZoneRecord, on: date) -> Progress:
    """Return how far a zone is with the rounds of the season that is planned on a local day."""
    return standing.progress(zone, *planned_for(standing, on))


def left_m2(standing: Standing, zone: ZoneRecord, on: date) -> float:
    """Return how much of a zone a round of a day is put down on: all, or what lacks it [m²]."""
    return standing.left_m2(zone, begun(standing, zone, on))


def history_left(standing: Standing, zone: ZoneRecord, on: date) -> History:
    """Return what may have met the square feet of a zone that a round of a day is put down on."""
    return standing.left(zone, begun(standing, zone, on))


def is_dormant_half(applied_on: date, year: int, lat: float) -> bool:
    """Tell whether an application went down in the autumn before the spring it counts for."""
    return season_day(applied_on, lat).year < year


def _by_the_calendar(standing: Standing, day: date, *, is_expected: bool) -> Target:
    """Return the round a day's application is for: in late summer annual bluegrass's, if expected.

    A spring half that is due goes before it until its own window opens.
    """
    yard, plan = standing.yard, PLANS[Target.WINTER_ANNUALS]
    month_day = (day.month, day.day)
    if not is_expected or not LATE_SUMMER_FROM <= month_day < plan.season_ends:
        return Target.SUMMER_ANNUALS
    season = standing.season(Target.WINTER_ANNUALS)
    spring = standing.season(Target.SUMMER_ANNUALS)
    is_half_due = spring is not None and (spring.year, spring.state) == (
        day.year,
        State.RETREAT_DUE,
    )
    if is_half_due and (season is None or season.state != State.WINDOW_OPEN):
        # A cold spring's second half falls due in late July: that is what was asked for.
        return Target.SUMMER_ANNUALS
    is_done = season is not None and season.year == day.year and season.state == State.APPLIED
    if is_done and yard.has_dormant_half and month_day >= PLANNED_DORMANT_FROM:
        return Target.SUMMER_ANNUALS
    return Target.WINTER_ANNUALS


def weak_ingredients(standing: Standing, target: Target) -> tuple[str, ...]:
    """Return a yard's ingredients that are weak against a target, where no other helps them."""
    if standing.product is None:
        return ()
    table = ingredients()
    names = standing.product.ingredient_names
    pre = [name for name in names if name in table and table[name].kind == "pre"]
    weak = [n for n in pre if any(fact.value == target for fact in table[n].weak_targets)]
    return tuple(weak) if len(weak) == len(pre) else ()
