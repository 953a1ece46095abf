"""When seed may go in after a pre-emergent, and a pre-emergent after seed.

The label's interval wins. Where it is silent the long defaults of the table stand, counted from
the last application that still counts; a trial's shorter figure is shown, never used.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final, Literal

from jobs.agronomy.ingredient_facts import Certainty, Method, SeedingTrial
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Form

#: Default where nothing is known of an ingredient: 4 months, common practice.
DEFAULT_DAYS: Final = 122

#: Mowings of new turf before any ordinary pre-emergent: 3-4 by the rule of thumb (newspaper and
#: landscape pages; K-State: 2-4, published). The later end is used.
MOWINGS_BEFORE: Final = 4

#: Days from sowing to the fourth mowing at the earliest: two weeks to come up, two until the first
#: mowing, then weekly. Common practice, no source; for seeing collisions beforehand only.
NEW_SEED_DAYS: Final = 49


@dataclass(frozen=True, slots=True)
class Treated:
    """One ingredient put down on a zone.

    Attributes
    ----------
    day
        Day of the application.
    ingredient
        Key in the table.
    rate_kg_ha
        Active ingredient [kg/ha]; None when not known: then the longest default governs.
    form
        Granule or spray.
    label_days
        The label's own interval, None where it is silent.
    """

    day: date
    ingredient: str
    rate_kg_ha: float | None
    form: Form
    label_days: int | None = None


@dataclass(frozen=True, slots=True)
class SeedingWait:
    """What one application asks for.

    Attributes
    ----------
    treated
        The application.
    earliest
        First day seed may go in.
    days
        Days waited, and on whose word: ``label``, ``default`` or ``at_seeding`` (may go on with
        the seed).
    trials
        Published trials of this species and ingredient that fit the method and form, for showing;
        those that took longer than ``days`` are a warning.
    """

    treated: Treated
    earliest: date
    days: int
    basis: Literal["label", "default", "at_seeding"]
    certainty: Certainty
    source: str
    trials: tuple[SeedingTrial, ...] = ()

    @property
    def is_shorter_than_a_trial(self) -> bool:
        """Whether a published trial saw harm for longer than this waits."""
        return any(trial.weeks * 7 > self.days for trial in self.trials)


@dataclass(frozen=True, slots=True)
class SeedingAnswer:
    """Earliest seeding of a species on a zone, and every wait behind it, the deciding one first."""

    earliest: date | None
    waits: tuple[SeedingWait, ...]

    def allows(self, day: date) -> bool:
        """Whether seed may go in on a day, as far as the barrier is concerned."""
        return self.earliest is None or day >= self.earliest


def earliest_seeding(
    treated: Sequence[Treated], species: str, method: Method = "broadcast"
) -> SeedingAnswer:
    """Return the earliest day a species may be seeded after everything put down on a zone.

    Parameters
    ----------
    treated
        Every application on the zone, in any order; each is answered for, so a split counts from
        its last half.
    species
        Key of the species to be seeded.
    method
        Broadcast, or slit seeding, which trials saw harmed for longer (Keeley & Zhou 2005).
    """
    waits = [_wait(item, treated, species, method) for item in treated]
    waits.sort(key=lambda wait: wait.earliest, reverse=True)
    return SeedingAnswer(waits[0].earliest if waits else None, tuple(waits))


def collides(
    planned: Treated, seeding_day: date, species: str, method: Method = "broadcast"
) -> bool:
    """Whether a planned application and a planned seeding get into each other's way.

    Either the seed follows too soon, or the barrier goes over seed not yet up and mown.
    """
    if planned.day > seeding_day:
        return not may_go_on_at_seeding(planned.ingredient, species) and (
            planned.day - seeding_day < timedelta(days=NEW_SEED_DAYS)
        )
    return not earliest_seeding((planned,), species, method).allows(seeding_day)


def may_go_on_at_seeding(ingredient: str, species: str) -> bool:
    """Whether the ingredient is one that may go on with the seed of a species."""
    item = ingredients().get(ingredient)
    known = item.at_seeding if item is not None else None
    return known is not None and species in known.value


def _wait(
    item: Treated, all_treated: Sequence[Treated], species: str, method: Method
) -> SeedingWait:
    known = ingredients().get(item.ingredient)
    trials = () if known is None else known.trials
    fitting = tuple(
        trial
        for trial in trials
        if trial.species == species
        and trial.method in (None, method)
        and trial.form in (None, item.form)
    )
    if item.label_days is not None:
        return _answer(item, item.label_days, "label", "F", "your label", fitting)
    if known is not None and known.at_seeding and species in known.at_seeding.value:
        at = known.at_seeding
        return _answer(item, 0, "at_seeding", at.certainty, at.source, fitting)
    if known is None or not known.seeding:
        return _answer(item, DEFAULT_DAYS, "default", "P", "the general default", fitting)
    rows = sorted(known.seeding, key=lambda row: row.above_kg_ha)
    row = rows[0]
    total = _lately(item, all_treated, row.days)
    for longer in rows[1:]:
        if total is None or total > longer.above_kg_ha * (1 + 1e-9):
            row = longer
    return _answer(item, row.days, "default", row.certainty, row.source, fitting)


def _answer(
    item: Treated,
    days: int,
    basis: Literal["label", "default", "at_seeding"],
    certainty: Certainty,
    source: str,
    trials: tuple[SeedingTrial, ...],
) -> SeedingWait:
    earliest = item.day + timedelta(days=days)
    return SeedingWait(item, earliest, days, basis, certainty, source, trials)


def _lately(item: Treated, all_treated: Sequence[Treated], days: int) -> float | None:
    """Return the ingredient put down up to and with this application while the others still count.

    Two halves of a split make the full rate: it is the sum that holds seed back. None when one of
    them is not known.
    """
    since = item.day - timedelta(days=days)
    rates = [
        other.rate_kg_ha
        for other in all_treated
        if other.ingredient == item.ingredient and since < other.day <= item.day
    ]
    known = [rate for rate in rates if rate is not None]
    return sum(known) if len(known) == len(rates) else None
