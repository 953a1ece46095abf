"""Phrases of the language folders: what their writing means, and that all of them can be read."""

import tomllib

import pytest

from bot.hearing import words
from bot.hearing.phrases import BadPhrase, Phrases, phrases, which
from bot.hearing.templates import FOLDER

FILES = sorted(FOLDER.glob("*/phrases/*.toml"))


@pytest.mark.parametrize(
    ("phrase", "fits", "fails"),
    [
        (
            "[the|my] sprayer[s]",
            ("sprayer", "My  sprayers", "the sprayer"),
            ("sprayer the", "ours"),
        ),
        ("a [b] [c]", ("a", "a b", "a c", "a b c"), ("a ", "ab", "b c")),
        ("(a|[b] c) d", ("a d", "b c d", "c d"), ("b d", "d")),
        ("spray* it", ("spray it", "sprayed it"), ("spra it",)),
        ("a ... z", ("a z", "a b c z"), ("az", "a zz")),
        ("[{before}(,| and)] go", ("go", "a tank, go", "this and go"), ("a tank go",)),
        ("cubrí", ("cubri", "CUBRÍ"), ("cubro",)),
        ("it's|its", ("it's", "its"), ("it s",)),
        ("[a]* b [c|d]*", ("b", "a a b", "b c d c"), ("a", "b e")),
        ("a{!word} ...|{a:count} b", ("a, or b", "2 b"), ("a2",)),
        ("({n:number} ft|ft {n:number}){>maybe}", ("1 1/2 ft", "ft 1,200.5"), ("ft ft",)),
    ],
)
def test_a_phrase_fits_what_it_says_and_no_more(phrase, fits, fails):
    written = Phrases((phrase,))
    assert [text for text in fits if written.whole(text) is None] == []
    assert [text for text in fails if written.whole(text) is not None] == []


def test_pieces_are_as_they_were_written():
    said = Phrases(("{who} has {n:figure} gal",)).whole("Señor Núñez has 1,200.5 gal")
    assert (said["who"], said["n"], said["other"]) == ("Señor Núñez", "1,200.5", "")


def test_a_phrase_in_a_text_stands_between_whole_words():
    word = Phrases(("bar",))
    assert word.first("barrier, crowbar") is None
    found = word.first("the bar is Open")
    assert (found.before, found.after) == ("the ", " is Open")
    assert word.without("bar and Bar.", "pub") == "pub and pub."
    assert word.at_start("a bar") is None
    assert [said.start for said in word.every("bar bar")] == [0, 4]
    assert word.at_end("a bar ").start == 2
    assert word.at_end("bar it") is None
    both = Phrases(("{n:count} bars", "bars {n:count}"))
    assert both.without("bars 2 and 3 bars", lambda said: said["n"]) == "2 and 3"


@pytest.mark.parametrize("phrase", ["(a", "[a)", "a]", "{n:nothing_known}"])
def test_what_is_no_phrase_is_refused(phrase):
    with pytest.raises(BadPhrase):
        Phrases((phrase,))


def test_the_name_whose_phrase_a_text_is_is_told():
    assert which("sprayer", ("plot", "show"), "my sprayer") == "show"
    assert which("sprayer", ("plot", "show"), "my sprayers and all") is None


def test_a_name_without_phrases_is_refused():
    with pytest.raises(KeyError):
        phrases("sprayer", "no such name")


@pytest.mark.parametrize("file", FILES, ids=lambda file: f"{file.parts[-3]}-{file.stem}")
def test_every_phrase_of_the_folders_can_be_read(file):
    assert file.parts[-3] in words.LANGUAGES
    for name, listed in tomllib.loads(file.read_text("utf-8")).items():
        Phrases((listed,) if isinstance(listed, str) else tuple(listed))
        assert file.stem in ("kinds", "values") or phrases(file.stem, name) is not None
