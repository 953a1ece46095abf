"""What a person says was put down, and what came of it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date, datetime
from typing import Any, TypeAlias

from jobs.agronomy.amounts import Amount, LabelLimitExceeded
from jobs.agronomy.assumed import Assumed
from jobs.agronomy.label_times import TooManyApplications, TooSoon
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.season_facts import NextHalf
from jobs.uses.parts import Part
from storage.yards import ZoneRecord


@dataclass(frozen=True, slots=True)
class Confirm:
    """What a person says was put down.

    Attributes
    ----------
    zones
        The zones that got it.
    applied_at
        When (aware).
    amount
        How much in all, where it was said; it is shared out by area.
    said
        Their words.
    is_sure
        True where what was found strange is meant all the same.
    target
        The weeds it is for, where that was said.
    by_whom
        Who put it down, if not somebody of the chat (a service, a landlord).
    product
        What they put down, as `jobs.labels.snapshot` keeps it; None for the yard's own product.
    is_product_unknown
        True where others put down nobody knows what.
    parts
        By zone id the part that got it, where it was not all of it. A zone that has had a part of
        the round already gets the rest, where nothing is said.
    is_first_pass
        Whether it was the first of two crossing passes: the second is still to come there.
    has_hour
        Whether the hour is known; noon stands for it where only the day was said.
    """

    zones: Sequence[ZoneRecord]
    applied_at: datetime
    amount: Amount | None
    said: str
    is_sure: bool = False
    target: Target | None = None
    by_whom: str | None = None
    product: dict[str, Any] | None = None
    is_product_unknown: bool = False
    parts: Mapping[int, Part] = field(default_factory=dict)
    is_first_pass: bool = False
    has_hour: bool = True


#: What the label may have against an application beside its maxima.
Doubt: TypeAlias = TooSoon | TooManyApplications | UseUnknown


@dataclass(frozen=True, slots=True)
class Confirmed:
    """What came of it.

    Attributes
    ----------
    area_m2
        How much of them got it [m²].
    assumed
        What others' treatment is taken to have put down, where nobody knows how much.
    parts
        Zones of which only a part got it, with how much did and how much is left of the round.
    asked
        What the label rate asks for these zones, or None without a product.
    amount
        What was said to be put down, or what was asked.
    achieved
        The rate that comes to, where an amount was said.
    over
        The label's maximum that it exceeds, all products counted, if it does: it is down already,
        so it is recorded.
    doubt
        What else the label has against it: too soon after another, too often, or nobody knows how
        much of it is down already.
    target, year
        The round it counts for.
    is_of_a_round
        Whether it counts for a round at all: what acts on leaves alone does not.
    open_zones
        Names of zones still to do in this round.
    seconds
        Zones whose second pass is down with it.
    state
        The season's state after it.
    water_in_by
        Last day for watering in.
    next_half
        The next half by the plan, if there is one to come.
    """

    application_id: int
    zones: tuple[str, ...]
    area_m2: float
    applied_on: date
    asked: Amount | None
    amount: Amount | None
    achieved: Rate | None
    planned: Rate | None
    over: LabelLimitExceeded | None
    doubt: Doubt | None
    is_of_a_round: bool
    open_zones: tuple[str, ...]
    state: str
    water_in_by: date
    next_half: NextHalf | None
    target: str
    year: int
    parts: tuple[PartDown, ...] = ()
    assumed: Assumed | None = None
    seconds: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class PartDown:
    """A part of a zone that got it, and what is still to get the round [m²]."""

    zone: str
    area_m2: float
    left_m2: float
