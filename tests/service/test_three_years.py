"""A yard's life over three years, whatever happens in it: ledger, barrier, stock and record agree.

The model beside it keeps nothing but a list of what was put down where, when and how much, and
reckons everything anew from that list.
"""

from __future__ import annotations

import shutil
import tempfile
from dataclasses import dataclass
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest
from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, invariant, precondition, rule

from jobs.agronomy.amounts import Amount
from jobs.agronomy.labelled_product import Product
from jobs.agronomy.ledger import label_allowances
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import ARROWS, State, Target
from jobs.agronomy.strengths import ActiveIngredient
from jobs.barriers import Course, doses_of, zone_barriers
from jobs.judged import Judged
from jobs.labels import product_of
from jobs.season_facts import Sight
from jobs.standing import standing_of
from jobs.uses import confirming as uses
from jobs.uses import recording
from jobs.uses.undo import Asker, NothingToUndo, undo, undoable
from jobs.yard_look import look
from storage import applications, products, seasons, yards
from storage.database import Database
from storage.recorder import Author
from storage.yards import NewZone
from tests.made_yard import made_yard

ZONES = {"lawn": 200.0, "strip": 40.0, "bank": 90.0}
SHELF_KG = 60.0
#: Share of active ingredient in the made-up product, and its label's maximum a year [kg/ha].
SHARE = 0.0038
MAX_PRODUCT_LB_1000 = 6.4
KG_HA_PER_LB_1000 = 48.8243  # 1 lb/1000 sq ft: 0.45359237 kg on 92.90304 m² (exact definitions)
#: A made-up bag.
BAG = Product(
    (ActiveIngredient.of_percent("prodiamine", 100 * SHARE),),
    "granule",
    Rate(3.2, "lb/1000 sq ft"),
    (LabelMaximum(Rate(MAX_PRODUCT_LB_1000, "lb/1000 sq ft"), period="calendar_year"),),
)
TARGETS = {"summer_annuals": "a", "winter_annuals": "b", "other": "c"}


class MadeCourse(Course):
    """A made-up soil: a cosine through the year, 2 °C in late January and 26 °C in late July."""

    def __init__(self) -> None:
        pass

    def of_zone(self, name: str) -> Course:
        return self

    def soil(self, first: date, last: date) -> np.ndarray:
        days = np.arange((last - first).days + 1) + first.timetuple().tm_yday
        return 14.0 - 12.0 * np.cos(2 * np.pi * (days - 25) / 365.25)

    def rain_after(self, day: date) -> np.ndarray:
        return np.zeros(10)


@dataclass
class Put:
    """One zone's share of one application, as the model knows it."""

    application: int
    zone: str
    day: date
    year: int
    target: str
    kg: float
    is_ours: bool


def judged_on(day: date, target: Target) -> Judged:
    month_day = (4, 28) if target is Target.SUMMER_ANNUALS else (9, 25)
    event = date(day.year, *month_day)
    return Judged(
        known_until=day - timedelta(days=1),
        soil_5day_c=12.0,
        change_7day_c=0.5,
        p10=event - timedelta(days=7),
        p50=event,
        p90=event + timedelta(days=7),
        past_years=16,
        observed_at=datetime.combine(day, time(6), tzinfo=UTC),
        is_invented=True,
        soil_is_modelled=False,
        warned_on=date(day.year, 8, 18) if target is Target.WINTER_ANNUALS else None,
    )


class Life(RuleBasedStateMachine):
    """Years of putting down, taking back, correcting and waiting, in any order."""

    template: Path

    def __init__(self) -> None:
        super().__init__()
        self.folder = Path(tempfile.mkdtemp(prefix="three-years-"))
        shutil.copy(self.template, self.folder / "life.sqlite3")
        self.db = Database(f"sqlite:///{self.folder / 'life.sqlite3'}", is_throwaway=True)
        self.now = datetime(2026, 2, 1, 15, tzinfo=UTC)
        self.puts: list[Put] = []
        self.course = MadeCourse()
        self.undoable: list[int] = []

    def teardown(self) -> None:
        self.db.close()
        shutil.rmtree(self.folder)

    @property
    def today(self) -> date:
        return self.now.date()

    def sight(self) -> Sight:
        judged = {target: judged_on(self.today, target) for target in Target}
        no_days = SimpleNamespace(held=SimpleNamespace(known=None))
        return Sight(judged, no_days, self.course)  # type: ignore[arg-type]

    def see(self, work) -> None:
        yard = yards.yard(work, 1)
        assert yard is not None
        before = {t: seasons.season(work, 1, t) for t in Target}
        sight = self.sight()
        look(work, yard, dict(sight.judged), None, self.now, course=self.course)
        for target in Target:
            was, now = before[target], seasons.season(work, 1, target)
            if was is not None and now is not None and was.year == now.year:
                walked = {(State(was.state), State(now.state))}
                assert walked <= ARROWS | two_steps() or was.state == now.state

    @rule(days=st.integers(1, 75))
    def wait(self, days: int) -> None:
        end = min(self.now + timedelta(days=days), datetime(2029, 1, 15, 15, tzinfo=UTC))
        while self.now < end:
            self.now = min(self.now + timedelta(days=9), end)
            with self.db.writing() as work:
                self.see(work)

    @rule(
        names=st.sets(st.sampled_from(sorted(ZONES)), min_size=1),
        share=st.sampled_from([None, 0.5, 1.0, 1.6]),
        ago=st.integers(0, 20),
        is_service=st.booleans(),
    )
    def put_down(self, names: set[str], share: float | None, ago: int, is_service: bool) -> None:
        at = self.now - timedelta(days=ago)
        with self.db.writing(Author(1, 1, self.now)) as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            zones = [zone for zone in yards.zones(work, 1) if zone.name in names]
            area = sum(zone.area_m2 for zone in zones)
            full_kg = area / 1e4 * 3.2 * KG_HA_PER_LB_1000
            amount = None if share is None else Amount(full_kg * share, "lb")
            command = uses.Confirm(
                zones, at, amount, "made up", True, by_whom="service" if is_service else None
            )
            done = uses.confirm(work, yard, command, person_id=1, now=self.now, sight=self.sight())
        for zone in zones:
            self.puts.append(
                Put(
                    application=done.application_id,
                    zone=zone.name,
                    day=at.date(),
                    year=done.year,
                    target=done.target,
                    kg=full_kg * (share or 1.0) * zone.area_m2 / area,
                    is_ours=not is_service,
                )
            )
        self.undoable.append(done.application_id)

    @precondition(lambda self: self.undoable)
    @rule()
    def take_back(self) -> None:
        with self.db.writing(Author(1, 1, self.now)) as work:
            try:
                entry = undoable(work, Asker(1, 1, lambda _: "own"), yard_id=1).entry
            except NothingToUndo:
                return
            undo(work, entry, person_id=1, now=self.now)
            (change,) = entry.changes
            if change.action == "application.add":
                self.undoable.remove(change.subject_id)
                self.puts = [p for p in self.puts if p.application != change.subject_id]
            else:
                self._read_days(work)

    @precondition(lambda self: self.puts)
    @rule(which=st.integers(0, 50), ago=st.integers(0, 30))
    def correct_the_day(self, which: int, ago: int) -> None:
        record_id = self.puts[which % len(self.puts)].application
        at = self.now - timedelta(days=ago)
        with self.db.writing(Author(1, 1, self.now)) as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            recording.redate(
                work, yard, record_id, at, sight=self.sight(), person_id=1, now=self.now
            )
            self._read_days(work)
            [moved] = [done for done in applications.of_yard(work, 1) if done.id == record_id]
            assert moved.applied_on == at.date()

    def _read_days(self, work) -> None:
        days = {done.id: done for done in applications.of_yard(work, 1)}
        for put in self.puts:
            put.day, put.year = days[put.application].applied_on, days[put.application].year

    @invariant()
    def the_ledger_counts_what_is_down(self) -> None:
        with self.db.reading() as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            product = product_of(products.product(work, 1))
            standing = standing_of(work, yard)
            for zone in standing.zones:
                name, area = zone.name, ZONES[zone.name]
                (item,) = label_allowances(standing.history(zone), product, self.today)
                kg = sum(
                    p.kg for p in self.puts if p.zone == name and p.day.year == self.today.year
                )
                used = kg / (area / 1e4) / KG_HA_PER_LB_1000
                assert item.used == pytest.approx(used, rel=1e-4, abs=1e-9)
                assert item.left == pytest.approx(
                    max(0.0, MAX_PRODUCT_LB_1000 - used), rel=1e-4, abs=1e-3
                )

    @invariant()
    def the_record_lists_what_is_down(self) -> None:
        with self.db.reading() as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            rows = recording.log_rows(work, yard, TARGETS)
        assert sorted((r.record, r.zone, r.applied_on) for r in rows) == sorted(
            (p.application, p.zone, p.day.isoformat()) for p in self.puts
        )
        total_kg = sum(row.ingredient_kg or 0.0 for row in rows)
        assert total_kg == pytest.approx(sum(p.kg for p in self.puts) * SHARE, abs=1e-5)

    @invariant()
    def the_barrier_is_made_of_what_is_down(self) -> None:
        with self.db.reading() as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            standing = standing_of(work, yard)
            for zone in standing.zones:
                name, area = zone.name, ZONES[zone.name]
                doses = doses_of(standing.history(zone).entries, yard.lat)
                rate = sum(dose.rate_kg_ha for dose in doses)
                kg = sum(p.kg for p in self.puts if p.zone == name)
                assert rate == pytest.approx(kg * SHARE / (area / 1e4), rel=1e-4, abs=1e-9)
            found = zone_barriers(
                standing,
                standing.zones,
                self.course,
                Target.SUMMER_ANNUALS,
                self.today.year,
            )
        for each in found:
            newest = max(p.day for p in self.puts if p.zone == each.zone)
            assert each.since <= newest
            if each.hold.holds_at_all and each.hold.ends is not None:
                assert each.hold.ends_early is not None
                assert each.hold.ends_early <= each.hold.ends

    @invariant()
    def the_shelf_holds_what_was_not_put_down(self) -> None:
        with self.db.reading() as work:
            shelf = products.product(work, 1).shelf_si
        put_down = sum(p.kg for p in self.puts if p.is_ours)
        assert shelf == pytest.approx(max(0.0, SHELF_KG - put_down), abs=1e-2)

    @invariant()
    def each_season_ends_back_in_waiting(self) -> None:
        with self.db.reading() as work:
            for target, ends in ((Target.SUMMER_ANNUALS, (9, 1)), (Target.WINTER_ANNUALS, (12, 1))):
                season = seasons.season(work, 1, target)
                if season is None or season.year != self.today.year:
                    continue
                if (self.today.month, self.today.day) >= ends:
                    assert season.state == State.WAITING


def two_steps() -> set[tuple[State, State]]:
    """Return what two arrows in one look come to."""
    return {(a, d) for a, b in ARROWS for c, d in ARROWS if b == c}


@pytest.fixture(scope="module", autouse=True)
def template(tmp_path_factory):
    """An upgraded database with the made-up yard, copied for each life."""
    path = tmp_path_factory.mktemp("template") / "template.sqlite3"
    db = made_yard(path, (BAG,), datetime(2026, 2, 1, 15, tzinfo=UTC))
    with db.writing() as work:
        products.change(work, 1, shelf_si=SHELF_KG)
        new = [NewZone(name, "", "", "", area) for name, area in ZONES.items()]
        yards.keep_zones(work, 1, new, person_id=1, now=datetime(2026, 2, 1, 15, tzinfo=UTC))
        yards.change(work, 1, has_late_summer_round=True, has_dormant_half=True)
    db.close()
    Life.template = path


TestLife = Life.TestCase
TestLife.settings = settings(
    max_examples=8,
    stateful_step_count=20,
    derandomize=True,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
