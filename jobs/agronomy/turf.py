"""Turf species by the names people use."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from jobs.agronomy.naming import Naming
from jobs.agronomy.tables import load


@dataclass(frozen=True, slots=True)
class TurfSpecies:
    """One turf species: its key, the names it goes by (the first for showing), its season."""

    key: str
    names: tuple[str, ...]
    season: Literal["cool", "warm"]


@cache
def turf_species() -> dict[str, TurfSpecies]:
    """Return every species of the table by key."""
    return {
        key: TurfSpecies(key, tuple(row["names"]), row["season"])
        for key, row in load("turf").items()
    }


# Likeness to every name is looked at, letter by letter, of every piece of what is said.
@lru_cache(maxsize=512)
def find_species(text: str) -> Naming:
    """Return the species a person named, or candidates to ask about."""
    return Naming.of(text, {key: species.names for key, species in turf_species().items()})
