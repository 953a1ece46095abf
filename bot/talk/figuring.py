"""Sums people ask for beside a round: nitrogen, active ingredient, speed, water."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing.readers.lexing import figures
from bot.hearing.readers.measures import of_kind, read_figures
from bot.hearing.readers.quantities import RateRead, read_rate
from bot.saying.figures import say_area, say_depth, say_rate
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs.agronomy.calibration import TOLERANCE
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.products import Product, product_rate, total_ai_kg_ha
from jobs.agronomy.rates import Rate, WeightAgainstVolume, rewritten
from jobs.agronomy.sprayer import mph, sprinkler_minutes, water_l
from jobs.agronomy.strengths import ActiveIngredient
from jobs.agronomy.units import from_si, to_si
from storage.yards import YardRecord

_ANALYSIS: Final = re.compile(r"(?<![\d-])(\d{1,2})-(\d{1,2})-(\d{1,2})(?![\d-])")
_NITROGEN: Final = re.compile(
    r"(?P<lb>\d+(?:\.\d+)?|\.\d+)\s*(?:lbs?|pounds?)\.?\s*(?:of\s+)?(?:n|nitrogen)\b", re.IGNORECASE
)
_PERCENT_N: Final = re.compile(r"(\d+(?:\.\d+)?)\s*%\s*(?:n|nitrogen)\b", re.IGNORECASE)
_OF_PERCENT: Final = re.compile(
    r"^(?P<rate>.+?)\s+(?:of|at|with|using)\s+(?:an?\s+)?(?P<percent>\d+(?:\.\d+)?|\.\d+)\s*%"
    r"(?:\s+(?:product|granules?|ai|a\.i\.))?\??$",
    re.IGNORECASE,
)

_IN_UNIT: Final = re.compile(
    r"(?:what\s+is\s+)?(.+?)\s+(?:in|to|as)\s+([a-z].+?)\s*\??", re.IGNORECASE
)


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Answer a sum; None where the text is none."""
    answer = _nitrogen(talk, text) or _reverse(talk, text) or _speed(talk, text)
    answer = answer or _water(talk, text) or _converted(talk, text)
    return None if answer is None else [answer]


def _nitrogen(talk: Talk, text: str) -> Reply | None:
    wanted = _NITROGEN.search(text)
    analysis = _ANALYSIS.search(text)
    share = _PERCENT_N.search(text)
    if wanted is None or (analysis is None and share is None) or _names_ingredient(text):
        return None
    if re.search(r"acre|hectare|\bha\b", text, re.IGNORECASE):
        return talk.reply("machines.nitrogen_unit")
    percent = float(analysis[1]) if analysis is not None else float(share[1] if share else 0)
    if not 0 < percent <= 100 or not float(wanted["lb"]) > 0:
        return None
    n = to_si(float(wanted["lb"]), "lb/1000 sq ft")
    rate = product_rate(n, ActiveIngredient.of_percent("nitrogen", percent), "lb/1000 sq ft")
    return talk.reply(
        "machines.nitrogen",
        amount=f"{rate.value:.2f} lb",
        analysis=analysis[0] if analysis is not None else f"{figures(percent)} % nitrogen",
        n=wanted["lb"],
        low=f"{rate.value * (1 - TOLERANCE):.2f}",
        high=f"{rate.value * (1 + TOLERANCE):.2f}",
        half=f"{rate.value / 2:.2f} lb",
    )


def _reverse(talk: Talk, text: str) -> Reply | None:
    match = _OF_PERCENT.match(text.strip())
    if match is None or _names_ingredient(text) or talk.topic == "product":
        return None
    read = read_rate(match["rate"])
    percent = float(match["percent"])
    if not isinstance(read, RateRead) or not read.rate.is_weight or not 0 < percent <= 100:
        return None
    product = Product((ActiveIngredient.of_percent("it", percent),), "granule", read.rate)
    ai = from_si(total_ai_kg_ha(read.rate, product), "lb/acre")
    return talk.reply(
        "machines.reverse", rate=say_rate(read.rate), percent=figures(percent), ai=f"{ai:.4f}"
    )


def _speed(talk: Talk, text: str) -> Reply | None:
    found = read_figures(text)
    lengths, times = of_kind(found, "length"), of_kind(found, "time")
    if len(found) != 2 or len(lengths) != 1 or len(times) != 1 or times[0].value <= 0:
        return None
    speed = lengths[0].value / times[0].value
    if talk.is_metric:
        return talk.reply(
            "machines.speed_metric", speed=f"{speed * 3.6:.2f}", mph=f"{mph(speed):.2f}"
        )
    return talk.reply("machines.speed", speed=f"{mph(speed):.2f}")


def _water(talk: Talk, text: str) -> Reply | None:
    if "128" in text or re.match(r"\s*(?:i\s+|we\s+)?(?:watered|irrigated)\b", text, re.IGNORECASE):
        return None
    found = read_figures(text)
    depths = [f for f in of_kind(found, "length") if f.unit in ("in", "mm", "cm")]
    areas, rates = of_kind(found, "area"), of_kind(found, "depth_rate")
    if len(depths) != 1 or not (areas or rates) or len(found) != 1 + len(areas) + len(rates):
        return None
    depth_mm = depths[0].value * 1000
    depth = say_depth(depths[0].value, talk.unit_system)
    lines = []
    if areas:
        litres = water_l(depth_mm, areas[0].value)
        gallons = f"{from_si(litres, 'gal'):,.1f} gal"
        lines.append(
            talk.say(
                "machines.water",
                depth=depth,
                area=say_area(areas[0].value, talk.unit_system),
                water=f"{litres:,.0f} L" if talk.is_metric else gallons,
            )
        )
    if rates and rates[0].value > 0:
        unit = rates[0].unit
        value = rates[0].value / (25.4 if unit == "in/h" else 1.0)
        lines.append(
            talk.say(
                "machines.minutes",
                rate=f"{figures(round(value, 3))} {unit}",
                minutes=f"{sprinkler_minutes(depth_mm, rates[0].value):.0f}",
                depth=depth,
            )
        )
    return Reply("\n".join(lines))


def _converted(talk: Talk, text: str) -> Reply | None:
    """Answer ``1 lb per acre in kg per ha``."""
    match = _IN_UNIT.fullmatch(text.strip())
    if match is None or talk.topic == "product":
        return None
    rate, wanted = read_rate(match[1]), read_rate(f"1 {match[2]}")
    if not isinstance(rate, RateRead) or not isinstance(wanted, RateRead):
        return None
    try:
        answer = rewritten(rate.rate, wanted.rate.unit)
    except WeightAgainstVolume:
        return None
    short = Rate(float(f"{answer.value:.5g}"), answer.unit)
    return talk.reply("machines.converted", rate=say_rate(rate.rate), other=say_rate(short))


def _names_ingredient(text: str) -> bool:
    said = text.casefold()
    return any(name in said for item in ingredients().values() for name in item.names)
