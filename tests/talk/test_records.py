"""The record: filled in where known, corrected with the old value kept, recomputed on late news."""

from dataclasses import replace
from datetime import UTC, date, datetime

import numpy as np
import pytest

from jobs.record_details import RecordDetails
from jobs.sources.simulated import SimulatedSource
from jobs.uses import recording
from storage import applications, journal, products, seasons
from tests.talk.harness import PLACE, Talker, lived_from

TARGETS = {"summer_annuals": "crabgrass", "winter_annuals": "annual bluegrass", "other": "other"}


@lived_from(datetime(2026, 4, 6, 19, tzinfo=UTC))
def april(talker: Talker) -> None:
    """A yard in April, nothing down yet."""
    talker.settle_in()
    talker.wait("PT1H")


def details_of(talker: Talker) -> RecordDetails:
    with talker.db.reading() as work:
        return RecordDetails.from_json(applications.of_yard(work, 1)[-1].details)


def test_weather_of_the_hour_goes_onto_the_record(april: Talker) -> None:
    april.say("applied")
    found = details_of(april)
    assert found.weather_basis == "hour"
    assert found.air_c is not None
    assert -10 < found.air_c < 35
    assert found.wind_m_s is not None


def test_weather_of_a_past_day_is_that_days(april: Talker) -> None:
    april.say("applied on 25 March")
    found = details_of(april)
    assert found.weather_basis == "day"
    assert found.soil_c is not None
    assert found.rain_mm is not None


def test_an_edit_keeps_the_old_value_and_who_changed_it(april: Talker) -> None:
    april.say("applied")
    april.say("record 1 wind 5 mph")
    text = april.ask("record 1 wind 7 mph from the west")
    assert "Before: wind 5 mph" in text
    with april.db.reading() as work:
        edits = journal.of_yard(work, 1, ["record.edit"])
        (row, *_) = recording.log_rows(work, _yard(work), TARGETS)
    assert [(change.figures["was"], change.figures["now"]) for _, change in edits] == [
        (None, "5 mph"),
        ("5 mph", "7 mph"),
        (None, "west"),
    ]
    assert [(entry.person_id, entry.said) for entry, _ in edits] == [
        (1, "record 1 wind 5 mph"),
        (1, "record 1 wind 7 mph from the west"),
        (1, "record 1 wind 7 mph from the west"),
    ]
    assert (row.wind, row.wind_from) == ("7 mph", "west")
    assert row.changes is not None
    assert "wind 5 mph -> 7 mph; " in row.changes
    april.take_back()
    assert details_of(april).wind == "5 mph"


def _yard(work):
    from storage import yards

    yard = yards.yard(work, 1)
    assert yard is not None
    return yard


def test_a_corrected_day_recomputes_what_follows_and_is_taken_back_exactly(april: Talker) -> None:
    april.say("applied")
    with april.db.reading() as work:
        before = applications.of_yard(work, 1)
    text = april.ask("record 1 date 30 March")
    assert "Second application: about Mon May 25" in text
    assert "May 25" in april.ask("/yard")
    april.take_back()
    with april.db.reading() as work:
        assert applications.of_yard(work, 1) == before


def watered_in_on(talker: Talker) -> date | None:
    with talker.db.reading() as work:
        return applications.of_yard(work, 1)[-1].watered_in_on


class Dry(SimulatedSource):
    """The invented climate with no rain but on 2 April."""

    def fetch(self, requests, now):
        answers = super().fetch(requests, now)
        return {cell: self._dried(answer) for cell, answer in answers.items()}

    def _dried(self, answer):
        known = answer.known
        rain = np.zeros(len(known))
        number = (date(2026, 4, 2) - known.first_day).days
        if 0 <= number < len(known):
            rain[number] = 8.0
        return replace(answer, known=replace(known, rain_mm=rain))


@pytest.fixture
def dry(tmp_path) -> Talker:
    """A yard on 10 April, after weeks with rain on one day."""
    talker = Talker(tmp_path, start=datetime(2026, 4, 10, 19, tzinfo=UTC), source=Dry(0))
    talker.settle_in()
    talker.wait("PT1H")
    return talker


def test_water_before_a_corrected_day_no_longer_counts(dry: Talker) -> None:
    dry.say("applied on 28 March")
    dry.say("watered 0.5 in on 30 March")
    assert watered_in_on(dry) == date(2026, 3, 30)
    dry.say("record 1 date 8 April")
    assert watered_in_on(dry) is None
    assert "water" in dry.ask("/yard")
    dry.take_back()
    assert watered_in_on(dry) == date(2026, 3, 30)


def test_water_after_a_corrected_day_counts_rain_and_reports_together(dry: Talker) -> None:
    dry.say("applied on 5 April")
    dry.say("watered 0.3 in on 6 April")
    assert watered_in_on(dry) is None
    dry.say("record 1 date 1 April")
    assert watered_in_on(dry) == date(2026, 4, 6)
    dry.say("record 1 date 2 April")
    # Whether it rained before or after the spreader that day, nobody can say.
    assert watered_in_on(dry) is None
    dry.take_back()
    assert watered_in_on(dry) == date(2026, 4, 6)


def test_a_slip_of_the_year_moves_no_record_and_makes_none(april: Talker) -> None:
    april.say("applied")
    with april.db.reading() as work:
        before = applications.of_yard(work, 1)
    assert "record #1 stays as it is" in april.ask("record 1 date 3 April 1950")
    assert "recorded nothing" in april.ask(
        "the service put down 3 lb of prodiamine 0.38% on the strip on 3 April 1950"
    )
    with april.db.reading() as work:
        assert applications.of_yard(work, 1) == before


def test_an_unknown_field_or_record_is_asked_back(april: Talker) -> None:
    april.say("applied")
    assert "no field" in april.ask("record 1 colour green")
    assert "no record #9" in april.ask("record 9 wind 5 mph")


def test_the_registration_number_comes_from_the_persons_own_label(april: Talker) -> None:
    april.say("applied")
    assert "1234-567" in april.ask("EPA reg. no. 1234-567")
    with april.db.reading() as work:
        assert products.registration(work, 1) == "1234-567"
        rows = recording.log_rows(work, _yard(work), TARGETS)
    assert {row.registration for row in rows} == {"1234-567"}


def test_what_is_missing_is_asked_once(april: Talker) -> None:
    april.say("applied")
    assert "EPA number" in april.ask("/export")
    assert "EPA number" not in april.ask("/export")


def test_the_rate_achieved_and_the_ingredient_are_reckoned(april: Talker) -> None:
    april.say("applied 1.28 lb on the strip")
    with april.db.reading() as work:
        (row,) = recording.log_rows(work, _yard(work), TARGETS)
    assert row.rate_achieved == "3.2 lb/1000 sq ft"
    # 3.2 lb of 0.38 % on 1,000 sq ft: 3.2 * 0.0038 * 43.56 = 0.5297 lb of ingredient an acre.
    assert row.ingredient_lb_acre == pytest.approx(0.5297, abs=2e-4)
    assert row.ingredient_this_year_lb_acre == row.ingredient_lb_acre
    assert row.ingredient_lb == pytest.approx(1.28 * 0.0038, rel=1e-3)


def test_stock_goes_down_with_what_is_put_down_and_comes_back_by_undo(april: Talker) -> None:
    with april.db.writing() as work:
        products.change(work, 1, shelf_si=10.0)
    april.say("applied 1.28 lb on the strip")
    with april.db.reading() as work:
        left = products.product(work, 1).shelf_si
    assert left == pytest.approx(10.0 - 1.28 * 0.45359237)
    april.take_back()
    with april.db.reading() as work:
        assert products.product(work, 1).shelf_si == 10.0


def test_undo_after_partial_confirmations_restores_the_season(april: Talker) -> None:
    with april.db.reading() as work:
        before = seasons.season(work, 1, "summer_annuals")
    april.say("applied strip and pool lawn")
    april.say("applied south bed")
    april.take_back()
    april.take_back()
    with april.db.reading() as work:
        after = seasons.season(work, 1, "summer_annuals")
    assert before is not None
    assert after is not None
    assert (after.state, after.since, after.told) == (before.state, before.since, before.told)


def test_what_nobody_knows_of_is_not_taken_for_nothing(april: Talker) -> None:
    april.say("the service treated the strip yesterday")
    allowed = april.ask("what is still allowed")
    assert "strip: I can't tell. Something was applied yesterday" in allowed
    assert "pool lawn: I can't say" not in allowed
    seed = april.ask("can I seed the strip on 5 May?")
    assert "I can't say. I don't know what was applied yesterday" in seed
    assert "is open" not in seed


def test_a_treatment_of_ground_that_is_no_zone_is_asked_about_before_it_is_kept(
    april: Talker,
) -> None:
    assert 'Which zone is "orchard"?' in april.ask("the service treated the orchard yesterday")
    with april.db.reading() as work:
        assert applications.of_yard(work, 1) == []
    assert "the service treated strip, yesterday" in april.tap("strip")
    april.take_back()
    assert 'Which zone is "terraza"?' in april.ask("el servicio trató la terraza")
    assert "I recorded nothing" in april.tap("None of these")
    assert 'Which zone is "north side"?' in april.ask("the service sprayed the north side")
    assert "treated pool lawn, today" in april.ask("the pool lawn")
    april.take_back()
    # What was sprayed is no place, nor is all of a lot, nor an hour of the day.
    for said in ("sprayed weed killer", "treated the whole lawn", "sprayed in the morning"):
        assert "strip, " in april.ask(f"the service {said}")
        april.take_back()


def test_an_application_without_a_product_says_what_it_does_not_count_for(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    assert "I don't know which product that was" in talker.ask("applied front")
    assert "I can't say" in talker.ask("can I seed the front on 5 May?")


def test_an_amount_is_put_right_and_taken_back_exactly(april: Talker) -> None:
    april.say("applied strip 1.5 lb")
    with april.db.writing() as work:
        products.change(work, 1, shelf_si=10.0)
    with april.db.reading() as work:
        before = applications.of_yard(work, 1)
    text = april.ask("record 1 amount 1.28 lb")
    assert "1.28 lb, not 1.5 lb" in text
    assert "label rate of 3.2 lb per 1,000 sq ft" in text
    with april.db.reading() as work:
        (row,) = recording.log_rows(work, _yard(work), TARGETS)
        # 0.22 lb went back onto the shelf.
        assert products.product(work, 1).shelf_si == pytest.approx(10.0 + 0.22 * 0.45359237)
    assert row.rate_achieved == "3.2 lb/1000 sq ft"
    assert row.changes is not None
    assert "amount 1.5 lb -> 1.28 lb" in row.changes
    april.take_back()
    with april.db.reading() as work:
        assert applications.of_yard(work, 1) == before
        assert products.product(work, 1).shelf_si == pytest.approx(10.0)


def test_the_same_application_said_again_with_another_amount_can_be_put_right(
    april: Talker,
) -> None:
    april.say("applied strip 1.5 lb")
    april.say("applied strip 1.28 lb")
    assert "record 1 amount 1.28 lb" in april.tap("No, the same one")
    assert "over your label maximum" in april.ask("record 1 amount 20 lb")
    assert "one is a weight, one a volume" in april.ask("record 1 amount 2 gal")
    assert "no record #7" in april.ask("record 7 amount 2 lb")


def test_bags_that_went_down_leave_the_shelf_alone_and_are_weighed_where_not_whole(
    april: Talker,
) -> None:
    april.say("bags 50 lb")
    asked = april.ask("all down, went through most of the bag")
    assert "A full bag has 50 lb" in asked
    assert "21 lb" in april.ask("around 21 lb i guess")
    # A bare figure right behind it is in the record's own unit.
    assert "20 lb, not 21 lb" in april.ask("no it was 20")
    assert "25 lb, not 20 lb" in april.ask("used half a bag")


def test_an_amount_said_of_one_zone_is_that_zones_alone(april: Talker) -> None:
    april.say("applied all, used 11 lb")
    said = april.ask("it was 2 lb on the strip")
    assert "2 lb on strip" in said
    with april.db.reading() as work:
        (done,) = applications.of_yard(work, 1)
    pounds = {s.zone_name: s.amount_si / 0.45359237 for s in done.shares if s.amount_si}
    assert pounds["strip"] == pytest.approx(2)
    assert sum(pounds.values()) > 11
    # What a zone got is nothing on the shelf.
    assert "You have" not in april.ask("pool lawn got 8 lb")


def test_a_bare_figure_of_a_zone_is_asked_and_a_figure_behind_a_report_is_its_own(
    april: Talker,
) -> None:
    april.say("did the pool lawn with 7.5 lb")
    # A dose is never guessed.
    assert "1.2 of what" in april.ask("done w strip 1.2")
    assert "strip (400 sq ft), 1.2 lb" in april.ask("1.2 lb")
    assert "1.3 lb, not 1.2 lb" in april.ask("wait strip was 1.3")
    said = april.ask("turns out i did the south bed too, forgot to say. 3 lb")
    assert "Recorded for Yard 1: south bed" in said
    assert ", 3 lb, today" in said
