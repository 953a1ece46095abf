"""Labels as they are dictated, in English or Spanish: figures, and the grammar's own words.

``three point two pounds per thousand`` -> ``3.2 pounds per 1000``;
``bolsa de cincuenta libras rinde 15,000 pies`` -> ``bag of 50 lb covers 15,000 feet``.
"""

from __future__ import annotations

import re
import tomllib
import unicodedata
from functools import cache, lru_cache
from importlib import resources
from typing import Any, Final

from text_to_num import alpha2digit, text2num

_ENGLISH: Final = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen"
    " sixteen seventeen eighteen nineteen twenty thirty forty fifty sixty seventy eighty ninety"
    " hundred thousand"
)
_SPANISH: Final = (
    "cero un uno una dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce"
    " quince dieciseis diecisiete dieciocho diecinueve veinte veintiun veintiuno veintiuna"
    " veintidos veintitres veinticuatro veinticinco veintiseis veintisiete veintiocho veintinueve"
    " treinta cuarenta cincuenta sesenta setenta ochenta noventa cien ciento doscientos doscientas"
    " trescientos trescientas cuatrocientos cuatrocientas quinientos quinientas seiscientos"
    " seiscientas setecientos setecientas ochocientos ochocientas novecientos novecientas mil"
)
#: "Por 1000 sq ft" alone is Spanish too.
_POR: Final = re.compile(r"\bpor\s+(?:cada\s+)?(?:1,?000|100|acre|hectarea|pie)", re.IGNORECASE)
#: What alone is no figure worth writing: "one bag", "una bolsa".
_LONE: Final = frozenset({"one", "un", "uno", "una", "hundred", "thousand"})
#: Halves and spans in Spanish, before the words are English: "2 libras y media", "3 a 6 libras".
_FIGURES_SAID: Final = (
    (re.compile(r"(\d)\s+(?:a|hasta)\s+(?=\d)", re.IGNORECASE), r"\1 to "),
    (re.compile(r"\b(\d+)\s+(libras?|onzas?|kilos?)\s+y\s+media\b", re.IGNORECASE), r"\1 1/2 \2"),
    (re.compile(r"\bmedia\s+(?=libra|onza)", re.IGNORECASE), "1/2 "),
    (re.compile(r"\by\s+media\b", re.IGNORECASE), " 1/2"),
)


@lru_cache(maxsize=256)
def spoken(text: str) -> str:
    """Return a label's text with number words in figures and Spanish words in English."""
    folded = _folded(text)
    if _POR.search(folded) is None and _spanish()["marks"].search(folded) is None:
        return with_figures(text, "en")
    typed = re.sub(r"\bpor\s*ciento\b", "%", _folded(text), flags=re.IGNORECASE)
    typed = with_figures(typed, "es")
    for pattern, meaning in _FIGURES_SAID:
        typed = pattern.sub(meaning, typed)
    for pattern, meaning in _spanish()["pairs"]:
        typed = pattern.sub(meaning, typed)
    return re.sub(r"[ \t]{2,}", " ", typed).strip()


def with_figures(text: str, language: str) -> str:
    """Return a text with the number words of a language in figures."""
    point = "point" if language == "en" else "(?:punto|coma)"
    typed = re.sub(
        rf"\b(\d+)\s+{point}\s+(\d(?:\s\d)*)\b",
        lambda match: f"{match[1]}.{match[2].replace(' ', '')}",
        text,
        flags=re.IGNORECASE,
    )
    # "5 mil" is one number, not five and a thousand.
    typed = re.sub(
        r"\b(\d{1,3})(?:\.(\d))?\s+(?:mil|thousand)\b",
        lambda match: f"{match[1]}{match[2] or '0'}00",
        typed,
        flags=re.IGNORECASE,
    )
    typed = _runs(language).sub(lambda match: _figure(match[0], language), typed)
    return re.sub(r"\b(\d+)\s+and\s+an?\s+half\b", r"\1 1/2", typed, flags=re.IGNORECASE)


def _figure(run: str, language: str) -> str:
    said = run.casefold()
    if said in _LONE and said != "mil":
        return run
    if language == "es":
        said = said.replace("coma", "punto")
        said = re.sub(r"\buna\b", "uno", said)
    if re.match(r"(?:point|punto)\b", said):
        said = f"{'zero' if language == 'en' else 'cero'} {said}"
    try:
        return str(text2num(said, language))
    except ValueError:
        value = alpha2digit(said, language)
    is_figure = re.fullmatch(r"\d+(?:[.,]\d+)?", value) is not None
    return value.replace(",", ".") if is_figure else run


@cache
def _runs(language: str) -> re.Pattern[str]:
    words, joint, point = (
        (_ENGLISH, "and", "point") if language == "en" else (_SPANISH, "y", "punto|coma")
    )
    one = "|".join(sorted(words.split(), key=len, reverse=True))
    number = rf"(?:{one})(?:[\s-]+(?:{joint}\s+)?(?:{one}))*"
    return re.compile(
        rf"\b(?:{number}(?:\s+(?:{point})\s+{number})?|(?:{point})\s+{number})\b",
        re.IGNORECASE,
    )


@cache
def _spanish() -> dict[str, Any]:
    path = resources.files("bot.hearing") / "languages" / "es" / "words" / "label_text.toml"
    table = tomllib.loads(path.read_text("utf-8"))
    return {
        "marks": re.compile(table["marks"], re.IGNORECASE),
        "pairs": [(re.compile(said, re.IGNORECASE), meaning) for said, meaning in table["pairs"]],
    }


def _folded(text: str) -> str:
    """Return a text without accents."""
    apart = unicodedata.normalize("NFD", text)
    return "".join(mark for mark in apart if unicodedata.category(mark) != "Mn")
