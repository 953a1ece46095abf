"""Values, names and days found in a normal form, and what of them the ranker sees."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest
from dateutil.relativedelta import FR, MO, relativedelta

from bot.hearing import day_words
from bot.hearing.guards import manner
from bot.hearing.heard_values import abstracted, find_spans
from bot.hearing.names_heard import Names, part_of_lot
from bot.hearing.normal import normal
from bot.hearing.readers.dates import WhenRead

NAMES = Names(("front", "back", "ditch strip"), ("Church", "Miller"))
NOW = datetime(2026, 4, 12, 18, tzinfo=ZoneInfo("America/Chicago"))  # a Sunday


def kinds(said: str, language: str = "en") -> list[str]:
    return [span.kind for span in find_spans(normal(said, language), NAMES)]


def zones(said: str, language: str = "en") -> list[str]:
    spans = find_spans(normal(said, language), NAMES)
    named = [name for span in spans if span.kind in ("zone", "all") for name in span.value or ()]
    return list(dict.fromkeys(named))


@pytest.mark.parametrize(
    ("said", "kind"),
    [
        ("60x40", "size"),
        ("12 por 9 metros", "size"),
        ("2,400 sq ft", "area"),
        ("3.2 lb per 1000", "rate"),
        ("0.83 oz per 1000 sq ft", "rate"),
        ("150 kg/ha", "rate"),
        ("7 lb 11 oz", "amount"),
        ("half an inch", "depth"),
        ("20 min", "minutes"),
        ("3 weeks", "days"),
        ("0.38%", "percent"),
        ("53 degrees", "temp"),
        ("8 mph", "speed"),
        ("38.8, -97.6", "place"),
        ("40.81, menos 96.7", "place"),
        ("68506", "zip"),
        ("Salina, Kansas", "town"),
        ("Lincoln, NE", "town"),
        ("K4TP9X", "code"),
        ("prodiamine", "product"),
        ("tall fescue", "grass"),
        ("henbit", "weed"),
        ("dethatch", "work"),
    ],
)
def test_a_value_has_its_kind(said: str, kind: str) -> None:
    assert kinds(said) == [kind]


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("did the Front", ["front"]),
        ("the strip is down", ["ditch strip"]),
        ("bakc is done", ["back"]),
        ("ditsch strip", ["ditch strip"]),
        ("everything is down", ["front", "back", "ditch strip"]),
        ("got back to you", []),
        ("all right", []),
    ],
)
def test_zones_are_found_by_name_near_name_and_word(said: str, named: list[str]) -> None:
    assert zones(said) == named


@pytest.mark.parametrize(
    ("said", "named"),
    [
        ("ya eché atrás", ["back"]),
        ("el fondo quedó listo", ["back"]),
        ("enfrente ya está", ["front"]),
        ("la de adelante", ["front"]),
        ("la zanja falta", ["ditch strip"]),
        ("quedó todo", ["front", "back", "ditch strip"]),
    ],
)
def test_zones_are_found_by_spanish_words(said: str, named: list[str]) -> None:
    assert zones(said, "es") == named


def test_a_word_that_fits_two_zones_names_neither() -> None:
    names = Names(("front east", "front west"))
    spans = find_spans(normal("did the front yard", "en"), names)
    assert [span.value for span in spans if span.kind == "zone"] == [None]


def test_a_part_of_a_lot_has_one_plain_name() -> None:
    assert part_of_lot("la de atrás", "es") == "back"
    assert part_of_lot("Pool Lawn", "en") == "Pool Lawn"


def test_the_ranker_sees_kinds_for_values() -> None:
    form = normal("front with 7 lb yesterday", "en")
    assert abstracted(form.text, find_spans(form, NAMES)) == "<zone> with <amount> <day> behind"


@pytest.mark.parametrize(
    ("said", "is_past", "day"),
    [
        ("yesterday", True, date(2026, 4, 11)),
        ("anoche", True, date(2026, 4, 11)),
        ("antier", True, date(2026, 4, 10)),
        ("3 days ago", True, date(2026, 4, 9)),
        ("hace tres días", True, date(2026, 4, 9)),
        ("el lunes que viene", False, date(2026, 4, 13)),
        ("10 de abril", True, date(2026, 4, 10)),
        ("April 3rd", True, date(2026, 4, 3)),
        ("mañana", False, date(2026, 4, 13)),
        ("pasado mañana", False, date(2026, 4, 14)),
        ("2026-04-03", True, date(2026, 4, 3)),
    ],
)
def test_days(said: str, is_past: bool, day: date) -> None:
    form = normal(said, "en")
    found = day_words.find_days(form.text, form.language)
    placed = day_words.placed(found[0], None, NOW, is_past=is_past)
    assert isinstance(placed, WhenRead)
    assert placed.at.date() == day


def test_a_weekday_lies_behind_in_a_report_and_ahead_in_a_plan() -> None:
    """Checked against dateutil's relativedelta."""
    found = day_words.find_days("friday", "en")[0]
    behind = day_words.placed(found, None, NOW, is_past=True)
    ahead = day_words.placed(found, None, NOW, is_past=False)
    assert isinstance(behind, WhenRead)
    assert isinstance(ahead, WhenRead)
    assert behind.at.date() == NOW.date() + relativedelta(weekday=FR(-1))
    assert ahead.at.date() == NOW.date() + relativedelta(weekday=FR(+1))
    monday = day_words.placed(day_words.find_days("monday", "en")[0], None, NOW, is_past=False)
    assert isinstance(monday, WhenRead)
    assert monday.at.date() == NOW.date() + relativedelta(weekday=MO(+1))


def test_a_morning_is_not_tomorrow_in_spanish() -> None:
    form = normal("hoy en la mañana", "es")
    assert [each.day for each in day_words.find_days(form.text, "es")] == ["today"]


@pytest.mark.parametrize(
    ("said", "minutes"),
    [("at 7", 420), ("a las 7", 420), ("5 pm", 1020), ("17:30", 1050), ("noon", 720)],
)
def test_hours(said: str, minutes: int) -> None:
    assert [each[3] for each in day_words.find_hours(normal(said, "en").text)] == [minutes]


@pytest.mark.parametrize(
    ("said", "language", "name"),
    [
        ("should i water", "en", "is_question"),
        ("did not get to it", "en", "is_denied"),
        ("going to do it", "en", "is_plan"),
        ("if it rains", "en", "is_condition"),
        ("my neighbor put his down", "en", "is_third"),
        ("no lo eche", "es", "is_denied"),
        ("voy a echarlo", "es", "is_plan"),
        ("mi vecino ya echo", "es", "is_third"),
        ("cuanto le echo", "es", "is_question"),
    ],
)
def test_the_manner_of_a_clause(said: str, language: str, name: str) -> None:
    assert name in manner(said, language, has_mark=False).names()
