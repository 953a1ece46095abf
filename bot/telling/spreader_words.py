"""How weights, rates and lengths of spreading are said."""

from __future__ import annotations

import math
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.printed_amounts import Measure, Quantity
from bot.saying.values import LabelRate
from bot.saying.voice import voice
from jobs.agronomy.amounts import Amount
from jobs.agronomy.calibration import scale_step_si
from jobs.agronomy.rates import Rate
from jobs.agronomy.units import from_si
from jobs.uses import calibrating as uses
from jobs.uses.how_much import YardAmounts
from storage import machines
from storage.yards import YardRecord, ZoneRecord


def amount_of(found: YardAmounts, zone: ZoneRecord) -> Amount:
    """Return what a zone of the round takes."""
    return next(item.amount for item in found.plan.zones if item.zone.name == zone.name)


def rate_text(rate: Rate) -> LabelRate:
    """Return a reckoned rate with four figures."""
    return LabelRate(float(f"{rate.value:.4g}"), rate.unit)


def weight_of(kg: float) -> Quantity | Measure:
    """Return a weight: small ones in grams, for a scale."""
    return Measure(round(kg * 1000, 3), "g") if kg < 0.028 else Quantity(kg, "kg")


#: The finest steps of scales that show pounds, or ounces (common practice, no source).
_LEAST_STEPS: Final = {"lb": 0.1, "oz": 0.05}


def step_of(amount_si: float) -> Measure:
    """Return the coarsest step that will do, a round figure in the person's units.

    What only a pocket scale shows is told in grams: those read in grams everywhere.
    """
    step_si = scale_step_si(amount_si)
    by_unit = [(unit, from_si(step_si, unit)) for unit in ("lb", "oz")]
    us = [(unit, step) for unit, step in by_unit if step >= _LEAST_STEPS[unit]]
    unit, step = us[0] if us and voice().units == "us" else ("g", step_si * 1000)
    if step <= 0:
        return Measure(1, "g")
    power = 10 ** math.floor(math.log10(step))
    return Measure(float(f"{next(n for n in (5, 2, 1) if n * power <= step) * power:g}"), unit)


def length_of(talk: Talk, metres: float) -> Measure:
    """Return a length in the person's unit."""
    unit = talk.length_unit
    value = from_si(metres, unit)
    return Measure(round(value, 1 if value >= 1 else 2), unit)


def known_swath(talk: Talk, yard: YardRecord) -> float | None:
    """Return the swath kept of the spreader [m], or None."""
    machine = machines.machine(talk.work, yard.chat_id, uses.SPREADER)
    return None if machine is None else machine.swath_m


def carrier_text(talk: Talk, litres: float) -> str:
    """Return a volume of spray or of a tank in gallons or litres."""
    return f"{litres:.3g} L" if talk.is_metric else f"{from_si(litres, 'gal'):.3g} gal"
