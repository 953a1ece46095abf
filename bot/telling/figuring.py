"""Sums people ask for beside a round: nitrogen, active ingredient, speed, water."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.hearing.forms.sum_forms import (
    AmountAsked,
    ConversionAsked,
    IngredientAsked,
    NitrogenAsked,
    SpeedAsked,
    WaterAsked,
)
from bot.hearing.readers.lexing import figures
from bot.saying.printed_amounts import Measure
from bot.saying.values import Area, Depth, LabelRate
from bot.turn import Reply
from jobs.agronomy.calibration import TOLERANCE
from jobs.agronomy.labelled_product import Product, product_rate, total_ai_kg_ha
from jobs.agronomy.rates import rewritten
from jobs.agronomy.sprayer import mph, sprinkler_minutes, water_l
from jobs.agronomy.strengths import ActiveIngredient
from jobs.agronomy.units import from_si, to_si


def answer(talk: Talk, asked: object) -> Reply | None:
    """Answer a sum; None where it is none."""
    match asked:
        case NitrogenAsked():
            return _nitrogen(talk, asked)
        case IngredientAsked():
            return _of_ingredient(talk, asked)
        case ConversionAsked():
            other = rewritten(asked.rate, asked.unit)
            rate = LabelRate.of_rate(asked.rate)
            return talk.reply(
                "machines.converted",
                rate=rate,
                other=LabelRate(float(f"{other.value:.5g}"), other.unit),
            )
        case AmountAsked():
            amount = Measure(asked.amount.value, asked.amount.unit)
            value = round(from_si(asked.amount.amount_si, asked.unit), 3)
            same = Measure(value, asked.unit)
            return talk.reply("machines.amount_converted", amount=amount, other=same)
        case SpeedAsked():
            km_h, miles_h = f"{asked.speed_m_s * 3.6:.2f}", f"{mph(asked.speed_m_s):.2f}"
            return talk.reply("machines.speed", kmh=km_h, mph=miles_h)
        case WaterAsked():
            return _water(talk, asked)
    return None


def _nitrogen(talk: Talk, asked: NitrogenAsked) -> Reply:
    if not asked.is_per_1000:
        return talk.reply("machines.nitrogen_unit")
    n = to_si(float(asked.wanted), "lb/1000 sq ft")
    of = ActiveIngredient.of_percent("nitrogen", asked.percent)
    rate = product_rate(n, of, "lb/1000 sq ft")
    return talk.reply(
        "machines.nitrogen",
        amount=f"{rate.value:.2f} lb",
        analysis=asked.name or f"{figures(asked.percent)} % nitrogen",
        n=asked.wanted,
        low=f"{rate.value * (1 - TOLERANCE):.2f}",
        high=f"{rate.value * (1 + TOLERANCE):.2f}",
        half=f"{rate.value / 2:.2f} lb",
    )


def _of_ingredient(talk: Talk, asked: IngredientAsked) -> Reply:
    part = ActiveIngredient.of_percent("it", asked.percent)
    product = Product((part,), "granule", asked.rate)
    ai = from_si(total_ai_kg_ha(asked.rate, product), "lb/acre")
    percent = figures(asked.percent)
    return talk.reply(
        "machines.reverse", rate=LabelRate.of_rate(asked.rate), percent=percent, ai=f"{ai:.4f}"
    )


def _water(talk: Talk, asked: WaterAsked) -> Reply:
    depth_mm = asked.depth_m * 1000
    depth = Depth(asked.depth_m)
    lines = []
    if asked.area_m2 is not None:
        litres = water_l(depth_mm, asked.area_m2)
        gallons = f"{from_si(litres, 'gal'):,.1f} gal"
        lines.append(
            talk.say(
                "machines.water",
                depth=depth,
                area=Area(asked.area_m2),
                water=f"{litres:,.0f} L" if talk.is_metric else gallons,
            )
        )
    if asked.rate_mm_h is not None:
        value = asked.rate_mm_h / (25.4 if asked.rate_unit == "in/h" else 1.0)
        lines.append(
            talk.say(
                "machines.minutes",
                rate=f"{figures(round(value, 3))} {asked.rate_unit}",
                minutes=round(sprinkler_minutes(depth_mm, asked.rate_mm_h)),
                depth=depth,
            )
        )
    return Reply("\n".join(lines))
