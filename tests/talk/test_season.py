"""A spring lived through in the terminal, on the invented climate."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from jobs.sources.simulated import SimulatedSource
from storage import applications, seasons
from tests.made_yard import alerts_of
from tests.talk.harness import PLACE, Talker, labels_of, text_of


def test_a_spring_from_registering_to_the_second_half_falling_due(settled: Talker) -> None:
    warming = settled.until_alert("soil_warming")
    assert "Buy product" in warming.reply.text
    opened = settled.until_alert("window_open")
    assert opened.at > warming.at
    assert "pool lawn, strip, south bed" in opened.reply.text
    assert "Made-up weather" in opened.reply.text

    recorded = settled.tap("I applied it")
    assert "Recorded for Yard 1: pool lawn, strip, south bed" in recorded
    applied_at = settled.session.now
    assert "applied" in settled.ask("/yard")

    assert "is watered in" in settled.ask("watered in")
    half = settled.until_alert("second_half_due")
    assert (half.at - applied_at) // timedelta(days=1) in (55, 56)
    assert "application 2 of 2" in half.reply.text
    assert "re-treat due" in settled.ask("/yard")

    assert "Recorded" in settled.tap("apply:all:1")
    over = settled.until_alert("season_over")
    assert over.at.month in (8, 9)
    assert "waiting" in settled.ask("/yard")


def test_alerts_come_in_the_morning_of_the_yard(settled: Talker) -> None:
    opened = settled.until_alert("window_open")
    assert opened.at.astimezone(UTC).hour in (13, 14)  # 08:00 in the central time zone


def test_a_wait_of_months_tells_the_same_as_waiting_day_by_day(tmp_path) -> None:
    (tmp_path / "a").mkdir()
    (tmp_path / "b").mkdir()
    hop, walk = Talker(tmp_path / "a"), Talker(tmp_path / "b")
    for talker in (hop, walk):
        talker.settle_in()
    once = [(s.at, s.alert, s.reply.text) for s in hop.wait("P70D")]
    daily = [(s.at, s.alert, s.reply.text) for _ in range(70) for s in walk.wait("P1D")]
    assert [each[:2] for each in once] == [each[:2] for each in daily]
    assert once == daily


def test_nobody_applies_and_the_window_is_missed_once(settled: Talker) -> None:
    heard = [said.alert for said in settled.wait("P110D")]
    assert heard.count("window_open") == 1
    assert heard.count("act_now") == 1
    assert heard.count("window_missed") == 1
    assert "First crabgrass was expected" in settled.ask("/yard")


def test_a_window_that_closes_again_gets_a_closing_word_and_a_new_call(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("/yard")
    settled.tap("More")
    settled.tap("How early")
    settled.say("14")
    closed = settled.wait("P2D")
    assert [said.alert for said in closed] == ["soil_warming"]
    assert "false alarm" in closed[0].reply.text
    assert "waiting" in settled.ask("/yard")
    again = settled.until_alert("window_open", 60)
    assert "window open. Apply and water in" in again.reply.text
    heard = [said.alert for said in settled.wait("P60D")]
    assert "window_open" not in heard
    assert "soil_warming" not in heard


def test_nobody_is_told_of_the_end_of_a_window_they_never_heard_of(settled: Talker) -> None:
    settled.until_alert("soil_warming")
    settled.say("snooze 30 days")
    while "window open" not in settled.ask("/yard"):
        settled.wait("P1D")
    settled.tap("More")
    settled.tap("How early")
    settled.say("14")
    heard = [said.alert for said in settled.wait("P40D")]
    assert heard.count("soil_warming") == 0
    assert heard.count("window_open") <= 1


def test_the_next_spring_begins_afresh_and_no_episode_is_told_twice(settled: Talker) -> None:
    heard = [(said.at.year, said.alert) for said in settled.wait("P440D")]
    assert [year for year, kind in heard if kind == "window_open"] == [2026, 2027]
    with settled.db.reading() as work:
        keys = [alert.episode_key for alert in alerts_of(work, 1)]
    assert len(keys) == len(set(keys))


def test_partly_applied_leaves_the_rest_open(settled: Talker) -> None:
    settled.until_alert("window_open")
    text = settled.ask("applied strip")
    assert "strip (400 sq ft)" in text
    assert "Still to do: pool lawn, south bed" in text
    assert "window open, apply now" in settled.ask("/yard")
    assert "Second application" in settled.ask("applied pool lawn and south bed")
    assert "Yard 1: applied" in settled.ask("/yard")


def test_once_a_zone_had_its_second_only_the_others_are_said_to_be_due(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    settled.wait("P40D")
    settled.say("applied strip today")
    said = settled.tap("Yes, a second one")
    assert "Second application of pool lawn, south bed: about" in said
    for asked in ("when is the second application", "what's left", "soil"):
        assert "Second application of pool lawn, south bed: about" in settled.ask(asked)
    settled.until_alert("second_half_due")
    assert "second application of pool lawn, south bed is due" in settled.ask("is it time")


def test_applied_with_date_and_amount(settled: Talker) -> None:
    settled.until_alert("window_open")
    text = settled.ask("applied 1.3 lb on the strip yesterday 5 pm")
    assert "strip (400 sq ft)" in text
    assert "yesterday" in text
    assert "within 5%" in text
    with settled.db.reading() as work:
        done = applications.of_yard(work, 1)[0]
    assert done.applied_at.astimezone(UTC).hour == 22  # 5 pm in the central time zone
    assert done.shares[0].amount_si == pytest.approx(1.3 * 0.45359237, rel=1e-9)


def test_too_much_put_down_is_recorded_and_said_without_printing_the_rate(settled: Talker) -> None:
    settled.until_alert("window_open")
    asked = settled.ask("applied 4 lb on the strip")
    assert "That is 3 times your label rate of 3.2 lb per 1,000 sq ft" in asked
    text = settled.tap("Yes, that's right")
    assert "over your label maximum of 6.4 lb per 1,000 sq ft" in text
    assert "10 lb per" not in text


def test_undo_restores_the_state_exactly(settled: Talker) -> None:
    settled.until_alert("window_open")
    with settled.db.reading() as work:
        before = seasons.season(work, 1, "summer_annuals")
    settled.say("applied")
    assert "Undone" in settled.take_back()
    with settled.db.reading() as work:
        after = seasons.season(work, 1, "summer_annuals")
        assert applications.of_yard(work, 1) == []
    assert before is not None
    assert after is not None
    assert (after.state, after.since, after.told, after.outlook) == (
        before.state,
        before.since,
        before.told,
        before.outlook,
    )
    assert "window open, apply now" in settled.ask("/yard")


def test_undo_by_an_old_button_does_not_undo_something_newer(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied strip")
    old = next(
        button.action
        for row in settled.session._newest.buttons  # type: ignore[union-attr]
        for button in row
        if button.label == "Undo"
    )
    settled.say("applied pool lawn")
    asked = settled.session.tap(old)
    assert "It was not the last thing you said: the application on strip" in text_of(asked)
    with settled.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 2
    settled.tap("Undo it")
    with settled.db.reading() as work:
        (left,) = applications.of_yard(work, 1)
    assert [share.zone_name for share in left.shares] == ["pool lawn"]


def test_a_second_application_right_after_the_first_is_asked_about(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    said = settled.say("applied")
    assert "on top of it" in text_of(said)
    assert labels_of(said) == ["Yes, a second one", "No, the same one"]
    assert "not added" in settled.tap("No, the same one")
    with settled.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def test_the_label_maximum_stops_the_second_round(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say("/product prodiamine 0.38% granule 3.2 lb per 1000 sq ft, max 5 lb per 1000 a year")
    talker.until_alert("window_open")
    talker.say("applied")
    text = talker.ask("/amounts")
    assert "No amounts" in text
    assert "Left: 1.8 lb per 1,000 sq ft" in text
    assert "7 lb" not in text


def test_no_reminder_of_a_second_half_that_the_label_does_not_allow(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say(
        "/product prodiamine 0.38% granule 3.2 lb per 1000 sq ft, max 3.2 lb per 1000 a year"
    )
    talker.until_alert("window_open")
    talker.say("applied")
    heard = {said.alert for said in talker.wait("P170D")}
    assert "second_half_due" not in heard
    assert "season_over" in heard


class Dry(SimulatedSource):
    """The simulated climate without a drop of rain."""

    def fetch(self, requests, now):
        return {
            cell: replace(each, known=replace(each.known, rain_mm=0.0 * each.known.rain_mm))
            for cell, each in super().fetch(requests, now).items()
        }


def test_dry_weeks_bring_three_calls_to_water_in_and_no_more(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("applied")
    applied_on = talker.session.now.date()
    calls = [said for said in talker.wait("P20D") if said.alert == "water_in"]
    assert [(said.at.date() - applied_on).days for said in calls] == [1, 6, 8]
    assert "last call to water in" in calls[1].reply.text
    assert "the watering deadline was" in calls[2].reply.text


def test_zones_done_on_two_days_are_reminded_of_each(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("applied strip")
    talker.wait("P2D")
    talker.say("watered 0.5 in")
    talker.say("applied pool lawn, south bed")
    calls = [said for said in talker.wait("P3D") if said.alert == "water_in"]
    # What was watered before they went down is none of theirs.
    assert len(calls) == 1
    assert "0.5 in to go" in calls[0].reply.text


def test_an_alert_that_waited_for_the_morning_tells_what_is_true_then(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.wait("PT13H")  # nine in the evening
    talker.say("applied yesterday")
    talker.say("watered 0.3 in")
    (call,) = [said for said in talker.wait("PT20H") if said.alert == "water_in"]
    assert "0.2 in to go" in call.reply.text


def test_reported_water_adds_up(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    assert "0.3 in to go" in settled.ask("watered 0.2 in")
    assert "is watered in" in settled.ask("watered 0.3 in")


def test_water_reported_in_no_unit_is_asked_back_and_not_recorded(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    assert "I recorded nothing" in settled.ask("watered 20 loads")
    with settled.db.reading() as work:
        assert applications.waterings(work, 1) == []


def test_every_change_of_state_is_kept_with_its_reason_and_person(settled: Talker) -> None:
    settled.until_alert("window_open")
    settled.say("applied")
    settled.wait("P60D")
    with settled.db.reading() as work:
        events = seasons.events(work, 1)
    assert [(e.state_before, e.state_after) for e in events] == [
        ("waiting", "window open"),
        ("window open", "applied"),
        ("applied", "re-treat due"),
    ]
    assert all(event.why for event in events)
    assert [event.person_id for event in events] == [None, 1, None]


def test_south_of_the_equator_spring_is_spring(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 7, 1, tzinfo=UTC))
    talker.say("/start")
    talker.session.location(-37.8, 145.0)
    talker.say("front 12 x 9 m")
    opened = talker.until_alert("window_open")
    assert opened.at.month in (8, 9, 10, 11)


def test_the_lead_that_is_chosen_holds_be_it_the_plans_own(settled: Talker) -> None:
    # Prodiamine lasts long, so that of its own accord the window opens a week early.
    assert "The window opens 28 days before first crabgrass" in settled.ask("why")
    settled.say("/yard")
    settled.tap("More")
    assert "Now 28" in settled.tap("How early")
    assert "opens 21 days before" in settled.ask("21")
    assert "The window opens 21 days before first crabgrass" in settled.ask("why")
    settled.say("/yard")
    settled.tap("More")
    settled.tap("How early")
    assert "That is late: it takes a week to be in place" in settled.ask("10")
    settled.take_back()
    settled.take_back()
    assert "The window opens 28 days before first crabgrass" in settled.ask("why")


def test_water_counts_for_the_zones_that_got_it(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("applied strip")
    assert "0.3 in since the application" in talker.ask("we watered the strip 0.3 in")
    assert "is watered in" in talker.ask("watered 0.2 in on the strip")
    talker.say("applied pool lawn, south bed")
    answer = talker.ask("watered the pool lawn 0.5 in")
    assert "is watered in" in answer
    assert "Not watered yet: south bed" in answer
    assert "Needs watering in: 0.5 in" in talker.ask("when do i water")
    assert "is watered in" in talker.ask("watered everything 0.5 in")


def test_a_time_for_water_that_is_over_is_no_future_day(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("applied")
    talker.wait("P10D")
    assert "The watering deadline was" in talker.ask("/yard")


def test_a_gauge_tells_no_better_than_a_twentieth(tmp_path) -> None:
    talker = Talker(tmp_path, source=Dry(0))
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("applied")
    assert "is watered in" in talker.ask("watered 0.48 in")


def test_an_application_after_the_season_is_asked_about(settled: Talker) -> None:
    settled.say("applied")
    settled.wait("P240D")
    assert "before I expect the first weeds" in settled.ask("applied the strip")
