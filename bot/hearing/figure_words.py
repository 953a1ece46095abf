"""Number words, fractions and units in words, written as figures with our units.

``sixty bye forty feet`` -> ``60 x 40 ft``, ``pulgada y media`` -> ``1.5 in``, ``tres cuartos de
pulgada`` -> ``0.75 in``. Number words are valued by text2num; what stands in which language comes
from the tables of words.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from functools import cache
from typing import Any, Final

from text_to_num import text2num

from bot.hearing import words
from bot.hearing.phrases import kind, which
from bot.hearing.readers.lexing import NUMBER, known_value
from bot.hearing.readers.lexing import figures as written

Rule = tuple[re.Pattern[str], "str | Callable[[re.Match[str]], str]"]

#: Unit words that are other words too: they count only behind a figure.
_SHY: Final = frozenset({"in", "m", "g", "l", "h", "pt", "ac", "min", "mins", "pie", "mes", "yd"})
_FRACTIONS: Final = {"half": 0.5, "quarter": 0.25, "third": 1 / 3, "tenth": 0.1, "eighth": 0.125}


#: "Nine hundred and ninety-nine thousand nine hundred and ninety-nine" has fewer words.
_LONGEST_NUMBER: Final = 14


@cache
def number_run(language: str) -> re.Pattern[str]:
    """Return a pattern that finds runs of number words."""
    table = _numbers(language)
    one = _either(table["words"].split())
    # Of "5 thousand" the figure is multiplied below.
    behind = r"(?!(?<=\d\s)(?:thousand|mil)\b)"
    return re.compile(
        rf"(?<![\w.]){behind}(?:{one})(?:[\s-]+(?:{table['and']}\s+)?(?:{one}))*(?![\w])"
    )


def figures_of(run: str, language: str) -> str:
    """Return a run of number words in figures; a lone "one" or "un" stays a word."""
    table = _numbers(language)
    said = [table["respell"].get(word, word) for word in re.split(r"[\s-]+", run.strip())]
    if len(said) == 1 and said[0] in words.listed(table["one"]):
        return run
    found: list[str] = []
    at = 0
    while at < len(said):
        most = min(len(said), at + _LONGEST_NUMBER)
        ends = (end for end in range(most, at, -1) if _value(said[at:end], language))
        end = next(ends, None)
        value = None if end is None else _value(said[at:end], language)
        found.append(said[at] if value is None else str(value))
        at = end or at + 1
    # "veinte y cinco" is one number; "20 30" are two.
    together = rf"\b([2-9]0) {table['and']} ([1-9])\b"
    return re.sub(together, lambda match: str(int(match[1]) + int(match[2])), " ".join(found))


@cache
def rules() -> tuple[Rule, ...]:
    """Return what is rewritten behind the number words, in order."""
    ands, ofs, times = _joined("and"), _joined("of"), _joined("times")
    units, bold = _either(_units()), _either(word for word in _units() if word not in _SHY)
    part, point = _either(_parts()), _either(_listed("numbers", "point"))
    one, a = _either(_listed("numbers", "one")), kind("one_a")
    return (
        _rule(rf"\b(\d+(?:\.\d+)?)\s+{kind('thousands')}\b", lambda m: _plain(float(m[1]) * 1000)),
        _rule(rf"\b{kind('a_thousand')}\b(?!\s*\d)", "1000"),
        _rule(
            rf"(?:\b(\d+)\s+|\b{kind('nought')}\s+)?\b(?:{point})\s+(\d+(?:\s\d)*)\b",
            lambda m: f"{m[1] or 0}.{m[2].replace(' ', '')}",
        ),
        _rule(rf"(?<=\d)\s+{kind('comma')}\b", ","),
        _rule(
            rf"\b([2-9]0)\s+({kind('slip')})\s+(?=(?:{times})\s*\d|(?:{bold})\b)",
            lambda m: f"{int(m[1]) + _slipped(m[2])} ",
        ),
        _rule(rf"\b({kind('clear_slip')})\s+(?=(?:{bold})\b)", lambda m: f"{_slipped(m[1])} "),
        _rule(rf"\b{kind('to_two')}\s+(?={kind('inches_of')}\b)", "2 "),
        _rule(
            rf"\b({NUMBER})\s+(?:{ands})\s+(?:(\d)\s+|{a}\s+)?({part})\s+(?:(?:{ofs})\s+)?({units})\b",
            lambda m: _amount(_number(m[1]) + _number(m[2]) * _part(m[3]), m[4]),
        ),
        _rule(
            # "60 feet and half a pound" is two amounts.
            rf"(?:\b({NUMBER})\s*-?\s*|\b(?:{one})\s+|\b)({bold})\s+(?:{ands})\s+(?:{a}\s+)?({part})\b"
            rf"(?!\s+(?:(?:{ofs})\s+)?(?:{a}\s+)?(?:{bold})\b)",
            lambda m: _amount(_number(m[1]) + _part(m[3]), m[2]),
        ),
        _rule(
            rf"(?:\b({NUMBER})\s+)?\b(?:{a}\s+)?({part})\s+(?:(?:{ofs})\s+)?({bold})\b",
            lambda m: _amount(_number(m[1]) * _part(m[2]), m[3]),
        ),
        _rule(
            rf"\b(?:([1-9])|{a}) {kind('tenths')}\b(?! (?:{ofs}) (?!{kind('rain_word')}))",
            lambda match: f"0.{match[1] or 1} in",
        ),
        _rule(rf"\b(?:{one})\s+({bold})\b", lambda match: _amount(1.0, match[1])),
        _rule(rf"({NUMBER})\s*-?\s*({units})(?![\w])", lambda m: f"{m[1]} {_unit(m[2])}"),
        _rule(r"(?<=\d)in\b", " in"),
        _rule(rf"(?<=\d)(\s*(?:ft|m|in|yd)?)\s+(?:{times})\s+(?=\d{{1,3}}(?:\.\d+)?\b)", r"\1 x "),
        _rule(rf"\b(\d+(?:\.\d+)?) {kind('half_more')}\b", lambda m: written(float(m[1]) + 0.5)),
    )


#: Figures by the names of the words heard for them.
_SLIPS: Final = {"slip_2": 2, "slip_4": 4, "slip_8": 8, "slip_1": 1}


def _slipped(word: str) -> int:
    name = which("values", _SLIPS, word)
    return 0 if name is None else _SLIPS[name]


def _rule(pattern: str, new: str | Callable[[re.Match[str]], str]) -> Rule:
    return re.compile(pattern), new


def _numbers(language: str) -> dict[str, Any]:
    found: dict[str, Any] = words.table(language, "values")["numbers"]
    return found


def _value(said: list[str], language: str) -> int | None:
    text = " ".join(said)
    bare = {"hundred": 100, "thousand": 1000}.get(text)
    if bare is not None:
        return bare
    try:
        return int(text2num(text, language))
    except ValueError:
        return None


@cache
def _units() -> dict[str, str]:
    return words.canon("units", "values")


@cache
def _parts() -> dict[str, float]:
    return {word: _FRACTIONS[name] for word, name in words.canon("fractions", "values").items()}


def _listed(*path: str) -> list[str]:
    return [word for each in words.LANGUAGES for word in words.words_of(each, "values", *path)]


def _joined(name: str) -> str:
    return _either(_listed("joins", name))


def _either(found: Iterable[str]) -> str:
    kept = sorted(set(found), key=lambda word: (-len(word), word))
    return "|".join(re.escape(word).replace(r"\ ", r"\s+") for word in kept)


def _unit(word: str) -> str:
    return _units()[re.sub(r"\s+", " ", word)]


def _amount(value: float, unit: str) -> str:
    return f"{_plain(round(value, 4))} {_unit(unit)}"


def _plain(value: float) -> str:
    return written(value).replace(",", "")


def _number(text: str | None) -> float:
    value = known_value(text or "1")
    return 1.0 if value is None else value


def _part(word: str) -> float:
    return _parts()[re.sub(r"\s+", " ", word)]
