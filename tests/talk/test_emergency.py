"""Emergencies are answered before anything else, in any state of the conversation."""

import pytest
from sqlalchemy import select

from bot.hearing.emergency import speaks_of_one
from storage import models
from tests.talk.harness import PLACE, Talker, text_of

EMERGENCIES = [
    "my dog ate some of the granules",
    "he has eaten it",
    "got some in the eye",
    "in my eyes!",
    "the dog is sick",
    "cat is vomiting",
    "spilled half a bag",
    "there was a spill on the drive",
    "it ran into the storm drain",
    "it washed into the creek",
    "she swallowed it",
    "I breathed in the dust",
    "it is burning on my skin",
    "trouble breathing",
    "poison",
    "call 911",
    "EATEN",
]
ORDINARY = [
    "front 60x40",
    "applied strip yesterday 5 pm",
    "3.2 lb per 1000 sq ft",
    "prodiamine 0.38% granule",
    "watered 0.5 in",
    "/soil",
    "undo",
    "late shade bed 12x9",
    "what about later",
    "metric",
]


@pytest.mark.parametrize("text", EMERGENCIES)
def test_words_of_an_emergency_are_heard(text: str) -> None:
    assert speaks_of_one(text)


@pytest.mark.parametrize("text", ORDINARY)
def test_ordinary_words_are_not(text: str) -> None:
    assert not speaks_of_one(text)


def test_before_there_is_a_yard(talker: Talker) -> None:
    text = talker.ask("dog ate granules")
    assert text.startswith("STOP")
    assert "1-800-222-1222" in text
    assert "vet" in text
    assert "emergency number" in text


@pytest.mark.parametrize("question", ["/product", "/zones", "/applied nonsense", "/yard"])
def test_in_the_middle_of_anything_and_the_thread_is_not_lost(talker: Talker, question) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")
    talker.say(question)
    before = dialogue(talker)
    assert talker.ask("my son got it in his eyes").startswith("STOP")
    assert dialogue(talker) == before


def test_sizes_along_a_drain_are_kept_all_the_same(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    assert "400 sq ft" in talker.ask("strip along the drain 5x80 ft")


def test_even_when_the_database_is_gone(talker: Talker) -> None:
    talker.db.engine.dispose()
    with talker.db.writing() as work:
        work.connection().exec_driver_sql("DROP TABLE dialogue")
    text = text_of(talker.say("dog ate granules"))
    assert text.startswith("STOP")


def test_nothing_is_ever_called_safe_for_children_or_pets() -> None:
    from bot.saying.checking import sentences

    for key, sentence in sentences("en").items():
        assert " safe" not in f" {sentence.casefold()}", key


def dialogue(talker: Talker) -> tuple[str | None, dict]:
    with talker.db.reading() as work:
        row = work.scalars(select(models.Dialogue)).one()
        return row.topic, row.data
