"""Zones as pieces of ground: names, sizes and parts change, what is down stays where it lies."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

import pytest

from jobs.agronomy.amounts import Amount, LabelLimitExceeded
from jobs.agronomy.rates import Rate
from jobs.judged import Judged
from jobs.standing import standing_of
from jobs.uses import confirming as uses
from jobs.uses import how_much as amount_uses
from jobs.uses import same_ground, water_reports
from jobs.uses import zones as zone_uses
from jobs.uses.strange import (
    AfterEmergence,
    AppliedAgain,
    FarOff,
    LongAgo,
    LongBefore,
    Strange,
)
from jobs.uses.undo import Asker, undo, undoable
from storage import applications, seasons, yards
from storage.database import Work
from storage.recorder import Author
from storage.yards import NewZone, YardRecord, ZoneRecord
from tests.made_yard import made_yard
from tests.random_lives import BAG, FEED

SQ_FT = 0.09290304
START = datetime(2026, 3, 20, 15, tzinfo=UTC)


@dataclass
class Made:
    """A made-up yard with a bag of 3 lb per 1,000 sq ft, not more than 6 a year."""

    work: Work
    now: datetime = START

    @property
    def yard(self) -> YardRecord:
        yard = yards.yard(self.work, 1)
        assert yard is not None
        return yard

    def zone(self, name: str) -> ZoneRecord:
        return next(zone for zone in yards.zones(self.work, 1) if zone.name == name)

    def keep(self, **sq_ft: float) -> None:
        new = [NewZone(name, "", "", "", area * SQ_FT) for name, area in sq_ft.items()]
        zone_uses.keep(self.work, self.yard, new, person_id=1, now=self.now)

    def merge(self, *names: str, into: str) -> None:
        zones = [self.zone(name) for name in names]
        zone_uses.merge(self.work, self.yard, zones, into, person_id=1, now=self.now)

    def apply(
        self, *names: str, lb: float | None = None, part: uses.Part | None = None
    ) -> uses.Confirmed:
        zones = [self.zone(name) for name in names]
        command = uses.Confirm(
            zones,
            self.now,
            None if lb is None else Amount(lb * 0.45359237, "lb"),
            "said",
            is_sure=True,
            parts={} if part is None else {zones[-1].id: part},
        )
        return uses.confirm(self.work, self.yard, command, person_id=1, now=self.now)

    def printed(self) -> dict[str, float]:
        """Return what is printed as still to put down, by zone [lb]."""
        plan = amount_uses.for_yard(self.work, self.yard, self.now.date())
        return {item.zone.name: item.amount.si / 0.45359237 for item in plan.plan.zones}


@pytest.fixture
def made(tmp_path: Path) -> Iterator[Made]:
    db = made_yard(tmp_path / "made.sqlite3", (BAG, FEED), START)
    with db.writing(Author(1, 1, START)) as work:
        found = Made(work)
        found.keep(front=2000, back=1000)
        yield found
    db.close()


def test_a_renamed_zone_keeps_what_is_down(made: Made) -> None:
    made.apply("front", lb=6)
    renamed = zone_uses.rename(made.work, made.yard, made.zone("front"), "north", now=made.now)
    assert renamed.name == "north"
    assert made.printed() == pytest.approx({"back": 3.0})
    [done] = applications.of_yard(made.work, 1)
    assert [share.zone_name for share in done.shares] == ["north"]


def test_a_name_that_is_taken_is_not_given_twice(made: Made) -> None:
    with pytest.raises(zone_uses.NameTaken):
        zone_uses.rename(made.work, made.yard, made.zone("front"), "Back", now=made.now)


def test_a_new_name_can_be_taken_back(tmp_path: Path) -> None:
    db = made_yard(tmp_path / "made.sqlite3", (BAG, FEED), START)
    with db.writing(Author(1, 1, START)) as work:
        Made(work).keep(front=2000)
    with db.writing(Author(1, 1, START)) as work:
        made = Made(work)
        zone_uses.rename(work, made.yard, made.zone("front"), "north", now=START)
    with db.writing(Author(1, 1, START)) as work:
        entry = undoable(work, Asker(1, 1, lambda _: "own"), yard_id=1).entry
        undo(work, entry, person_id=1, now=START)
        assert [zone.name for zone in yards.zones(work, 1)] == ["front"]
    db.close()


def test_a_zone_taken_out_keeps_its_record_and_says_so(made: Made) -> None:
    made.apply("front", lb=6)
    removed = zone_uses.remove(made.work, made.yard, [made.zone("front")], now=made.now)
    assert removed == ("front",)
    assert len(applications.of_yard(made.work, 1)) == 1


def test_the_same_ground_under_another_name_gets_no_second_dose(made: Made) -> None:
    made.apply("front", lb=12)
    zone_uses.remove(made.work, made.yard, [made.zone("front")], now=made.now)
    made.keep(lawn=1900)
    [question] = same_ground.questions(made.work, made.yard)
    assert (question.zone.name, question.was, question.is_taken_out) == ("lawn", "front", True)
    assert made.printed() == pytest.approx({"back": 3.0})


def test_other_ground_is_other_ground_once_somebody_says_so(made: Made) -> None:
    made.apply("front", lb=12)
    zone_uses.remove(made.work, made.yard, [made.zone("front")], now=made.now)
    made.keep(lawn=1900)
    [question] = same_ground.questions(made.work, made.yard)
    same_ground.answer(made.work, made.yard, question.id, is_same=False, now=made.now)
    assert made.printed() == pytest.approx({"back": 3.0, "lawn": 5.7})
    assert same_ground.questions(made.work, made.yard) == []


def test_nothing_is_asked_where_nothing_was_put_down(made: Made) -> None:
    zone_uses.remove(made.work, made.yard, [made.zone("front")], now=made.now)
    made.keep(lawn=1900)
    assert same_ground.questions(made.work, made.yard) == []


def test_the_ground_a_zone_gave_away_is_asked_about(made: Made) -> None:
    made.apply("front", lb=6)
    made.keep(front=1000)
    made.keep(strip=600)
    [question] = same_ground.questions(made.work, made.yard)
    assert (question.zone.name, question.was, question.is_taken_out) == ("strip", "front", False)


def test_the_parts_of_a_split_zone_have_all_that_was_down(made: Made) -> None:
    made.apply("front", lb=12)
    parts = [zone_uses.ZonePart("left", 800 * SQ_FT), zone_uses.ZonePart("right")]
    left, right = zone_uses.split(
        made.work, made.yard, made.zone("front"), parts, person_id=1, now=made.now
    )
    assert right.area_m2 == pytest.approx(1200 * SQ_FT)
    made.now += timedelta(days=60)
    assert made.printed() == pytest.approx({"back": 3.0})
    history = standing_of(made.work, made.yard).history(left)
    assert history.entries[0].rate is not None
    assert history.entries[0].rate.rate_si == pytest.approx(Rate(6, "lb/1000 sq ft").rate_si)


def test_parts_that_leave_ground_out_are_refused(made: Made) -> None:
    parts = [zone_uses.ZonePart("left", 800 * SQ_FT), zone_uses.ZonePart("right", 900 * SQ_FT)]
    with pytest.raises(zone_uses.PartsDiffer):
        zone_uses.split(made.work, made.yard, made.zone("front"), parts, person_id=1, now=made.now)


def test_zones_put_together_need_only_what_the_undone_one_lacks(made: Made) -> None:
    made.apply("front", lb=6)
    whole = zone_uses.merge(
        made.work,
        made.yard,
        [made.zone("front"), made.zone("back")],
        "all of it",
        person_id=1,
        now=made.now,
    )
    assert whole.area_m2 == pytest.approx(3000 * SQ_FT)
    assert made.printed() == pytest.approx({"all of it": 3.0})


def test_half_of_a_zone_leaves_half_to_do(made: Made) -> None:
    done = made.apply("back", lb=1.5, part=uses.Part(share=0.5))
    [part] = done.parts
    assert part.zone == "back"
    assert part.left_m2 == pytest.approx(500 * SQ_FT)
    assert done.achieved is not None
    assert done.achieved.value == pytest.approx(3.0)
    assert made.printed()["back"] == pytest.approx(1.5)
    rest = made.apply("back")
    assert rest.amount is not None
    assert rest.amount.si == pytest.approx(1.5 * 0.45359237)
    assert made.printed() == pytest.approx({"front": 6.0})


def test_a_patch_is_reckoned_by_its_own_area(made: Made) -> None:
    done = made.apply("front", lb=0.3, part=uses.Part(area_m2=100 * SQ_FT))
    assert done.achieved is not None
    assert done.achieved.value == pytest.approx(3.0)
    assert made.printed()["front"] == pytest.approx(5.7)


def test_it_went_as_far_as_the_hopper_held(made: Made) -> None:
    done = made.apply("back", "front", lb=6, part=uses.Part(is_as_far=True))
    [part] = done.parts
    assert part.area_m2 == pytest.approx(1000 * SQ_FT)
    assert made.printed() == pytest.approx({"front": 3.0})


def test_a_part_larger_than_the_zone_is_refused(made: Made) -> None:
    with pytest.raises(uses.PartTooLarge):
        made.apply("back", lb=3, part=uses.Part(area_m2=1500 * SQ_FT))


def test_two_halves_nobody_told_apart_may_lie_on_one_another(made: Made) -> None:
    half = uses.Part(share=0.5)
    made.apply("back", lb=1.5, part=half)
    made.apply("back", lb=1.5, part=half)
    made.apply("front", lb=6)
    made.now += timedelta(days=60)
    assert made.printed() == pytest.approx({"front": 6.0})


def test_the_rest_lies_beside_the_part(made: Made) -> None:
    made.apply("back", lb=1.5, part=uses.Part(share=0.5))
    made.apply("back", lb=1.5, part=uses.Part(is_rest=True))
    made.apply("front", lb=6)
    made.now += timedelta(days=60)
    assert made.printed() == pytest.approx({"front": 6.0, "back": 3.0})


def test_water_counts_on_the_ground_that_got_it(made: Made) -> None:
    made.apply("front", "back")
    seen = water_reports.record_watering(
        made.work,
        made.yard,
        12.7,
        None,
        on=made.now.date(),
        person_id=1,
        now=made.now,
        zones=[made.zone("front")],
    )
    assert seen.still_dry == ("back",)
    [done] = applications.of_yard(made.work, 1)
    days = {share.zone_name: share.watered_in_on for share in done.shares}
    assert days == {"front": made.now.date(), "back": None}
    assert done.watered_in_on is None


def test_more_than_the_label_is_never_printed_after_a_merger(made: Made) -> None:
    made.apply("front", lb=12)
    made.merge("front", "back", into="lawn")
    made.apply("lawn")
    made.now += timedelta(days=60)
    with pytest.raises(LabelLimitExceeded):
        made.printed()


def reported(
    made: Made, *names: str, lb: float | None = None, on: datetime | None = None
) -> tuple[object, ...]:
    """Report an application without being sure; return what is strange about it."""
    amount = None if lb is None else Amount(lb * 0.45359237, "lb")
    command = uses.Confirm([made.zone(name) for name in names], on or made.now, amount, "said")
    try:
        uses.confirm(made.work, made.yard, command, person_id=1, now=made.now)
    except Strange as strange:
        return strange.oddities
    return ()


def expects_weeds_on(made: Made, day: date) -> None:
    known_until = made.now.date()
    judged = Judged(known_until, 9.0, 0.0, day, day, day, 9, None, True, True)
    season = seasons.season(made.work, 1, "summer_annuals") or seasons.begin(
        made.work, 1, "summer_annuals", year=2026, state="waiting", since=made.now.date()
    )
    seasons.save(made.work, replace(season, outlook=judged.to_json()))


def test_an_ordinary_report_is_kept_without_a_question(made: Made) -> None:
    expects_weeds_on(made, date(2026, 4, 15))
    assert reported(made, "front", lb=6.2) == ()


def test_months_before_the_weeds_is_asked_about_with_its_days(made: Made) -> None:
    expects_weeds_on(made, date(2026, 5, 5))
    found = reported(made, "front", on=datetime(2026, 1, 10, 15, tzinfo=UTC))
    assert found == (LongBefore(date(2026, 5, 5), 115),)


def test_after_the_weeds_are_up_is_asked_about(made: Made) -> None:
    expects_weeds_on(made, date(2026, 4, 15))
    made.now = datetime(2026, 5, 10, 15, tzinfo=UTC)
    assert reported(made, "front") == (AfterEmergence(date(2026, 4, 15), 25),)


def test_a_hundred_times_the_rate_is_asked_about(made: Made) -> None:
    [found] = reported(made, "back", lb=300)
    assert isinstance(found, FarOff)
    assert found.times == pytest.approx(100)


def test_another_year_is_asked_about(made: Made) -> None:
    [found] = reported(made, "back", on=datetime(2025, 3, 20, 15, tzinfo=UTC))
    assert found == LongAgo(date(2025, 3, 20), 365)


def test_a_second_application_within_the_week_is_asked_about(made: Made) -> None:
    made.apply("back")
    made.now += timedelta(days=5)
    [found] = reported(made, "back")
    assert found == AppliedAgain(("back",), START.date(), 1)


def test_ground_given_away_is_asked_about_though_the_zone_grew_meanwhile(made: Made) -> None:
    made.apply("front", lb=12)
    made.keep(front=2300)
    made.keep(front=2000)
    made.keep(strip=250)
    [question] = same_ground.questions(made.work, made.yard)
    assert (question.zone.name, question.was) == ("strip", "front")
    assert "strip" not in made.printed()


def test_ground_given_away_after_a_merger_is_asked_about_though_treated_once_more(
    made: Made,
) -> None:
    made.apply("back", lb=6)
    made.merge("front", "back", into="lawn")
    made.keep(lawn=2000)
    made.apply("lawn", lb=2)
    made.keep(strip=900)
    [question] = same_ground.questions(made.work, made.yard)
    assert (question.zone.name, question.was) == ("strip", "lawn")
