"""What can be known about an active ingredient: each figure with its certainty and source."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Generic, Literal, TypeAlias, TypeVar

#: F published, M from memory, C computed, P common practice, S inferred.
Certainty: TypeAlias = Literal["F", "M", "C", "P", "S"]
Kind: TypeAlias = Literal["pre", "foliar_broadleaf", "post_grass"]
#: Kinds taken up by leaves: they stop no seed, and water right after takes them off (common
#: practice, no source).
LEAF_KINDS: Final[frozenset[Kind]] = frozenset({"foliar_broadleaf", "post_grass"})
Use: TypeAlias = Literal["established", "new_seed"]
Method: TypeAlias = Literal["broadcast", "slit"]
Form: TypeAlias = Literal["granule", "spray"]

T = TypeVar("T")


@dataclass(frozen=True, slots=True)
class Fact(Generic[T]):
    """A value, how certain it is, and where it comes from."""

    value: T
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class RateRange:
    """A published range for one application of active ingredient [kg/ha]; no form means any."""

    low_kg_ha: float
    high_kg_ha: float
    use: Use
    form: Form | None
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class YearlyMaximum:
    """A remembered total of active ingredient a year [kg/ha].

    No species means any turf, no form any form.
    """

    max_kg_ha: float
    species: frozenset[str]
    form: Form | None
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class Harm:
    """Turf the ingredient hurts. With a note and no species it is a caution, not a stop."""

    species: frozenset[str]
    note: str
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class SeedingDefault:
    """Days to wait where the label is silent; ``above_kg_ha`` for more than that."""

    days: int
    above_kg_ha: float
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class SeedingTrial:
    """A published trial of seeding after the ingredient; for showing, never a default."""

    species: str
    method: Method | None
    form: Form | None
    weeks: float
    rate_kg_ha: float
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class HalfLife:
    """Days until half is gone, at the soil temperature it was found at [°C]."""

    days: float
    soil_c: float
    setting: Literal["field", "laboratory", "database"]
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class BarrierFigures:
    """What the barrier is reckoned with: loss, and the residue [kg/ha] at which control ends.

    Figures solved from a length of control reach no further than `most_weeks`, its longest; None
    for those of a trial or a database.
    """

    half_life_days: float
    soil_c: float
    residue_kg_ha: float
    certainty: Certainty
    source: str
    most_weeks: float | None = None


@dataclass(frozen=True, slots=True)
class ControlLength:
    """Weeks of control the trade gives for rates of active ingredient [kg/ha]."""

    low_weeks: float
    high_weeks: float
    rate_low_kg_ha: float
    rate_high_kg_ha: float
    certainty: Certainty
    source: str


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One active ingredient. A companion that is no pre-emergent has names and a kind only.

    `bag_percents` are strengths that bags of granules often have [%]: to choose from, never a
    default.
    """

    key: str
    names: tuple[str, ...]
    kind: Kind
    group: Fact[int] | None = None
    certified_only: Fact[bool] | None = None
    residential: Fact[bool] | None = None
    early_post: Fact[bool] | None = None
    weak_targets: tuple[Fact[str], ...] = ()
    rates: tuple[RateRange, ...] = ()
    yearly_maxima: tuple[YearlyMaximum, ...] = ()
    harms: tuple[Harm, ...] = ()
    at_seeding: Fact[frozenset[str]] | None = None
    seeding: tuple[SeedingDefault, ...] = ()
    trials: tuple[SeedingTrial, ...] = ()
    half_lives: tuple[HalfLife, ...] = ()
    barrier: BarrierFigures | None = None
    control: tuple[ControlLength, ...] = ()
    bag_percents: tuple[float, ...] = ()

    def rate_range(self, use: Use = "established", form: Form | None = None) -> RateRange | None:
        """Return the published range of one application, if there is one for that use and form.

        Without a form the range that reaches least far.
        """
        fitting = [row for row in self.rates if row.use == use and _is_of(row.form, form)]
        return min(fitting, key=lambda row: row.high_kg_ha, default=None)

    def yearly_maximum(self, species: str | None, form: Form | None = None) -> YearlyMaximum | None:
        """Return the remembered yearly maximum for turf and form; the unknown gets the least."""
        of_form = [row for row in self.yearly_maxima if _is_of(row.form, form)]
        fitting = [
            row for row in of_form if species is None or not row.species or species in row.species
        ]
        if not fitting:  # a turf nobody remembered a figure for: the least governs
            fitting = of_form
        return min(fitting, key=lambda row: row.max_kg_ha, default=None)


def _is_of(form: Form | None, asked: Form | None) -> bool:
    return form is None or asked is None or form == asked


@dataclass(frozen=True, slots=True)
class Combination:
    """Ingredients sold together, whose figures count both."""

    ingredients: frozenset[str]
    rates: tuple[RateRange, ...]
    yearly_maxima: tuple[YearlyMaximum, ...]
