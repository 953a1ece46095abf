"""What a label leaves room for: its range of rates, and whether the season's applications fit."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import ProductSaid
from bot.hearing.label_lines import rate_line
from bot.hearing.readers.lexing import figures
from bot.saying.values import LabelRate
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.rounds_fit import Misfit, misfit
from jobs.agronomy.strengths import StrengthUnknown
from jobs.labels import product_of, rates_of
from storage.products import ProductRecord
from storage.yards import YardRecord


def range_lines(talk: Talk, record: ProductRecord) -> list[str]:
    """Return the range of rates the label gives, and that the rate stands below it."""
    rates = rates_of(record.rates)
    if rates is None:
        return []
    low, high = rates
    key = "products.range_below" if record.rate_si < low.rate_si else "products.range"
    return [talk.say(key, low=figures(low.value), high=LabelRate.of_rate(high))]


def fit_lines(
    talk: Talk, yard: YardRecord, record: ProductRecord
) -> tuple[list[str], list[list[tuple[str, str]]]]:
    """Return that the season's applications come to more than the label allows, and what fits."""
    found = _misfit(yard, record)
    if found is None:
        return [], []
    rate = LabelRate.of_rate(Rate(record.rate_value, record.rate_unit))
    maximum = found.maximum
    limit = talk.say(
        f"products.limit_{maximum.period}", rate=LabelRate.of_rate(maximum.rate, maximum.of)
    )
    together = LabelRate(float(f"{found.together:.4g}"), maximum.rate.unit, maximum.of)
    lines = [talk.say("products.fit_over", count=yard.rounds, together=together, limit=limit)]
    one = (talk.say("products.button_fit_one"), f"yard:rounds:{yard.id}:1")
    if found.each is None:
        return [*lines, talk.say("products.fit_one", rate=rate)], [[one]]
    each = LabelRate.of_rate(found.each)
    lines.append(
        talk.say("products.fit_all", count=yard.rounds, each=each, times=found.times, rate=rate)
    )
    all_of_them = talk.say("products.button_fit_all", count=yard.rounds, each=each)
    return lines, [[(all_of_them, f"product:fit:{yard.id}")], [one]]


def fitting_rate(talk: Talk, yard: YardRecord) -> ProductSaid | None:
    """Return the rate at which the season's applications fit, as somebody would say it."""
    record = talk.standing(yard).record
    found = None if record is None else _misfit(yard, record)
    if found is None or found.each is None:
        return None
    return drafts.begun(rate_line(found.each, ""))


def _misfit(yard: YardRecord, record: ProductRecord) -> Misfit | None:
    rates = rates_of(record.rates)
    try:
        return misfit(product_of(record), yard.rounds, None if rates is None else rates[0])
    except (WeightAgainstVolume, StrengthUnknown):
        # Amounts ask for what is missing, and stop what cannot be compared.
        return None
