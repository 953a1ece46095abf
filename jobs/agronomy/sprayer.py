"""Setting a sprayer: volume per area, speed, and what goes into each tank.

Formulas of the trade, kept in its units because people read them off the nozzle and the course;
everything leaves in SI. Calibrate with water; pressure, nozzle and pace stay as calibrated.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.rates import Rate
from jobs.agronomy.units import from_si, to_si

#: Area whose catch in fluid ounces is the gallons an acre: 128 fl oz are a gallon. Exact.
ACRE_128TH_M2: Final = to_si(1.0, "acre") / 128.0

#: GPA = 5940 GPM / (mph x inches): 43,560 x 12 x 60 / 5,280, exact.
NOZZLE_CONSTANT: Final = 5940.0

#: The same with the swath in feet: 5940 / 12, exact.
BOOMLESS_CONSTANT: Final = 495.0

M_PER_MILE: Final = 1609.344


def gallons_per_acre(gpm: float, mph: float, spacing_in: float) -> float:
    """Return GPA of a boom from the flow of one nozzle, the speed and the nozzle spacing.

    Mesa County, Oklahoma State (published); the constant is exact.
    """
    _all_above_zero(gpm, mph, spacing_in)
    return NOZZLE_CONSTANT * gpm / (mph * spacing_in)


def boomless_gallons_per_acre(gpm: float, mph: float, swath_ft: float) -> float:
    """Return GPA of a boomless nozzle from its flow, the speed and its swath (Mesa County)."""
    _all_above_zero(gpm, mph, swath_ft)
    return BOOMLESS_CONSTANT * gpm / (mph * swath_ft)


def mph(speed: float) -> float:
    """Return a speed [m/s] in miles an hour (88 feet a minute each)."""
    return speed * 3600.0 / M_PER_MILE


def course_128th_m(spacing_m: float) -> float:
    """Return the course for the 1/128-acre method: one nozzle's strip of that area.

    Ounces caught from one nozzle in the time it takes to walk it are gallons an acre.
    """
    _all_above_zero(spacing_m)
    return ACRE_128TH_M2 / spacing_m


def gpa_from_128th(caught_fl_oz: float) -> float:
    """Return GPA from the fluid ounces caught while a 1/128 acre is covered: the same number.

    For a handgun or a single nozzle the plot is 18.45 ft square (Mesa and Larimer County).
    """
    _all_above_zero(caught_fl_oz)
    return caught_fl_oz


def spray_rate(caught_l: float, covered_m2: float) -> Rate:
    """Return the spray volume [L/ha] from what was caught in the time an area took."""
    _all_above_zero(caught_l, covered_m2)
    return Rate(caught_l / covered_m2 * 10_000.0, "L/ha")


@dataclass(frozen=True, slots=True)
class Load:
    """One tank: water and product for so much ground."""

    area_m2: float
    carrier_l: float
    product: Amount


@dataclass(frozen=True, slots=True)
class TankPlan:
    """All loads of a round: the full ones alike, and the last one sized to nothing left over.

    Attributes
    ----------
    tank_area_m2
        What one full tank covers [m²].
    full
        One full load; as many as ``full_loads``.
    last
        The last part load, or None where the area comes out even.
    """

    tank_area_m2: float
    full_loads: int
    full: Load
    last: Load | None

    @property
    def loads(self) -> float:
        """Tanks needed, the last as a part: 2.35."""
        part = 0.0 if self.last is None else self.last.area_m2 / self.tank_area_m2
        return self.full_loads + part

    @property
    def all(self) -> tuple[Load, ...]:
        """Every load in order."""
        return (self.full,) * self.full_loads + (() if self.last is None else (self.last,))


def tank_plan(area_m2: float, tank_l: float, gpa: float, rate: Rate) -> TankPlan:
    """Return what goes into each tank for an area.

    Parameters
    ----------
    area_m2
        Area to spray [m²].
    tank_l
        What the tank holds [L].
    gpa
        Spray volume found by calibration [gal/acre].
    rate
        Rate of product.
    """
    _all_above_zero(area_m2, tank_l, gpa)
    carrier_l_m2 = to_si(gpa, "gal/acre") / 10_000.0
    tank_area_m2 = tank_l / carrier_l_m2
    tanks = area_m2 / tank_area_m2
    full_loads = math.floor(tanks + 1e-9)
    left_m2 = area_m2 - full_loads * tank_area_m2
    last = None
    if left_m2 > tank_area_m2 * 1e-9:
        last = Load(left_m2, left_m2 * carrier_l_m2, amount_for(left_m2, rate))
    return TankPlan(
        tank_area_m2, full_loads, Load(tank_area_m2, tank_l, amount_for(tank_area_m2, rate)), last
    )


def product_per_gallon(rate: Rate, gpa: float) -> Amount:
    """Return the product to each gallon of spray at a calibrated spray volume."""
    _all_above_zero(gpa)
    return amount_for(to_si(1.0, "acre") / gpa, rate)


def tablespoons(volume_l: float) -> float:
    """Return US tablespoons: two to the fluid ounce. Liquids only; never for a dry product."""
    return from_si(volume_l, "fl oz") * 2.0


# --- water afterwards -----------------------------------------------------------------------------


def water_l(depth_mm: float, area_m2: float) -> float:
    """Return the water [L] that lies so deep on an area: 1 mm on 1 m² is 1 L."""
    if depth_mm < 0 or area_m2 < 0:
        raise ValueError("depth and area are at least zero")
    return depth_mm * area_m2


def sprinkler_minutes(depth_mm: float, rate_mm_h: float) -> float:
    """Return how long a sprinkler runs for a depth, from its own rate found with catch cups."""
    _all_above_zero(depth_mm, rate_mm_h)
    return depth_mm / rate_mm_h * 60.0


def _all_above_zero(*values: float) -> None:
    if not all(math.isfinite(value) and value > 0 for value in values):
        raise ValueError("every figure of a calibration is above zero")
