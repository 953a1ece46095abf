"""Which day, watered in, and what is wrong with the data: asked and answered in the terminal."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import numpy as np
import pytest

from jobs import packed_cells
from jobs.sources.base import Cell, CellWeather, SourceUnreachable
from jobs.sources.simulated import SimulatedSource
from jobs.weather_of_day import Advice
from storage import chats
from storage.shown import newest_shown
from tests.talk.harness import PLACE, PRODUCT, START, Talker, text_of


class Weather(SimulatedSource):
    """The invented climate with a week's hours as a test wants them."""

    def __init__(self, **columns: float) -> None:
        super().__init__(0)
        self.columns = columns
        self.rain_from_hour: dict[int, float] = {}
        self.disagrees_by_c: float | None = None
        self.has_hours = True
        self.has_forecast = True
        self.is_down = False

    def fetch(self, requests, now):
        if self.is_down:
            return {request.cell: SourceUnreachable("down") for request in requests}
        answers = {}
        for cell, answer in super().fetch(requests, now).items():
            assert isinstance(answer, CellWeather)
            assert answer.hourly is not None
            count = len(answer.hourly.air_c)
            usual = {"air_c": 15.0, "rain_mm": 0.0, "wind_m_s": 3.5, "humidity_pct": 50.0}
            values = {
                name: np.full(count, value) for name, value in {**usual, **self.columns}.items()
            }
            for hour, mm in self.rain_from_hour.items():
                values["rain_mm"][hour] = mm
            hourly = replace(answer.hourly, **{n: tuple(v) for n, v in values.items()})
            answers[cell] = replace(
                answer,
                hourly=hourly if self.has_hours else None,
                forecast=answer.forecast if self.has_forecast else None,
                disagrees_by_c=self.disagrees_by_c,
            )
        return answers


@pytest.fixture
def weather() -> Weather:
    return Weather()


@pytest.fixture
def april(tmp_path, weather: Weather) -> Talker:
    """A yard with zones and a granule on a mild, dry morning in April."""
    talker = Talker(tmp_path, start=datetime(2026, 4, 1, 14, tzinfo=UTC), source=weather)
    talker.settle_in()
    return talker


def facts_of(talker: Talker) -> dict:
    """The facts kept with the newest answer."""
    with talker.db.reading() as work:
        chat = chats.find_chat(work, "terminal", "1")
        assert chat is not None
        return newest_shown(work, chat.id, 1)[0][-1].replies[-1]["data"]


def test_best_day_and_hours_second_best_and_a_reason_against_each_other_day(april: Talker) -> None:
    short = april.ask("/day").splitlines()
    text = april.tap("All days")
    lines = text.splitlines()
    assert lines[0] == short[0]
    assert len(short) == 2
    assert lines[0].startswith("Yard 1: best day today, ")
    assert lines[1].startswith("Next best: tomorrow, ")
    against = [line for line in lines if ": just as good, but later" in line]
    assert len(against) == 6
    assert "forecast from" in text
    assert "Made-up weather" in text
    assert len(lines) <= 11


def test_every_verdict_is_kept_with_its_facts_and_can_be_asked_about(
    april: Talker, weather: Weather
) -> None:
    weather.rain_from_hour = dict.fromkeys(range(48, 60), 3.0)
    april.wait("P1D")
    april.say("/day")
    week = Advice.from_json(facts_of(april)["day"]).week
    assert week is not None
    wet = [day for day in week.days if day.against is not None and day.against.key == "heavy_rain"]
    assert wet
    values = [day.against.value for day in wet if day.against is not None]
    assert max(values) == pytest.approx(36.0)
    day = wet[values.index(max(values))].day
    answer = april.ask(f"why not {day:%A}?")
    assert "heavy rain after, 1.42 in, could wash it off (limit 1 in)" in answer
    assert "wind 0 mph to 15 mph" in answer


def test_a_spray_is_judged_by_its_own_wind(april: Talker, weather: Weather) -> None:
    weather.columns["wind_m_s"] = 8.0
    april.wait("P1D")
    assert "best day" in april.ask("/day")
    april.say(
        "/product prodiamine 65% WDG 0.4 oz per 1000 sq ft, max 0.83 oz per 1000 sq ft a year"
    )
    april.say("/day")
    text = april.tap("All days")
    assert "a spray: no good day" in text
    assert "too windy: 13 mph (limit 10 mph)" in text
    assert "No day is worth the risk" in text


def test_the_labels_wind_wins_and_is_named(april: Talker, weather: Weather) -> None:
    assert "wind to 4 mph" in april.ask("label wind 4 mph")
    april.say("/day")
    text = april.tap("All days")
    assert "no good day" in text
    assert "(limit 4 mph) (your label)" in text
    april.take_back()
    assert "best day today" in april.ask("/day")


def test_the_persons_free_days_are_kept(april: Talker) -> None:
    april.say("free Saturday mornings")
    april.say("/day")
    text = april.tap("All days")
    assert "best day Sat Apr 4" in text
    assert "not one of your free days" in text
    april.say("free any time")
    assert "best day today" in april.ask("/day")


def test_under_a_ban_only_rain_counts(april: Talker, weather: Weather) -> None:
    april.say("watering ban")
    april.say("/day")
    text = april.tap("All days")
    assert "you can't water" in text
    assert "Don't apply yet: there is no water to activate it." in text
    weather.rain_from_hour = dict.fromkeys(range(98, 112), 1.2)
    april.wait("P1D")
    text = april.ask("/day")
    assert "Rain in the forecast waters it in by" in text


def test_rain_of_the_last_two_days_counts_against_soaked_ground(
    april: Talker, weather: Weather
) -> None:
    place = Cell.at(*PLACE)
    with april.db.writing() as work:
        whole = packed_cells.held(work, "simulated", place)
        assert whole is not None
        rain = whole.known.rain_mm.copy()
        rain[-1] = 40.0
        wet = replace(whole.known, rain_mm=rain)
        wet = wet.between(wet.last_day - timedelta(days=3), wet.last_day)
        assert whole.hourly is not None
        answer = CellWeather(wet, whole.forecast, whole.hourly, april.session.now)
        packed_cells.keep(work, "simulated", True, {place: answer}, april.session.now)
    april.say("/day")
    assert "Today: ground soaked: 1.57 in in two days" in april.tap("All days")


def test_without_hours_the_days_alone_are_judged_and_that_is_said(
    april: Talker, weather: Weather
) -> None:
    weather.has_hours = False
    april.wait("P1D")
    text = april.ask("/day")
    assert "No hours, wind or dew" in text
    assert " am" not in text.splitlines()[0]


def test_without_any_forecast_only_daily_data_is_known_and_that_is_said(
    april: Talker, weather: Weather
) -> None:
    weather.has_hours = weather.has_forecast = False
    april.wait("P1D")
    text = april.ask("/day")
    assert "only past weather" in text
    assert "pick a dry morning" in text


def test_no_good_day_before_weeds_germinate_is_said_with_the_least_bad(tmp_path) -> None:
    weather = Weather(air_c=32.5)
    talker = Talker(tmp_path, start=datetime(2026, 2, 10, 14, tzinfo=UTC), source=weather)
    talker.settle_in()
    opened = talker.until_alert("act_now")
    assert "No good day in this week's forecast." in opened.reply.text
    assert "Best of a bad week: today (too hot: 90 °F (maximum 90 °F))" in opened.reply.text
    talker.wait("P2D")
    assert "Best of a bad week: today" in talker.ask("/day")


def test_the_window_alert_names_the_day(april: Talker) -> None:
    opened = april.until_alert("act_now", days=30)
    lines = opened.reply.text.splitlines()
    assert "last call" in lines[0]
    assert any(line.startswith("Best day: ") for line in lines[1:3])


@pytest.mark.parametrize(
    ("place", "start", "zone"),
    [
        ((39.18, -96.57), datetime(2026, 3, 8, 13, tzinfo=UTC), "America/Chicago"),
        ((51.5, -0.6), datetime(2026, 3, 29, 7, tzinfo=UTC), "Europe/London"),
        ((28.61, 77.21), datetime(2026, 2, 20, 3, tzinfo=UTC), "Asia/Kolkata"),
        ((-34.93, 138.6), datetime(2026, 10, 4, 0, tzinfo=UTC), "Australia/Adelaide"),
        ((47.56, -52.71), datetime(2026, 4, 20, 12, tzinfo=UTC), "America/St_Johns"),
    ],
)
def test_days_and_hours_are_the_yards_own_wherever_it_is(tmp_path, place, start, zone) -> None:
    talker = Talker(tmp_path, start=start, source=Weather())
    talker.say("/start")
    talker.session.location(*place)
    talker.say("front 60x40")
    talker.say("/day")
    week = Advice.from_json(facts_of(talker)["day"]).week
    assert week is not None
    talker.say("/yard")
    talker.tap("More")
    assert zone in talker.tap("Time zone")
    for verdict in week.days:
        if verdict.start is not None and verdict.end is not None:
            assert verdict.start.date() == verdict.day
            assert 5 <= verdict.start.hour < verdict.end.hour <= 21


# -- watered in


def test_minutes_count_once_the_sprinkler_is_known(april: Talker) -> None:
    april.say("applied")
    assert "I don't know how fast your sprinkler is" in april.ask("watered 20 min")
    # The depth alone answers, until it is taken back.
    assert "0.25 in to go" in april.ask("maybe a quarter inch")
    april.take_back()
    april.say("watered 20 min")
    # Half an inch at 0.9 in an hour is 33 min.
    assert "0.9 in an hour, so 0.5 in takes 33 min" in april.ask("sprinkler 0.3 in in 20 min")
    assert "0.2 in to go" in april.ask("watered 20 min")
    assert "is watered in" in april.ask("watered 14 min")


def test_clay_and_slopes_get_short_runs_with_soak_between(april: Talker) -> None:
    april.say("sprinkler 0.3 in in 20 min")
    april.say("clay soil")
    april.say("slope")
    text = april.ask("applied")
    assert "Run your sprinkler 33 min in all: 5 runs of 7 min, with 120 min between runs" in text


def test_an_uneven_sprinkler_is_named(april: Talker) -> None:
    assert "driest quarter gets 27%" in april.ask("sprinkler 0.2, 0.3 and 0.05 in in 20 min")


def test_the_labels_depth_and_time_win(april: Talker) -> None:
    april.say("label water in 0.25 in within 24 hours")
    assert "0.25 in by tomorrow" in april.ask("applied")
    assert "is watered in" in april.ask("watered 0.25 in")


def test_label_terms_belong_to_their_product_alone(april: Talker) -> None:
    april.say("label water in 0.25 in")
    april.say(PRODUCT.replace("3.2 lb", "3.1 lb"))
    assert "water it in: 0.5 in" in april.ask("applied")


def test_a_washout_ahead_is_warned_of_at_once_and_in_the_morning(
    april: Talker, weather: Weather
) -> None:
    weather.rain_from_hour = dict.fromkeys(range(30, 40), 6.0)
    april.wait("PT32H")
    assert "2.36 in of rain is forecast from tomorrow 7 am" in april.ask("applied")
    # Nearer now: by the next morning's forecast it begins at one.
    weather.rain_from_hour = dict.fromkeys(range(12, 22), 6.0)
    morning = next(said for said in april.wait("P1D") if said.alert == "water_in")
    assert "Careful: 2.36 in of rain is forecast from today 1 pm" in morning.reply.text
    assert "Sweep granules off pavement" in morning.reply.text


def test_rain_that_will_do_it_is_told_and_is_called_a_forecast(
    april: Talker, weather: Weather
) -> None:
    april.say("applied")
    weather.rain_from_hour = dict.fromkeys(range(80, 96), 1.0)
    morning = next(said for said in april.wait("P1D") if said.alert == "water_in")
    assert "Rain in the forecast by then: 0.63 in. That would be enough" in morning.reply.text


def test_two_inches_fell_overnight(april: Talker) -> None:
    assert "know of no recent application" in april.ask("two inches fell overnight, redo it?")
    april.say("applied yesterday")
    text = april.ask("two inches fell overnight, redo it?")
    assert "don't redo the whole yard" in text
    assert "yearly maximum" in text
    april.say("watered 0.6 in")
    april.wait("P2D")
    assert "no, leave it. It was watered in before" in april.ask("it poured 2 in, do it again?")
    assert "under the 1 in" in april.ask("0.6 inch fell last night, redo it?")


def test_three_dry_weeks(tmp_path) -> None:
    talker = Talker(tmp_path, start=START, source=Weather())
    talker.settle_in()
    talker.say("applied")
    assert "not wasted. You applied 0 days ago" in talker.ask("no rain so far, is it wasted?")
    talker.say("watered 0.6 in")
    assert "Dry weeks don't undo the barrier" in talker.ask("three dry weeks, is it wasted?")


# -- the data's trouble


def test_sources_that_disagree_are_told_apart(april: Talker, weather: Weather) -> None:
    weather.disagrees_by_c = 4.2
    april.wait("P1D")
    for command in ("/soil", "/day"):
        text = april.ask(command)
        assert "Two weather sources differ by 8 °F here, and mine is warmer" in text
    weather.disagrees_by_c = None
    april.wait("P1D")
    assert "differ" not in april.ask("/day")


def test_an_outage_is_told_and_so_is_its_end(april: Talker, weather: Weather) -> None:
    weather.is_down = True
    april.wait("P2D")
    assert "has been silent since" in april.ask("/day")
    heard = april.wait("P3D")
    assert [said.alert for said in heard].count("data_stale") == 1
    assert "CAREFUL" in april.ask("/day")
    weather.is_down = False
    back = april.wait("P1D")
    told = [said.reply.text for said in back if said.alert == "data_stale"]
    assert len(told) == 1
    assert told[0].startswith("Yard 1: soil data is back.")
    assert "is back after silence since" in april.ask("/soil")
    later = april.wait("P3D")
    assert "data_stale" not in [said.alert for said in later]
    assert "is back" not in text_of(april.say("/soil"))


@pytest.mark.parametrize(
    ("when", "why"), [("yesterday", "is before you applied"), ("tomorrow", "in the future")]
)
def test_water_of_another_day_waters_nothing_in(settled: Talker, when: str, why: str) -> None:
    settled.say("applied")
    text = settled.ask(f"watered 0.5 in {when}")
    assert why in text
    assert "is watered in" not in text
    assert "Needs watering in" in settled.ask("/yard")
    assert "is watered in" in settled.ask("watered 0.5 in today")
