"""Setting a spreader: the width it really covers, its next setting, passes and their weights."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

import numpy as np
from numpy.typing import ArrayLike, NDArray

from jobs.agronomy.amounts import Amount, amount_for, two_directions
from jobs.agronomy.calibration import deviation
from jobs.agronomy.rates import Rate, rewritten
from jobs.agronomy.units import rate_unit

FloatArray = NDArray[np.float64]

#: Share of the centre catch at which half the effective width lies: Ohio State Bulletin 817
#: (published): twice the distance from the centre line to where the catch is half of the centre's.
HALF_OF_CENTRE: Final = 0.5


class PatternTooNarrow(ValueError):
    """Raised when no pan caught as little as half the centre: set pans further out."""


class TriesDisagree(ValueError):
    """Raised when a wider setting gave less: weigh that one again.

    Attributes
    ----------
    settings
        The two settings that contradict each other.
    """

    def __init__(self, settings: tuple[float, float]) -> None:
        super().__init__(f"setting {settings[1]:g} gave less than {settings[0]:g}")
        self.settings = settings


@dataclass(frozen=True, slots=True)
class Swath:
    """What catch pans across the pattern tell.

    Attributes
    ----------
    effective_m
        Width one pass counts for, and the distance between passes [m].
    left_m, right_m
        Distance from the centre line to half of the centre's catch on either side [m]. Far apart:
        the pattern is skewed.
    """

    effective_m: float
    left_m: float
    right_m: float

    @property
    def skew(self) -> float:
        """(right - left) / effective width: 0 is even, above 0.1 is worth a look at the machine."""
        return (self.right_m - self.left_m) / self.effective_m


def effective_swath(position_m: ArrayLike, catch: ArrayLike) -> Swath:
    """Return the effective width from the catch of pans across one pass.

    Parameters
    ----------
    position_m
        Distance of each pan from the centre line [m], negative to the left.
    catch
        What each pan caught, in any one unit; several runs one way may be summed in the pans.

    Raises
    ------
    PatternTooNarrow
        If the outermost pans still caught more than half of the centre.
    ValueError
        If there are under three pans, two at one place, or nothing at the centre.

    Notes
    -----
    Half-of-centre rule: Ohio State Bulletin 817 (published): half the centre's catch at 6 ft on
    either side makes a swath of 12 ft. Try on grass: hard floors bounce heavy grains (comparison
    study of ASAE S341.2, published).
    """
    x = np.asarray(position_m, dtype=float)
    y = np.asarray(catch, dtype=float)
    order = np.argsort(x)
    x, y = x[order], y[order]
    if len(x) < 3 or x.shape != y.shape or np.any(np.diff(x) <= 0):
        raise ValueError("three pans or more, each at its own place")
    if not (x[0] < 0 < x[-1]):
        raise ValueError("pans stand on both sides of the centre line")
    centre = float(np.interp(0.0, x, y))
    if not centre > 0:
        raise ValueError("nothing was caught at the centre")
    half = HALF_OF_CENTRE * centre
    right = _crossing(x[x >= 0], y[x >= 0], centre, half)
    left = _crossing(-x[x <= 0][::-1], y[x <= 0][::-1], centre, half)
    return Swath(left + right, left, right)


def _crossing(x: FloatArray, y: FloatArray, centre: float, half: float) -> float:
    """Return the distance at which the catch first falls to half of the centre."""
    if x[0] > 0:
        x, y = np.insert(x, 0, 0.0), np.insert(y, 0, centre)
    for i in range(1, len(x)):
        if y[i] <= half:
            share = (y[i - 1] - half) / (y[i - 1] - y[i])
            return float(x[i - 1] + share * (x[i] - x[i - 1]))
    raise PatternTooNarrow


def overlapped(position_m: ArrayLike, catch: ArrayLike, spacing_m: float) -> FloatArray:
    """Return each pan's catch with neighbouring passes at ``spacing_m`` added in, back and forth.

    The mean over one spacing is the rate really put down; its spread shows stripes. Passes go
    alternately up and down, so every other pattern lies mirrored.
    """
    x = np.asarray(position_m, dtype=float)
    y = np.asarray(catch, dtype=float)
    order = np.argsort(x)
    x, y = x[order], y[order]
    if not spacing_m > 0:
        raise ValueError("passes stand some way apart")
    reach = math.ceil((x[-1] - x[0]) / spacing_m) + 1
    total = np.zeros_like(y)
    for k in range(-reach, reach + 1):
        mirrored = -1.0 if k % 2 else 1.0
        at = mirrored * (x - k * spacing_m)
        total += np.interp(at, x, y, left=0.0, right=0.0)
    return total[np.argsort(order)]


def pan_rate(mean_catch_kg: float, pan_m2: float, unit: str) -> Rate:
    """Return the rate that a mean catch per pan comes to, overlap summed in (see `overlapped`)."""
    if not (mean_catch_kg > 0 and pan_m2 > 0):
        raise ValueError("a pan has an area and caught something")
    return rewritten(Rate(mean_catch_kg / pan_m2 * 10_000.0, "kg/ha"), unit)


@dataclass(frozen=True, slots=True)
class Try:
    """One weighed try of a product in a machine: the dial, and the rate it gave."""

    setting: float
    rate: Rate


@dataclass(frozen=True, slots=True)
class NextSetting:
    """Where to set the dial next.

    ``is_between_tries`` tells interpolation from reaching beyond one's own tries, to be weighed
    with more care.
    """

    setting: float
    is_between_tries: bool
    is_good_already: bool


def next_setting(tries: Sequence[Try], target: Rate) -> NextSetting:
    """Return the setting to try next, from one's own tries of this product in this machine.

    Between tries the setting is a monotone cubic (PCHIP) of the rate through them; beyond them, or
    with a single try, the rate is taken as proportional to the setting, counted from shut at zero,
    as far as twice or half the nearest try.

    Raises
    ------
    TriesDisagree
        If a wider setting gave less.
    ValueError
        If there is no try, or a setting is not above zero.
    """
    if not tries:
        raise ValueError("weigh one try first: gate low")
    points: dict[float, list[float]] = {}
    for each in tries:
        if not each.setting > 0:
            raise ValueError("a setting is above zero")
        points.setdefault(each.setting, []).append(rewritten(each.rate, target.unit).value)
    settings = np.array(sorted(points))
    rates = np.array([float(np.mean(points[s])) for s in settings])
    for i in range(1, len(settings)):
        if rates[i] <= rates[i - 1]:
            raise TriesDisagree((float(settings[i - 1]), float(settings[i])))
    nearest = int(np.argmin(np.abs(rates - target.value)))
    close = deviation(Rate(float(rates[nearest]), target.unit), target)
    if close.is_on_target:
        return NextSetting(float(settings[nearest]), True, True)
    if rates[0] <= target.value <= rates[-1]:
        return NextSetting(_at(rates, settings, target.value), True, False)
    near = 0 if target.value < rates[0] else -1
    factor = min(2.0, max(0.5, target.value / float(rates[near])))
    return NextSetting(float(settings[near]) * factor, False, False)


def _at(rates: FloatArray, settings: FloatArray, target: float) -> float:
    from scipy.interpolate import PchipInterpolator  # slow to load, seldom needed

    return float(PchipInterpolator(rates, settings)(target))


@dataclass(frozen=True, slots=True)
class PassPlan:
    """How one round goes onto one zone.

    Attributes
    ----------
    passes
        Strips walked in this direction.
    spacing_m
        Distance between them that comes out even [m]; never above the effective swath.
    weights
        Product for each of the two directions.
    per_pass
        Product for one strip.
    """

    passes: int
    spacing_m: float
    weights: tuple[Amount, Amount]
    per_pass: Amount


def pass_plan(area_m2: float, across_m: float, swath_m: float, rate: Rate) -> PassPlan:
    """Return strips and weights of a round walked in two crossing directions at half rate each.

    Parameters
    ----------
    area_m2
        The zone's treated area [m²].
    across_m
        Its width across the walking direction [m].
    swath_m
        Effective swath [m].
    rate
        The *round's* rate; each direction gets half.
    """
    if not (area_m2 > 0 and across_m > 0 and swath_m > 0):
        raise ValueError("a zone and a swath are above zero")
    passes = max(1, math.ceil(across_m / swath_m * (1 - 1e-12)))
    weights = two_directions(amount_for(area_m2, rate))
    return PassPlan(passes, across_m / passes, weights, weights[0].times(1.0 / passes))


#: A zone narrower than so many swaths is walked lengthwise both times: across, each line would be
#: over before the spreader runs evenly (common practice, no source).
_FEWEST_SWATHS: Final = 2.0


def is_narrow(across_m: float, swath_m: float) -> bool:
    """Tell whether a zone is too narrow to be walked across as well as lengthwise."""
    return across_m < _FEWEST_SWATHS * swath_m


def cups(amount_kg: float, level_cup_kg: float) -> float:
    """Return level cups for an amount, from one level cup of *this* product weighed."""
    if not level_cup_kg > 0:
        raise ValueError("weigh one level cup of this product first")
    return amount_kg / level_cup_kg


@dataclass(frozen=True, slots=True)
class RanOut:
    """A hopper that ran out early: what is left to do and what it takes.

    ``achieved`` is what the covered part has by now, ``rest_of_covered`` what that part still
    takes. Where it has more than the target, the missing part is still done at the target rate:
    what lies too thick stays so.
    """

    achieved: Rate
    left_m2: float
    still_needed: Amount
    rest_of_covered: Amount


#: When a hopper ran out: in the first or second of two crossing passes, each with half of the
#: round's product, or with all of it in one pass.
Pass: TypeAlias = Literal["first", "second", "one"]


def ran_out(
    zone_m2: float,
    done_m2: float,
    used: Amount,
    target: Rate,
    which: Pass = "one",
    first: Rate | None = None,
) -> RanOut:
    """Return what to do when the weighed amount ran out before the zone was covered.

    Parameters
    ----------
    zone_m2, done_m2
        The zone's treated area, and how much of it that pass covered [m²].
    used
        What was in the hopper for that pass.
    target
        The round's rate.
    which
        The pass it was.
    first
        The rate that the first pass gave, before the second; half the target, where nobody knows.
    """
    if not 0 < done_m2 <= zone_m2:
        raise ValueError("the part done is above zero and no more than the zone")
    per = rate_unit("kg" if used.dimension == "mass" else "L", "ha")
    got = rewritten(Rate(used.si / done_m2 * 10_000.0, per), target.unit).value
    lying = 0.0
    if which == "second":
        lying = target.value / 2 if first is None else rewritten(first, target.unit).value
    left = zone_m2 - done_m2
    lacking = target.value - lying - got
    # What rounding leaves over is nothing to spread.
    rest = lacking if which == "first" and lacking > 1e-9 * target.value else 0.0
    return RanOut(
        Rate(lying + got, target.unit),
        left,
        amount_for(left, target).times(max(0.0, 1 - lying / target.value)),
        amount_for(done_m2, target).times(rest / target.value),
    )
