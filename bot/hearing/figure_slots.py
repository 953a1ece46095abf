"""Figures of a clause as slots: amounts, depths, areas, times, temperatures, in SI units."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from typing import Any, Final

from bot.hearing.bags import bags_used
from bot.hearing.heard_values import Span
from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import NUMBER, known_value
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.reading import Unread
from bot.hearing.stretches import Stretch
from jobs.agronomy import units

_says: Final = partial(phrases, "sentences")


def measures(act: str, clause: Stretch) -> dict[str, Any]:
    """Return the slots that the figures of a clause fill."""
    found: dict[str, Any] = {}
    spans = clause.of("amount")
    if act != "set_spreader":
        # Gallons of water are no amount of product.
        behind = (clause.normal.text[span.end :].lstrip() for span in spans)
        waters = [_says("of_water").at_start(rest) is not None for rest in behind]
        spans = [span for span, is_water in zip(spans, waters, strict=True) if not is_water]
    amounts = [read_amount(str(span.value)) for span in spans]
    kept = [each for each in amounts if isinstance(each, Amount)]
    if kept:
        found["amount"] = _meant(kept, clause)
    for kind, name, read in (
        ("depth", "depth_m", _depth),
        ("area", "area_m2", _area),
        ("minutes", "minutes", _minutes),
        ("temp", "soil_c", _celsius),
    ):
        values = [read(str(span.value)) for span in clause.of(kind)]
        known = [value for value in values if value is not None]
        if known:
            found[name] = known[0]
    if act in _OF_WATER and "depth_m" not in found:
        found |= _litres(act, clause)
    if act in ("report_applied", "change_record") and (bags := bags_used(clause.text)) is not None:
        found["packs"] = bags
        if not bags:
            found.pop("amount", None)
    bare = bare_amounts(clause, "zone") if act == "report_applied" else []
    if bare and not kept and "packs" not in found:
        # "Done with the back, 9": a dose is never guessed.
        said = clause.normal.traced.original(bare[0].start, bare[0].end)
        found["unread"] = Unread(said, "reading.amount_needs_unit", f"{said} lb")
    is_rate = act == "set_sprinkler" and "depth_m" in found and "minutes" not in found
    if is_rate and _says("an_hour").first(clause.text):
        found["minutes"] = 60.0
    numbers = clause.of("number", "percent")
    if numbers:
        found["number"] = _number(str(numbers[0].value))
    if act == "report_soil" and "soil_c" not in found and numbers:
        found["soil_c"] = _celsius(str(numbers[0].value))
    return found


_OF_WATER: Final = frozenset({"report_rain", "report_watered", "ask_washed_out"})
_LITRES: Final = re.compile(r"(\d+(?:\.\d+)?)\s*l\b(\s*(?:por|/)\s*m(?:etro|2))?", re.IGNORECASE)


def _litres(act: str, clause: Stretch) -> dict[str, Any]:
    """Return the depth of "12 litros", which is said in Spanish for 12 mm: litres a square metre.

    Of a watering it is one only where the metre is said: five litres may be a can's.
    """
    said = _LITRES.search(clause.text) if clause.normal.language == "es" else None
    is_depth = said is not None and (said[2] or act != "report_watered")
    return {"depth_m": float(said[1]) / 1000.0, "amount": None} if said and is_depth else {}


def _meant(amounts: Sequence[Amount], clause: Stretch) -> Amount:
    """Return the amount that is meant: the other one of "not 5 lb but 6", of the unit denied."""
    before = clause.normal.text[clause.start : clause.of("amount")[0].start]
    if _says("first_denied").at_end(before) is None:
        return amounts[0]
    read = (_number(str(span.value)) for span in clause.of("number"))
    figures = [figure for figure in read if figure is not None]
    is_bare = len(amounts) == len(figures) == 1
    return replace(amounts[0], value=figures[0]) if is_bare else amounts[-1]


def bare_amounts(clause: Stretch, *places: str) -> list[Span]:
    """Return the numbers that stand right by a place: "2 in front", "the back 4"."""
    text = clause.normal.text
    return [
        each
        for each in clause.of("number")
        if any(
            _says("at").whole(text[each.end : place.start].strip())
            or (_has_got(text[place.end : each.start]) and _is_end(text[each.end :].lstrip()))
            for place in clause.of(*places)
        )
    ]


def _has_got(gap: str) -> bool:
    """Tell whether a place got what follows: "the front 12 lb and the back 4"."""
    said = gap.strip()
    return gap[:1].isspace() and (not said or _says("got").whole(said) is not None)


def _is_end(rest: str) -> bool:
    return rest[:1] in ("", ".", ",", ";") or _says("joint").at_start(rest) is not None


def _figure(text: str) -> tuple[float, str] | None:
    match = re.search(rf"({NUMBER})\s*(.*)", text)
    value = None if match is None else known_value(match[1])
    return None if match is None or value is None else (value, match[2].strip())


def _in_unit(table: dict[str, float], fallback: float) -> Callable[[str], float | None]:
    def read(text: str) -> float | None:
        figure = _figure(text)
        return None if figure is None else figure[0] * table.get(figure[1], fallback)

    return read


_INCH: Final = units.si_factor("in")
_depth = _in_unit({"in": _INCH, '"': _INCH, "mm": 0.001, "cm": 0.01}, _INCH)
_SQ_FT: Final = units.si_factor("sq ft")
_area = _in_unit({"sq ft": _SQ_FT, "m2": 1.0, "acre": units.si_factor("acre")}, _SQ_FT)


def _minutes(text: str) -> float | None:
    figure = _figure(text)
    return None if figure is None else figure[0] * (60.0 if figure[1].endswith("h") else 1.0)


def _celsius(text: str) -> float | None:
    figure = _figure(text)
    if figure is None:
        return None
    is_celsius = figure[1].replace("°", "").replace("degrees", "").strip().startswith("c")
    return figure[0] if is_celsius else units.c_from_f(figure[0])


def _number(text: str) -> float | None:
    figure = _figure(text)
    return None if figure is None else figure[0]


def span_days(text: str) -> int | None:
    """Return a span of time in days: "3 weeks"."""
    figure = _figure(text)
    if figure is None:
        return None
    factor = {"weeks": 7.0, "months": 30.0}.get(figure[1].split(" ")[-1], 1.0)
    return round(figure[0] * factor)
