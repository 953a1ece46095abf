"""The normal form: spelling, languages, number words and units.

Number words are checked against text2num, a library of its own.
"""

import pytest
from text_to_num import text2num

from bot.hearing import figure_words
from bot.hearing.normal import language_of, normal, told_language


def small(said: str, language: str = "en") -> str:
    return " ".join(normal(said, language).text.split())


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("Didn't", "did not"),
        ("dont", "do not"),
        ("I'll do it tmrw", "i will do it tomorrow"),
        ("sooooo good", "so good"),
        ("should of", "should have"),
        ("crab grass", "crabgrass"),
        ("front done comma back not", "front done , back not"),
        ("👍", "thumbsup"),
    ],
)
def test_slips_and_short_forms_are_written_out(said: str, written: str) -> None:
    assert small(said) == written


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("sixty by forty feet", "60 x 40 ft"),
        ("sixty bye forty", "60 x 40"),
        ("forty too by sixty", "42 x 60"),
        ("ate feet", "8 ft"),
        (".5 lb", "0.5 lb"),
        ("60 feet and half a pound", "60 ft and 0.5 lb"),
        ("front .25 acre", "front 0.25 acre"),
        ("an inch and a half", "1.5 in"),
        ("half an inch", "0.5 in"),
        ("three quarters of an inch", "0.75 in"),
        ("quarter inch", "0.25 in"),
        ("point four inches", "0.4 in"),
        ("three tenths", "0.3 in"),
        ("two thousand four hundred square feet", "2400 sq ft"),
        ("5 thousand square feet", "5000 sq ft"),
        ("half an hour", "0.5 h"),
        ("3 point 2 pounds per thousand", "3.2 lb per 1000"),
        ("we got to inches of rain", "we got 2 in of rain"),
    ],
)
def test_english_figures_in_words(said: str, written: str) -> None:
    assert small(said) == written


@pytest.mark.parametrize(
    ("said", "written"),
    [
        ("doce por nueve metros", "12 x 9 m"),
        ("media pulgada", "0.5 in"),
        ("pulgada y media", "1.5 in"),
        ("una pulgada y cuarto", "1.25 in"),
        ("tres cuartos de pulgada", "0.75 in"),
        ("siete libras y media", "7.5 lb"),
        ("tres punto dos libras", "3.2 lb"),
        ("5,7 kilos en el frente", "5.7 kg en el frente"),
        ("veinte y cinco minutos", "25 min"),
        ("cubre 5 mil pies cuadrados", "cubre 5000 sq ft"),
        ("media hora", "0.5 h"),
        ("galón y medio", "1.5 gal"),
    ],
)
def test_spanish_figures_in_words(said: str, written: str) -> None:
    assert small(said, "es") == written


@pytest.mark.parametrize("language", ["en", "es"])
def test_number_words_have_the_value_that_a_library_gives_them(language: str) -> None:
    table = {
        "en": ["twelve", "twenty five", "ninety nine", "forty two hundred", "six thousand two"],
        "es": ["doce", "treinta y cinco", "quinientos", "dos mil cuatrocientos", "quince mil"],
    }
    for words in table[language]:
        found = figure_words.figures_of(words, language)
        assert found == str(text2num(words, language)), words


@pytest.mark.parametrize(
    ("said", "language"),
    [
        ("one of them", "en"),
        ("that one", "en"),
        ("una de ellas", "es"),
    ],
)
def test_a_lone_one_stays_a_word(said: str, language: str) -> None:
    assert not any(letter.isdigit() for letter in small(said, language))


def test_a_unit_that_is_another_word_counts_only_behind_a_figure() -> None:
    assert small("put it in the back") == "put it in the back"
    assert small("0.5in") == "0.5 in"


@pytest.mark.parametrize(
    ("said", "language"),
    [
        ("le eché ayer", "es"),
        ("put it down yesterday", "en"),
        ("xyz", "en"),
    ],
)
def test_the_language_is_told_by_everyday_words(said: str, language: str) -> None:
    assert language_of(said, "en") == language


def test_an_accent_tells_yes_from_if() -> None:
    assert small("sí", "es") == "yes"
    assert small("si riego", "es") == "si riego"


def test_every_piece_traces_back_to_what_was_said() -> None:
    form = normal("Put it on the FRONT, tmrw the Café lawn", "en")
    at = form.text.index("cafe")
    assert form.traced.original(at, at + len("cafe lawn")) == "Café lawn"


def test_borrowed_nouns_among_the_little_words_of_another_language_tell_none():
    assert told_language("el front yard mide 60x40 y el backyard 55x70 feet") is None
    assert told_language("my front yard is 60x40 in El Paso") == "en"
