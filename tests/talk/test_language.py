"""The language a chat is answered in: the platform's hint at first, then what was asked for."""

import pytest

from bot.saying import catalogue
from bot.terminal import Session
from tests.talk.harness import Talker, text_of


@pytest.fixture
def whole_spanish(monkeypatch):
    """As if the Spanish catalogue had every message, whatever it has by now."""
    monkeypatch.setattr(catalogue, "is_whole", lambda _lang: True)


def language_of(talker: Talker) -> str:
    from storage import chats

    with talker.db.reading() as work:
        return chats.chat(work, 1).language


def speaks(talker: Talker, code: str | None) -> Session:
    return Session(talker.machine, talker.messenger, talker.clock, 1, code)


@pytest.mark.parametrize(("code", "language"), [("es-MX", "es"), ("en-GB", "en"), ("de", "en")])
def test_a_new_chat_begins_in_the_language_its_platform_hints_at(
    talker: Talker, whole_spanish: None, code: str, language: str
) -> None:
    speaks(talker, code).say("/start")
    assert language_of(talker) == language


def test_a_language_whose_catalogue_is_not_whole_is_not_begun_in(talker: Talker, monkeypatch):
    monkeypatch.setattr(catalogue, "is_whole", lambda _lang: False)
    speaks(talker, "es").say("/start")
    assert language_of(talker) == "en"


def test_a_hint_changes_nothing_for_a_chat_that_has_its_language(
    talker: Talker, whole_spanish: None
) -> None:
    talker.say("/start")
    speaks(talker, "es").say("thanks")
    assert language_of(talker) == "en"


@pytest.mark.parametrize("said", ["/language es", "/language español", "en español"])
def test_a_language_is_asked_for(talker: Talker, said: str) -> None:
    talker.say("/start")
    talker.say(said)
    assert language_of(talker) == "es"
    talker.say("speak English")
    assert text_of(talker.say("/language")).startswith("Which language?")
    talker.tap("language:es")
    assert language_of(talker) == "es"


@pytest.mark.parametrize(
    ("said", "language"),
    [
        ("hola", "es"),
        ("oye, cuándo toca echarle al pasto", "es"),
        ("¿Cómo funciona?", "es"),
        # Names of places are in no language.
        ("El Paso, TX", "en"),
        ("Casa Grande AZ", "en"),
        ("when is it time", "en"),
    ],
)
def test_who_only_just_came_is_answered_in_the_language_they_write(
    talker: Talker, whole_spanish: None, said: str, language: str
) -> None:
    talker.say("/start")
    talker.say(said)
    assert language_of(talker) == language


def test_a_settled_chat_keeps_its_language(talker: Talker, whole_spanish: None) -> None:
    talker.say("/start")
    for _ in range(6):
        talker.say("39.18, -96.57")
    talker.say("hola, ¿cuándo toca?")
    assert language_of(talker) == "en"
