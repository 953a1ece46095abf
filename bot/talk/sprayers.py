"""The sprayer: spray volume by catch or by nozzle, and what goes into each tank."""

from __future__ import annotations

import math
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.sprayer_forms import MixAsked, PlotAsked, SprayerAsked, TankSaid, VolumeSaid
from bot.hearing.readers.lexing import figures
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Area
from bot.telling import amounts_said
from bot.telling.amounts_said import amounts_of, exact
from bot.telling.products_said import doubt_lines, say_product
from bot.telling.spreader_words import carrier_text
from bot.turn import Reply
from jobs.agronomy.rates import Rate
from jobs.agronomy.sprayer import (
    ACRE_128TH_M2,
    Load,
    course_128th_m,
    product_per_gallon,
    tablespoons,
    tank_plan,
)
from jobs.agronomy.units import from_si, to_si
from jobs.uses import calibrating as uses
from jobs.uses.how_much import YardAmounts
from storage import machines
from storage.machines import MachineRecord
from storage.yards import YardRecord

#: Water that a mix is told for in metric units [L].
_TEN_LITRES: Final = 10.0
_COURSE_SPACING_M: Final = to_si(20.0, "in")


def show(talk: Talk, yard: YardRecord, *, even_done: bool = False) -> list[Reply]:
    """Answer "sprayer": spray volume, and each load of the round (see `spreaders.show`)."""
    found = amounts_of(talk, yard)
    if isinstance(found, list):
        return found
    if found.product.form == "granule":
        return [talk.reply("machines.no_sprayer", product=say_product(found.record))]
    if found.is_finished and not even_done:
        return [finished(talk, yard, found)]
    machine = machines.machine(talk.work, yard.chat_id, uses.SPRAYER)
    if machine is None or machine.spray_l_ha is None:
        return [Reply(no_volume(talk))]
    volume = _volume_line(talk, machine.spray_l_ha)
    lines = _loads(talk, found, machine)
    if found.is_finished:
        lines.insert(0, talk.say("machines.spreader_finished", yard=yard.name))
    return [talk.reply("machines.sprayer", yard=yard.name, volume=volume, lines="\n".join(lines))]


def finished(talk: Talk, yard: YardRecord, found: YardAmounts) -> Reply:
    """Say that nothing more is due, with a button for who wants to see what one takes."""
    said = amounts_said.finished(talk, yard, found)
    return Reply(
        said.text, talk.row(("machines.button_even_done", f"spreader:even_done:{yard.id}"))
    )


def answer(talk: Talk, yard: YardRecord, asked: SprayerAsked | MixAsked | PlotAsked) -> list[Reply]:
    """Answer what is asked of a sprayer: loads, a mix, or what 1/128 acre is."""
    match asked:
        case MixAsked():
            return [Reply(_per_gallon_line(talk, asked.rate, asked.gpa))]
        case PlotAsked():
            return [_plot(talk, asked)]
        case SprayerAsked():
            return show(talk, yard)


def keep(talk: Talk, yard: YardRecord, said: TankSaid | VolumeSaid) -> list[Reply]:
    """Keep the tank or the spray volume, and say what follows for the loads."""
    if isinstance(said, TankSaid):
        return _keep_tank(talk, yard, said.litres)
    if said.tank_l is not None:
        _keep_tank(talk, yard, said.tank_l)
    return _keep_volume(talk, yard, said.gpa, is_128th=said.is_128th)


def _keep_volume(talk: Talk, yard: YardRecord, gpa: float, *, is_128th: bool) -> list[Reply]:
    l_ha = to_si(gpa, "gal/acre")
    uses.keep_machine(talk.work, yard, uses.SPRAYER, now=talk.now, spray_l_ha=l_ha)
    lines = [talk.say("machines.volume_128")] if is_128th and not talk.is_metric else []
    said = {"gpa": f"{gpa:.2f}", "per_1000": f"{gpa / 43.56:.3f}"}
    said |= {"l_ha": f"{l_ha:.0f}", "per_100": f"{l_ha / 100:.2f}"}
    lines.append(talk.say("machines.volume_kept", **said))
    return [Reply("\n".join(lines + _next_lines(talk, yard)))]


def _keep_tank(talk: Talk, yard: YardRecord, litres: float) -> list[Reply]:
    uses.keep_machine(talk.work, yard, uses.SPRAYER, now=talk.now, tank_l=litres)
    lines = [talk.say("machines.tank_kept", tank=carrier_text(talk, litres))]
    return [Reply("\n".join(lines + _next_lines(talk, yard)))]


def _next_lines(talk: Talk, yard: YardRecord) -> list[str]:
    """Return the loads of a sprayed product, else what a tank covers."""
    machine = machines.machine(talk.work, yard.chat_id, uses.SPRAYER)
    if machine is None or machine.spray_l_ha is None:
        return [no_volume(talk)]
    found = amounts_of(talk, yard) if yard.product_id is not None else []
    if isinstance(found, list) or found.product.form == "granule" or found.is_finished:
        if machine.tank_l is None:
            return [talk.say("machines.sprayer_no_tank")]
        covers_m2 = machine.tank_l / machine.spray_l_ha * 10_000
        said = {"tank": carrier_text(talk, machine.tank_l), "area": _exact_area(talk, covers_m2)}
        acres = f"{from_si(covers_m2, 'acre'):.4g}"
        return [talk.say("machines.covers", **said, acres=acres)]
    return _loads(talk, found, machine)


def _loads(talk: Talk, found: YardAmounts, machine: MachineRecord) -> list[str]:
    assert machine.spray_l_ha is not None
    gpa = from_si(machine.spray_l_ha, "gal/acre")
    if machine.tank_l is None:
        per_gallon = _per_gallon_line(talk, found.plan.rate, gpa)
        return [
            per_gallon,
            talk.say("machines.loads_one_pass"),
            talk.say("machines.sprayer_no_tank"),
        ]
    if not found.plan.total_m2 > 0:
        return []
    plan = tank_plan(found.plan.total_m2, machine.tank_l, gpa, found.plan.rate)
    area = Area(found.plan.total_m2)
    lines = []
    if plan.full_loads:
        lines.append(
            talk.say(
                "machines.loads",
                area=area,
                loads=round(plan.loads, 2),
                tank=carrier_text(talk, machine.tank_l),
                covers=_exact_area(talk, plan.tank_area_m2),
                product=_product(found, plan.full),
            )
        )
    if plan.last is not None:
        key = "machines.loads_last" if plan.full_loads else "machines.loads_one"
        lines.append(
            talk.say(
                key,
                area=Area(plan.last.area_m2),
                carrier=carrier_text(talk, plan.last.carrier_l),
                product=_product(found, plan.last),
            )
        )
    tail = [talk.say("machines.loads_one_pass"), talk.say("machines.loads_caution")]
    return [*lines, *doubt_lines(talk, found.record), *tail]


def _volume_line(talk: Talk, l_ha: float) -> str:
    if talk.is_metric:
        per_100 = f"{l_ha / 100:.2f}"
        return talk.say("machines.sprayer_volume_metric", l_ha=f"{l_ha:.0f}", per_100=per_100)
    gpa = from_si(l_ha, "gal/acre")
    return talk.say("machines.sprayer_volume", gpa=f"{gpa:.1f}", per_1000=f"{gpa / 43.56:.2f} gal")


def no_volume(talk: Talk) -> str:
    """Return how the spray volume is found, step by step."""
    if talk.is_metric:
        return talk.say("machines.sprayer_no_volume_metric")
    course = _length(talk, course_128th_m(_COURSE_SPACING_M))
    return talk.say("machines.sprayer_no_volume", course=course)


def _per_gallon_line(talk: Talk, rate: Rate, gpa: float) -> str:
    amount = product_per_gallon(rate, gpa)
    if talk.is_metric:
        amount = amount.times(_TEN_LITRES / to_si(1.0, "gal"))
        return talk.say("machines.per_10_l", product=Quantity(amount.si, amount.unit))
    if amount.dimension == "mass":
        product = Quantity.of(amount)
        return talk.say("machines.per_gallon", product=product)
    fluid = amount.in_unit("fl oz")
    spoons = tablespoons(amount.si)
    text = Quantity.of(fluid)
    if not 0.5 <= spoons <= 8:
        return talk.say("machines.per_gallon", product=text)
    return talk.say("machines.per_gallon_spoons", product=text, spoons=f"{spoons:.1f}")


def _plot(talk: Talk, asked: PlotAsked) -> Reply:
    if asked.spacing is not None:
        return talk.reply(
            "machines.course_128",
            spacing=f"{figures(round(asked.spacing, 2))} {asked.unit}",
            length=_length(talk, course_128th_m(to_si(asked.spacing, asked.unit))),
        )
    side = math.sqrt(ACRE_128TH_M2)
    if talk.is_metric:
        area = f"{ACRE_128TH_M2:.2f} m²"
        return talk.reply("machines.plot_128", area=area, side=f"{side:.2f} m")
    area = f"{from_si(ACRE_128TH_M2, 'sq ft'):.2f} sq ft"
    return talk.reply("machines.plot_128", area=area, side=f"{from_si(side, 'ft'):.2f} ft")


def _product(found: YardAmounts, load: Load) -> Quantity:
    return exact(found, load.product, load.area_m2)


def _exact_area(talk: Talk, area_m2: float) -> str:
    unit = "m²" if talk.is_metric else "sq ft"
    return f"{from_si(area_m2, unit):,.0f} {unit}"


def _length(talk: Talk, metres: float) -> str:
    unit = talk.length_unit
    return f"{from_si(metres, unit):.1f} {unit}"
