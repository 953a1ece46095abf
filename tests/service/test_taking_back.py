"""What was changed is taken back row by row, put back again, and never over something newer.

What stands in the journalled tables is read before and after each use case, and held against what
stands after as many undos and redos.
"""

from __future__ import annotations

import contextlib
import os
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, timedelta
from itertools import count
from typing import Any

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from sqlalchemy import Table, select, update

from jobs.agronomy.amounts import Amount
from jobs.agronomy.rates import Rate
from jobs.agronomy.season import Target
from jobs.agronomy.strengths import ActiveIngredient
from jobs.uses import (
    amending,
    calibrating,
    confirming,
    corners,
    eligibility,
    entering_products,
    grass,
    keeping_wishes,
    labelling,
    recording,
    seed_plans,
    sketch_photos,
    undo,
    water_reports,
    weeds_seen,
    zones,
)
from jobs.uses import yard_settings as yard_uses
from jobs.yard_look import look
from storage import chats, crews, journal, models, recorder, yards
from storage import products as product_rows
from storage.database import Database, StaleWrite, Work
from storage.journalled import NOT_KEPT, TABLES, image_of
from storage.recorder import Author
from storage.yards import NewZone, YardRecord, ZoneRecord
from tests.made_once import database_at, on_server

SERVER = os.environ.get("SOILBELL_TEST_POSTGRESQL_URL")
NOON = datetime(2026, 4, 2, 17, tzinfo=UTC)
ZONES = {"lawn": 200.0, "strip": 40.0, "bank": 90.0}

needs_server = pytest.mark.skipif(
    SERVER is None, reason="SOILBELL_TEST_POSTGRESQL_URL names no PostgreSQL server to test on"
)
both = pytest.mark.parametrize(
    "base",
    ["sqlite", pytest.param("postgresql", marks=[pytest.mark.postgresql, needs_server])],
    indirect=True,
)


@pytest.fixture(scope="module")
def base(request, tmp_path_factory) -> Iterator[Database]:
    """An upgraded database; every test has a chat and yard of its own in it."""
    if request.param == "sqlite":
        made = database_at(tmp_path_factory.mktemp("base") / "base.sqlite3")
        yield made
        made.close()
        return
    with on_server(SERVER) as url:
        made = Database(url)
        made.upgrade()
        yield made
        made.close()


def standing(work: Work) -> dict[str, dict[int, Any]]:
    """Return what stands in every journalled table: struck-out rows and empty machines do not."""
    work.expire_all()
    found: dict[str, dict[int, Any]] = {}
    for mapper in models.Base.registry.mappers:
        table = mapper.local_table
        assert isinstance(table, Table)
        kept = TABLES.get(table.name)
        if kept is None:
            continue
        columns = kept.columns(table)
        rows = {
            mapper.primary_key_from_instance(row)[0]: row for row in work.scalars(select(mapper))
        }
        found[table.name] = {
            key: image_of(row, columns)
            for key, row in rows.items()
            if kept.mark is None or getattr(row, kept.mark) is None
        }
    stand = found["application"].keys()
    parts = found["application_zone"]
    found["application_zone"] = {k: v for k, v in parts.items() if v["application_id"] in stand}
    # Ground that no zone stands on is as good as none: only its name would be left.
    stands = {each["ground_id"] for each in found["zone"].values()}
    found["ground"] = {k: v for k, v in found["ground"].items() if k in stands}
    found["ground_origin"] = {
        k: v for k, v in found["ground_origin"].items() if v["ground_id"] in stands
    }
    tried = {each["machine_id"] for each in found["machine_try"].values()}
    said = ("swath_m", "tank_l", "spray_l_ha")
    found["machine"] = {
        key: row
        for key, row in found["machine"].items()
        if key in tried or any(row[name] is not None for name in said)
    }
    return found


@dataclass
class Person:
    """Somebody at a yard: each thing they do is a turn of its own."""

    base: Database
    person_id: int
    chat_id: int
    yard_id: int
    now: datetime = NOON
    turns: Iterator[int] = field(default_factory=count)
    role: str = "own"

    @property
    def asker(self) -> undo.Asker:
        return undo.Asker(self.person_id, self.chat_id, lambda _yard: self.role)

    @contextlib.contextmanager
    def turn(self, said: str = "") -> Iterator[Work]:
        key = f"{self.chat_id}:{self.person_id}:{next(self.turns)}"
        by = Author(self.person_id, self.chat_id, self.now, said, key, self.yard_id)
        with self.base.writing(by) as work:
            yield work

    def does(self, use: Use) -> None:
        with self.turn(use.__name__) as work:
            self.uses(work, use)

    def uses(self, work: Work, use: Use) -> None:
        yard = yards.yard(work, self.yard_id)
        assert yard is not None
        use(work, yard, {"person_id": self.person_id, "now": self.now})

    def takes_back(self, entry_id: int | None = None) -> journal.Entry:
        with self.turn("undo") as work:
            found = undo.undoable(work, self.asker, entry_id=entry_id, yard_id=self.yard_id)
            undo.undo(work, found.entry, person_id=self.person_id, now=self.now)
            return found.entry

    def puts_back(self, entry_id: int | None = None) -> journal.Entry:
        with self.turn("redo") as work:
            entry = undo.redoable(work, self.asker, entry_id=entry_id)
            undo.redo(work, entry, person_id=self.person_id, now=self.now)
            return entry

    def sees(self) -> dict[str, dict[int, Any]]:
        with self.base.reading() as work:
            return standing(work)


Use = Callable[[Work, YardRecord, dict[str, Any]], Any]
_chats = count(1)


def somebody(base: Database, *, name: str = "Ada") -> Person:
    """Return a person with a chat and a yard of their own, zones, a product and stock."""
    address = str(next(_chats))
    with base.writing() as work:
        chat = chats.chat_at(work, "test", address, title="", units="us", now=NOON)
        person = chats.person_at(work, "test", address, name=name, now=NOON)
    who = Person(base, person.id, chat.id, 0)
    with base.writing(Author(person.id, chat.id, NOON)) as work:
        command = yard_uses.Register(chat.id, person.id, 39.0, -96.0, f"Yard {address}")
        yard = yard_uses.register(work, command, NOON)
        who.yard_id = yard.id
    who.does(keeps_zones)
    who.does(enters("prodiamine", 3.2))
    who.does(stocks)
    with base.writing() as work:
        found = yards.yard(work, who.yard_id)
        assert found is not None
        look(work, found, {}, None, NOON)
    return who


def beside(owner: Person, *, role: str = "confirm") -> Person:
    """Return another person who shares somebody's yard from a chat of their own."""
    address = str(next(_chats))
    with owner.base.writing() as work:
        chat = chats.chat_at(work, "test", address, title="", units="us", now=NOON)
        person = chats.person_at(work, "test", address, name="Sam", now=NOON)
        models_ = models.Membership(
            yard_id=owner.yard_id,
            chat_id=chat.id,
            person_id=person.id,
            role=role,
            invited_by=owner.person_id,
            since=NOON,
            ended_at=None,
            ended_by=None,
        )
        work.add(models_)
    return Person(owner.base, person.id, chat.id, owner.yard_id, role=role)


def zones_of(work: Work, yard: YardRecord) -> list[ZoneRecord]:
    return yards.zones(work, yard.id)


def keeps_zones(work, yard, by):
    new = [NewZone(name, name, name, "", area) for name, area in ZONES.items()]
    zones.keep(work, yard, new, **by)


def measures_again(work, yard, by):
    zones.keep(work, yard, [NewZone("Lawn", "again", "again", "", 210.0)], **by)


def adds_a_zone(work, yard, by):
    zones.keep(work, yard, [NewZone("ditch", "ditch", "ditch", "", 12.5)], **by)


def removes_a_zone(work, yard, by):
    zones.remove(work, yard, zones_of(work, yard)[-1:], now=by["now"])


def says_a_grass(work, yard, by):
    what = grass.Change(grass="tall_fescue", part="ask", add_notes=frozenset({"slope"}))
    grass.change(work, yard, zones_of(work, yard)[:2], what, now=by["now"])


def enters(ingredient: str, rate: float) -> Use:
    def enters_a_product(work, yard, by):
        part = ActiveIngredient.of_percent(ingredient, 0.38)
        label_rate = Rate(rate, "lb/1000 sq ft")
        command = entering_products.Enter(
            f"{ingredient} made up", "granule", (part,), label_rate, ()
        )
        entering_products.enter(work, yard, command, **by)

    return enters_a_product


def stocks(work, yard, by):
    labelling.keep(work, yard, {}, stock=labelling.Stock(50.0, "lb"))


def says_of_the_label(work, yard, by):
    values = {"seeding_interval_days": 90, "max_applications": 2}
    packs = [labelling.PackSaid(25.0, "lb", 4999, "$")]
    labelling.keep(work, yard, values, packs=packs)


def registers(work, yard, by):
    recording.register(work, yard, "000-000")


def applies(*names: str, kg: float | None = None, days_ago: int = 0) -> Use:
    def applied(work, yard, by):
        at = by["now"] - timedelta(days=days_ago)
        there = [zone for zone in zones_of(work, yard) if not names or zone.name in names]
        amount = None if kg is None else Amount(kg, "lb")
        confirming.confirm(
            work, yard, confirming.Confirm(there, at, amount, "made up", is_sure=True), **by
        )

    return applied


def waters(depth_mm: float | None) -> Use:
    def watered(work, yard, by):
        on = by["now"].date()
        with contextlib.suppress(water_reports.NothingToWaterIn, water_reports.WateredBefore):
            water_reports.record_watering(work, yard, depth_mm, None, on=on, **by)

    return watered


def edits(work, yard, by):
    newest = recording.newest(work, yard)
    if newest is not None:
        recording.edit(work, yard, newest.id, "wind", "5 mph")


def redates(work, yard, by):
    newest = recording.newest(work, yard)
    if newest is not None:
        at = by["now"] - timedelta(days=4)
        recording.redate(work, yard, newest.id, at, sight=None, **by)


def puts_an_amount_right(work, yard, by):
    newest = recording.newest(work, yard)
    if newest is not None:
        amending.set_amount(work, yard, newest, Amount(7.5, "lb"), sight=None, **by)


def _wish(work, yard) -> seed_plans.Wish:
    zone = zones_of(work, yard)[:1]
    return seed_plans.Wish(zone, "tall_fescue", "broadcast", date(2026, 3, 20), None, "seed")


def plans_seed(work, yard, by):
    seed_plans.plan(work, yard, _wish(work, yard), **by)


def sows(work, yard, by):
    seed_plans.sown(work, yard, _wish(work, yard), **by)


def mows(work, yard, by):
    for day in range(4):
        on = by["now"].date() - timedelta(days=day)
        seed_plans.mown(work, yard, zones_of(work, yard), on=on, now=by["now"])


def sees_weeds(work, yard, by):
    seen = weeds_seen.Seen(
        zones_of(work, yard)[:2], "crabgrass", True, by["now"].date(), "crabgrass"
    )
    weeds_seen.record(work, yard, seen, **by)


def says_a_swath(work, yard, by):
    calibrating.keep_machine(work, yard, calibrating.SPREADER, swath_m=2.4, now=by["now"])


def tries_the_spreader(work, yard, by):
    calibrating.note_run(
        work,
        yard,
        used_si=0.5,
        area_m2=20.0,
        setting=4.0,
        is_half=None,
        unit="lb/1000 sq ft",
        said="run",
        **by,
    )


def adds_a_photo(work, yard, by):
    sketch_photos.keep_photo(work, yard, "a.jpg", **by)


def renames(work, yard, by):
    yard_uses.rename(work, yard, f"{yard.name}!"[-12:])


def moves(work, yard, by):
    yard_uses.move(work, yard, 40.0, -97.0, **by)


def sets_a_lead(work, yard, by):
    yard_uses.set_lead(work, yard, 35 if yard.lead_days != 35 else 28)


def says_who_waters(work, yard, by):
    eligibility.set_habit(work, yard, water_how="sprinkler", others_treat=True)


def says_a_licence(work, yard, by):
    person = chats.person(work, by["person_id"])
    eligibility.set_licence(work, yard, person, "C-1", date(2027, 1, 1))


def says_a_pace(work, yard, by):
    corners.set_pace(work, yard, chats.person(work, by["person_id"]), 0.81)


def wishes_hours(work, yard, by):
    free = {"5": [480, 720]}
    keeping_wishes.change_yard(work, yard, {"free_hours": free, "ground": "clay"})


def says_label_terms(work, yard, by):
    keeping_wishes.change_label(work, yard, {"water_in_mm": 12.0})


def wishes_quiet(work, yard, by):
    keeping_wishes.change_chat(work, yard, yard.chat_id, {"daily_cap": 2}, now=by["now"])


def snoozes(work, yard, by):
    keeping_wishes.snooze(work, yard, timedelta(days=3), None, chat_id=yard.chat_id, now=by["now"])


def mutes(work, yard, by):
    keeping_wishes.mute(work, yard, Target.SUMMER_ANNUALS, **by)


def unmutes(work, yard, by):
    keeping_wishes.unmute(work, yard, now=by["now"])


def does_two_things(work, yard, by):
    applies("strip")(work, yard, by)
    waters(None)(work, yard, by)


USES: tuple[Use, ...] = (
    measures_again,
    adds_a_zone,
    removes_a_zone,
    says_a_grass,
    enters("prodiamine", 3.0),
    enters("dithiopyr", 2.5),
    stocks,
    says_of_the_label,
    registers,
    applies(),
    applies("lawn", kg=6.0),
    applies("strip", "bank", days_ago=9),
    applies(kg=80.0),
    waters(None),
    waters(3.0),
    edits,
    redates,
    puts_an_amount_right,
    plans_seed,
    sows,
    mows,
    sees_weeds,
    says_a_swath,
    tries_the_spreader,
    adds_a_photo,
    renames,
    moves,
    sets_a_lead,
    says_who_waters,
    says_a_licence,
    says_a_pace,
    wishes_hours,
    says_label_terms,
    wishes_quiet,
    snoozes,
    mutes,
    unmutes,
    does_two_things,
)
lives = given(uses=st.lists(st.sampled_from(USES), max_size=14), walk=st.lists(st.booleans()))
many = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    phases=[Phase.explicit, Phase.generate],
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
)


@both
@lives
@many
def test_undo_and_redo_walk_along_what_was_changed(base: Database, uses, walk) -> None:
    who = somebody(base)
    # What stood after each thing that changed anything; a use that found nothing to do leaves none.
    stood = [who.sees()]
    for use in uses:
        who.does(use)
        now = who.sees()
        if now != stood[-1]:
            stood.append(now)
    at = len(stood) - 1
    for is_undo in [*[True] * at, *[False] * at, *walk]:
        if is_undo and at > 0:
            who.takes_back()
            at -= 1
        elif not is_undo and at < len(stood) - 1:
            who.puts_back()
            at += 1
        assert who.sees() == stood[at]


@both
def test_two_things_of_one_turn_are_taken_back_together(base: Database) -> None:
    who = somebody(base)
    before = who.sees()
    who.does(does_two_things)
    assert [change.action for change in who.takes_back().changes] == [
        "application.add",
        "watering.add",
    ]
    assert who.sees() == before


@both
def test_what_has_been_changed_since_is_not_overwritten(base: Database) -> None:
    who = somebody(base)
    who.does(sets_a_lead)
    with base.reading() as work:
        (first,) = _entries(work, who, "yard.change")
    who.does(sets_a_lead)
    before = who.sees()
    with pytest.raises(undo.NotTheNewest) as stuck:
        who.takes_back(first)
    assert [each.changes[0].action for each in stuck.value.newer] == ["yard.change"]
    assert who.sees() == before


@both
def test_bulk_statements_are_journalled_as_rows_are(base: Database) -> None:
    who = somebody(base)
    before = who.sees()
    with who.turn() as work:
        table = models.Zone
        work.execute(update(table).where(table.yard_id == who.yard_id).values(position=7))
        mine = table.yard_id == who.yard_id
        work.execute(update(table).where(mine, table.name == "bank").values(removed_at=NOON))
        journal.note(work, who.yard_id, "zones.change", names=[])
    assert who.sees() != before
    who.takes_back()
    assert who.sees() == before


@both
def test_the_shelf_gets_back_what_an_application_took_whatever_others_took_since(
    base: Database,
) -> None:
    owner = somebody(base)
    helper = beside(owner)
    full = _shelf(owner)
    owner.does(applies("lawn", kg=6.0))
    helper.does(applies("strip", kg=2.0))
    owner.takes_back()
    assert _shelf(owner) == pytest.approx(full - 2.0)
    helper.takes_back()
    assert _shelf(owner) == pytest.approx(full)


@both
def test_nobody_takes_back_what_another_did_and_hears_whose_it_is(base: Database) -> None:
    owner = somebody(base)
    helper = beside(owner)
    owner.does(applies("lawn"))
    with pytest.raises(undo.NothingToUndo) as nothing:
        helper.takes_back()
    assert nothing.value.instead is not None
    assert nothing.value.instead.person_id == owner.person_id
    helper.does(waters(None))
    with pytest.raises(undo.NothingToUndo):
        owner.takes_back(_last(helper))


@both
def test_what_others_said_of_an_application_hangs_on_it(base: Database) -> None:
    owner = somebody(base)
    helper = beside(owner)
    owner.does(applies("lawn"))
    helper.does(waters(2.0))
    with owner.turn() as work:
        found = undo.undoable(work, owner.asker, yard_id=owner.yard_id)
    assert [(each.person_id, each.changes[0].action) for each in found.others] == [
        (helper.person_id, "watering.add")
    ]


@both
def test_a_share_begun_anew_takes_back_nothing_from_before(base: Database) -> None:
    owner = somebody(base)
    helper = beside(owner)
    helper.does(applies("lawn"))
    later = NOON + timedelta(hours=1)
    with base.writing() as work:
        work.execute(
            update(models.Membership)
            .where(models.Membership.chat_id == helper.chat_id)
            .values(ended_at=later, ended_by=owner.person_id)
        )
        again = {"role": "confirm", "invited_by": owner.person_id, "now": later}
        crews.join(work, owner.yard_id, chat_id=helper.chat_id, person_id=helper.person_id, **again)
    with pytest.raises(undo.NothingToUndo):
        helper.takes_back()
    helper.does(waters(2.0))
    with pytest.raises(undo.NothingToUndo):
        helper.takes_back()  # said at the old hour still
    helper.now = later
    helper.does(waters(2.0))
    assert helper.takes_back().changes[0].action == "watering.add"


@both
def test_a_change_without_an_author_is_refused(base: Database) -> None:
    who = somebody(base)
    with pytest.raises(recorder.Unsigned), base.writing() as work:
        who.uses(work, renames)


@both
def test_two_people_at_once_take_back_each_their_own(base: Database) -> None:
    owner = somebody(base)
    helper = beside(owner)
    trouble: list[BaseException] = []

    def works(who: Person, use: Use) -> None:
        for _ in range(6):
            _with_retries(trouble, lambda: who.does(use))
            _with_retries(trouble, who.takes_back)

    before = owner.sees()
    threads = [
        threading.Thread(target=works, args=(owner, applies("lawn", kg=6.0))),
        threading.Thread(target=works, args=(helper, applies("strip", kg=2.0))),
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert trouble == []
    after = owner.sees()
    assert after["application"] == before["application"]
    shelves = [after["product"][key]["shelf_si"] for key in before["product"]]
    assert shelves == pytest.approx([row["shelf_si"] for row in before["product"].values()])


@both
def test_one_thing_taken_back_twice_at_once_goes_once(base: Database) -> None:
    who = somebody(base)
    full = _shelf(who)
    who.does(applies("lawn", kg=6.0))
    entry_id = _last(who)
    done: list[str] = []

    def takes() -> None:
        try:
            who.takes_back(entry_id)
            done.append("done")
        except undo.UndoneAlready:
            done.append("already")

    threads = [threading.Thread(target=takes) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert sorted(done) == ["already"] * 3 + ["done"]
    assert _shelf(who) == pytest.approx(full)


def test_every_table_is_journalled_or_said_not_to_be() -> None:
    names = set(models.Base.metadata.tables)
    assert names == TABLES.keys() | NOT_KEPT
    assert not TABLES.keys() & NOT_KEPT


def _entries(work: Work, who: Person, action: str) -> list[int]:
    found = journal.of_yard(work, who.yard_id, [action])
    return [entry.id for entry, _ in found]


def _last(who: Person) -> int:
    with who.base.reading() as work:
        found = journal.newest(work, yard_id=who.yard_id, person_id=who.person_id)
        assert found is not None
        return found.id


def _shelf(who: Person) -> float:
    with who.base.reading() as work:
        yard = yards.yard(work, who.yard_id)
        assert yard is not None
        assert yard.product_id is not None
        shelf_si = product_rows.product(work, yard.product_id).shelf_si
        assert shelf_si is not None
        return shelf_si


def _with_retries(trouble: list[BaseException], do: Callable[[], Any]) -> None:
    """Do something as a turn does: another of the same moment makes it be done again."""
    for _ in range(20):
        try:
            do()
        except StaleWrite:
            continue
        except BaseException as problem:
            trouble.append(problem)
        return
    trouble.append(AssertionError("never came through"))
