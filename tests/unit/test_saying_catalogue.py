import re
import shutil
from pathlib import Path

import pytest

import bot
from bot.hearing import readers
from bot.saying import catalogue, checking
from bot.saying.voice import Voice, change_voice, speaking, voice


def test_a_sentence_is_found_by_file_and_key():
    said = catalogue.say("reading.zero", said="0x40", example="front 60 x 40 ft")
    assert said == 'A size in "0x40" is zero. For example: front 60 x 40 ft'


def test_a_missing_key_is_an_error():
    with pytest.raises(catalogue.MissingSentence):
        catalogue.say("reading.no_such_sentence")


def test_a_missing_placeholder_is_an_error():
    with pytest.raises(catalogue.MissingPlaceholder):
        catalogue.say("reading.zero", said="0x40")


def test_a_language_we_have_not_is_english():
    with speaking("xx"):
        assert catalogue.say("yards.button_grass") == "Grass"


def test_a_sentence_a_language_spoils_is_said_in_english(a_little_spanish):
    (a_little_spanish / "es" / "yards.ftl").write_text("yards-button_grass = Pasto { $cuando }\n")
    with speaking("es"):
        assert catalogue.say("yards.button_grass") == "Grass"


def test_a_voice_lasts_as_long_as_its_block():
    with speaking("es", "metric"):
        change_voice(units="us")
        assert voice() == Voice("es", "us")
    assert voice() == Voice("en", "us")


def test_numbers_are_not_grouped_where_no_message_asks():
    assert catalogue.say("help.button_more", page=1234, pages=0.25) == "More (1234 of 0.25)"


def test_a_list_of_any_length_is_said():
    long = "zone, " * 1000
    assert long in catalogue.say("help.commands", lines=long)


def test_what_a_language_lacks_is_said_in_english(a_little_spanish):
    with speaking("es"):
        assert catalogue.say("yards.button_grass") == "Pasto"
        assert catalogue.say("yards.button_soil") == "Soil"
    assert catalogue.say("yards.button_grass") == "Grass"
    assert "yards.button_soil" in checking.missing("es")


def test_faults_of_a_catalogue_are_found(a_little_spanish):
    assert list(checking.faults("es")) == []
    file = a_little_spanish / "es" / "yards.ftl"
    file.write_text("yards-button_grass = Pasto { $cuando }\nnot a message\nyards-nosuch = x\n")
    found = "\n".join(checking.faults("es"))
    assert "yards.button_grass: has ['cuando']" in found
    assert "not readable: not a message" in found
    assert "yards.nosuch: not in en" in found


def test_every_catalogue_agrees_with_the_english_one():
    assert "en" in catalogue.languages()
    for lang in catalogue.languages():
        assert list(checking.faults(lang)) == []


def test_no_sentence_calls_anything_safe():
    for lang in catalogue.languages():
        for key, text in checking.sentences(lang).items():
            assert not re.search(r"\bsafe\b", text, re.IGNORECASE), key


@pytest.fixture
def a_little_spanish(tmp_path, monkeypatch):
    """English whole, and a Spanish catalogue of one message."""
    folder = tmp_path / "catalogues"
    shutil.copytree(catalogue.FOLDER / "en", folder / "en")
    (folder / "es").mkdir()
    (folder / "es" / "yards.ftl").write_text("yards-button_grass = Pasto\n", encoding="utf-8")
    monkeypatch.setattr(catalogue, "FOLDER", folder)
    catalogue.forget()
    yield folder
    monkeypatch.undo()
    catalogue.forget()


def test_every_key_the_code_names_is_there():
    called = re.compile(r"(?:\bsay|\breply|catalogue\.say)\(\s*f?\"([a-z_]+\.[^\"]+)\"")
    keys = checking.parameters().keys()
    named = {
        key
        for path in Path(bot.__file__).parent.rglob("*.py")
        for key in called.findall(path.read_text(encoding="utf-8"))
    }
    assert len(named) > 500
    for key in named:
        pieces = re.split(r"\{[^}]*\}+", key)
        pattern = re.compile(".*".join(re.escape(piece) for piece in pieces))
        assert any(pattern.fullmatch(each) for each in keys), key


def test_every_reason_in_the_readers_has_its_sentence():
    folder = Path(readers.__file__).parent
    named = re.compile(
        r"(?:NoSense|NoQuantity|doubt|_asked|\.ask|fault=)\(?\s*(?:said,\s*)?\"([a-z_]+)\""
        r"|\"reading\.([a-z_]+)\""
    )
    reasons = {
        first or second
        for module in folder.glob("*.py")
        for first, second in named.findall(module.read_text(encoding="utf-8"))
    }
    assert len(reasons) > 30
    missing = {reason for reason in reasons if not catalogue.has(f"reading.{reason}")}
    assert not missing


@pytest.mark.parametrize("lang", ["en", "es"])
def test_a_message_that_quotes_another_file_is_whole_whatever_was_said_before(lang):
    quoting = [
        f"{stem}.{name}"
        for stem in catalogue.stems(lang)
        for name in re.findall(
            rf"^{stem}-(\w+) = \{{ [a-z]+-[a-z_]+ \}}$", catalogue.written(lang, stem), re.MULTILINE
        )
    ]
    assert quoting
    for key in quoting:
        catalogue.forget()
        with speaking(lang):
            assert len(catalogue.say(key)) > 40
