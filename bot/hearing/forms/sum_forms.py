"""Sums people ask for: nitrogen, active ingredient, speed, water, one unit in another."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.measures import of_kind, read_figures
from bot.hearing.readers.quantities import Amount, RateRead, read_amount, read_rate
from bot.hearing.readers.spoken import spoken
from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.rates import Rate
from jobs.agronomy.units import dimension_of

_ANALYSIS: Final = expression(r"(?<![\d-])(\d{1,2})-(\d{1,2})-(\d{1,2})(?![\d-])")
_says: Final = partial(phrases, "sum")
_DEPTHS: Final = ("in", "mm", "cm")


@dataclass(frozen=True)
class NitrogenAsked:
    """How much of a fertiliser gives so much nitrogen [lb per 1,000 sq ft].

    Attributes
    ----------
    percent
        Nitrogen in the fertiliser, per cent by weight.
    name
        What it is called: ``20-5-10``; empty where only the percentage was said.
    wanted
        The nitrogen as written.
    is_per_1000
        Whether it is per 1,000 sq ft, not per acre or hectare.
    """

    percent: float
    name: str
    wanted: str
    is_per_1000: bool = True


@dataclass(frozen=True)
class IngredientAsked:
    """How much active ingredient a rate of a product of so many per cent is."""

    rate: Rate
    percent: float


@dataclass(frozen=True)
class ConversionAsked:
    """A rate in another unit."""

    rate: Rate
    unit: str


@dataclass(frozen=True)
class AmountAsked:
    """An amount in another unit of its kind."""

    amount: Amount
    unit: str


@dataclass(frozen=True)
class SpeedAsked:
    """How fast somebody walks [m/s]."""

    speed_m_s: float


@dataclass(frozen=True)
class WaterAsked:
    """How much water a depth [m] on an area [m²] is, or how long at a rate [mm/h as written]."""

    depth_m: float
    area_m2: float | None = None
    rate_mm_h: float | None = None
    rate_unit: str = "in/h"


def read_amount_sum(text: str, scene: Scene) -> Slots | None:
    """Read a sum of nitrogen, of ingredient, or of units; None for other texts."""
    said = spoken(text.strip())
    nitrogen = _nitrogen(said)
    if nitrogen is not None:
        return Slots(read=nitrogen)
    if scene.asked == "enter_product":
        return None
    read = _of_ingredient(said) or _conversion(said) or _in_unit(said)
    return None if read is None else Slots(read=read)


def read_speed(text: str, _scene: Scene) -> Slots | None:
    """Read ``88 ft in 20 sec``; None for other texts."""
    found = read_figures(spoken(text))
    lengths, times = of_kind(found, "length"), of_kind(found, "time")
    is_speed = len(found) == 2 and len(lengths) == len(times) == 1 and times[0].value > 0
    is_walked = is_speed and lengths[0].unit in ("ft", "m", "yd")
    if not is_walked or lengths[0].value <= 0:
        return None
    return Slots(read=SpeedAsked(lengths[0].value / times[0].value))


#: Nobody waters a lawn deeper at a time. Our choice.
_DEEPEST_M: Final = 0.5


def read_water(text: str, _scene: Scene) -> Slots | None:
    """Read ``0.5 in on 2,400 sq ft``, ``0.5 in at 1.2 in/h``; None for other texts."""
    said = spoken(text)
    if "128" in said or _says("watered").at_start(said.strip()):
        return None
    found = read_figures(said)
    depths = [f for f in of_kind(found, "length") if f.unit in _DEPTHS]
    areas, rates = of_kind(found, "area"), of_kind(found, "depth_rate")
    if len(depths) != 1 or not (areas or rates) or len(found) != 1 + len(areas) + len(rates):
        return None
    rate = rates[0] if rates and rates[0].value > 0 else None
    area = areas[0].value if areas else None
    if (rate is None and area is None) or depths[0].value > _DEEPEST_M:
        # "4,000 in the back" is no depth.
        return None
    return Slots(
        read=WaterAsked(
            depths[0].value,
            area,
            None if rate is None else rate.value,
            "in/h" if rate is None else rate.unit,
        )
    )


def _nitrogen(said: str) -> NitrogenAsked | None:
    wanted = _says("nitrogen").first(said)
    analysis, share = _ANALYSIS.search(said), _says("percent_n").first(said)
    if wanted is None or (analysis is None and share is None) or _names_ingredient(said):
        return None
    percent = float(analysis[1]) if analysis is not None else _value(share["n"] if share else "0")
    if not 0 < percent <= 100 or not _value(wanted["n"]) > 0:
        return None
    name = "" if analysis is None else analysis[0]
    return NitrogenAsked(percent, name, wanted["n"], _says("large").first(said) is None)


def _of_ingredient(said: str) -> IngredientAsked | None:
    found = _says("of_percent").whole(said.rstrip(" ?"))
    if found is None or _names_ingredient(said):
        return None
    read, percent = read_rate(found["rate"]), _value(found["percent"])
    if not isinstance(read, RateRead) or not read.rate.is_weight or not 0 < percent <= 100:
        return None
    return IngredientAsked(read.rate, percent)


def _conversion(said: str) -> ConversionAsked | None:
    """Read ``1 lb per acre in kg per ha``."""
    found = _says("in_unit").whole(said.strip(" ?¿"))
    if found is None or not found["unit"][0].isalpha():
        return None
    rate, wanted = read_rate(found["rate"]), read_rate(f"1 {found['unit']}")
    if not isinstance(rate, RateRead) or not isinstance(wanted, RateRead):
        return None
    if rate.rate.is_weight != wanted.rate.is_weight:
        return None
    return ConversionAsked(rate.rate, wanted.rate.unit)


def _in_unit(said: str) -> AmountAsked | None:
    """Read ``how many ounces is 3.2 pounds``."""
    bare = said.strip(" ?¿")
    found = _says("how_many").whole(bare)
    if found is None:
        return None
    amount, one = read_amount(found["amount"]), read_amount(f"1 {found['unit']}")
    if not isinstance(amount, Amount) or not isinstance(one, Amount):
        return None
    unit = "fl oz" if one.is_bare_ounce and not amount.is_weight else one.unit
    is_alike = dimension_of(unit) == dimension_of(amount.unit)
    return AmountAsked(amount, unit) if is_alike else None


def _value(figure: str) -> float:
    return float(figure.replace(",", ""))


def _names_ingredient(text: str) -> bool:
    said = text.casefold()
    return any(name in said for item in ingredients().values() for name in item.names)


FORMS: Final = (
    Form("ask_amounts", read_amount_sum),
    Form("ask_spreader", read_speed),
    Form("ask_water", read_water),
)
