"""How long a pre-emergent will hold: first-order loss with soil temperature, told in weeks.

An orientation, not a measurement. People read weeks, as a wide band marked rough; never a
percentage left. Residues of several applications and ingredients add up, each as a share of the
residue at which its own good control ends.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy.ingredients import ingredients

FloatArray: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class _Figures:
    """Half-life [days] at a soil temperature [°C], residue needed [kg/ha], and days at the most."""

    half_life_days: float
    reference_c: float
    needed_kg_ha: float
    most_days: float


#: Energy of activation of loss in soil [J/mol]: EFSA opinion 2007/8 (value from memory).
ACTIVATION_J_MOL: Final = 65_400.0

#: Gas constant [J/mol/K], as rounded in the same form.
GAS_J_MOL_K: Final = 8.314

ZERO_C_IN_K: Final = 273.15

#: Loss stands still in frozen soil: habit of FOCUS modelling (from memory).
FROZEN_C: Final = 0.0

#: A soil this warm [°C] stands for a spring when weeks of control are given without a place.
SPRING_SOIL_C: Final = 18.0

#: How far days of control may lie from the reckoned ones: half to one and a half. Our inference
#: from trials that gave 91 % one year and 38 % the next (Johnson 1996, Weed Technol., published).
EARLY_SHARE: Final = 0.5
LATE_SHARE: Final = 1.5

Density: TypeAlias = Literal["dense", "ordinary", "thin"]

#: Residue needed against that in ordinary turf. Our inference from low rates twice: 92-93 % control
#: in bermudagrass, 78-85 % in tall fescue (Johnson 1996, published): thin turf loses about one
#: half-life.
RESIDUE_FACTOR: Final[dict[Density, float]] = {"dense": 0.75, "ordinary": 1.0, "thin": 2.0}

#: Watered in later than this is worth a note: Arkansas 2009 (published): within 7 days.
WATER_IN_DAYS: Final = 7

#: A day's rain that may carry product off [mm]: 2 in, common practice.
HEAVY_RAIN_MM: Final = 50.8


def loss_factor(soil_c: ArrayLike, reference_c: float) -> FloatArray:
    """Return how fast loss runs at soil temperatures, against that at a reference.

    Parameters
    ----------
    soil_c
        Mean soil temperature [°C], scalar or array.
    reference_c
        Temperature the half-life was found at: its own trial's soil for a field value, 20 °C for a
        laboratory one.

    Notes
    -----
    Arrhenius: k(T)/k(Tref) = exp[Ea/R (1/Tref - 1/T)] in kelvin, Ea 65.4 kJ/mol (EFSA 2007/8); zero
    at and below freezing.
    """
    soil = np.asarray(soil_c, dtype=float)
    kelvin = np.maximum(soil, -50.0) + ZERO_C_IN_K
    factor = np.exp(
        ACTIVATION_J_MOL / GAS_J_MOL_K * (1.0 / (reference_c + ZERO_C_IN_K) - 1.0 / kelvin)
    )
    return np.where(soil <= FROZEN_C, 0.0, factor)


def residue(dose: float, half_life_days: float, equivalent_days: ArrayLike) -> FloatArray:
    """Return what is left of a dose after days at its half-life's own temperature.

    Single first-order: C = C0 exp(-ln2 t / DT50) (EPA NAFTA guidance, published).
    """
    days = np.asarray(equivalent_days, dtype=float)
    return np.asarray(dose * np.exp(-math.log(2.0) / half_life_days * days))


@dataclass(frozen=True, slots=True)
class Dose:
    """One ingredient put down on a zone: when, what, and how much [kg ai/ha]."""

    day: date
    ingredient: str
    rate_kg_ha: float


@dataclass(frozen=True, slots=True)
class Hold:
    """How long a barrier holds; each day is the first without good control, rough.

    None: it still holds on the last day we have soil for, or (``ends``) never held at all when
    ``holds_at_all`` is False.

    Attributes
    ----------
    ends_early, ends, ends_late
        The band's early edge, the reckoned day, and its late edge.
    holds_at_all
        Whether there is any dose with known figures strong enough to hold.
    unknown
        Ingredients without figures (broadleaf add-ons, strangers), which count for nothing here.
    """

    ends_early: date | None
    ends: date | None
    ends_late: date | None
    holds_at_all: bool
    unknown: tuple[str, ...] = ()

    def weeks_from(self, day: date) -> tuple[int, int] | None:
        """Return the band in whole weeks from a day, rounded outwards; None while still open."""
        if self.ends_early is None or self.ends_late is None:
            return None
        early = max(0, (self.ends_early - day).days)
        late = max(0, (self.ends_late - day).days)
        return early // 7, -(-late // 7)


def hold(
    doses: Sequence[Dose], first_day: date, soil_c: ArrayLike, density: Density = "ordinary"
) -> Hold:
    """Return how long the doses on a zone hold together.

    Parameters
    ----------
    doses
        Every application on the zone that may still matter.
    first_day
        Day of the first soil value.
    soil_c
        Daily mean soil temperature [°C], known days and then the expected course; no gaps.
    density
        How dense the turf stands.

    Raises
    ------
    ValueError
        If the soil has gaps, or begins after a dose: what was lost before would be missed.
    """
    if any(dose.day < first_day for dose in doses):
        raise ValueError("the soil's course begins after a dose")
    soil = np.asarray(soil_c, dtype=float)
    if not np.all(np.isfinite(soil)):
        raise ValueError("the soil's course has gaps; fill them first")
    unknown = tuple(dict.fromkeys(d.ingredient for d in doses if _figures(d.ingredient) is None))
    known = [dose for dose in doses if _figures(dose.ingredient) is not None]
    edges = [
        _ends(_strength(known, first_day, soil, density, 1.0 / share), first_day)
        for share in (EARLY_SHARE, 1.0, LATE_SHARE)
    ]
    holds_at_all = bool(known) and edges[1][1]
    early, middle, late = (day for day, _ in edges)
    return Hold(early, middle, late, holds_at_all, unknown)


def _figures(key: str) -> _Figures | None:
    item = ingredients().get(key)
    if item is None or item.barrier is None:
        return None
    row = item.barrier
    most_days = math.inf if row.most_weeks is None else 7 * row.most_weeks
    return _Figures(row.half_life_days, row.soil_c, row.residue_kg_ha, most_days)


def _strength(
    doses: Sequence[Dose], first_day: date, soil: FloatArray, density: Density, speed: float
) -> FloatArray:
    """Return the barrier each day as a multiple of what is needed; NaN before the first dose."""
    total = np.zeros(len(soil))
    begins = len(soil)
    for dose in doses:
        figures = _figures(dose.ingredient)
        assert figures is not None
        start = (dose.day - first_day).days
        begins = min(begins, start)
        if start >= len(soil):
            continue
        lost = np.cumsum(loss_factor(soil[start:-1], figures.reference_c))
        passed = np.concatenate([[0.0], lost])[: len(soil) - start]
        left = residue(dose.rate_kg_ha, figures.half_life_days, passed * speed)
        # Cold soil carries no figure beyond the lengths of control it was solved from.
        left[np.arange(len(left)) >= figures.most_days] = 0.0
        total[start:] += left / (figures.needed_kg_ha * RESIDUE_FACTOR[density])
    total[:begins] = np.nan
    return total


def _ends(strength: FloatArray, first_day: date) -> tuple[date | None, bool]:
    """Return the day after the last one held, and whether any day was held."""
    held = np.flatnonzero(strength >= 1.0 - 1e-12)
    if not len(held):
        began = np.flatnonzero(~np.isnan(strength))
        day = first_day + timedelta(days=int(began[0])) if len(began) else None
        return day, False
    last = int(held[-1])
    if last == len(strength) - 1:
        return None, True
    return first_day + timedelta(days=last + 1), True


def weeks_of_control(
    ingredient: str, rate_kg_ha: float, density: Density = "ordinary", soil_c: float = 20.0
) -> tuple[int, int] | None:
    """Return the weeks one application holds at a steady soil temperature, as a wide band.

    None for an ingredient without figures, or on frozen soil where nothing bounds them; (0, 0)
    where the rate is too low to hold at all. Never more than the table's own lengths of control
    where the figures were solved from those.
    """
    figures = _figures(ingredient)
    if figures is None:
        return None
    speed = float(loss_factor(soil_c, figures.reference_c))
    share = rate_kg_ha / (figures.needed_kg_ha * RESIDUE_FACTOR[density])
    if share < 1:
        return 0, 0
    days = figures.half_life_days * math.log2(share) / speed if speed else math.inf
    early, late = (min(days * edge, figures.most_days) for edge in (EARLY_SHARE, LATE_SHARE))
    return None if math.isinf(late) else (math.floor(early / 7), math.ceil(late / 7))


Verdict: TypeAlias = Literal["will_last", "second_half_due", "fading", "may_fade", "no_barrier"]


@dataclass(frozen=True, slots=True)
class Outlook:
    """What to do about a barrier.

    Attributes
    ----------
    verdict
        ``will_last`` beyond germination; ``second_half_due`` on ``due``; ``fading``: gone while
        weeds still germinate, re-treat by ``due``; ``may_fade``: the reckoned day is late enough,
        its early edge is not; ``no_barrier``: nothing there to hold.
    due
        Day to act by, where there is one.
    """

    verdict: Verdict
    due: date | None = None


def judge(found: Hold, germination_ends: date, second_half_on: date | None = None) -> Outlook:
    """Compare a barrier with how long the weed still germinates this year.

    Parameters
    ----------
    found
        The barrier.
    germination_ends
        Last day the outlook still expects seed to come up.
    second_half_on
        Day a planned second half falls due by the split interval; the earlier of it and the
        barrier's end decides.
    """
    if second_half_on is not None:
        due = second_half_on
        if found.ends is not None and found.ends < due:
            due = found.ends
        if due <= germination_ends:
            return Outlook("second_half_due", due)
    if not found.holds_at_all:
        return Outlook("no_barrier", found.ends)
    if found.ends is not None and found.ends <= germination_ends:
        return Outlook("fading", found.ends)
    if found.ends_early is not None and found.ends_early <= germination_ends:
        return Outlook("may_fade", found.ends_early)
    return Outlook("will_last")


BarrierNote: TypeAlias = Literal["heavy_rain", "late_water_in", "thin_turf"]


def notes(
    rain_mm: ArrayLike, watered_in_after_days: float | None, density: Density
) -> tuple[BarrierNote, ...]:
    """Return what may have shortened the barrier: said as notes, not reckoned in.

    Parameters
    ----------
    rain_mm
        Daily rain since the application [mm]; missing days may be NaN.
    watered_in_after_days
        Days until it was watered in; None when it was not, or is not known.
    density
        How dense the turf stands.
    """
    rain = np.asarray(rain_mm, dtype=float)
    found: list[BarrierNote] = []
    if np.any(rain >= HEAVY_RAIN_MM):
        found.append("heavy_rain")
    if watered_in_after_days is not None and watered_in_after_days > WATER_IN_DAYS:
        found.append("late_water_in")
    if density == "thin":
        found.append("thin_turf")
    return tuple(found)
