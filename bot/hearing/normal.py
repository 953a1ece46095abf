"""The normal form: what was typed or dictated, in small letters, figures and our unit names.

Every letter remembers where it came from (`Traced`), so that names and quoted pieces keep the
person's own spelling. Words stay in their own language; slips, number words, fractions and units
become ours: ``dos pulgadas y media`` -> ``2.5 in``.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Final

from bot.hearing import figure_words, words
from bot.hearing.near_words import near_word
from bot.hearing.readers import lexing
from bot.hearing.readers.lexing import Traced


@dataclass(frozen=True)
class Normal:
    """A text in its normal form, and the language it is in."""

    traced: Traced
    language: str

    @property
    def text(self) -> str:
        """The normal form."""
        return self.traced.text

    @property
    def pointed(self) -> str:
        """The text as written, without space around it; Spanish decimal commas are points."""
        return with_points(self.traced.said, self.language).strip()


# First aid is looked for before the turn, and what is asked about is read again.
@lru_cache(maxsize=128)
def normal(said: str, language: str) -> Normal:
    """Return the normal form of a text; `language` is the chat's, where the text does not tell."""
    traced = lexing.plain(said)
    traced = traced.sub(_PICTURE, lambda match: _PICTURES[match.group()])
    traced = traced.sub(_YES, "yes")
    # Raised figures are figures now: endless ones would keep the patterns busy.
    traced = _small(traced).sub(lexing.ENDLESS_DIGITS, "")
    spoken = language_of(traced.text, language)
    found = words.table(spoken, "spelling")["phrases"]
    traced = traced.sub(_phrases(spoken), lambda match: found[" ".join(match.group().split())])
    before = traced
    traced = traced.sub(
        _WORD,
        lambda match: _respelled(
            match.group(), spoken, is_name=before.said[before.origin[match.start()]].isupper()
        ),
    )
    if spoken == "es":
        traced = traced.sub(_SI, "yes").sub(_DECIMAL_COMMA, ".")
    run = figure_words.number_run(spoken)
    traced = traced.sub(run, lambda match: figure_words.figures_of(match.group(), spoken))
    for pattern, new in figure_words.rules():
        traced = traced.sub(pattern, new)
    return Normal(traced, spoken)


def with_points(said: str, language: str) -> str:
    """Return a text with points for the decimal commas of Spanish: "15,5 x 9" is "15.5 x 9".

    Between two sizes a comma may part them, as in "60x40,30x20": it stays, and is asked about.
    """
    return _COMMA_SAID.sub(_point, said) if language == "es" else said


def _point(match: re.Match[str]) -> str:
    before, after = match.string[: match.start()], match.string[match.end() :]
    is_between = _BY_BEHIND.search(before) is not None and _BY_AHEAD.match(after) is not None
    return match[0] if is_between else f"{match[1]}.{match[2]}"


def language_of(small: str, fallback: str) -> str:
    """Return the language whose everyday words a text holds more of."""
    said = re.findall(r"[a-z]+", small)
    counts = {each: sum(word in _hints(each) for word in said) for each in words.LANGUAGES}
    most = max(counts.values())
    likely = [each for each in words.LANGUAGES if counts[each] == most]
    return fallback if fallback in likely or not most else likely[0]


def told_language(said: str) -> str | None:
    """Return the language a text is plainly in; None where a name or two may be all of it.

    "El Paso" and "Los Angeles" are in no language: short words count only where there are many, and
    one longer word is not enough, but for a greeting. What has the little words of one language and
    only longer ones of another is a mix: "el front yard mide 60x40 y el backyard 55x70 feet".
    """
    small = _small(lexing.plain(said)).text
    found = set(re.findall(r"(?<!\w)[a-z]+(?!\w)", small))
    counts, little = {}, {}
    for each in words.LANGUAGES:
        hints = [word for word in found if word in _hints(each)]
        little[each] = sum(len(word) < _LONG for word in hints)
        is_plain = sum(len(word) >= _LONG for word in hints) > 1 or len(hints) >= _MANY
        is_marked = each == "es" and _SPANISH_MARKS.search(said) is not None
        is_greeting = _greetings(each).match(small.strip(" ¡!")) is not None
        counts[each] = len(hints) if is_plain else int(is_greeting or is_marked)
    most = max(counts.values())
    likely = [each for each in words.LANGUAGES if counts[each] == most]
    is_mixed = max(little.values()) > max(1, little[likely[0]])
    return likely[0] if most and len(likely) == 1 and not is_mixed else None


#: Marks that no other language of ours has.
_SPANISH_MARKS: Final = re.compile(r"[¿¡]")
#: Words this long are hardly ever a name's alone; and so many short ones are a sentence.
_LONG: Final = 4
_MANY: Final = 4


#: What people mean by a picture alone.
_PICTURES: Final = {
    **dict.fromkeys("👍👌✅✔💯🙌", " thumbsup "),
    **dict.fromkeys("👎❌🚫", " thumbsdown "),
}
_PICTURE: Final = re.compile("[" + "".join(_PICTURES) + "]")
#: "si" without its accent means "if" as well.
_YES: Final = re.compile(r"\b[Ss][íÍ]\b")
_SI: Final = re.compile(r"^\s*si(?=,|\s+ya\b(?!.*\bhubiera))")
_WORD: Final = re.compile(r"[a-z0-9]+(?:'[a-z]+)?(?:-[a-z]+)*")
_DECIMAL_COMMA: Final = re.compile(r"(?<=\d),(?=\d{1,2}(?!\d))")
#: A comma in one figure of a text as written; 2,4-D is a name.
_COMMA_SAID: Final = re.compile(r"(?<![\d.,])(\d{1,4}),(\d{1,2})(?![\d,]|\.\d|-[a-zA-Z])")
_BY_BEHIND: Final = re.compile(r"(?:[x×*]|\bpor)\s*$", re.IGNORECASE)
_BY_AHEAD: Final = re.compile(r"\s*(?:[x×*]|por\b)", re.IGNORECASE)


@cache
def _hints(language: str) -> frozenset[str]:
    return frozenset(words.words_of(language, "guards", "hints", "words"))


@cache
def _greetings(language: str) -> re.Pattern[str]:
    """Match a greeting; one that the fallback has borrowed is of the language it comes from."""
    later = words.LANGUAGES[words.LANGUAGES.index(language) + 1 :]
    borrowed = {word for each in later for word in _greeting_words(each)}
    return words.any_of(set(_greeting_words(language)) - borrowed)


def _greeting_words(language: str) -> tuple[str, ...]:
    return words.words_of(language, "concepts", "greet")


@cache
def _phrases(language: str) -> re.Pattern[str]:
    return words.any_of(words.table(language, "spelling")["phrases"])


def _small(traced: Traced) -> Traced:
    """Return the text in small letters without accents, letter by letter."""
    letters = [
        letter.lower() if letter.isascii() else unicodedata.normalize("NFKD", letter.lower())[:1]
        for letter in traced.text
    ]
    return Traced(traced.said, "".join(letters), traced.origin)


def _respelled(word: str, language: str, *, is_name: bool) -> str:
    """Return a word without its slip; "sooooo" is "so", and "dont" is "do not".

    What begins with a capital may be a name, which is left as it is.
    """
    found: dict[str, str] = words.table(language, "spelling")["words"]
    if word in found:
        return found[word]
    if "-" in word and word.replace("-", "") in words.canon("products"):
        return word.replace("-", "")
    if "'" in word:
        return found.get(word.replace("'", ""), word)
    shorter = re.sub(r"([a-z])\1{2,}", r"\1", word)
    if shorter in found or is_name or not shorter.isalpha():
        return found.get(shorter, shorter)
    return near_word(shorter) if language == "en" else shorter
