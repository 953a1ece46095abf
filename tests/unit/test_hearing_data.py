"""The language folders: every act has sentences, every sentence parses, weights and data agree."""

import numpy as np
import pytest

from bot.hearing import words
from bot.hearing.acts import ACTS
from bot.hearing.emergency import is_emergency
from bot.hearing.heard_values import find_spans
from bot.hearing.names_heard import Names
from bot.hearing.normal import normal
from bot.hearing.ranker import WEIGHTS, ranker
from bot.hearing.templates import (
    FOLDER,
    BadTemplate,
    Line,
    act_lines,
    passing_lines,
    samples,
    spread,
)
from bot.hearing.train import digest, example, in_moments

FEWEST = 25


@pytest.mark.parametrize("language", words.LANGUAGES)
def test_every_act_has_sentences_in_every_language(language: str) -> None:
    counted = dict.fromkeys(ACTS, 0)
    for line in act_lines(language):
        for name in line.acts:
            if name != "choose":
                counted[name] += 1
    assert not {name: count for name, count in counted.items() if count < FEWEST}


@pytest.mark.parametrize("language", words.LANGUAGES)
def test_every_sentence_of_several_acts_names_acts(language: str) -> None:
    named = {name for line in act_lines(language) for name in line.acts}
    assert named <= {*ACTS, "choose"}


def test_a_template_is_spread_out() -> None:
    assert list(spread("[all] done (here|there)", "en")) == [
        "all done here",
        "all done there",
        "done here",
        "done there",
    ]


@pytest.mark.parametrize("template", ["done [here", "a {nothing} of"])
def test_a_template_that_does_not_parse_is_refused(template: str) -> None:
    with pytest.raises(BadTemplate):
        list(spread(template, "en"))


def test_languages_fill_the_same_slots() -> None:
    assert samples("en").keys() == samples("es").keys()


@pytest.mark.parametrize("name", ["things", "values", "guards", "answers", "emergency", "concepts"])
def test_word_files_have_the_same_sections_in_every_language(name: str) -> None:
    first, *others = [words.table(language, name) for language in words.LANGUAGES]
    for other in others:
        assert other.keys() == first.keys()


def test_weights_were_learnt_from_these_sentences() -> None:
    assert ranker().digest == digest(FOLDER), "run python -m bot.hearing.train"


def test_weights_are_small_and_know_every_act() -> None:
    assert WEIGHTS.stat().st_size < 5_000_000
    assert set(ranker().acts) >= set(ACTS) - {"unknown"}
    assert ranker().weights.dtype == np.int8


def test_what_is_said_in_passing_is_learnt_beside_other_things() -> None:
    lines = [line for each in words.LANGUAGES for line in passing_lines(each)]
    passing = [example(line) for line in lines]
    known = example(Line("is it time yet", ("ask_when",), "en"))
    learnt = [each for each in in_moments([known] * 40, passing) if each.line is known.line]
    longer = [each for each in learnt if len(each.text) > len(known.text)]
    assert longer
    assert all(known.text in each.text for each in longer)
    assert {each.line.acts for each in learnt} == {("ask_when",)}


def test_most_emergencies_are_known_by_words_alone() -> None:
    names = Names()
    for language in words.LANGUAGES:
        lines = [line for line in act_lines(language) if line.acts == ("emergency",)]
        forms = [normal(line.said, language) for line in lines]
        known = sum(is_emergency(form, find_spans(form, names)) for form in forms)
        assert known >= 0.7 * len(forms), language
