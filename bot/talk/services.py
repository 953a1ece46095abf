"""What somebody else put down: a service, a landlord, a neighbour. It counts by the label too."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import datetime, time
from typing import Any, Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.record_forms import ServiceSaid
from bot.hearing.hear import hear_as
from bot.hearing.heard import ActHeard
from bot.hearing.readers.product_read import ProductRead
from bot.hearing.readers.where_said import where_said
from bot.saying.printed_amounts import Quantity
from bot.saying.values import Day
from bot.talk import which_day
from bot.talk.putting_on_record import is_long_ago, put_on_record
from bot.telling.applied_said import part_lines
from bot.telling.parts_said import no_such, parts_said
from bot.turn import Reply, rows
from jobs.agronomy.amounts import Amount, amount_for
from jobs.agronomy.rates import Rate
from jobs.agronomy.units import from_si
from jobs.labels import ingredient_rows
from jobs.uses import confirming as uses
from jobs.uses.parts import Part
from storage.yards import YardRecord, ZoneRecord

#: Zones that are offered as buttons; others are typed.
_MOST_BUTTONS: Final = 8


def on_report_service(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Record what others put down, as far as it was said; ask where it was on no zone we know."""
    if talk.topic == topics.TREATED_WHERE:
        before = _asked_about(talk)
        talk.settle()
        if heard.why == "pending":
            slots = heard.slots
            strangers, zones, is_all = slots.strangers, slots.zones, slots.all_zones
            slots = replace(before.slots, strangers=strangers, zones=zones, all_zones=is_all)
            heard = replace(before, slots=slots)
    heard = which_day.answered(talk, yard, heard)
    asked = which_day.ask(talk, yard, heard)
    if asked is not None:
        return asked
    slots = heard.slots
    strangers = slots.strangers
    if not slots.zones and not slots.all_zones:
        where = where_said(heard.said)
        strangers = strangers or ((where,) if where else ())
        if strangers:
            return [_ask_where(talk, yard, heard, strangers)]
    replies = _record(talk, yard, heard)
    return [*replies, no_such(talk, yard, strangers)] if strangers else replies


def where_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under the question where it was."""
    if talk.topic != topics.TREATED_WHERE or talk.yard_id != yard.id:
        return [talk.stale()]
    before, which = _asked_about(talk), action.rsplit(":", 1)[1]
    talk.settle()
    if which == "none":
        return [talk.reply("records.by_others_elsewhere")]
    named = [zone for zone in talk.standing(yard).zones if which in ("all", str(zone.id))]
    names = tuple(zone.name for zone in named)
    slots = replace(before.slots, zones=names, all_zones=which == "all", strangers=())
    return _record(talk, yard, replace(before, slots=slots)) if names else [talk.stale()]


def _ask_where(talk: Talk, yard: YardRecord, heard: ActHeard, said: Sequence[str]) -> Reply:
    """Ask which zone others treated: a report of ground we do not know is of none we know."""
    at = scene_of(talk).now.isoformat()
    talk.expect(topics.TREATED_WHERE, yard_id=yard.id, said=heard.said, at=at)
    offered = talk.standing(yard).zones[:_MOST_BUTTONS]
    every = [(zone.name, f"service:{yard.id}:{zone.id}") for zone in offered]
    in_twos = [every[first : first + 2] for first in range(0, len(every), 2)]
    more = [
        (talk.say("help.button_all_of_it"), f"service:{yard.id}:all"),
        (talk.say("records.button_none_of_these"), f"service:{yard.id}:none"),
    ]
    return replace(no_such(talk, yard, said), buttons=rows(*in_twos, more))


def _asked_about(talk: Talk) -> ActHeard:
    """Return the report whose place was asked for, as it was heard then."""
    at = datetime.fromisoformat(talk.data["at"])
    return hear_as("report_service", talk.data["said"], replace(scene_of(talk), now=at))


def _record(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    slots, said = heard.slots, heard.slots.read
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    zones = talk.standing(yard).zones
    who = said.who if isinstance(said, ServiceSaid) else slots.person
    who = who or talk.say("records.a_service")
    at = now = talk.said_at(yard)
    if slots.on is not None:
        if slots.on.is_future:
            return [talk.reply("applying.future", said=slots.on.said)]
        if is_long_ago(slots.on.at, now):
            said_day, name = slots.on.said, who.casefold()
            return [talk.reply("records.long_ago_by_others", said=said_day, who=name)]
        at = slots.on.at
        if not slots.on.has_time and at.date() != now.date():
            at = datetime.combine(at.date(), time(12), tzinfo=now.tzinfo)
    if isinstance(said, ServiceSaid) and said.vague:
        names = names_of(zones)
        return [talk.reply("applying.unclear", said=said.vague, names=names, yard=yard.name)]
    named = zones_said(zones, slots) or [zone for zone in zones if zone.is_treated]
    if not named:
        return [talk.reply("zones.none")]
    parts = parts_said(talk, yard, named, slots)
    if isinstance(parts, Reply):
        return [parts]
    kept, amount = _their_product(heard, named, parts)
    command = uses.Confirm(
        zones=named,
        applied_at=at,
        amount=amount,
        said=heard.said,
        is_sure=True,
        target=said.target if isinstance(said, ServiceSaid) else None,
        by_whom=who.casefold(),
        product=kept,
        is_product_unknown=kept is None,
        parts=parts,
    )
    done = put_on_record(talk, yard, command)
    if isinstance(done, Reply):
        return [done]
    on = Day(done.applied_on, talk.today(yard))
    params = {"yard": yard.name, "who": who, "zones": names_of(named), "on": on}
    if kept is None:
        lines = [talk.say("records.by_others_unknown", zone=named[0].name, **params)]
    else:
        product = " + ".join(part["name"] for part in kept["ingredients"])
        if amount is not None:
            said_amount = Quantity.of(amount)
            product = talk.say("records.amount_of", amount=said_amount, product=product)
        lines = [talk.say("records.by_others", product=product, **params)]
        if done.assumed is not None:
            rate = f"{from_si(done.assumed.total_kg_ha, 'lb/acre'):.2g}"
            lines.append(talk.say(f"records.by_others_{done.assumed.basis}", rate=rate))
        elif amount is None:
            lines.append(talk.say("records.by_others_no_amount"))
    lines += part_lines(talk, done)
    return [Reply("\n".join(lines), talk.undo())]


def _their_product(
    heard: ActHeard, zones: list[ZoneRecord], parts: Mapping[int, Part]
) -> tuple[dict[str, Any] | None, Amount | None]:
    """Return what others put down as a product's snapshot, and the amount in all."""
    said = heard.slots.read
    if not isinstance(said, ServiceSaid) or not said.product.ingredients:
        return None, None
    read: ProductRead = said.product
    area_m2 = sum(_got_m2(zone, parts.get(zone.id)) for zone in zones)
    rate, amount = read.rate, None
    if heard.slots.amount is not None:
        amount = Amount(heard.slots.amount.amount_si, heard.slots.amount.unit)
        unit = "kg/ha" if amount.dimension == "mass" else "L/ha"
        rate = Rate(amount.si / area_m2 * 1e4, unit)
    elif rate is not None and not read.is_rate_of_ingredient:
        amount = amount_for(area_m2, rate)
    kept: dict[str, Any] = {
        "said": said.words,
        "form": read.form or "granule",
        "ingredients": ingredient_rows(read.ingredients),
        "rate_value": None if rate is None else rate.value,
        "rate_unit": "lb/1000 sq ft" if rate is None else rate.unit,
        "maxima": [],
    }
    return kept, amount


def _got_m2(zone: ZoneRecord, part: Part | None) -> float:
    if part is None:
        return zone.treated_m2
    return part.area_m2 or (part.share or 1.0) * zone.treated_m2


HANDLERS: Final = {"report_service": on_report_service}
