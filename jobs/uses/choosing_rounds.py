"""A yard's rounds: what its turf and climate suggest, what people choose, what last year had."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Any, Literal

from jobs.agronomy.allowance import Allowance
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.barrier import SPRING_SOIL_C, weeks_of_control
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Product, ai_kg_ha
from jobs.agronomy.ledger import UseUnknown, check_label, label_allowances, most_allowed
from jobs.agronomy.place import spring_picture
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.season import State, Target
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.turf import turf_species
from jobs.barriers import ZoneBarrier, density_of
from jobs.judged import Judged
from jobs.local_days import local, season_day
from jobs.rounds import begun, history_left, is_dormant_half, targets_of
from jobs.season_facts import Sight, barriers_of
from jobs.standing import Standing, standing_of
from jobs.yard_changes import change_yard
from storage.database import Work
from storage.yards import YardRecord

Why = Literal["short_lived", "lasts", "warm_turf", "cool_turf", "mild"]


class NoEarlierSeason(LookupError):
    """Raised when nothing was put down in an earlier season."""


@dataclass(frozen=True, slots=True)
class Suggested:
    """What turf, climate and product suggest, with the reasons; None: nothing to say."""

    rounds: int | None
    late_summer: bool | None
    dormant: bool | None
    whys: tuple[Why, ...]


@dataclass(frozen=True, slots=True)
class TargetStanding:
    """Where a yard stands with one target; `event` is when its weeds are due (calendar day)."""

    target: Target
    state: State
    event: date | None
    is_over: bool


def choose(work: Work, yard: YardRecord, values: dict[str, Any], *, now: datetime) -> YardRecord:
    """Choose rounds; return the yard as it is then.

    ``values`` sets any of ``rounds``, ``split_days``, ``has_late_summer_round`` and
    ``has_dormant_half``.
    """
    return change_yard(work, yard, values, now=now)


def copy_last_year(work: Work, yard: YardRecord, *, now: datetime) -> tuple[YardRecord, int]:
    """Plan as it was done in the newest season before this one; return its year too.

    Raises
    ------
    NoEarlierSeason
        If there is none on record.
    """
    today = season_day(local(now, yard.timezone).date(), yard.lat)
    done = [
        each
        for each in standing_of(work, yard).done
        if each.year < today.year and each.by_whom is None
    ]
    if not done:
        raise NoEarlierSeason(yard.name)
    year = max(each.year for each in done)
    spring = [e for e in done if e.year == year and e.target == Target.SUMMER_ANNUALS]
    times = Counter(share.ground_id for each in spring for share in each.shares)
    autumn_year = max((e.year for e in done if e.target == Target.WINTER_ANNUALS), default=None)
    values: dict[str, Any] = {
        "has_late_summer_round": autumn_year is not None and autumn_year >= year - 1,
        "has_dormant_half": any(is_dormant_half(e.applied_on, e.year, yard.lat) for e in spring),
    }
    if times:
        values["rounds"] = min(2, max(times.values()))
    if spring and spring[-1].product_id is not None:
        values["product_id"] = spring[-1].product_id
    return change_yard(work, yard, values, now=now), year


def standings(work: Work, yard: YardRecord, now: datetime) -> list[TargetStanding]:
    """Return where a yard stands with each of its targets."""
    standing = standing_of(work, yard)
    today = season_day(local(now, yard.timezone).date(), yard.lat)
    found = []
    for target in targets_of(yard):
        record = standing.season(target)
        event = None
        if record is not None and record.outlook is not None:
            event = Judged.from_json(record.outlook).p50
        state = State.WAITING if record is None else State(record.state)
        is_past = event is not None and season_day(event, yard.lat) <= today
        found.append(TargetStanding(target, state, event, is_past))
    return found


def barriers(
    work: Work, yard: YardRecord, sight: Sight | None, now: datetime
) -> dict[Target, list[ZoneBarrier]]:
    """Return the barriers that still matter, by target: those weeds still sprout against."""
    if sight is None:
        return {}
    standing = standing_of(work, yard)
    today = local(now, yard.timezone).date()
    found = {}
    for target in targets_of(yard):
        each = barriers_of(standing, target, sight.course, season_day(today, yard.lat))
        matter = [barrier for barrier in each if today <= barrier.sprouting_ends]
        if matter:
            found[target] = matter
    return found


def suggest(work: Work, yard: YardRecord, sight: Sight | None) -> Suggested:
    """Return what turf, climate and product suggest for a yard's rounds."""
    standing = standing_of(work, yard)
    zones = standing.programme
    whys: list[Why] = []
    rounds = _rounds_suggested(standing, sight, whys)
    table = turf_species()
    turf = {table[zone.grass].season for zone in zones if zone.grass in table}
    late_summer = None
    if turf:
        late_summer = "warm" in turf
        whys.append("warm_turf" if late_summer else "cool_turf")
    dormant = None
    if sight is not None:
        spring = spring_picture(sight.course.cell.climate.mean_c).kind
        if spring in ("mild", "none"):
            dormant = False
            whys.append("mild")
    return Suggested(rounds, late_summer, dormant, tuple(whys))


def _rounds_suggested(standing: Standing, sight: Sight | None, whys: list[Why]) -> int | None:
    product, zones = standing.product, standing.programme
    if product is None or product.rate is None or not zones:
        return None
    weeks = []
    for part in product.ingredients:
        try:
            rate_kg_ha = ai_kg_ha(product.rate, part)
        except StrengthUnknown:
            continue
        found = weeks_of_control(part.name, rate_kg_ha, density_of(zones[0]), SPRING_SOIL_C)
        if found is not None:
            weeks.append(found)
    wanted = _weeks_wanted(sight)
    if not weeks or wanted is None:
        return None
    low, high = max(weeks)
    is_lasting = (low + high) / 2 >= wanted
    whys.append("lasts" if is_lasting else "short_lived")
    return 1 if is_lasting else 2


def _weeks_wanted(sight: Sight | None) -> float | None:
    """Return weeks from the window's opening until most has come up."""
    if sight is None:
        return None
    judged = sight.judged[Target.SUMMER_ANNUALS]
    if judged.p50 is None:
        return None
    event = season_day(judged.p50, sight.course.cell.lat)
    ends = sight.course.sprouting_ends(Target.SUMMER_ANNUALS, event.year)
    return (ends - event + timedelta(days=21)).days / 7


@dataclass(frozen=True, slots=True)
class ZoneAllowed:
    """What the label still allows on a zone.

    Attributes
    ----------
    zone
        The zone's name.
    allowances
        The arithmetic of each of the label's maxima; empty where the person gave none.
    most
        The highest rate still allowed; None where nothing limits it or nothing is left.
    stopped
        Why the label's own rate may not go down now, if it may not.
    is_rest
        Whether a part of it has had the round, and this is of the rest.
    """

    zone: str
    allowances: tuple[Allowance, ...]
    most: Rate | None
    stopped: LabelLimitExceeded | TooSoon | TooManyApplications | UseUnknown | None
    is_rest: bool = False


def still_allowed(work: Work, yard: YardRecord, now: datetime) -> list[ZoneAllowed]:
    """Return what the chosen product's label still allows on each zone of the programme.

    Raises
    ------
    LookupError
        If no product is chosen.
    """
    standing = standing_of(work, yard)
    product = standing.product
    if product is None:
        raise LookupError(yard.name)
    on = local(now, yard.timezone).date()
    found = []
    for zone in standing.programme:
        if product.rate is None:
            continue
        history, is_rest = history_left(standing, zone, on), bool(begun(standing, zone, on).records)
        allowed = label_allowances(history, product, on)
        stopped: LabelLimitExceeded | TooSoon | TooManyApplications | UseUnknown | None = None
        try:
            check_label(history, product, product.rate, on)
            check_times(history, product, on)
        except (LabelLimitExceeded, TooSoon, TooManyApplications, UseUnknown) as why:
            stopped = why
        found.append(ZoneAllowed(zone.name, allowed, _most(allowed, product), stopped, is_rest))
    return found


def _most(allowed: Sequence[Allowance], product: Product) -> Rate | None:
    assert product.rate is not None
    try:
        return most_allowed(allowed, product, product.rate.unit)
    except (StrengthUnknown, WeightAgainstVolume):
        return None
