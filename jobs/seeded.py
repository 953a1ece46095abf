"""Seed and barrier on the same ground: what was put down, when seed may go in, who goes first."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Final

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.ledger import Entry
from jobs.agronomy.products import Product, ai_kg_ha
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.agronomy.seeding import SeedingAnswer, Treated, earliest_seeding
from jobs.agronomy.strengths import StrengthUnknown
from jobs.allowed import entries_of
from jobs.local_days import season_day
from jobs.rounds import LATE_SUMMER_FROM
from storage import seedings
from storage.database import Work
from storage.yards import YardRecord

#: Seed sown from this northern day on is autumn seed: it meets the late-summer round.
_AUTUMN_FROM: Final = (7, 1)


def treated_on(entries: Sequence[Entry], zone: str, label_days: int | None = None) -> list[Treated]:
    """Return every ingredient put down on a zone, as seed meets it.

    Parameters
    ----------
    entries
        Every application of the yard.
    zone
        The zone's name.
    label_days
        The wait a person read off the label; it wins over what was kept with the product.
    """
    return [
        each
        for entry in entries
        if entry.zone == zone.casefold()
        for each in treated_by(entry.product, entry.rate, entry.day, label_days)
    ]


def treated_by(
    product: Product, rate: Rate | None, day: date, label_days: int | None = None
) -> list[Treated]:
    """Return every ingredient of one application, put down or planned, as seed meets it.

    What only works on leaves leaves no barrier. No `rate`: not known how much. `label_days` as in
    `treated_on`.
    """
    days = product.seeding_interval_days if label_days is None else label_days
    found = []
    for part in product.ingredients:
        item = ingredients().get(part.name)
        if item is not None and item.kind != "pre":
            continue
        try:
            rate_kg_ha = None if rate is None else ai_kg_ha(rate, part)
        except StrengthUnknown:
            rate_kg_ha = None
        found.append(Treated(day, part.name, rate_kg_ha, product.form, days))
    return found


def seeding_of(
    work: Work,
    yard: YardRecord,
    zone: str,
    species: str | None,
    method: str,
    label_days: int | None,
) -> SeedingAnswer:
    """Return when a zone may be seeded; an unknown species gets no exception."""
    treated = treated_on(entries_of(work, yard), zone, label_days)
    return earliest_seeding(treated, species or "", "slit" if method == "slit" else "broadcast")


def given_to_seed(
    work: Work, yard: YardRecord, target: Target, year: int, today: date
) -> frozenset[str]:
    """Return names (lower case) of zones left out of a round because seed goes first there.

    Autumn seed goes before the late-summer round, and from then on before a spring half still due:
    put down weeks before the seed it would be in the way just as much. `today` is a northern day.
    """
    is_spring = target is Target.SUMMER_ANNUALS
    is_late = not is_spring or (today.month, today.day) >= LATE_SUMMER_FROM
    return frozenset(
        each.zone_name.casefold()
        for each in seedings.of_yard(work, yard.id)
        if each.is_before_round
        and (is_late if is_autumn(each.seed_on, yard.lat) else is_spring)
        and season_day(each.seed_on, yard.lat).year == year
    )


def is_autumn(day: date, lat: float) -> bool:
    """Tell whether seed sown on a day meets the late-summer round rather than spring's."""
    northern = season_day(day, lat)
    return (northern.month, northern.day) >= _AUTUMN_FROM
