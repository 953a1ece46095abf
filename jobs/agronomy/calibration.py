"""How far off a spreader or sprayer is, which way, and how long a course to try it on.

The machines themselves: `jobs.agronomy.spreader`, `jobs.agronomy.sprayer`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

from jobs.agronomy.rates import Rate, rewritten
from jobs.agronomy.units import dimension_of

#: Off target by more than this is worth setting again: UMass fact sheet on rotary spreaders
#: (published): a pass at 4.75-5.25 for 5.00.
TOLERANCE: Final = 0.05


#: One part in how many the weighing may be off: a fiftieth, so that two weighings stay inside the
#: tolerance. Our choice.
WEIGHING_PARTS: Final = 50.0

Direction: TypeAlias = Literal["on_target", "low", "high"]


@dataclass(frozen=True, slots=True)
class Deviation:
    """What came down against what should have.

    Attributes
    ----------
    achieved, target
        Both in the target's unit.
    share
        (achieved - target) / target; -0.109 is 10.9 % low.
    """

    achieved: Rate
    target: Rate

    @property
    def share(self) -> float:
        """Part of the target it is off by; negative is low."""
        return self.achieved.value / self.target.value - 1.0

    @property
    def direction(self) -> Direction:
        """Which way it is off, within the trade's 5 %."""
        if abs(self.share) <= TOLERANCE * (1 + 1e-9):
            return "on_target"
        return "low" if self.share < 0 else "high"

    @property
    def is_on_target(self) -> bool:
        """Whether it may be left as it is."""
        return self.direction == "on_target"


def deviation(achieved: Rate, target: Rate) -> Deviation:
    """Return how far ``achieved`` is from ``target``, in the target's unit.

    Raises
    ------
    WeightAgainstVolume
        If one goes by weight and the other by volume.
    """
    return Deviation(rewritten(achieved, target.unit), target)


def run_rate(used_si: float, swath_m: float, length_m: float, unit: str) -> Rate:
    """Return the rate a trial run came to: what left the hopper over swath x length.

    Parameters
    ----------
    used_si
        Weight [kg] or volume [L] used up, weighed before and after.
    swath_m, length_m
        Effective swath and course [m].
    unit
        Rate unit to write it in, of the same kind.
    """
    if not (used_si > 0 and swath_m > 0 and length_m > 0):
        raise ValueError("a trial run uses something up over a length and a width")
    return rewritten(
        Rate(
            used_si / (swath_m * length_m) * 10_000.0,
            "kg/ha" if dimension_of(unit) == "mass_rate" else "L/ha",
        ),
        unit,
    )


def course_length_m(area_m2: float, swath_m: float) -> float:
    """Return the length of a course on which one pass of the swath covers the area."""
    if not (area_m2 > 0 and swath_m > 0):
        raise ValueError("a course has an area and a swath above zero")
    return area_m2 / swath_m


def scale_step_si(amount_si: float) -> float:
    """Return the coarsest step [kg or L] a scale or cup may have for weighing out an amount.

    600 sq ft of a 65 % granule is 7 g: that wants a scale reading 0.1 g, not a kitchen's 5 g.
    """
    return amount_si / WEIGHING_PARTS


def is_weighable(amount_si: float, step_si: float) -> bool:
    """Whether a scale that reads in such steps will do for the amount."""
    return step_si <= scale_step_si(amount_si) * (1 + 1e-9)


# --- sizes of the usual errors, as factors on the rate put down (all computed) --------------------


def target_for_pass(round_rate: Rate) -> Rate:
    """Return the rate each of two crossing passes is set to: half the round's rate."""
    return Rate(round_rate.value / 2.0, round_rate.unit)
