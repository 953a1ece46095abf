"""Applied: what is down, where, when and how much; and the water after it."""

from __future__ import annotations

from dataclasses import replace
from datetime import datetime, time
from typing import Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.applied_forms import ApplicationSaid
from bot.hearing.hear import hear_as
from bot.hearing.heard import ActHeard, Slots
from bot.hearing.readers.lexing import figures
from bot.hearing.readers.quantities import Amount as AmountSaid
from bot.talk import which_day
from bot.talk.putting_on_record import Report, confirm, is_long_ago
from bot.telling import packs_used
from bot.telling.application_days import wanted_now
from bot.telling.parts_said import no_such, parts_said
from bot.turn import Reply, rows
from jobs.agronomy.season import State, Target
from jobs.rounds import belongs_to
from jobs.turf_limits import fit, room
from jobs.uses.parts import Part
from storage.yards import YardRecord, ZoneRecord


def on_report_applied(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Take a report: what is named, or all that is still to do."""
    zones = list(talk.standing(yard).zones)
    if not zones:
        return [*talk.answer("show_zones", yard), talk.reply("yards.tell_again")]
    heard = _with_part(talk, which_day.answered(talk, yard, heard))
    asked = which_day.ask(talk, yard, heard)
    if asked is not None:
        return asked
    read = _read(talk, yard, zones, heard.slots)
    if isinstance(read, Reply):
        # Of which zone, how much of it, or what it weighed is asked.
        unread = heard.slots.unread
        is_bare = unread is not None and unread.reason == "reading.amount_needs_unit"
        is_weight = is_bare or heard.slots.packs is not None
        if heard.slots.parts or is_weight:
            step = "amount" if is_weight else ""
            talk.expect(topics.APPLY_PART, yard_id=yard.id, said=heard.said, step=step)
        return [read]
    return confirm(talk, yard, read, said=heard.said, is_sure=False)


def _with_part(talk: Talk, heard: ActHeard) -> ActHeard:
    """Return the answer which part it was, with what was said of the report before."""
    said = talk.data.get("said") if talk.topic == topics.APPLY_PART else None
    if said is None or heard.why != "pending":
        return heard
    scene = replace(scene_of(talk), pending=None)
    old, new = hear_as("report_applied", str(said), scene).slots, heard.slots
    slots = replace(
        new,
        zones=(*talk.data.get("with", ()), *new.zones) if new.zones else old.zones,
        # A part is asked about until ground is named.
        parts=new.parts or (() if new.zones else old.parts),
        on=new.on or old.on,
        amount=new.amount or old.amount,
        packs=None if new.amount else new.packs or old.packs,
    )
    return replace(heard, slots=slots)


def ask_ground(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Ask which zone is meant by ground that none of them is, and keep what else was said.

    One amount for that ground and for zones we know waits with them; else these are on record. The
    one zone that is still to do is offered.
    """
    slots = heard.slots
    is_shared = slots.amount is not None or slots.packs is not None
    kept = [] if is_shared or not slots.zones else on_report_applied(talk, yard, heard)
    others = [zone for zone in talk.standing(yard).zones if zone.name not in slots.zones]
    left = wanted_now(talk, yard, others)
    waits = {"said": heard.said, "with": list(slots.zones) if is_shared else []}
    talk.expect(topics.APPLY_PART, yard_id=yard.id, **waits)
    offered = [(left[0].name, f"apply:zone:{yard.id}:{left[0].id}")] if len(left) == 1 else []
    return [*kept, replace(no_such(talk, yard, slots.strangers), buttons=rows(offered))]


def zone_tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the button with the zone that was meant."""
    number = action.rsplit(":", 1)[1]
    names = [zone.name for zone in talk.standing(yard).zones if str(zone.id) == number]
    if talk.topic != topics.APPLY_PART or talk.data.get("yard_id") != yard.id or not names:
        return [talk.stale()]
    said = ActHeard("report_applied", Slots(zones=tuple(names)), str(talk.data["said"]), "pending")
    return on_report_applied(talk, yard, said)


def confirm_all(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [It is down]: every zone still to do in this round."""
    return on_report_applied(talk, yard, ActHeard("report_applied", said="applied"))


def ask_part(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Part]: ask which."""
    talk.expect(topics.APPLY_PART, yard_id=yard.id)
    return [talk.reply("help.part_which")]


def confirm_again(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Yes, again] after an application so lately that it was asked about."""
    if talk.topic != topics.APPLY_SURE:
        return [talk.stale()]
    data = talk.data
    talk.settle()
    zones = [zone for zone in talk.standing(yard).zones if zone.id in data["zones"]]
    if not zones:
        return [talk.stale()]
    amount = None if data["amount"] is None else AmountSaid(*data["amount"])
    target = None if data.get("target") is None else Target(data["target"])
    parts = {int(zone_id): Part(**part) for zone_id, part in data.get("parts", {}).items()}
    at, is_first = datetime.fromisoformat(data["at"]), bool(data.get("is_first_pass"))
    read = Report(
        zones, at, amount, target, parts, is_first, has_hour=bool(data.get("has_hour", True))
    )
    return confirm(talk, yard, read, said=data["said"], is_sure=True)


def confirm_not(talk: Talk) -> list[Reply]:
    """Answer [No] after being asked about a second application."""
    number, amount = talk.data.get("record"), talk.data.get("amount")
    talk.settle()
    if number is None or amount is None:
        return [talk.reply("applying.left_out")]
    said = f"{figures(amount[0])} {amount[1]}"
    return [talk.reply("applying.left_out_amend", number=number, amount=said)]


def _read(talk: Talk, yard: YardRecord, zones: list[ZoneRecord], slots: Slots) -> Report | Reply:
    if slots.unread is not None:
        return Reply(slots.unread.sentence())
    now = talk.said_at(yard)
    at, when = now, slots.on
    if when is not None:
        if when.is_future:
            return talk.reply("applying.future", said=when.said)
        if is_long_ago(when.at, now):
            return talk.reply("applying.long_ago", said=when.said)
        at = when.at
        if not when.has_time and when.at.date() != now.date():
            at = datetime.combine(when.at.date(), time(12), tzinfo=now.tzinfo)
    named = zones_said(zones, slots)
    if slots.rest and slots.read is not None:
        names = names_of(zones)
        return talk.reply("applying.unclear", said=slots.rest, names=names, yard=yard.name)
    target = slots.read.target if isinstance(slots.read, ApplicationSaid) else None
    meant = named or _still_to_do(talk, yard, zones)
    parts = parts_said(talk, yard, meant, slots)
    if isinstance(parts, Reply):
        return parts
    amount = slots.amount
    if amount is None and slots.packs is not None:
        weighed = packs_used.weighed(talk, yard, slots.packs)
        if isinstance(weighed, Reply):
            return weighed
        amount = weighed
    has_hour = when is None or when.has_time or when.at.date() == now.date()
    return Report(meant, at, amount, target, parts, has_hour=has_hour)


def _still_to_do(talk: Talk, yard: YardRecord, zones: list[ZoneRecord]) -> list[ZoneRecord]:
    treated = [zone for zone in zones if zone.is_treated]
    standing = talk.standing(yard)
    target, _ = belongs_to(standing, talk.today(yard))
    season = standing.season(target)
    if season is not None and season.state == State.APPLIED:
        return treated
    today = talk.today(yard)
    remaining = wanted_now(talk, yard, treated) or treated
    # What the grass or the label forbids got nothing.
    with_room = list(room(standing, remaining, today).zones)
    return with_room or fit(standing, remaining, today) or remaining


HANDLERS: Final = {"report_applied": on_report_applied}
