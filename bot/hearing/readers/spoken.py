"""Labels as they are dictated, in English or Spanish: figures, and the grammar's own words.

``three point two pounds per thousand`` -> ``3.2 pounds per 1000``;
``bolsa de cincuenta libras rinde 15,000 pies`` -> ``bag of 50 lb covers 15,000 feet``.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache, lru_cache, partial
from typing import Any, Final

from text_to_num import alpha2digit, text2num

from bot.hearing import words
from bot.hearing.phrases import Said, phrases, which

_says: Final = partial(phrases, "numbers")


@lru_cache(maxsize=256)
def spoken(text: str) -> str:
    """Return a label's text with number words in figures and Spanish words in English."""
    folded = _folded(text)
    if _says("per").first(folded) is None and _spanish()["marks"].search(folded) is None:
        return with_figures(text, "en")
    typed = with_figures(_says("percent").without(folded, "%"), "es")
    typed = _says("half").without(typed, " 1/2")
    for pattern, meaning in _spanish()["pairs"]:
        typed = pattern.sub(meaning, typed)
    return re.sub(r"[ \t]{2,}", " ", typed).strip()


def with_figures(text: str, language: str) -> str:
    """Return a text with the number words of a language in figures."""
    point, runs = _patterns(language)
    in_parts = partial(_in_parts, language)
    text = _says("parts_behind").without(_says("parts").without(text, in_parts), in_parts)
    typed = point.sub(lambda match: f"{match[1] or 0}.{match[2].replace(' ', '')}", text)
    # "5 mil" is one number, not five and a thousand.
    typed = _thousands().sub(lambda match: f"{match[1]}{match[2] or '0'}00", typed)
    typed = runs.sub(lambda match: _figure(match[0], language), typed)
    return _says("and_a_half").without(typed, lambda said: f"{said['n']} 1/2")


def _figure(run: str, language: str) -> str:
    said = run.casefold()
    if _says("lone").whole(said):
        return run
    point, zero = _WRITTEN[language]
    said = re.sub(rf"\b(?:{_of(language, 'point')})\b", point, said)
    if language == "es":
        said = re.sub(r"\buna\b", "uno", said)
    if said.startswith(point):
        said = f"{zero} {said}"
    try:
        return str(text2num(said, language))
    except ValueError:
        value = alpha2digit(said, language)
    is_figure = re.fullmatch(r"\d+(?:[.,]\d+)?", value) is not None
    return value.replace(",", ".") if is_figure else run


#: Names of what a unit is parted in.
_PARTS: Final = tuple(f"part_{count}" for count in (2, 3, 4, 5, 8, 10))


def _in_parts(language: str, said: Said) -> str:
    """Return "3 and a quarter pounds" as 3 1/4 pounds; what is no proper part stays as it is."""
    part = which("numbers", _PARTS, said["part"])
    whole, up = ("1" if _ONE.fullmatch(said[each]) else said[each] for each in ("n", "up"))
    whole, up = _figure(whole, language), _figure(up or "1", language)
    if part is None or not up.isdigit() or int(up) >= int(part[5:]):
        return said.it
    return f"{whole} {up}/{part[5:]} {said['unit']}".strip()


_ONE: Final = re.compile("an?|one|una?|uno", re.IGNORECASE)


#: The words for a point and for nought that numbers are valued by.
_WRITTEN: Final = {"en": ("point", "zero"), "es": ("punto", "cero")}


def _of(language: str, name: str) -> str:
    found: str = words.table(language, "numbers", "phrases")[name]
    return found


@cache
def _thousands() -> re.Pattern[str]:
    said = _of("en", "thousand")
    return re.compile(rf"\b(\d{{1,3}})(?:\.(\d))?\s+(?:{said})\b", re.IGNORECASE)


@cache
def _patterns(language: str) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """Return patterns of figures around a point in words, and of runs of number words."""
    joint, point = _of(language, "joint"), _of(language, "point")
    one = "|".join(sorted(_of(language, "words").split(), key=len, reverse=True))
    number = rf"(?:{one})(?:[\s-]+(?:{joint}\s+)?(?:{one}))*"
    return (
        # "At this point 3 lb" is no 0.3.
        re.compile(
            rf"(?<!\bthis )(?<!\bthat )(?<!\bese )(?<!\beste )"
            rf"(?:\b(?:zero|cero|(\d+))\s+)?\b(?:{point})\s+(\d+(?:\s\d)*)\b",
            re.IGNORECASE,
        ),
        re.compile(
            rf"\b(?:{number}(?:\s+(?:{point})\s+{number})?|(?:{point})\s+{number})\b",
            re.IGNORECASE,
        ),
    )


@cache
def _spanish() -> dict[str, Any]:
    table = words.table("es", "label_text")
    return {
        "marks": re.compile(table["marks"], re.IGNORECASE),
        "pairs": [(re.compile(said, re.IGNORECASE), meaning) for said, meaning in table["pairs"]],
    }


def _folded(text: str) -> str:
    """Return a text without accents."""
    apart = unicodedata.normalize("NFD", text)
    return "".join(mark for mark in apart if unicodedata.category(mark) != "Mn")
