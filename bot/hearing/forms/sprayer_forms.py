"""Sprayers in short: ``caught 48 oz``, ``0.4 gpm, 3 mph, 20 in spacing``, ``tank 4 gal``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form, saying
from bot.hearing.forms.spreader_forms import is_of_machine
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
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
_says: Final = partial(phrases, "sprayer")
_BARE: Final = re.compile(r"\d+(?:\.\d+)?")


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
    figures = read_figures(typed)
    if not figures:
        return None
    if _says("plot").first(typed) and not of_kind(figures, "volume", "mass"):
        return Slots(read=_plot(typed, figures))
    mix = None if scene.asked == "enter_product" else _mix(typed)
    return None if mix is None else Slots(read=mix)


def read_set(text: str, scene: Scene, *, is_sure: bool = False) -> Slots | None:
    """Read what was caught, timed or filled; None for other texts.

    Where it `is_sure` that a text tells of a sprayer, its figures say what they are by themselves.
    """
    if text.rstrip().endswith("?"):
        return None
    typed = _typed(text)
    figures = read_figures(typed)
    if not figures or _mix(typed) is not None:
        return None
    volume = _volume(typed, figures, scene)
    volumes = of_kind(figures, "volume")
    is_label = any(figure.kind == "mass" for figure in figures)
    is_flow = _says("flowing").first(typed) is not None
    if volume is None and is_sure and not is_label and not is_flow:
        volume = _water_put_out(read_figures(typed.replace("/", " / ")))
    is_next = is_of_machine(text, scene)
    has_tank = is_next or _says("machine" if is_sure else "tank").first(typed) is not None
    is_tank = has_tank and not is_label and not is_flow
    if volume is None and is_tank and len(volumes) == 1 and volumes[0].value > 0:
        return Slots(read=TankSaid(volumes[0].value))
    return None if volume is None else Slots(read=volume)


def _volume(typed: str, figures: list[Figure], scene: Scene) -> VolumeSaid | None:
    if _says("plot").first(typed) and of_kind(figures, "volume", "mass"):
        return _caught([f for f in figures if f.kind in ("volume", "mass")])
    by_nozzle = _by_nozzle(typed, figures)
    if by_nozzle is not None:
        return by_nozzle
    stated = _says("gpa").first(typed)
    if stated is not None and len(figures) == 1:
        value = float(stated["n"])
        return VolumeSaid(value) if value > 0 else None
    per_area = _per_area(typed, scene)
    if per_area is not None:
        return per_area
    is_caught = _says("caught").first(typed) and not _says("left_over").first(typed)
    return _caught(figures) if is_caught else None


def _by_nozzle(typed: str, figures: list[Figure]) -> VolumeSaid | None:
    flows, speeds = of_kind(figures, "flow"), of_kind(figures, "speed")
    lengths = of_kind(figures, "length")
    if not (len(flows) == len(speeds) == len(lengths) == 1):
        return None
    if min(flows[0].value, speeds[0].value, lengths[0].value) <= 0:
        return None
    gpm, miles = flows[0].value * 60 / to_si(1.0, "gal"), mph(speeds[0].value)
    if _says("boomless").first(typed):
        return VolumeSaid(boomless_gallons_per_acre(gpm, miles, from_si(lengths[0].value, "ft")))
    return VolumeSaid(gallons_per_acre(gpm, miles, from_si(lengths[0].value, "in")))


def _per_area(typed: str, scene: Scene) -> VolumeSaid | None:
    """Read ``1 gal per 1000``, with a tank before it too; a product's rate is none."""
    one = _says("one").first(typed)
    typed = f"{one.before}1 {one['unit']}{one.after}" if one else typed
    # "I spray 2 gallons per thousand" is no label's word; without who does it, it may be.
    is_label = scene.asked == "enter_product"
    covers = _says("covered").whole(typed)
    covers = covers or (None if is_label else _says("covers").whole(typed))
    if covers is not None:
        return _over(covers["volume"], covers["area"])
    found = _says("own_rate").whole(typed)
    found = found or (None if is_label else _says("rate").whole(typed))
    if found is None:
        return None
    read = read_rate(_square_feet(found["rate"]))
    if not isinstance(read, RateRead) or read.rate.is_weight:
        return None
    before = found["before"]
    volumes = [each.value for each in of_kind(read_figures(before), "volume")]
    is_tank = _says("tank").first(before) and len(volumes) == 1 and volumes[0] > 0
    tank_l = volumes[0] if is_tank else None
    return VolumeSaid(from_si(read.rate.rate_si, "gal/acre"), tank_l=tank_l)


def _over(volume: str, area: str) -> VolumeSaid | None:
    """Return the spray volume by which so much water covered so much ground."""
    area = _square_feet(area)
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


#: What a sprayer puts out at the least [gal/acre]; less is product.
_LEAST_GPA: Final = 5.0


def _water_put_out(figures: list[Figure]) -> VolumeSaid | None:
    """Return what "200 gal rig, 2 gal on 1000" puts out: the lesser volume on the one area."""
    volumes = sorted(each.value for each in of_kind(figures, "volume"))
    areas = [each.value for each in of_kind(figures, "area")]
    bare = [e.value for e in of_kind(figures, "bare") if e.value >= LEAST_BARE_SQ_FT]
    areas += [to_si(each, "sq ft") for each in bare]
    if len(areas) != 1 or len(volumes) not in (1, 2) or min(*areas, *volumes) <= 0:
        return None
    gpa = from_si(spray_rate(volumes[0], areas[0]).rate_si, "gal/acre")
    return (
        VolumeSaid(gpa, tank_l=volumes[1] if volumes[1:] else None) if gpa >= _LEAST_GPA else None
    )


def _square_feet(said: str) -> str:
    """Return words with feet of ground for what they are: nobody waters a length."""
    feet = _says("feet").at_end(said)
    return said if feet is None else f"{feet.before}{feet['n']} sq ft"


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
    found = _says("mix").whole(typed)
    if found is None:
        return None
    read = read_rate(found["rate"])
    if not isinstance(read, RateRead):
        return None
    stated = _says("gpa").whole(found["volume"])
    if stated is not None:
        gpa = float(stated["n"])
    else:
        volume = read_rate(found["volume"])
        if not isinstance(volume, RateRead) or volume.rate.is_weight:
            return None
        gpa = from_si(volume.rate.rate_si, "gal/acre")
    return MixAsked(read.rate, gpa) if gpa > 0 else None


def _plot(typed: str, figures: list[Figure]) -> PlotAsked:
    spacing = near(typed, figures, _says("spacing"), is_before=True)
    lengths = of_kind(figures, "length")
    chosen = spacing if spacing is not None and spacing.kind == "length" else None
    chosen = chosen or (lengths[0] if lengths else None)
    if chosen is None or chosen.value <= 0:
        return PlotAsked()
    return PlotAsked(from_si(chosen.value, chosen.unit), chosen.unit)


def _typed(text: str) -> str:
    said = " ".join(spoken(plain(text).text).rstrip(" ?.!").split())
    return said.casefold()


FORMS: Final = (
    saying("ask_spreader", "sprayer.show", SprayerAsked()),
    Form("ask_spreader", read_asked),
    Form("set_spreader", read_set),
)
