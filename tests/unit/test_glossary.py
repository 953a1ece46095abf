"""One thing has one name: words that were dropped stay out of both catalogues."""

import re

import pytest

from bot.saying import checking

#: What people type, in their own words, and are shown as examples.
TYPED = re.compile(
    r"late summer round|halves 8 weeks apart|halves: split|Say: rounds", re.IGNORECASE
)

#: By language: what is not said, and by the glossary is said instead.
DROPPED = {
    "en": {
        r"\brounds?\b(?! amounts)": "application, or route",
        r"\b(first|second|next|which|this) half\b": "first or second application",
        r"\bit is down\b|\b(put|have) (it )?down\b": "apply",
        r"\b(went|goes) down\b(?! in late fall)": "apply",
        r"\b(on|from) the shelf\b|\bshelf's\b": "you have",
        r"\bpaving\b": "pavement",
        r"\blicen[c]e\b|\b(kilo)?metres?\b|\blitres?\b|\bautumn\b|\bmown\b|\bper cent\b": (
            "American spelling"
        ),
        r"\d %|\} %": "5%",
        r"\bmade nothing of\b": "could not read",
        r"\bknown to\b": "through",
        r"\bElse\b": "next best",
        r"\bfour chances\b": "4 chances in 5",
        r"\btrade's\b": "rule of thumb",
        r"\breckon|\btick\b|\bsomebody\b|\bwithdrawn\b|\bchildren\b": "plain words",
        r"\bLike:": "For example:",
        r"\bnot today\b|\btoday now\b": "the day alone",
        r"\bsafe(ly)?\b": "what the label says",
    },
    "es": {
        r"\bustede?s?\b": "tú",
        r"\brondas?\b": "aplicación, o ruta",
        r"\b(primera|segunda) mitad\b": "primera o segunda aplicación",
    },
}


@pytest.mark.parametrize("language", DROPPED)
def test_dropped_words_stay_out(language: str) -> None:
    found = [
        f"{key}: {match[0]!r}, say {instead}"
        for key, words in checking.sentences(language).items()
        for pattern, instead in DROPPED[language].items()
        for match in re.finditer(pattern, TYPED.sub("", re.sub(r"{\w+}", "X", words)))
    ]
    assert not found, "\n".join(found)


def test_no_sentence_in_english_has_more_than_twenty_words() -> None:
    long = [
        f"{key}: {sentence.strip()}"
        for key, words in checking.sentences("en").items()
        for sentence in re.split(r"[.!?:;]\s|\n", words)
        if len(sentence.split()) > 20 and key != "labels.example"  # typed, a label in one line
    ]
    assert not long, "\n".join(long)
