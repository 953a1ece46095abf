"""Places that are done beside places that are not, slips put right, acts that say one thing."""

from dataclasses import replace
from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from bot.hearing.hear import hear
from bot.hearing.heard import Scene

SCENE = Scene(
    now=datetime(2026, 4, 10, 18, tzinfo=ZoneInfo("America/Chicago")),
    moment="open",
    zones=("front", "back", "ditch strip"),
    yards=("Church", "Miller"),
)


def told(said: str, **scene: object) -> list[tuple[str, tuple[str, ...]]]:
    heard = hear(said, replace(SCENE, **scene))  # type: ignore[arg-type]
    return [(each.act, each.slots.zones) for each in heard.acts]


@pytest.mark.parametrize(
    "said",
    [
        "front is treated, back not yet",
        "front: check. back: nah",
        "el frente ya quedó, atrás falta",
        "hice el frente, atrás el lunes",
        "did the front today, back monday",
        "front is done the back is still wet",
    ],
)
def test_a_place_done_and_a_place_not_done_are_told_apart(said: str) -> None:
    assert told(said) == [("report_applied", ("front",)), ("report_not_done", ("back",))]


def test_yards_are_told_apart_like_zones() -> None:
    heard = hear("Miller finished, Church monday", replace(SCENE, zones=("lawn",)))
    assert [(each.act, each.slots.yard) for each in heard.acts] == [
        ("report_applied", "Miller"),
        ("report_not_done", "Church"),
    ]


@pytest.mark.parametrize(
    "said", ["did the front, no wait, the back", "hice el frente... no, perdón, el de atrás"]
)
def test_a_slip_is_put_right_before_it_is_kept(said: str) -> None:
    assert told(said) == [("report_applied", ("back",))]


def test_a_slip_in_a_figure_is_put_right_too() -> None:
    heard = hear("watered 20 min, sorry, 30 min", replace(SCENE, moment="applied"))
    assert [(each.act, each.slots.minutes) for each in heard.acts] == [("report_watered", 30.0)]
    assert heard.acts[0].said == "watered 20 min, sorry, 30 min"


def test_the_rest_put_off_beside_a_report_is_not_done() -> None:
    acts = [act for act, _ in told("finished the front before the heat got me, rest later")]
    assert acts == ["report_applied", "report_not_done"]


@pytest.mark.parametrize(
    ("said", "act"),
    [
        ("haven't watered it yet, how long do I have", "ask_water"),
        ("agrega otra casa, está en Valley", "add_yard"),
        ("quita la franja, ya no la cuido yo", "remove_zone"),
    ],
)
def test_what_another_act_says_already_is_not_said_twice(said: str, act: str) -> None:
    assert [each for each, _ in told(said, moment="applied")] == [act]


@pytest.mark.parametrize(
    "said", ["no crabgrass at all so far, looks great", "no ha salido ni una hierba"]
)
def test_weeds_that_are_not_there_are_no_sighting(said: str) -> None:
    assert "report_weeds" not in [act for act, _ in told(said, moment="due")]


@pytest.mark.parametrize("said", ["invoice 20931", "licence 33821", "drop la de Elm"])
def test_a_figure_or_a_verb_alone_makes_no_change(said: str) -> None:
    assert not {"give_place", "join", "remove_zone"} & {act for act, _ in told(said)}


def test_half_of_a_zone_is_found_by_its_name_in_another_language() -> None:
    heard = hear("se me acabó el producto a la mitad de atrás", SCENE)
    (part,) = heard.acts[0].slots.parts
    assert (heard.acts[0].act, part.zone, part.share) == ("report_gap", "back", 0.5)


@pytest.mark.parametrize(
    "said", ["el frente mide 60 por 40", "frente 60x40", "la del frente 60x40"]
)
def test_a_spanish_chat_keeps_its_own_names(said: str) -> None:
    heard = hear(said, replace(SCENE, zones=(), moment="placed", language="es"))
    assert [zone.name for zone in heard.acts[0].slots.read.zones] == ["frente"]


@pytest.mark.parametrize("said", ["hice el frente", "did the front", "listo el de enfrente"])
def test_a_spanish_name_is_found_in_both_languages(said: str) -> None:
    assert told(said, zones=("frente", "atrás"), language="es") == [("report_applied", ("frente",))]
