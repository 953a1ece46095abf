"""Seed and barrier on the same ground: what was put down, when seed may go in, who goes first."""

from __future__ import annotations

from datetime import date
from typing import Final

from jobs.agronomy.history import History
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.labelled_product import Product, ai_kg_ha
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.agronomy.seeding import SeedingAnswer, Treated, earliest_seeding
from jobs.agronomy.strengths import StrengthUnknown
from jobs.local_days import season_day
from jobs.rounds import LATE_SUMMER_FROM
from jobs.standing import Standing

#: Seed sown from this northern day on is autumn seed: it meets the late-summer round.
_AUTUMN_FROM: Final = (7, 1)


def treated_on(history: History, label_days: int | None = None) -> list[Treated]:
    """Return every ingredient put down on a zone or any part of it, as seed meets it.

    Parameters
    ----------
    history
        What may have met the zone.
    label_days
        The wait a person read off the label; it wins over what was kept with the product.
    """
    return [
        each
        for entry in history.entries
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
    history: History, species: str | None, method: str, label_days: int | None
) -> SeedingAnswer:
    """Return when a zone may be seeded; an unknown species gets no exception."""
    treated = treated_on(history, label_days)
    return earliest_seeding(treated, species or "", "slit" if method == "slit" else "broadcast")


def given_to_seed(standing: Standing, target: Target, year: int, today: date) -> frozenset[int]:
    """Return ids of zones left out of a round because seed goes first there.

    Autumn seed goes before the late-summer round, and from then on before a spring half still due:
    put down weeks before the seed it would be in the way just as much. `today` is a northern day.
    """
    is_spring = target is Target.SUMMER_ANNUALS
    is_late = not is_spring or (today.month, today.day) >= LATE_SUMMER_FROM
    lat = standing.yard.lat
    first = {
        each.ground_id
        for each in standing.seedings
        if each.is_before_round
        and (is_late if is_autumn(each.seed_on, lat) else is_spring)
        and season_day(each.seed_on, lat).year == year
    }
    return frozenset(
        zone.id for zone in standing.zones if standing.lineage.comes_of(zone.ground_id, first)
    )


def is_autumn(day: date, lat: float) -> bool:
    """Tell whether seed sown on a day meets the late-summer round rather than spring's."""
    northern = season_day(day, lat)
    return (northern.month, northern.day) >= _AUTUMN_FROM
