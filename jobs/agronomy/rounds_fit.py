"""Whether a season's applications fit under the label's maxima together, and what would fit."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from jobs.agronomy.amounts import ROUNDING, counted_si
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.units import from_si

#: Periods over which several applications count together.
_TOGETHER: Final = frozenset({"calendar_year", "season", "12_months"})
#: Figures of a rate that is worked out: it is rounded down, never above what the label says.
_FIGURES: Final = 3


@dataclass(frozen=True, slots=True)
class Misfit:
    """Applications that come to more than the label allows.

    Attributes
    ----------
    maximum
        The maximum that leaves least.
    together
        What they come to, in the maximum's unit.
    times
        How many of them fit at their own rate; at least one does.
    each
        The highest rate at which all of them fit; None where that is below the label's lowest.
    """

    maximum: LabelMaximum
    together: float
    times: int
    each: Rate | None


def misfit(product: Product, rounds: int, lowest: Rate | None = None) -> Misfit | None:
    """Return how a number of applications at the product's rate exceeds a maximum, or None.

    Parameters
    ----------
    lowest
        The lowest rate the label gives, where it gives a range.

    Raises
    ------
    WeightAgainstVolume, StrengthUnknown
        If rate and maximum cannot be compared.
    """
    rate, worst = product.rate, None
    if rate is None:
        return None
    for maximum in product.maxima:
        if maximum.period not in _TOGETHER:
            continue
        once, limit = counted_si(rate, product, maximum), maximum.rate.rate_si
        if once * rounds > limit * (1 + ROUNDING) and (worst is None or once / limit > worst[0]):
            worst = (once / limit, maximum)
    if worst is None:
        return None
    share, maximum = worst
    each = _down(Rate(rate.value / (share * rounds), rate.unit))
    is_low = lowest is not None and each.rate_si < lowest.rate_si * (1 - ROUNDING)
    together = from_si(counted_si(rate, product, maximum) * rounds, maximum.rate.unit)
    times = max(1, math.floor(1 / share + ROUNDING))
    return Misfit(maximum, together, times, None if is_low else each)


def _down(rate: Rate) -> Rate:
    step = 10.0 ** (math.floor(math.log10(rate.value)) - _FIGURES + 1)
    return Rate(float(f"{math.floor(rate.value / step + ROUNDING) * step:.{_FIGURES}g}"), rate.unit)
