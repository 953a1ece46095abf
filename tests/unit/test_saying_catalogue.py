import re
from pathlib import Path

import pytest

from bot.hearing import readers
from bot.saying import catalogue


def test_a_sentence_is_found_by_file_and_key():
    said = catalogue.say("reading.zero", said="0x40", example="front 60 x 40 ft")
    assert said == 'A size in "0x40" is zero. For example: front 60 x 40 ft'


def test_a_missing_key_is_an_error():
    with pytest.raises(catalogue.MissingSentence):
        catalogue.say("reading.no_such_sentence")


def test_a_missing_placeholder_is_an_error():
    with pytest.raises(catalogue.MissingPlaceholder):
        catalogue.say("reading.zero", said="0x40")


def test_an_unknown_language_is_an_error():
    with pytest.raises(catalogue.MissingSentence):
        catalogue.say("reading.zero", lang="xx", said="", example="")


def test_all_languages_share_keys_and_placeholders():
    def outline(lang):
        return {
            key: catalogue.placeholders(text) for key, text in catalogue.sentences(lang).items()
        }

    assert "en" in catalogue.languages()
    for lang in catalogue.languages():
        assert outline(lang) == outline("en"), lang


def test_no_sentence_calls_anything_safe():
    for lang in catalogue.languages():
        for key, text in catalogue.sentences(lang).items():
            assert not re.search(r"\bsafe\b", text, re.IGNORECASE), key


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
