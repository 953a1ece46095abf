"""Random lives of a yard, held against the ground itself: what lies on each hundred square feet.

The yard is made of squares. A life renames, splits, merges, removes and re-measures its zones, puts
products down on all or parts of them, hears of what others did, takes things back; the squares keep
what truly fell on them. After every step what is printed as still to put down is added to it, and
must stay within the label's maximum on every square it is meant for. The arithmetic is done anew
here, with pint, by the label's own words.
"""

from __future__ import annotations

import copy
import shutil
from contextlib import AbstractContextManager
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, ClassVar

import pint
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, invariant, precondition, rule

from jobs.agronomy.amounts import Amount, LabelLimitExceeded
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient
from jobs.labels import snapshot
from jobs.rounds import begun
from jobs.standing import standing_of
from jobs.uses import confirming as uses
from jobs.uses import how_much as amount_uses
from jobs.uses import same_ground, undo
from jobs.uses import zones as zone_uses
from storage import grounds, products, yards
from storage.database import Database, Work
from storage.recorder import Author
from storage.yards import NewZone, YardRecord, ZoneRecord
from tests.made_yard import made_yard

UNITS: pint.UnitRegistry[Any] = pint.UnitRegistry()
LB_PER_1000 = UNITS.pound / (1000 * UNITS.foot**2)
SQUARE = 100 * UNITS.foot**2
SQUARE_M2 = SQUARE.to("m^2").magnitude

PER_1000 = "lb/1000 sq ft"
START = datetime(2026, 2, 20, 15, tzinfo=UTC)
SQUARES = 40
NAMES = ("front", "back", "side", "strip", "north lawn", "by the pool", "orchard", "green")

#: Made-up bags of one ingredient: 3 of 6 lb of product a calendar year; 4 lb of a weaker one, whose
#: label counts 1.1 lb of active ingredient an acre in any twelve months.
BAG = Product(
    (ActiveIngredient.of_percent("prodiamine", 0.38),),
    "granule",
    Rate(3.0, PER_1000),
    (LabelMaximum(Rate(6.0, PER_1000), period="calendar_year"),),
)
FEED = Product(
    (ActiveIngredient.of_percent("prodiamine", 0.19),),
    "granule",
    Rate(4.0, PER_1000),
    (LabelMaximum(Rate(1.1, "lb/acre"), of="ai", period="12_months"),),
)
SHARE_OF = {"bag": 0.0038, "feed": 0.0019}


@dataclass(frozen=True)
class Dose:
    """What fell on one square: of which record, when, and how much active ingredient."""

    record: int
    day: date
    ai: Any


@dataclass
class Truth:
    """What lies where: the squares of each zone by its id, and what fell on each square."""

    zones: dict[int, frozenset[int]] = field(default_factory=dict)
    ever: dict[int, frozenset[int]] = field(default_factory=dict)
    doses: dict[int, tuple[Dose, ...]] = field(default_factory=dict)

    def stand(self, zone: ZoneRecord, squares: frozenset[int]) -> None:
        """Put a zone on squares."""
        self.zones[zone.id] = squares
        self.ever[zone.ground_id] = self.ever.get(zone.ground_id, frozenset()) | squares

    @property
    def free(self) -> frozenset[int]:
        """The squares no zone stands on."""
        return frozenset(range(SQUARES)).difference(*self.zones.values())


def is_within_label(doses: tuple[Dose, ...], rate: Rate, product: str, on: date) -> bool:
    """Tell whether a rate on top of some doses stays within the product's label."""
    asked = rate.value * LB_PER_1000 * SHARE_OF[product]
    if product == "bag":
        limit = 6.0 * LB_PER_1000 * SHARE_OF["bag"]
        spans = [(date(on.year, 1, 1), date(on.year, 12, 31))]
    else:
        limit = 1.1 * UNITS.pound / UNITS.acre
        starts = [dose.day for dose in doses if 0 <= (on - dose.day).days < 365] + [on]
        spans = [(start, start + timedelta(days=364)) for start in starts]
    for first, last in spans:
        down = sum((d.ai for d in doses if first <= d.day <= last), start=0 * LB_PER_1000)
        if (down + asked).to(LB_PER_1000) > limit.to(LB_PER_1000) * (1 + 1e-6):
            return False
    return True


class Life(RuleBasedStateMachine):
    """One yard's life."""

    template: ClassVar[tuple[TemporaryDirectory[str], Path] | None] = None

    def __init__(self) -> None:
        super().__init__()
        self.folder = TemporaryDirectory()
        path = Path(self.folder.name) / "life.sqlite3"
        shutil.copy(_template(), path)
        self.db = Database(f"sqlite:///{path}", is_throwaway=True)
        self.now = START
        self.product = "bag"
        self.truth = Truth()
        self.before: list[Truth] = []

    def teardown(self) -> None:
        self.db.close()
        self.folder.cleanup()

    # --- what happens -----------------------------------------------------------------------------

    @initialize(sizes=st.lists(st.integers(2, 12), min_size=1, max_size=3))
    def measure(self, sizes: list[int]) -> None:
        with self._saying() as work:
            for name, size in zip(NAMES, sizes, strict=False):
                self._add(work, name, frozenset(sorted(self.truth.free)[:size]))
        self.before.clear()

    @rule(days=st.integers(1, 120))
    def time_passes(self, days: int) -> None:
        self.now += timedelta(days=days)

    @rule()
    def what_is_printed_is_put_down(self) -> None:
        """Put down what is printed, on what has not had the round yet, and say so."""
        with self._saying() as work:
            yard = _yard(work)
            plan = self._printed(work, yard)
            if plan is None or not plan.zones:
                return
            zone = plan.zones[0]
            amount = next(a for a in plan.plan.zones if a.zone.name == zone.name)
            squares = self._still_to_do(work, yard, zone)
            if not squares or not amount.zone.treated_m2 > 0:
                return
            self._apply(work, yard, zone, squares, plan.plan.rate.value, amount.amount)

    @rule(data=st.data(), share=st.sampled_from([0.25, 0.5, 0.75]), pounds=st.floats(0.5, 4.0))
    def a_part_is_put_down(self, data: st.DataObject, share: float, pounds: float) -> None:
        """Put some on any part of a zone, and say how large a part it was, not which."""
        with self._saying() as work:
            yard = _yard(work)
            zone = self._any_zone(work, data)
            if zone is None:
                return
            mine = sorted(self.truth.zones[zone.id])
            size = max(1, round(share * len(mine)))
            squares = data.draw(st.sets(st.sampled_from(mine), min_size=size, max_size=size))
            part = uses.Part(area_m2=min(zone.treated_m2, size / len(mine) * zone.treated_m2))
            amount = Amount(_rate(pounds).rate_si * (part.area_m2 or 0.0) / 1e4, "lb")
            self._apply(work, yard, zone, frozenset(squares), pounds, amount, part)

    @rule(data=st.data(), pounds=st.floats(0.5, 5.0))
    def the_service_was_here(self, data: st.DataObject, pounds: float) -> None:
        """Somebody else put down a product of the same ingredient, by a weight they told."""
        with self._saying() as work:
            yard = _yard(work)
            zone = self._any_zone(work, data)
            if zone is None:
                return
            kept = snapshot(products.product(work, 2 if self.product == "bag" else 1))
            amount = Amount(_rate(pounds).rate_si * zone.treated_m2 / 1e4, "lb")
            other = "feed" if self.product == "bag" else "bag"
            squares = self.truth.zones[zone.id]
            self._apply(
                work, yard, zone, squares, pounds, amount, uses.WHOLE, of=other, theirs=kept
            )

    @rule(data=st.data(), name=st.sampled_from(NAMES))
    def a_zone_is_renamed(self, data: st.DataObject, name: str) -> None:
        with self._saying() as work:
            zone = self._any_zone(work, data)
            if zone is None or name in _names(work):
                return
            self._step()
            zone_uses.rename(work, _yard(work), zone, name, now=self.now)

    @rule(data=st.data())
    def a_zone_is_split(self, data: st.DataObject) -> None:
        with self._saying() as work:
            zone = self._any_zone(work, data)
            names = [name for name in NAMES if name not in _names(work)]
            if zone is None or len(names) < 2 or len(self.truth.zones[zone.id]) < 2:
                return
            mine = sorted(self.truth.zones[zone.id])
            size = data.draw(st.integers(1, len(mine) - 1))
            some = data.draw(st.sets(st.sampled_from(mine), min_size=size, max_size=size))
            first_m2 = zone.area_m2 * size / len(mine)
            parts = [zone_uses.ZonePart(names[0], first_m2), zone_uses.ZonePart(names[1])]
            self._step()
            made = zone_uses.split(work, _yard(work), zone, parts, person_id=1, now=self.now)
            del self.truth.zones[zone.id]
            self.truth.stand(made[0], frozenset(some))
            self.truth.stand(made[1], frozenset(mine) - some)

    @rule()
    def zones_are_merged(self) -> None:
        with self._saying() as work:
            zones = yards.zones(work, 1)[-2:]
            if len(zones) < 2:
                return
            self._step()
            made = zone_uses.merge(
                work, _yard(work), zones, zones[0].name, person_id=1, now=self.now
            )
            squares = frozenset().union(*(self.truth.zones.pop(zone.id) for zone in zones))
            self.truth.stand(made, squares)

    @rule(data=st.data())
    def a_zone_is_taken_out(self, data: st.DataObject) -> None:
        with self._saying() as work:
            zone = self._any_zone(work, data)
            if zone is None:
                return
            self._step()
            zone_uses.remove(work, _yard(work), [zone], now=self.now)
            del self.truth.zones[zone.id]

    @rule(data=st.data(), name=st.sampled_from(NAMES))
    def a_zone_is_added(self, data: st.DataObject, name: str) -> None:
        with self._saying() as work:
            free = sorted(self.truth.free)
            if not free or name in _names(work):
                return
            squares = data.draw(st.sets(st.sampled_from(free), min_size=1, max_size=12))
            self._step()
            self._add(work, name, frozenset(squares))

    @rule(data=st.data(), factor=st.floats(0.9, 1.1))
    def a_zone_is_measured_again(self, data: st.DataObject, factor: float) -> None:
        """Nothing but the tape differs."""
        with self._saying() as work:
            zone = self._any_zone(work, data)
            if zone is None:
                return
            squares = self.truth.zones[zone.id]
            self._step()
            del self.truth.zones[zone.id]
            self._keep(work, zone.name, len(squares) * SQUARE_M2 * factor, squares)

    @rule(data=st.data())
    def a_zone_gives_ground(self, data: st.DataObject) -> None:
        with self._saying() as work:
            zone = self._any_zone(work, data)
            if zone is None or len(self.truth.zones[zone.id]) < 2:
                return
            mine = sorted(self.truth.zones[zone.id])
            size = data.draw(st.integers(1, len(mine) - 1))
            left = data.draw(st.sets(st.sampled_from(mine), min_size=size, max_size=size))
            self._step()
            del self.truth.zones[zone.id]
            self._keep(work, zone.name, size * SQUARE_M2, frozenset(left))

    @rule(data=st.data())
    def a_zone_takes_ground(self, data: st.DataObject) -> None:
        with self._saying() as work:
            zone, free = self._any_zone(work, data), sorted(self.truth.free)
            if zone is None or not free:
                return
            more = data.draw(st.sets(st.sampled_from(free), min_size=1, max_size=8))
            squares = self.truth.zones[zone.id] | more
            grown_m2 = len(squares) * SQUARE_M2
            if grown_m2 < 1.03 * zone.area_m2:
                return  # within what a tape is off by, nobody can tell
            self._step()
            del self.truth.zones[zone.id]
            self._keep(work, zone.name, grown_m2, squares)

    @rule()
    def a_question_is_answered(self) -> None:
        """Say truly whether a zone lies where another was."""
        with self._saying() as work:
            asked = same_ground.questions(work, _yard(work))
            if not asked:
                return
            question = asked[0]
            origin = {o.id: o for o in grounds_of(work)}[question.id]
            nowhere = frozenset[int]()
            here = self.truth.ever.get(origin.ground_id, nowhere)
            is_same = bool(here & self.truth.ever.get(origin.from_id, nowhere))
            self._step()
            same_ground.answer(work, _yard(work), question.id, is_same=is_same, now=self.now)

    @precondition(lambda self: self.before)
    @rule()
    def the_last_step_is_taken_back(self) -> None:
        with self._saying() as work:
            asker = undo.Asker(1, 1, lambda _: "own")
            entry = undo.undoable(work, asker, yard_id=1).entry
            undo.undo(work, entry, person_id=1, now=self.now)
        self.truth = self.before.pop()

    @rule(product=st.sampled_from(["bag", "feed"]))
    def another_product_is_chosen(self, product: str) -> None:
        with self.db.writing() as work:
            yards.change(work, 1, product_id=1 if product == "bag" else 2)
        self.product = product

    # --- what must hold ---------------------------------------------------------------------------

    @invariant()
    def nothing_printed_passes_the_label(self) -> None:
        if not self.truth.zones:
            return
        with self.db.reading() as work:
            yard = _yard(work)
            plan = self._printed(work, yard)
            if plan is None:
                return
            today = self.now.date()
            for zone in plan.zones:
                amount = next(a for a in plan.plan.zones if a.zone.name == zone.name)
                area = amount.zone.treated_m2 * UNITS.meter**2
                asked = (plan.plan.rate.value * LB_PER_1000 * area).to("kg").magnitude
                assert abs(amount.amount.si - asked) <= 1e-6 * max(1.0, asked)
                assert area.magnitude <= zone.treated_m2 * (1 + 1e-9)
                for square in self._still_to_do(work, yard, zone):
                    doses = self.truth.doses.get(square, ())
                    assert is_within_label(doses, plan.plan.rate, self.product, today), (
                        f"{zone.name}, square {square}: {doses}"
                    )

    # --- how --------------------------------------------------------------------------------------

    def _saying(self) -> AbstractContextManager[Work]:
        return self.db.writing(Author(1, 1, self.now))

    def _step(self) -> None:
        self.before.append(copy.deepcopy(self.truth))

    def _printed(self, work: Work, yard: YardRecord) -> amount_uses.YardAmounts | None:
        try:
            return amount_uses.for_yard(work, yard, self.now.date())
        except (
            amount_uses.NothingMeasured,
            amount_uses.AllLeftOut,
            LabelLimitExceeded,
            UseUnknown,
        ):
            return None

    def _still_to_do(self, work: Work, yard: YardRecord, zone: ZoneRecord) -> frozenset[int]:
        """Return the squares of a zone that have had nothing of the round begun there."""
        standing = standing_of(work, yard)
        records = begun(standing, zone, self.now.date()).records
        return frozenset(
            square
            for square in self.truth.zones[zone.id]
            if not any(dose.record in records for dose in self.truth.doses.get(square, ()))
        )

    def _apply(
        self,
        work: Work,
        yard: YardRecord,
        zone: ZoneRecord,
        squares: frozenset[int],
        pounds: float,
        amount: Amount,
        part: uses.Part | None = None,
        *,
        of: str | None = None,
        theirs: dict[str, object] | None = None,
    ) -> None:
        command = uses.Confirm(
            [zone],
            self.now,
            amount,
            "said",
            is_sure=True,
            parts={} if part is None else {zone.id: part},
            by_whom=None if theirs is None else "the service",
            product=theirs,
        )
        self._step()
        done = uses.confirm(work, yard, command, person_id=1, now=self.now)
        ai = pounds * LB_PER_1000 * SHARE_OF[of or self.product]
        dose = Dose(done.application_id, self.now.date(), ai)
        for square in squares:
            self.truth.doses[square] = (*self.truth.doses.get(square, ()), dose)

    def _any_zone(self, work: Work, data: st.DataObject) -> ZoneRecord | None:
        zones = yards.zones(work, 1)
        return data.draw(st.sampled_from(zones)) if zones else None

    def _add(self, work: Work, name: str, squares: frozenset[int]) -> None:
        if squares:
            self._keep(work, name, len(squares) * SQUARE_M2, squares)

    def _keep(self, work: Work, name: str, area_m2: float, squares: frozenset[int]) -> None:
        new = [NewZone(name, "", "", "", area_m2)]
        kept = zone_uses.keep(work, _yard(work), new, person_id=1, now=self.now)
        self.truth.stand(next(zone for zone in kept if zone.name == name), squares)


def grounds_of(work: Work) -> list[grounds.OriginRecord]:
    """Return what the yard's ground came of."""
    return grounds.origins(work, 1)


def _rate(pounds: float) -> Rate:
    return Rate(pounds, PER_1000)


def _yard(work: Work) -> YardRecord:
    yard = yards.yard(work, 1)
    assert yard is not None
    return yard


def _names(work: Work) -> set[str]:
    return {zone.name for zone in yards.zones(work, 1)}


def _template() -> Path:
    """Return an upgraded database with the made-up yard, copied for each life."""
    if Life.template is None:
        folder = TemporaryDirectory()
        path = Path(folder.name) / "template.sqlite3"
        made_yard(path, (BAG, FEED), START).close()
        Life.template = folder, path
    return Life.template[1]
