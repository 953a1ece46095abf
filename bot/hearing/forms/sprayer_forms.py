"""Sprayers in short: ``caught 48 oz``, ``0.4 gpm, 3 mph, 20 in spacing``, ``tank 4 gal``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.lexing import plain
from bot.hearing.readers.measures import LEAST_BARE_SQ_FT, Figure, near, of_kind, read_figures
from bot.hearing.readers.quantities import RateRead, read_rate
from bot.hearing.readers.spoken import spoken
from jobs.agronomy.rates import Rate
from jobs.agronomy.sprayer import (
    ACRE_128TH_M2,
    boomless_gallons_per_acre,
    gallons_per_acre,
    gpa_from_128th,
    mph,
    spray_rate,
)
from jobs.agronomy.units import from_si, to_si

#: A plot so near to 1/128 acre is one: 18.5 ft square is 0.6 % over.
_NEARLY: Final = 0.01
_SHOW: Final = frozenset({"sprayer", "tank", "tank mix", "loads", "my sprayer", "how many tanks"})
_PLOT: Final = re.compile(r"128.*(?:acre|course|plot)|(?:acre|course|plot).*128", re.IGNORECASE)
_TANK: Final = re.compile(
    r"\btank\b|\bback\s?pack\b|\bholds\b|\bpump[ -]up\b|\bsprayer'?s?\s+(?:is\s+)?a\b"
    r"|\btanque\b|\bmochila\b",
    re.IGNORECASE,
)
_SPACING: Final = r"\bspacing\b|\bapart\b|\bwide\b"
_BOOMLESS: Final = re.compile(r"\bswath\b|\bboomless\b|\bwide\b", re.IGNORECASE)
_GPA: Final = re.compile(
    r"(\d+(?:\.\d+)?)\s*gpa\b|(\d+(?:\.\d+)?)\s*gallons? an? acre", re.IGNORECASE
)
_WHOLE_GPA: Final = re.compile(r"([\d.]+)\s*gpa", re.IGNORECASE)
_PER_AREA: Final = re.compile(
    r"(?:.*\b(?:tank|backpack)\b.*?(?:,|\band\b)\s*)?"
    r"(?P<who>(?:i|it|we|that|(?:(?:my|the|our)\s+)?(?:sprayer|rig|boom|backpack|pump)"
    r"|(?:mi|la|el)\s+(?:bomba|mochila|aspersora|equipo))\s+)?"
    r"(?:puts?\s+(?:out|down)\s+|sprays?\s+(?:out\s+)?|uses?\s+|applies\s+|at\s+|(?:echa|tira|saca|da|gasta)\s+)?"
    r"(?:(?:spray|water|carrier)\s*(?:volume|rate)?\s*[:=]?\s*(?:is\s+)?)?"
    r"(?P<rate>[\d.]+\s*(?:gal\w*|l|lit\w+|qt\w*|quarts?)\s*(?:/|per\b|por\b|an?\b).+)",
    re.IGNORECASE,
)
_WATER: Final = (
    r"(?P<volume>[\d.]+\s*(?:gal\w*|l|lit\w+|qts?|quarts?))(?:\s+(?:of|de)\s+(?:water|agua))?"
)
#: How far some water went: "4 gallons covered 2000 sq ft", "con 4 galones cubrí 2000 pies".
_COVERS: Final = (
    re.compile(
        rf"(?:i\s+(?:used|sprayed)\s+|con\s+)?{_WATER}\s+(?P<verb>covers|covered|does|did|do|went|goes|got|for|treats|treated"
        rf"|on|over|cubre|cubr[ií](?:eron|[oó])?|rinde|alcanza|alcanz[oó])\s+(?:me\s+)?(?:over|for|on|about|para|como|unos)?\s*"
        rf"(?P<area>.+)",
        re.IGNORECASE,
    ),
    re.compile(
        rf"(?:i\s+)?(?P<verb>cover(?:s|ed)?|did|do|cubr[ií]|trat[eé])\s+(?P<area>.+?)\s+(?:with|on|con)\s+{_WATER}",
        re.IGNORECASE,
    ),
)
#: What was done tells of the sprayer; how far water goes may be read off a label.
_DONE: Final = re.compile(
    r"covered|did|went|got|treated|cubr[ií](?:eron|[oó])?$|alcanz[oó]|trat[eé]"
)
_BARE: Final = re.compile(r"\d+(?:\.\d+)?")
_FEET: Final = re.compile(r"(\d)\s*(?:pies?|feet|foot)(?:\s*cuadrados?)?$")
_ONE: Final = re.compile(r"\b(?:a|an|one|un)\s+(?=gal|lit|quart)")
_CAUGHT: Final = re.compile(
    r"\bcaught\b|\bcatch\b|\bin\s+the\s+(?:jug|cup|time)\b|\bsprayed\s+out\b", re.IGNORECASE
)
#: What is left of a product was caught from no nozzle.
_LEFT_OVER: Final = re.compile(r"\b(?:left|leftover|remain\w*|still|have)\b", re.IGNORECASE)
_MIX: Final = re.compile(
    r"(?P<rate>.+?)\s+(?:at|in|with)\s+(?P<volume>[\d.]+\s*(?:gpa|gal.*))", re.IGNORECASE
)


@dataclass(frozen=True)
class VolumeSaid:
    """Spray volume [gal/acre] as found, whether by 1/128 acre, and the tank [L] said with it."""

    gpa: float
    is_128th: bool = False
    tank_l: float | None = None


@dataclass(frozen=True)
class TankSaid:
    """What the tank holds [L]."""

    litres: float


@dataclass(frozen=True)
class MixAsked:
    """How much of a rate goes into each gallon at a spray volume [gal/acre]."""

    rate: Rate
    gpa: float


@dataclass(frozen=True)
class PlotAsked:
    """What 1/128 acre is: a plot, or a course for a spacing as written."""

    spacing: float | None = None
    unit: str = "in"


@dataclass(frozen=True)
class SprayerAsked:
    """The loads of the round are asked for."""


def read_asked(text: str, scene: Scene) -> Slots | None:
    """Read what is asked of a sprayer; None for other texts."""
    typed = _typed(text)
    if typed in _SHOW:
        return Slots(read=SprayerAsked())
    figures = read_figures(typed)
    if not figures:
        return None
    if _PLOT.search(typed) and not of_kind(figures, "volume", "mass"):
        return Slots(read=_plot(typed, figures))
    if scene.pending is not None and scene.pending.kind == "enter_product":
        return None
    mix = _mix(typed)
    return None if mix is None else Slots(read=mix)


def read_set(text: str, scene: Scene) -> Slots | None:
    """Read what was caught, timed or filled; None for other texts."""
    if text.rstrip().endswith("?"):
        return None
    typed = _typed(text)
    figures = read_figures(typed)
    if not figures or _mix(typed) is not None:
        return None
    volume = _volume(typed, figures, scene)
    volumes = of_kind(figures, "volume")
    is_label = any(figure.kind == "mass" for figure in figures)
    is_tank = _TANK.search(typed) is not None and not is_label
    if volume is None and is_tank and len(volumes) == 1 and volumes[0].value > 0:
        return Slots(read=TankSaid(volumes[0].value))
    return None if volume is None else Slots(read=volume)


def _volume(typed: str, figures: list[Figure], scene: Scene) -> VolumeSaid | None:
    if _PLOT.search(typed) and of_kind(figures, "volume", "mass"):
        return _caught([f for f in figures if f.kind in ("volume", "mass")])
    by_nozzle = _by_nozzle(typed, figures)
    if by_nozzle is not None:
        return by_nozzle
    stated = _GPA.search(typed)
    if stated is not None and len(figures) == 1:
        value = float(stated[1] or stated[2])
        return VolumeSaid(value) if value > 0 else None
    per_area = _per_area(typed, scene)
    if per_area is not None:
        return per_area
    is_caught = _CAUGHT.search(typed) is not None and _LEFT_OVER.search(typed) is None
    return _caught(figures) if is_caught else None


def _by_nozzle(typed: str, figures: list[Figure]) -> VolumeSaid | None:
    flows, speeds = of_kind(figures, "flow"), of_kind(figures, "speed")
    lengths = of_kind(figures, "length")
    if not (len(flows) == len(speeds) == len(lengths) == 1):
        return None
    if min(flows[0].value, speeds[0].value, lengths[0].value) <= 0:
        return None
    gpm, miles = flows[0].value * 60 / to_si(1.0, "gal"), mph(speeds[0].value)
    if _BOOMLESS.search(typed):
        return VolumeSaid(boomless_gallons_per_acre(gpm, miles, from_si(lengths[0].value, "ft")))
    return VolumeSaid(gallons_per_acre(gpm, miles, from_si(lengths[0].value, "in")))


def _per_area(typed: str, scene: Scene) -> VolumeSaid | None:
    """Read ``1 gal per 1000``, with a tank before it too; a product's rate is none."""
    typed = _ONE.sub("1 ", typed)
    covers = next((found for each in _COVERS if (found := each.fullmatch(typed))), None)
    is_label = scene.pending is not None and scene.pending.kind == "enter_product"
    match = _PER_AREA.fullmatch(typed)
    # "I spray 2 gallons per thousand" is no label's word; without who does it, it may be.
    is_own = (
        _DONE.match(covers["verb"]) if covers is not None else match is not None and match["who"]
    )
    if is_label and not is_own:
        return None
    if covers is not None:
        return _over(covers["volume"], covers["area"])
    if match is None:
        return None
    said = match["rate"]
    read = read_rate(_FEET.sub(r"\1 sq ft", said.replace(" por ", " per ")))
    if not isinstance(read, RateRead) or read.rate.is_weight:
        return None
    tank = None
    before = typed[: typed.index(said)] if said in typed else ""
    volumes = of_kind(read_figures(before), "volume")
    if _TANK.search(before) and len(volumes) == 1 and volumes[0].value > 0:
        tank = volumes[0].value
    return VolumeSaid(from_si(read.rate.rate_si, "gal/acre"), tank_l=tank)


def _over(volume: str, area: str) -> VolumeSaid | None:
    """Return the spray volume by which so much water covered so much ground."""
    area = _FEET.sub(r"\1 sq ft", area)
    if _BARE.fullmatch(area) and float(area) >= LEAST_BARE_SQ_FT:
        area = f"{area} sq ft"
    figures = read_figures(area)
    lengths, areas = of_kind(figures, "length"), of_kind(figures, "area")
    if len(areas) + len(lengths) / 2 != 1:
        return None
    covered_m2 = areas[0].value if areas else lengths[0].value * lengths[1].value
    litres = of_kind(read_figures(volume), "volume")
    if len(litres) != 1 or min(litres[0].value, covered_m2) <= 0:
        return None
    return VolumeSaid(from_si(spray_rate(litres[0].value, covered_m2).rate_si, "gal/acre"))


def _caught(figures: list[Figure]) -> VolumeSaid | None:
    # Water caught from a nozzle is a volume, whatever "oz" was meant.
    litres = [
        from_si(f.value, "oz") * to_si(1.0, "fl oz") if f.unit == "oz" else f.value
        for f in of_kind(figures, "volume", "mass")
        if f.kind == "volume" or f.unit == "oz"
    ]
    if len(litres) != 1 or litres[0] <= 0:
        return None
    lengths, areas = of_kind(figures, "length"), of_kind(figures, "area")
    covered = None
    if len(lengths) == 2:
        covered = lengths[0].value * lengths[1].value
    elif len(areas) == 1:
        covered = areas[0].value
    if covered is None or abs(covered / ACRE_128TH_M2 - 1) <= _NEARLY:
        return VolumeSaid(gpa_from_128th(from_si(litres[0], "fl oz")), is_128th=True)
    if covered <= 0:
        return None
    return VolumeSaid(from_si(spray_rate(litres[0], covered).rate_si, "gal/acre"))


def _mix(typed: str) -> MixAsked | None:
    """Read ``3 pt per acre at 65.3 gpa``, or the same with a volume per 1,000 sq ft."""
    match = _MIX.fullmatch(typed)
    if match is None:
        return None
    read = read_rate(match["rate"])
    if not isinstance(read, RateRead):
        return None
    stated = _WHOLE_GPA.fullmatch(match["volume"])
    if stated is not None:
        gpa = float(stated[1])
    else:
        volume = read_rate(match["volume"])
        if not isinstance(volume, RateRead) or volume.rate.is_weight:
            return None
        gpa = from_si(volume.rate.rate_si, "gal/acre")
    return MixAsked(read.rate, gpa) if gpa > 0 else None


def _plot(typed: str, figures: list[Figure]) -> PlotAsked:
    spacing = near(typed, figures, _SPACING, is_before=True)
    lengths = of_kind(figures, "length")
    chosen = spacing if spacing is not None and spacing.kind == "length" else None
    chosen = chosen or (lengths[0] if lengths else None)
    if chosen is None or chosen.value <= 0:
        return PlotAsked()
    return PlotAsked(from_si(chosen.value, chosen.unit), chosen.unit)


def _typed(text: str) -> str:
    said = " ".join(spoken(plain(text).text).rstrip(" ?.!").split())
    return said.casefold()


FORMS: Final = (Form("ask_spreader", read_asked), Form("set_spreader", read_set))
