"""What is published or remembered about each active ingredient, each figure with its source.

The label in the user's hand wins over all of it. These figures only ever stop a dose or ask about
one; none of them lets a dose pass that the label does not.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from jobs.agronomy.ingredient_facts import (
    BarrierFigures,
    Certainty,
    Combination,
    ControlLength,
    Fact,
    HalfLife,
    Harm,
    Ingredient,
    RateRange,
    SeedingDefault,
    SeedingTrial,
    YearlyMaximum,
)
from jobs.agronomy.naming import Naming
from jobs.agronomy.tables import load
from jobs.agronomy.units import to_si


@dataclass(frozen=True, slots=True)
class Stop:
    """Why an ingredient does not go onto a zone.

    ``reason`` is ``harms_turf``, ``may_harm_unknown_turf``, ``certified_only`` or
    ``not_residential``.
    """

    reason: Literal["harms_turf", "may_harm_unknown_turf", "certified_only", "not_residential"]
    ingredient: str
    certainty: Certainty
    source: str


@cache
def ingredients() -> dict[str, Ingredient]:
    """Return every ingredient of the table by key."""
    return {key: _ingredient(key, row) for key, row in load("ingredients").items()}


@cache
def combinations() -> tuple[Combination, ...]:
    """Return the ingredients whose published figures are those of a mixture."""
    return tuple(
        Combination(
            frozenset(row["ingredients"]),
            tuple(_rate_range(item) for item in row["rates"]),
            tuple(_yearly_maximum(item) for item in row["yearly_maxima"]),
        )
        for row in load("combinations").values()
    )


def find_ingredient(text: str) -> Naming:
    """Return the ingredient a person named, or candidates to ask about (never a guess)."""
    return Naming.of(text, {key: item.names for key, item in ingredients().items()})


def stops(
    item: Ingredient,
    species: str | None,
    *,
    is_certified: bool = False,
    is_residential: bool = True,
    label_allows_residential: bool | None = None,
) -> tuple[Stop, ...]:
    """Return every reason why an ingredient may not go onto a zone's turf.

    Parameters
    ----------
    item
        The ingredient.
    species
        Key of the zone's turf; None when not known: then what harms any turf is named too, a
        question about the grass rather than a refusal.
    is_certified
        Whether the person says to be a certified applicator.
    is_residential
        Whether the zone is a home's lawn.
    label_allows_residential
        What the person's label says about home lawns, if asked; it wins over our table, but not
        over a restriction to certified applicators.
    """
    found: list[Stop] = []
    if item.certified_only is not None and item.certified_only.value and not is_certified:
        found.append(_stop("certified_only", item, item.certified_only))
    may_be = label_allows_residential
    if is_residential and may_be is False:
        found.append(Stop("not_residential", item.key, "F", "your label"))
    elif is_residential and may_be is None and item.residential and not item.residential.value:
        found.append(_stop("not_residential", item, item.residential))
    for harm in item.harms:
        if species is None and harm.species:
            found.append(Stop("may_harm_unknown_turf", item.key, harm.certainty, harm.source))
        elif species in harm.species:
            found.append(Stop("harms_turf", item.key, harm.certainty, harm.source))
    return tuple(found)


def _stop(
    reason: Literal["certified_only", "not_residential"], item: Ingredient, fact: Fact[bool]
) -> Stop:
    return Stop(reason, item.key, fact.certainty, fact.source)


def _fact(row: dict[str, Any] | None) -> Fact[Any] | None:
    return None if row is None else Fact(row["value"], row["certainty"], row["source"])


def _rate_range(row: dict[str, Any]) -> RateRange:
    return RateRange(
        to_si(row["low"], row["unit"]),
        to_si(row["high"], row["unit"]),
        row["use"],
        row.get("form"),
        row["certainty"],
        row["source"],
    )


def _yearly_maximum(row: dict[str, Any]) -> YearlyMaximum:
    return YearlyMaximum(
        to_si(row["max"], row["unit"]),
        frozenset(row["species"]),
        row.get("form"),
        row["certainty"],
        row["source"],
    )


def _ingredient(key: str, row: dict[str, Any]) -> Ingredient:
    at_seeding = row.get("at_seeding")
    barrier = row.get("barrier")
    return Ingredient(
        key=key,
        names=tuple(row["names"]),
        kind=row["kind"],
        group=_fact(row.get("group")),
        certified_only=_fact(row.get("certified_only")),
        residential=_fact(row.get("residential")),
        early_post=_fact(row.get("early_post")),
        weak_targets=tuple(
            Fact(item["target"], item["certainty"], item["source"])
            for item in row.get("weak_targets", ())
        ),
        rates=tuple(_rate_range(item) for item in row.get("rates", ())),
        yearly_maxima=tuple(_yearly_maximum(item) for item in row.get("yearly_maxima", ())),
        harms=tuple(
            Harm(frozenset(item["species"]), item["note"], item["certainty"], item["source"])
            for item in row.get("harms", ())
        ),
        at_seeding=None
        if at_seeding is None
        else Fact(frozenset(at_seeding["species"]), at_seeding["certainty"], at_seeding["source"]),
        seeding=tuple(
            SeedingDefault(
                item["days"],
                to_si(item["above"], item["unit"]) if "above" in item else 0.0,
                item["certainty"],
                item["source"],
            )
            for item in row.get("seeding", ())
        ),
        trials=tuple(
            SeedingTrial(
                item["species"],
                item.get("method"),
                item.get("form"),
                item["weeks"],
                item["rate_kg_ha"],
                item["certainty"],
                item["source"],
            )
            for item in row.get("trials", ())
        ),
        half_lives=tuple(HalfLife(**item) for item in row.get("half_lives", ())),
        barrier=None
        if barrier is None
        else BarrierFigures(
            barrier["days"],
            barrier["soil_c"],
            barrier["residue_kg_ha"],
            barrier["certainty"],
            barrier["source"],
            barrier.get("most_weeks"),
        ),
        control=tuple(
            ControlLength(
                item["low"],
                item["high"],
                to_si(item["rate_low"], item["unit"]),
                to_si(item["rate_high"], item["unit"]),
                item["certainty"],
                item["source"],
            )
            for item in row.get("control", ())
        ),
        bag_percents=tuple(row.get("bag_percents", {}).get("values", ())),
    )
