"""US figures in the words of a message, as whoever measures in meters reads and types them.

Messages are written with US examples. For those who use metric units they are put into them once,
when a catalogue is read: ``front 60x40`` is ``front 18x12``. What people said themselves, and the
figures of their label, are values of a message and stay as they were said.
"""

from __future__ import annotations

import math
import re
from collections.abc import Callable
from typing import Final

from fluent.syntax import ast
from fluent.syntax.visitor import Transformer

from jobs.agronomy.units import from_si, to_si

_NUMBER: Final = r"(?<![\d.,$/])(\d+(?:,\d{3})*(?:\.\d+)?|\.\d+)"
_M_S_PER_MPH: Final = 0.44704  # exact: 1,609.344 m an hour
#: A text that has a metric unit of its own gives both already, or asks which is meant.
_BOTH: Final = re.compile(r"m²|\bkg\b|\d m\b|\bhectare|\bhect[aá]rea")
_Rule = tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]]


def _value(said: str) -> float:
    return float(said.replace(",", ""))


def _short(value: float) -> str:
    """Return a figure of an example in two digits: it need not be the same to the ounce."""
    step = 10.0 ** (math.floor(math.log10(value)) - 1)
    return f"{round(value / step) * step:,.10g}"


def _measured(of: str, to: str) -> Callable[[re.Match[str]], str]:
    def put(match: re.Match[str]) -> str:
        return f"{_short(from_si(to_si(_value(match[1]), of), to))} {to}"

    return put


def _weight(match: re.Match[str]) -> str:
    kg = to_si(_value(match[1]), "lb")
    if kg < 0.1:
        return f"{round(kg * 1000, -1):.0f} g"
    return f"{kg:.0f} kg" if kg >= 5 else f"{round(kg, 1):g} kg"


def _wind(match: re.Match[str]) -> str:
    return f"{_short(_value(match[1]) * _M_S_PER_MPH)} m/s"


def _meters(length_m: float) -> str:
    return f"{length_m:.0f}" if length_m >= 3 else f"{round(length_m, 1):g}"


def _feet(said: str) -> float:
    return to_si(_value(said), "ft")


def _lengths(match: re.Match[str]) -> str:
    return f"{', '.join(_meters(_feet(each)) for each in match[1].split(', '))} m"


def _sides(match: re.Match[str]) -> str:
    length, width = (_meters(_feet(each)) for each in (match[1], match[3]))
    return f"{length}{match[2]}{width}{' m' if match[4] else ''}"


def _water(match: re.Match[str]) -> str:
    mm = to_si(_value(match[1]), "in") * 1000
    return f"{mm:.0f} mm" if mm < 30 else f"{mm / 10:.0f} cm"


def _waters(match: re.Match[str]) -> str:
    each = (to_si(_value(said), "in") * 1000 for said in match[1].split(", "))
    return f"{', '.join(f'{mm:.0f}' for mm in each)} mm"


def _celsius(match: re.Match[str]) -> str:
    return f"{round((_value(match[1]) - 32) / 1.8)} °C"


def _rate(match: re.Match[str]) -> str:
    g_m2 = to_si(_value(match[1]), "lb/1000 sq ft") / 10
    return f"{_short(g_m2)} g {match[2]} m²"


def _bare_soil(match: re.Match[str]) -> str:
    return f"{match[1]} {round((_value(match[2]) - 32) / 1.8)}"


def _rule(pattern: str, new: str | Callable[[re.Match[str]], str]) -> _Rule:
    return re.compile(pattern), new


_RULES: Final[tuple[_Rule, ...]] = (
    # "2 in (5 cm)", "50 to 55 °F (10 to 13 °C)": the second is enough.
    _rule(
        rf"{_NUMBER}(?: (?:to|a|o) [\d.,]+)? (?:°F|in|ft|mph) \(([^()]*(?:°C|cm|mm|\bm|km|km/h))\)",
        r"\2",
    ),
    _rule(
        r"3\.2 lb (per|por) 1,?000 sq ft (on|en) 2,500 sq ft (is|son) 8 lb",
        r"16 g \1 m² \2 250 m² \3 4 kg",
    ),
    _rule(rf"{_NUMBER} lb (per|por) 1,?000(?: sq ft)?", _rate),
    _rule(r"\blb (per|por) 1,?000 sq ft", r"g \1 m²"),
    _rule(
        rf"{_NUMBER}(?: ft)?( ?x ?| by | por ){_NUMBER}( ft\b)?(?!\d|\.\d| ?(?:pac|pas))", _sides
    ),
    # What is so much "per 1,000 sq ft" is a value of the message: only a figure beside it is ours.
    _rule(rf"(?<!per )(?<!por ){_NUMBER} sq ft\b", _measured("sq ft", "m²")),
    _rule(rf"{_NUMBER} acres?\b", _measured("acre", "m²")),
    _rule(rf"{_NUMBER} fl oz\b", _measured("fl oz", "mL")),
    _rule(rf"{_NUMBER} gal\b", _measured("gal", "L")),
    _rule(rf"{_NUMBER} lb\b(?! (?:N|per|por|de N|of N)\b)", _weight),
    _rule(rf"{_NUMBER} oz\b", _measured("oz", "g")),
    _rule(r"((?:[\d.]+, )+[\d.]+) ft\b", _lengths),
    _rule(rf"{_NUMBER} ft\b", lambda match: f"{_meters(_feet(match[1]))} m"),
    _rule(r"((?:[\d.]+, )+[\d.]+) in\b", _waters),
    # "1 chance in 5" is no depth.
    _rule(rf'{_NUMBER} in\b(?! [\d"«])', _water),
    _rule(r"\b(?:half an inch|media pulgada)\b(?: \(13 mm\))?", "13 mm"),
    _rule(r"(?<!a )\b(?:an inch|una pulgada)\b", "25 mm"),
    _rule(r"\b(?:half a mile|media milla)\b", "800 m"),
    _rule(rf"{_NUMBER} (?:inches|pulgadas)\b", _water),
    _rule(rf"{_NUMBER} (?:feet|pies)\b(?! cuadrad)", lambda m: f"{_meters(_feet(m[1]))} m"),
    _rule(rf"{_NUMBER} mph\b", _wind),
    _rule(rf"{_NUMBER} °F", _celsius),
    _rule(r"\b(soil|suelo) (\d\d)\b(?! ?(?:°|%))", _bare_soil),
)


def in_metric(text: str) -> str:
    """Return a text with its US figures in metric units, rounded as examples may be."""
    if _BOTH.search(text):
        return text
    for pattern, new in _RULES:
        text = pattern.sub(new, text)
    return text


class Metric(Transformer):
    """Puts the US figures of a catalogue's messages into metric units; variants stay."""

    def visit_TextElement(self, node: ast.TextElement) -> ast.TextElement:  # noqa: N802
        """Put one piece of text."""
        return ast.TextElement(in_metric(node.value))

    def visit_SelectExpression(self, node: ast.SelectExpression) -> ast.SelectExpression:  # noqa: N802
        """Leave what chooses by units alone: it says both itself."""
        chooser = node.selector
        is_by_units = isinstance(chooser, ast.FunctionReference) and chooser.id.name == "UNITS"
        return node if is_by_units else self.generic_visit(node)
