"""What makes an hour or a day fit for putting product down: limits, with their sources.

Defaults only. The label in the person's hand is the law: `under_label` puts its numbers in place of
ours, and every reason says which of the two it stands on.
"""

from __future__ import annotations

from dataclasses import dataclass, fields, replace
from typing import Any, Final, Literal

from jobs.agronomy.units import M_S_PER_MPH, c_from_f

Form = Literal["spray", "granule"]
Leaves = Literal["dry", "wet", "any"]

_INCH: Final = 25.4


@dataclass(frozen=True, slots=True)
class DayRules:
    """Limits for one product on one lawn.

    Certainty in brackets: F published, M from memory, P common practice.

    Attributes
    ----------
    form
        Spray or granule.
    wind_low_m_s
        Mean wind at 2 m below which a spray is not put out: dead calm goes with an inversion, in
        which fine drops hang and drift (North Carolina State Univ. 2018 [F]; 3 mph [M]). 0 for
        granules.
    wind_high_m_s
        Mean wind at 2 m above which it drifts or is thrown unevenly: sprays 10 mph (Washington WAC
        16-231-340, use-restricted herbicides [F]); granules 15 mph [P].
    air_low_c, air_high_c
        Air temperature: sprays 40-85 °F [P]; granules from 34 °F, so that nothing is frozen, to
        90 °F [P].
    leaves
        Dry for ordinary granules and sprays [P]; wet where a foliar weed killer rides on the
        granule.
    wet_humidity_pct
        Relative humidity from which leaves count as wet with dew: 90 % (Sentelhas et al. 2008,
        Agric. For. Meteorol. 148:392-400; from memory).
    wet_hours_after_rain
        Hours leaves stay wet after rain [P].
    dry_hours_after
        Hours without rain wanted afterwards, so that a spray dries on [P].
    heavy_rain_mm, heavy_rain_hours
        Rain within so many hours afterwards that carries product off: 1 in within 48 h on level
        loam or sand, half an inch on slopes and clay [M].
    water_in_mm, water_in_hours
        Water that activates the barrier, and by when: half an inch within 7 days (Univ. of Arkansas
        [F]), a spray within 24 h where it can be irrigated (Univ. of Nebraska [F]).
    saturated_mm
        Rain in the two days before from which the ground counts as saturated: 1 in, half of it on
        slopes and clay [P]; not to be treated (Maine best management practice [F]).
    frozen_soil_c
        Mean soil at or below which the ground counts as frozen [P].
    hours_needed
        Unbroken hours wanted for the work. A setting.
    from_label
        Names of the limits that come from the label.
    """

    form: Form
    wind_low_m_s: float
    wind_high_m_s: float
    air_low_c: float
    air_high_c: float
    leaves: Leaves = "dry"
    wet_humidity_pct: float = 90.0
    wet_hours_after_rain: int = 2
    dry_hours_after: int = 0
    heavy_rain_mm: float = 1.0 * _INCH
    heavy_rain_hours: int = 48
    water_in_mm: float = 0.5 * _INCH
    water_in_hours: int = 7 * 24
    saturated_mm: float = 1.0 * _INCH
    frozen_soil_c: float = 0.5
    hours_needed: int = 2
    from_label: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class LabelTerms:
    """What the label says on choosing the day; None where it is silent. Meanings as `DayRules`."""

    wind_low_m_s: float | None = None
    wind_high_m_s: float | None = None
    air_low_c: float | None = None
    air_high_c: float | None = None
    leaves: Leaves | None = None
    dry_hours_after: int | None = None
    heavy_rain_mm: float | None = None
    water_in_mm: float | None = None
    water_in_hours: int | None = None


def usual_rules(form: Form, *, is_slope_or_clay: bool = False) -> DayRules:
    """Return the default limits for a form and a lawn."""
    if form == "spray":
        rules = DayRules(
            "spray",
            3 * M_S_PER_MPH,
            10 * M_S_PER_MPH,
            c_from_f(40),
            c_from_f(85),
            dry_hours_after=2,
        )
    else:
        rules = DayRules("granule", 0.0, 15 * M_S_PER_MPH, c_from_f(34), c_from_f(90))
    if is_slope_or_clay:
        rules = replace(rules, heavy_rain_mm=0.5 * _INCH, saturated_mm=0.5 * _INCH)
    return rules


def under_label(rules: DayRules, label: LabelTerms) -> DayRules:
    """Return the limits with the label's numbers in place of the defaults."""
    said: dict[str, Any] = {
        field.name: value
        for field in fields(label)
        if (value := getattr(label, field.name)) is not None
    }
    return replace(rules, **said, from_label=rules.from_label | frozenset(said))
