"""Soil: what /soil and the yard's own thermometer say."""

import re
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from jobs.agronomy.source_step import SourceStep
from storage import readings, seasons
from tests.talk.harness import PLACE, Talker, labels_of, lived_from, text_of


@lived_from(datetime(2026, 3, 22, 14, tzinfo=UTC))
def march(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40, strip 5 by 80 ft")


def test_soil_says_now_trend_and_window_and_why_has_past_years_range_and_age(march: Talker) -> None:
    said = march.say("/soil")
    text = text_of(said)
    assert re.search(r"soil at 2 in is \d+ °F, (up|down|steady)", text)
    assert re.search(r"weeds come first 1 year in \d", text)
    assert "Made-up weather" in text
    why = march.tap("Why")
    assert "soil as a 5-day average" in why
    assert re.search(r"Past years on this date: \d+ °F. In 4 of 5 years: \d+ °F to \d+ °F", why)
    assert re.search(r"The window may open \w+ .* to ", why)
    assert "4 chances in 5" in why
    assert "50 °F to 55 °F" in why
    assert "Soil data through yesterday" in why
    assert len(text) < 1024  # a caption's length on the chat platform


def test_soil_comes_with_a_picture_that_is_drawn(tmp_path: Path) -> None:
    talker = Talker(tmp_path, draws=True)
    talker.settle_in()
    picture = talker.say("/soil")[0].reply.picture
    assert picture is not None
    assert Path(picture).read_bytes().startswith(b"\x89PNG")


def test_metric_people_read_celsius(march: Talker) -> None:
    march.say("metric")
    assert "°F" not in march.ask("/soil")


def test_a_reading_shifts_what_the_yard_goes_by(march: Talker) -> None:
    before = degrees(march.ask("/soil"))[0]
    text = march.ask(f"soil {before - 4}, 8 am")
    assert "Thanks" in text
    after = march.ask("/soil")
    assert "Weather data:" in after
    assert "readings so far: 1" in after


def test_a_cooler_yard_opens_its_window_later(march: Talker) -> None:
    before = emergence_on(march)
    for _ in range(5):
        now = degrees(march.ask("/soil"))[0]
        march.say(f"soil {now - 5} at 2 in")
        if march.session._newest and "sure" in str(march.session._newest.buttons):
            march.tap("Yes, that's right")
        march.wait("P1D")
    assert emergence_on(march) > before


def test_a_thermometer_that_disagrees_with_the_grid_is_told_with_what_it_moves(
    march: Talker,
) -> None:
    grid = degrees(march.ask("/soil"))[0]
    for _ in range(4):
        march.say(f"soil {grid - 12} at 2 in")
        if march.session._newest and "right" in str(march.session._newest.buttons):
            march.tap("Yes, that's right")
        march.wait("P1D")
    for text in (march.ask("/soil"), march.ask("why")):
        assert "Your thermometer and weather data differ" in text
        assert re.search(r"yours has the ground \d+ °F colder\.", text)
        assert re.search(r"Your readings put first crabgrass later by \d+ days\.", text)


def test_readings_that_agree_with_the_grid_are_not_called_a_disagreement(march: Talker) -> None:
    now = degrees(march.ask("/soil"))[0]
    for degree in (now, now + 1):
        march.say(f"soil {degree} at 2 in")
    assert "differ" not in march.ask("/soil")


def test_a_source_that_stepped_away_from_its_past_is_told(
    march: Talker, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert "model may have changed" not in march.ask("/soil")
    monkeypatch.setattr("jobs.uses.soil_report.source_step", lambda *_: SourceStep(1.7, 0.5))
    march.wait("P1D")  # It is reckoned once a day.
    # Nobody doubts the model of weather that is made up.
    assert "model" not in march.ask("/soil")
    talking = march.machine.conversation
    monkeypatch.setattr(talking, "_around", replace(talking._around, is_invented=False))
    text = march.ask("/soil")
    assert "3 °F warmer for its air than in past years" in text
    assert "Read a thermometer" in text


def test_a_reading_far_off_is_asked_about_not_swallowed(march: Talker) -> None:
    said = march.say("soil 88")
    assert "far from what I expect" in text_of(said)
    assert stored(march) == []
    assert "skipped" in march.tap(labels_of(said)[1])
    march.say("soil 88")
    assert "Thanks" in march.tap("Yes, that's right")
    assert len(stored(march)) == 1


def test_a_reading_in_celsius_with_depth_and_hour_of_a_zone(march: Talker) -> None:
    march.say("soil 8.5 C at 3 in on the strip, 7 am")
    record = stored(march)[0]
    assert record.zone_name == "strip"
    assert record.measured_c == pytest.approx(8.5)
    assert record.depth_m == pytest.approx(0.0762)  # 3 in of 25.4 mm exactly
    assert record.read_at.astimezone(UTC).hour == 12  # 7 am in the central time zone, summer time


def test_undo_takes_a_reading_back(march: Talker) -> None:
    march.say("soil 50")
    march.take_back()
    assert stored(march) == []
    assert "Weather data:" not in march.ask("/soil")


def test_an_hour_still_to_come_is_refused(march: Talker) -> None:
    assert "in the future" in march.ask("soil 50 at 11 pm")
    assert stored(march) == []


def test_the_emergence_clock_puts_goosegrass_after_crabgrass(march: Talker) -> None:
    text = march.ask("weeds")
    assert text.index("Crabgrass, first") < text.index("Goosegrass, first")
    air = march.tap("Air rules")
    assert "base 50 °F" in air
    assert "degree-days" in air


def stored(talker: Talker) -> list[readings.ReadingRecord]:
    with talker.db.reading() as work:
        return readings.of_yard(work, 1)


def degrees(text: str) -> list[int]:
    return [int(number) for number in re.findall(r"(-?\d+) °F", text)]


def emergence_on(talker: Talker) -> str:
    talker.wait("PT1H")
    with talker.db.reading() as work:
        season = seasons.season(work, 1, "summer_annuals")
    assert season is not None
    assert season.outlook is not None
    return str(season.outlook["p50"])


def test_a_hot_strip_goes_first_and_the_rest_can_wait(march: Talker) -> None:
    together = emergence_on(march)
    march.say("strip is a hot strip")
    text = march.ask("/soil")
    assert re.search(r"Do strip first\. front can wait about \d+ days", text)
    assert emergence_on(march) < together
    opened = march.until_alert("window_open")
    assert "Do strip first" in opened.reply.text


def test_a_place_without_a_clear_spring_is_told_so(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("/start")
    assert "There is no clear season here" in talker.ask("Savannah GA")
    text = talker.ask("/soil")
    assert "No clear season here" in text
    assert "rough" in text


def test_a_cold_short_spring_is_told_so(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("/start")
    talker.say("Caribou ME")
    assert "Spring is short" in talker.ask("/soil")
