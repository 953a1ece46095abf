"""Spreaders and sprayers: what was weighed and caught, kept, and what follows for the next try."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass
from datetime import date, datetime
from typing import Any, Final, Literal

from jobs.agronomy.amounts import LabelLimitExceeded, check_rate
from jobs.agronomy.calibration import Deviation, deviation, run_rate, target_for_pass
from jobs.agronomy.history import Entry, Records
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown, check_label, is_round_left
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.spreader import NextSetting, TriesDisagree, Try, next_setting
from jobs.agronomy.strengths import StrengthUnknown
from jobs.agronomy.units import from_si
from jobs.labels import product_of
from jobs.local_days import local
from jobs.standing import Standing, standing_of
from jobs.turf_limits import fit
from storage import chats, journal, machines, products
from storage.chats import PersonRecord
from storage.database import Work
from storage.machines import MachineRecord, TryRecord
from storage.products import ProductRecord
from storage.yards import YardRecord, ZoneRecord

SPREADER: Final = "spreader"
SPRAYER: Final = "sprayer"


class NoProduct(LookupError):
    """Raised when no product is chosen that could be compared with."""


@dataclass(frozen=True, slots=True)
class Setup:
    """What a round has to be set for.

    Attributes
    ----------
    product, record, rate
        The product chosen and the label's rate.
    zones
        The zones that get it now.
    machine
        The chat's machine of the kind asked for, or None before anything is known of it.
    """

    product: Product
    record: ProductRecord
    rate: Rate
    zones: tuple[ZoneRecord, ...]
    machine: MachineRecord | None


@dataclass(frozen=True, slots=True)
class RunResult:
    """What a weighed run came to.

    Attributes
    ----------
    achieved
        The rate that came down.
    off
        Against the target, or None without a product.
    is_half
        Whether it is held against half the round's rate: one of two directions.
    following
        Setting for the next try, or None where the dial was not said.
    disagree
        Two settings of which the wider gave less, where they do.
    is_over_label
        Whether one such pass alone is above a maximum of the label.
    """

    achieved: Rate
    off: Deviation | None
    is_half: bool
    following: NextSetting | None
    disagree: tuple[float, float] | None
    is_over_label: bool


def product_key(product: Product) -> str:
    """Return what tells products apart in a machine: ingredients, strengths and form."""
    parts = [
        part.name
        if part.strength is None
        else f"{part.name} {part.strength.value:g} {part.strength.unit}"
        for part in product.ingredients
    ]
    return f"{' + '.join(parts)}, {product.form}"


def setup(work: Work, yard: YardRecord, kind: str, now: datetime) -> Setup:
    """Return what a round of a yard has to be set for.

    Raises
    ------
    NoProduct
        If no product is chosen.
    """
    if yard.product_id is None:
        raise NoProduct(yard.name)
    record = standing_of(work, yard).chosen
    product = product_of(record)
    assert product.rate is not None
    standing = standing_of(work, yard)
    zones = fit(standing, standing.programme, local(now, yard.timezone).date())
    machine = machines.machine(work, yard.chat_id, kind)
    return Setup(product, record, product.rate, tuple(zones), machine)


def note_run(
    work: Work,
    yard: YardRecord,
    *,
    used_si: float,
    area_m2: float,
    setting: float | None,
    is_half: bool | None,
    unit: str,
    said: str,
    person_id: int,
    now: datetime,
) -> RunResult:
    """Keep a weighed run and hold it against the label's rate.

    Parameters
    ----------
    used_si
        What left the hopper [kg].
    area_m2
        Swath times length [m²].
    setting
        The dial, where it was said.
    is_half
        Whether it was one of two directions; None: whichever it is nearer to.
    unit
        Unit to write the rate in where no product is chosen.
    """
    product = None
    if yard.product_id is not None:
        product = standing_of(work, yard).label
    rate = (
        None
        if product is None or product.rate is None or not product.rate.is_weight
        else (product.rate)
    )
    achieved = run_rate(used_si, 1.0, area_m2, unit if rate is None else rate.unit)
    target, half = _target(achieved, rate, is_half)
    machine = machines.keep(work, yard.chat_id, SPREADER, now=now)
    key = "" if product is None else product_key(product)
    try_id = machines.add_try(
        work,
        machine_id=machine.id,
        product=key,
        setting=setting,
        rate_value=achieved.value,
        rate_unit=achieved.unit,
        said=said,
        person_id=person_id,
        now=now,
    )
    journal.note(work, yard.id, "machine.try", try_id)
    following, disagree = None, None
    if target is not None and setting is not None:
        following, disagree = _following(work, machine, key, target)
    return RunResult(
        achieved,
        None if target is None else deviation(achieved, target),
        half,
        following,
        disagree,
        product is not None and _is_over(achieved, product),
    )


def newest_try(work: Work, yard: YardRecord) -> TryRecord | None:
    """Return the newest try of the chosen product, or None."""
    machine = machines.machine(work, yard.chat_id, SPREADER)
    if machine is None:
        return None
    key = "" if yard.product_id is None else product_key(standing_of(work, yard).label)
    return next(reversed(machines.tries(work, machine.id, key)), None)


def tries(work: Work, yard: YardRecord) -> list[Try]:
    """Return the tries of the chosen product with a dial setting, oldest first."""
    machine = machines.machine(work, yard.chat_id, SPREADER)
    if machine is None or yard.product_id is None:
        return []
    key = product_key(standing_of(work, yard).label)
    return [
        Try(each.setting, Rate(each.rate_value, each.rate_unit))
        for each in machines.tries(work, machine.id, key)
        if each.setting is not None
    ]


def keep_machine(
    work: Work, yard: YardRecord, kind: str, *, now: datetime, **values: Any
) -> MachineRecord:
    """Keep what was found out of a machine: its swath, tank or spray volume."""
    kept = machines.keep(work, yard.chat_id, kind, now=now, **values)
    journal.note(work, yard.id, f"machine.{kind}", kept.id)
    return kept


def keep_scale(work: Work, yard: YardRecord, person: PersonRecord, step_kg: float) -> PersonRecord:
    """Keep what a person's scale shows; the unit is the one its step is a round figure in."""
    kept = chats.change_person(
        work, person.id, **dict(zip(("scale_step", "scale_unit"), _as_shown(step_kg), strict=True))
    )
    journal.note(work, yard.id, "person.scale", person.id)
    return kept


def _as_shown(step_kg: float) -> tuple[float, str]:
    for unit in ("lb", "oz", "g"):
        step = from_si(step_kg, unit)
        if abs(float(f"{step:.1g}") - step) < 1e-6 * step:
            return float(f"{step:.1g}"), unit
    return step_kg * 1000, "g"


def keep_cup(work: Work, yard: YardRecord, record: ProductRecord, kg: float) -> None:
    """Keep the weight of one level cup of a product."""
    journal.note(work, yard.id, "product.change", record.id, product=record.said)
    products.change(work, record.id, level_cup_kg=kg)


def _is_over(achieved: Rate, product: Product) -> bool:
    try:
        check_rate(achieved, product)
    except LabelLimitExceeded:
        return True
    except (StrengthUnknown, WeightAgainstVolume):
        return False
    return False


def _target(achieved: Rate, rate: Rate | None, is_half: bool | None) -> tuple[Rate | None, bool]:
    if rate is None:
        return None, False
    half = target_for_pass(rate)
    if is_half is None:
        # Nearer by factor, so that a quarter off either is told apart rightly.
        is_half = math.log(achieved.value / half.value) < math.log(rate.value / achieved.value)
    return (half if is_half else rate), is_half


def _following(
    work: Work, machine: MachineRecord, key: str, target: Rate
) -> tuple[NextSetting | None, tuple[float, float] | None]:
    known = [
        Try(each.setting, Rate(each.rate_value, each.rate_unit))
        for each in machines.tries(work, machine.id, key)
        if each.setting is not None
    ]
    try:
        return next_setting(known, target), None
    except TriesDisagree as problem:
        return None, problem.settings


def slip_by_label(
    standing: Standing,
    zone: ZoneRecord,
    product: Product,
    achieved: Rate,
    on: date,
    but: Collection[int] = (),
) -> Literal["over", "used_up", ""]:
    """Tell what a part of a zone that got a rate by mistake has come to, by the label.

    ``over``: more than a maximum, with what was down before. ``used_up``: the label leaves no whole
    round more there. Where the two cannot be compared, nothing is said.
    `but` are records that the rate counts already.
    """
    entries = tuple(each for each in standing.records.entries if each.record not in but)
    history = Records(entries, standing.lineage).on(zone.ground_id)
    try:
        check_rate(achieved, product)
        check_label(history, product, achieved, on)
    except LabelLimitExceeded:
        return "over"
    except (UseUnknown, StrengthUnknown, WeightAgainstVolume):
        return ""
    slipped = history.with_entry(Entry(0, on, product, achieved))
    return "" if is_round_left([slipped], product, on) else "used_up"
