"""The language a chat is answered in: the platform's hint at first, then what was asked for."""

from itertools import count

import pytest

from bot.saying import catalogue
from bot.terminal import Session
from bot.turn import Turn
from storage import chats
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


def test_each_person_of_a_group_is_answered_in_their_own_language_and_alerts_in_the_chats(
    talker: Talker, whole_spanish: None
) -> None:
    numbers = count()

    def told(person: str, hint: str | None = None, *, admin: bool = False, **said: str) -> str:
        key = f"group:{next(numbers)}"
        turn = Turn(
            key, "terminal", "-7", person, talker.session.now, language=hint,
            is_group=True, runs_chat=admin, **said,
        )  # fmt: skip
        replies = talker.machine.conversation.handle(turn)
        labels = [button.label for reply in replies for row in reply.buttons for button in row]
        return "\n".join([*(reply.text for reply in replies), *labels])

    def of_chat() -> tuple[str, str]:
        with talker.db.reading() as work:
            found = chats.find_chat(work, "terminal", "-7")
        assert found is not None
        return found.language, found.units

    # The platform's word is the first hint, for each of them; without one the chat's counts.
    assert "welcome" in told("8", "en", text="thanks")
    assert "De nada" in told("9", "es-MX", text="thanks")
    assert "welcome" in told("7", text="thanks")
    # What they say themselves counts more, and their neighbor notices nothing of it.
    said = told("9", "es-MX", text="/language en")
    assert "English" in said
    assert "Alerts" not in said
    said = told("8", "en", text="/language es")
    assert "en español" in said
    assert "siguen como estaban" in said
    assert "También" not in said
    assert "también" not in said
    assert "De nada" in told("8", "en", text="thanks")
    assert "welcome" in told("9", "es-MX", text="thanks")
    assert of_chat() == ("en", "us")
    # It goes with them, into a chat of their own too.
    own = Turn("own", "terminal", "8", "8", talker.session.now, text="thanks", language="en")
    assert "De nada" in talker.machine.conversation.handle(own)[0].text
    # What the whole chat is told is for its admins.
    assert "Only this group's admins" in told("9", tap="language:es:alerts")
    assert "también" in told("8", admin=True, text="/language es")
    assert "Listo" in told("8", admin=True, tap="language:es:alerts")
    # Units go the same way.
    assert "metros" in told("8", admin=True, text="usa metros")
    assert of_chat() == ("es", "us")
    told("8", admin=True, tap="units:metric:alerts")
    assert of_chat() == ("es", "metric")


def test_a_size_and_a_zone_that_nobody_named_are_told_in_spanish(tmp_path):
    talker = Talker(tmp_path)
    talker.ask("/idioma es")
    talker.ask("Salina KS")
    told = talker.ask("un triángulo de 30 pies de base y 20 de alto")
    assert "zona 1: triángulo 30 ft x 20 ft" in told


def test_what_is_reported_before_any_size_is_to_be_told_again(tmp_path):
    talker = Talker(tmp_path)
    talker.ask("/idioma es")
    talker.ask("Salina KS")
    told = talker.ask("ya le echamos 24 libras a todo")
    assert "dímelo otra vez" in told
