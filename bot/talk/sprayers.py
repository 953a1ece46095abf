"""The sprayer: spray volume by catch or by nozzle, and what goes into each tank."""

from __future__ import annotations

import math
import re
from typing import Final

from bot.hearing.readers.lexing import figures
from bot.hearing.readers.measures import Figure, near, of_kind, read_figures
from bot.hearing.readers.quantities import RateRead, read_rate
from bot.saying.figures import say_amount, say_area
from bot.talk.amounts import amount_text
from bot.talk.products import say_product
from bot.talk.rounds_now import amounts_of, said
from bot.talk.talk import Talk
from bot.turn import Reply
from jobs.agronomy.rates import Rate
from jobs.agronomy.sprayer import (
    ACRE_128TH_M2,
    Load,
    boomless_gallons_per_acre,
    course_128th_m,
    gallons_per_acre,
    gpa_from_128th,
    mph,
    product_per_gallon,
    spray_rate,
    tablespoons,
    tank_plan,
)
from jobs.agronomy.units import from_si, to_si
from jobs.uses import machines as uses
from jobs.uses.amounts import YardAmounts
from storage import machines
from storage.machines import MachineRecord
from storage.yards import YardRecord

#: A plot so near to 1/128 acre is one: 18.5 ft square is 0.6 % over.
_NEARLY: Final = 0.01
#: Water that a mix is told for in metric units [L].
_TEN_LITRES: Final = 10.0
_COURSE_SPACING_M: Final = to_si(20.0, "in")


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer "sprayer": spray volume, and each load of the round."""
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    if found.product.form == "granule":
        return [talk.reply("machines.no_sprayer", product=say_product(talk, found.record))]
    machine = machines.machine(talk.work, yard.chat_id, uses.SPRAYER)
    if machine is None or machine.spray_l_ha is None:
        return [Reply(_no_volume(talk))]
    volume = _volume_line(talk, machine.spray_l_ha)
    lines = _loads(talk, found, machine)
    return [talk.reply("machines.sprayer", yard=yard.name, volume=volume, lines="\n".join(lines))]


def take(talk: Talk, yard: YardRecord, text: str) -> list[Reply] | None:
    """Take what was caught, timed or filled; None where a text says nothing of the kind."""
    typed = " ".join(text.casefold().rstrip("?.!").split())
    if typed in ("sprayer", "tank", "tank mix", "loads"):
        return show(talk, yard)
    found = read_figures(text)
    if not found:
        return None
    if "128" in typed and re.search(r"acre|course|plot", typed):
        return _course(talk, text, found)
    volumes = of_kind(found, "volume")
    if re.search(r"\btank\b|\bbackpack\b|\bholds\b", typed) and len(volumes) == 1:
        return _tank(talk, yard, volumes[0])
    per_gallon = _per_gallon(talk, yard, typed)
    if per_gallon is not None:
        return per_gallon
    gpa = _volume(talk, typed, text, found)
    if gpa is None:
        return None
    return _keep_volume(talk, yard, *gpa)


def _volume(talk: Talk, typed: str, text: str, found: list[Figure]) -> tuple[float, bool] | None:
    """Return the spray volume [gal/acre] that figures come to, and whether by the 1/128 acre."""
    flows, speeds = of_kind(found, "flow"), of_kind(found, "speed")
    lengths = of_kind(found, "length")
    if len(flows) == 1 and len(speeds) == 1 and len(lengths) == 1:
        if min(flows[0].value, speeds[0].value, lengths[0].value) <= 0:
            return None
        gpm, miles = flows[0].value * 60 / to_si(1.0, "gal"), mph(speeds[0].value)
        if re.search(r"\bswath\b|\bboomless\b|\bwide\b", typed):
            return boomless_gallons_per_acre(gpm, miles, from_si(lengths[0].value, "ft")), False
        return gallons_per_acre(gpm, miles, from_si(lengths[0].value, "in")), False
    stated = re.search(r"(\d+(?:\.\d+)?)\s*gpa\b|(\d+(?:\.\d+)?)\s*gallons? an? acre", typed)
    if stated is not None and len(found) == 1:
        value = float(stated[1] or stated[2])
        return (value, False) if value > 0 else None
    per_area = re.fullmatch(
        r"(?:(?:spray|water|carrier)\s*(?:volume|rate)?\s*[:=]?\s*(?:is\s+)?)?"
        r"([\d.]+\s*(?:gal\w*|l|lit\w+|qt\w*|quarts?)\s*(?:/|per\b|an?\b).+)",
        typed,
    )
    if per_area is not None and talk.topic != "product":
        read = read_rate(per_area[1])
        if isinstance(read, RateRead) and not read.rate.is_weight:
            return from_si(read.rate.rate_si, "gal/acre"), False
    return _caught(typed, found)


def _caught(typed: str, found: list[Figure]) -> tuple[float, bool] | None:
    if not re.search(
        r"\bcaught\b|\bcatch\b|\bin\s+the\s+(?:jug|cup|time)\b|\bsprayed\s+out\b", typed
    ):
        return None
    # Water caught from a nozzle is a volume, whatever "oz" was meant.
    litres = [
        from_si(f.value, "oz") * to_si(1.0, "fl oz") if f.unit == "oz" else f.value
        for f in of_kind(found, "volume", "mass")
        if f.kind == "volume" or f.unit == "oz"
    ]
    if len(litres) != 1 or litres[0] <= 0:
        return None
    lengths, areas = of_kind(found, "length"), of_kind(found, "area")
    covered = None
    if len(lengths) == 2:
        covered = lengths[0].value * lengths[1].value
    elif len(areas) == 1:
        covered = areas[0].value
    if covered is None or abs(covered / ACRE_128TH_M2 - 1) <= _NEARLY:
        return gpa_from_128th(from_si(litres[0], "fl oz")), True
    return from_si(spray_rate(litres[0], covered).rate_si, "gal/acre"), False


def _keep_volume(talk: Talk, yard: YardRecord, gpa: float, is_128th: bool) -> list[Reply]:
    uses.keep_machine(
        talk.work,
        yard,
        uses.SPRAYER,
        person_id=talk.person.id,
        now=talk.now,
        spray_l_ha=to_si(gpa, "gal/acre"),
    )
    lines = [talk.say("machines.volume_128")] if is_128th and not talk.is_metric else []
    if talk.is_metric:
        l_ha = to_si(gpa, "gal/acre")
        kept = talk.say(
            "machines.volume_kept_metric", l_ha=f"{l_ha:.0f}", per_100=f"{l_ha / 100:.2f}"
        )
    else:
        per_1000 = f"{gpa / 43.56:.3f}"
        kept = talk.say("machines.volume_kept", gpa=f"{gpa:.2f}", per_1000=per_1000)
    lines.append(kept)
    return [Reply("\n".join(lines + _next_lines(talk, yard)))]


def _tank(talk: Talk, yard: YardRecord, tank: Figure) -> list[Reply] | None:
    if tank.value <= 0:
        return None
    uses.keep_machine(
        talk.work,
        yard,
        uses.SPRAYER,
        person_id=talk.person.id,
        now=talk.now,
        tank_l=tank.value,
    )
    lines = [talk.say("machines.tank_kept", tank=_carrier(talk, tank.value))]
    return [Reply("\n".join(lines + _next_lines(talk, yard)))]


def _next_lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Return the loads of a sprayed product, else what a tank covers."""
    machine = machines.machine(talk.work, yard.chat_id, uses.SPRAYER)
    if machine is None or machine.spray_l_ha is None:
        return [_no_volume(talk)]
    found = amounts_of(talk, yard) if yard.product_id is not None else []
    if isinstance(found, list) or found.product.form == "granule":
        if machine.tank_l is None:
            return [_no_tank(talk)]
        covers_m2 = machine.tank_l / machine.spray_l_ha * 10_000
        if talk.is_metric:
            tank, area = _carrier(talk, machine.tank_l), _exact_area(talk, covers_m2)
            return [talk.say("machines.covers_metric", tank=tank, area=area)]
        return [
            talk.say(
                "machines.covers",
                tank=_carrier(talk, machine.tank_l),
                area=_exact_area(talk, covers_m2),
                acres=f"{from_si(covers_m2, 'acre'):.4g}",
            )
        ]
    return _loads(talk, found, machine)


def _loads(talk: Talk, found: YardAmounts, machine: MachineRecord) -> list[str]:
    assert machine.spray_l_ha is not None
    gpa = from_si(machine.spray_l_ha, "gal/acre")
    if machine.tank_l is None:
        per_gallon = _per_gallon_line(talk, found.plan.rate, gpa)
        return [per_gallon, talk.say("machines.loads_one_pass"), _no_tank(talk)]
    if not found.plan.total_m2 > 0:
        return []
    plan = tank_plan(found.plan.total_m2, machine.tank_l, gpa, found.plan.rate)
    area = say_area(found.plan.total_m2, talk.unit_system)
    lines = []
    if plan.full_loads:
        lines.append(
            talk.say(
                "machines.loads",
                area=area,
                loads=f"{plan.loads:.2f}".rstrip("0").rstrip("."),
                tank=_carrier(talk, machine.tank_l),
                covers=_exact_area(talk, plan.tank_area_m2),
                product=_product(talk, found, plan.full),
            )
        )
    if plan.last is not None:
        key = "machines.loads_last" if plan.full_loads else "machines.loads_one"
        lines.append(
            talk.say(
                key,
                area=say_area(plan.last.area_m2, talk.unit_system),
                carrier=_carrier(talk, plan.last.carrier_l),
                product=_product(talk, found, plan.last),
            )
        )
    return [*lines, talk.say("machines.loads_one_pass"), talk.say("machines.loads_caution")]


def _volume_line(talk: Talk, l_ha: float) -> str:
    if talk.is_metric:
        per_100 = f"{l_ha / 100:.2f}"
        return talk.say("machines.sprayer_volume_metric", l_ha=f"{l_ha:.0f}", per_100=per_100)
    gpa = from_si(l_ha, "gal/acre")
    return talk.say("machines.sprayer_volume", gpa=f"{gpa:.1f}", per_1000=_per_1000(gpa))


def _no_volume(talk: Talk) -> str:
    if talk.is_metric:
        return talk.say("machines.sprayer_no_volume_metric")
    course = _length(talk, course_128th_m(_COURSE_SPACING_M))
    return talk.say("machines.sprayer_no_volume", course=course)


def _no_tank(talk: Talk) -> str:
    key = "machines.sprayer_no_tank_metric" if talk.is_metric else "machines.sprayer_no_tank"
    return talk.say(key)


def _per_gallon(talk: Talk, yard: YardRecord, typed: str) -> list[Reply] | None:
    """Answer ``3 pt per acre at 65.3 gpa``, or the same with a volume per 1,000 sq ft."""
    match = re.fullmatch(r"(.+?)\s+(?:at|in|with)\s+([\d.]+\s*(?:gpa|gal.*))", typed)
    if match is None:
        return None
    read = read_rate(match[1])
    if not isinstance(read, RateRead):
        return None
    stated = re.fullmatch(r"([\d.]+)\s*gpa", match[2])
    if stated is not None:
        gpa = float(stated[1])
    else:
        volume = read_rate(match[2])
        if not isinstance(volume, RateRead) or volume.rate.is_weight:
            return None
        gpa = from_si(volume.rate.rate_si, "gal/acre")
    if not gpa > 0:
        return None
    return [Reply(_per_gallon_line(talk, read.rate, gpa))]


def _per_gallon_line(talk: Talk, rate: Rate, gpa: float) -> str:
    amount = product_per_gallon(rate, gpa)
    if talk.is_metric:
        amount = amount.times(_TEN_LITRES / to_si(1.0, "gal"))
        like = "g" if amount.dimension == "mass" else "mL"
        return talk.say("machines.per_10_l", product=say_amount(amount.si, like))
    if amount.dimension == "mass":
        product = amount_text(amount, talk.unit_system)
        return talk.say("machines.per_gallon", product=product)
    fluid = amount.in_unit("fl oz")
    spoons = tablespoons(amount.si)
    text = say_amount(fluid.si, fluid.unit)
    if not 0.5 <= spoons <= 8:
        return talk.say("machines.per_gallon", product=text)
    return talk.say("machines.per_gallon_spoons", product=text, spoons=f"{spoons:.1f}")


def _course(talk: Talk, text: str, found: list[Figure]) -> list[Reply] | None:
    spacing = near(text, found, r"\bspacing\b|\bapart\b|\bwide\b", is_before=True)
    lengths = of_kind(found, "length")
    chosen = spacing if spacing is not None and spacing.kind == "length" else None
    chosen = chosen or (lengths[0] if lengths else None)
    if of_kind(found, "volume", "mass"):
        volume = _caught("caught", [f for f in found if f.kind in ("volume", "mass")])
        yard = talk.yard()
        return None if volume is None or yard is None else _keep_volume(talk, yard, *volume)
    if chosen is None or chosen.value <= 0:
        side = math.sqrt(ACRE_128TH_M2)
        area = f"{from_si(ACRE_128TH_M2, 'sq ft'):.2f} sq ft"
        if talk.is_metric:
            return [
                talk.reply(
                    "machines.plot_128", area=f"{ACRE_128TH_M2:.2f} m²", side=f"{side:.2f} m"
                )
            ]
        return [talk.reply("machines.plot_128", area=area, side=f"{from_si(side, 'ft'):.2f} ft")]
    unit = chosen.unit
    return [
        talk.reply(
            "machines.course_128",
            spacing=f"{figures(round(from_si(chosen.value, unit), 2))} {unit}",
            length=_length(talk, course_128th_m(chosen.value)),
        )
    ]


def _product(talk: Talk, found: YardAmounts, load: Load) -> str:
    return said(talk, found, load.product, load.area_m2)


def _carrier(talk: Talk, litres: float) -> str:
    if talk.is_metric:
        return f"{litres:.3g} L"
    return f"{from_si(litres, 'gal'):.3g} gal"


def _exact_area(talk: Talk, area_m2: float) -> str:
    unit = "m²" if talk.is_metric else "sq ft"
    return f"{from_si(area_m2, unit):,.0f} {unit}"


def _per_1000(gpa: float) -> str:
    return f"{gpa / 43.56:.2f} gal"


def _length(talk: Talk, metres: float) -> str:
    unit = talk.length_unit
    return f"{from_si(metres, unit):.1f} {unit}"
