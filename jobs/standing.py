"""A yard as it stands: its ground, product, seasons, and everything that was put down.

Loaded in a few statements and passed down; nothing below reads the database for it again. A write
makes it old: whoever goes on after one loads it anew.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property
from typing import Final

from jobs.agronomy.assumed import Assumed
from jobs.agronomy.ground import ALL_OF_IT, Lineage, Origin
from jobs.agronomy.history import Entry, History, Records
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.labels import product_of, product_of_snapshot
from storage import (
    applications,
    crews,
    grounds,
    held,
    products,
    readings,
    seasons,
    seedings,
    sightings,
    wishes,
    yards,
)
from storage.applications import ApplicationRecord, WateringRecord
from storage.crews import MemberRecord
from storage.database import Work
from storage.grounds import OriginRecord
from storage.products import ProductRecord
from storage.readings import ReadingRecord
from storage.seasons import SeasonRecord
from storage.seedings import SeedingRecord
from storage.sightings import SightingRecord
from storage.wishes import ChatWishes, Snooze, YardWishes
from storage.yards import YardRecord, ZoneRecord

_M2_PER_HA: Final = 10_000.0
#: What others put down without anybody knowing what: it may be anything.
_UNKNOWN: Final = Product((), "granule")
#: An unknown product is spoken of for the longest period that labels count over.
_REMEMBERED: Final = timedelta(days=365)


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a zone is with a season's rounds.

    Attributes
    ----------
    had
        Local days on which it had a whole round, oldest first.
    share
        How much of it has had the round begun since (0-1).
    records
        The applications of that round.
    """

    had: tuple[date, ...] = ()
    share: float = 0.0
    records: tuple[int, ...] = ()


@dataclass(frozen=True)
class Standing:
    """One yard as it stands.

    Attributes
    ----------
    origins, lineage
        What became of its ground, as it is kept and as it is reckoned with.
    done, waterings, readings, sightings, seedings
        What stands of what people told, oldest first.
    record
        The chosen product; None before one is.
    wishes, chat_wishes
        What is wished of the yard, and in its owner's chat.
    snoozes
        By chat, how it put the yard off.
    muted
        Targets and the years in which no more is said of them.
    members
        Who else has a share in its work.
    """

    yard: YardRecord
    zones: tuple[ZoneRecord, ...]
    origins: tuple[OriginRecord, ...]
    lineage: Lineage
    done: tuple[ApplicationRecord, ...]
    record: ProductRecord | None
    seasons: Mapping[str, SeasonRecord]
    seedings: tuple[SeedingRecord, ...]
    waterings: tuple[WateringRecord, ...]
    readings: tuple[ReadingRecord, ...]
    sightings: tuple[SightingRecord, ...]
    wishes: YardWishes
    chat_wishes: ChatWishes
    snoozes: Mapping[int, Snooze]
    muted: frozenset[tuple[str, int]]
    members: tuple[MemberRecord, ...]

    @cached_property
    def product(self) -> Product | None:
        """The chosen product, by its label."""
        return None if self.record is None else product_of(self.record)

    @property
    def chosen(self) -> ProductRecord:
        """The product, for those who know that one is chosen."""
        assert self.record is not None
        return self.record

    @property
    def label(self) -> Product:
        """Its label, likewise."""
        assert self.product is not None
        return self.product

    @cached_property
    def programme(self) -> tuple[ZoneRecord, ...]:
        """The zones that get every round."""
        return tuple(zone for zone in self.zones if zone.is_treated)

    @cached_property
    def records(self) -> Records:
        """Every application as the ledger counts them."""
        return Records(entries_of(self.done), self.lineage)

    def history(self, zone: ZoneRecord) -> History:
        """Return what may have met a zone's ground."""
        return self.records.on(zone.ground_id)

    def season(self, target: Target) -> SeasonRecord | None:
        """Return where the yard stands with a target; None before its first look."""
        return self.seasons.get(target)

    def application(self, application_id: int | None) -> ApplicationRecord | None:
        """Return an application that stands; None for one that was taken back."""
        return next((done for done in self.done if done.id == application_id), None)

    def is_muted(self, target: str, year: int) -> bool:
        """Tell whether no more is said of a target this year."""
        return (target, year) in self.muted

    def snooze(self, chat_id: int) -> Snooze:
        """Return how a chat has put the yard off."""
        return self.snoozes.get(chat_id, Snooze())

    def of_season(self, target: Target, year: int) -> list[ApplicationRecord]:
        """Return a season's applications, oldest first."""
        return [done for done in self.done if done.target == target and done.year == year]

    def progress(self, zone: ZoneRecord, target: Target, year: int) -> Progress:
        """Return how far a zone is with a season's rounds; parts of one add up."""
        had: list[date] = []
        share, records = 0.0, list[int]()
        for done in self.of_season(target, year):
            got = self.covered(zone, done)
            if not got:
                continue
            share, records = share + got, [*records, done.id]
            if share >= ALL_OF_IT:
                had.append(done.applied_on)
                share, records = 0.0, []
        return Progress(tuple(had), share, tuple(records))

    def covered(self, zone: ZoneRecord, done: ApplicationRecord) -> float:
        """Return the share of a zone's ground that an application covered (0-1)."""
        shares = {share.ground_id: min(1.0, share.share) for share in done.shares}
        found = self.lineage.covered(zone.ground_id, shares)
        return 1.0 if found >= ALL_OF_IT else found

    def left_m2(self, zone: ZoneRecord, begun: Progress) -> float:
        """Return how much of a zone is still to have the round begun [m²]."""
        done_m2 = sum(
            share.area_m2
            for done in self.done
            if done.id in begun.records
            for share in done.shares
            if share.ground_id == zone.ground_id
        )
        by_share = zone.treated_m2 * (1 - begun.share)
        return max(0.0, min(by_share, zone.treated_m2 - done_m2))

    def left(self, zone: ZoneRecord, begun: Progress) -> History:
        """Return what may have met the square feet still to have the round begun."""
        if not begun.records:
            return self.history(zone)
        return self.records.left(zone.ground_id, begun.records) or self.history(zone)

    def unknown_on(self, zone: ZoneRecord, on: date) -> date | None:
        """Return the newest day of the year before on which nobody knows what went onto a zone.

        It counts for no maximum, and may well count.
        """
        days = [
            done.applied_on
            for done in self.done
            if done.product is None
            and done.applied_on >= on - _REMEMBERED
            and self.covered(zone, done)
        ]
        return max(days, default=None)


def standing_of(work: Work, yard: YardRecord) -> Standing:
    """Return a yard as it stands, loaded once as long as nothing is written."""
    found = held.made(work, ("standing", yard.id), lambda: _load(work, yard))
    # Another look at the yard itself, such as one with other settings, is another picture.
    return found if found.yard is yard or found.yard == yard else _load(work, yard)


def stands_anew(work: Work, standing: Standing) -> None:
    """Let a yard stand as a look leaves it, where its rows are written only later."""
    held.remade(work, ("standing", standing.yard.id), standing)


def _load(work: Work, yard: YardRecord) -> Standing:
    # Its product comes with all else of it, in one statement.
    held.load(work, [yard.id])
    record = None if yard.product_id is None else products.product(work, yard.product_id)
    origins = tuple(grounds.origins(work, yard.id))
    return Standing(
        yard,
        tuple(yards.zones(work, yard.id)),
        origins,
        lineage_of(origins),
        tuple(applications.of_yard(work, yard.id)),
        record,
        {each.target: each for each in seasons.of_yard(work, yard.id)},
        tuple(seedings.of_yard(work, yard.id)),
        tuple(applications.waterings(work, yard.id)),
        tuple(readings.of_yard(work, yard.id)),
        tuple(sightings.of_yard(work, yard.id)),
        wishes.of_yard(work, yard.id),
        wishes.of_chat(work, yard.chat_id),
        wishes.snoozes(work, yard.id),
        wishes.muted(work, yard.id),
        tuple(crews.members(work, yard.id)),
    )


def lineage_of(origins: Iterable[OriginRecord]) -> Lineage:
    """Return what became of ground, as it is reckoned with."""
    return Lineage(
        Origin(each.ground_id, each.from_id, each.kind, each.area_m2)  # type: ignore[arg-type]
        for each in origins
    )


def entries_of(done: Sequence[ApplicationRecord]) -> tuple[Entry, ...]:
    """Return applications as the ledger counts them.

    What others put down counts as assumed where its amount tells nothing; where nobody knows what
    it was, nobody knows what it counts. What people of the yard put down before they told of a
    product counts nowhere.
    """
    found = []
    for each in done:
        if each.product is None and each.by_whom is None:
            continue
        product = _UNKNOWN if each.product is None else product_of_snapshot(each.product)
        taken_for = None if each.product is None else each.product.get("assumed")
        per = "L/ha" if product.rate is not None and not product.rate.is_weight else "kg/ha"
        for share in each.shares:
            rate = None
            if share.amount_si and product.rate is not None:
                rate = Rate(share.amount_si / share.area_m2 * _M2_PER_HA, per)
            counted = product
            if taken_for is not None:
                counted, rate = Assumed(**taken_for).as_product(product)
            found.append(
                Entry(
                    share.ground_id,
                    each.applied_on,
                    counted,
                    rate,
                    zone=share.zone_name,
                    record=each.id,
                    share=share.share,
                    beside=frozenset(share.beside),
                )
            )
    return tuple(found)
