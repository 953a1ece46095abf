"""A product for some zones alone: they become a yard of their own, or all of the yard gets it."""

from __future__ import annotations

from dataclasses import replace

from bot.dialogue import topics
from bot.dialogue.talk import OWNER, Talk
from bot.hearing import drafts
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.heard import ActHeard
from bot.hearing.words import bare
from bot.saying.plants import say_ingredient
from bot.saying.values import Names
from bot.turn import Reply, rows
from jobs.uses import own_yards
from storage.yards import YardRecord, ZoneRecord


def beside(said: ProductSaid, heard: ActHeard) -> ProductSaid:
    """Return a product with the zones that were named beside it."""
    zones = () if heard.slots.all_zones else heard.slots.zones
    return replace(said, draft=replace(said.draft, zones=zones)) if zones else said


def named(talk: Talk, yard: YardRecord, said: ProductSaid) -> ProductSaid:
    """Return a product with the zones it is for, as its own words or the draft name them.

    There are none where it is for all of the yard.
    """
    left = {word for each in said.read.leftovers for word in bare(each).split()}
    zones = [zone.name for zone in talk.standing(yard).zones]
    beside_it = {bare(name) for name in said.draft.zones}
    meant = [each for each in zones if bare(each) in beside_it or set(bare(each).split()) <= left]
    is_all = len(meant) == len(zones)
    return replace(said, draft=replace(said.draft, zones=() if is_all else tuple(meant)))


def ask(talk: Talk, yard: YardRecord, said: ProductSaid) -> Reply:
    """Ask whether the zones become a yard, or all of the yard gets the product."""
    talk.expect(topics.PRODUCT, **drafts.kept(said, "apart").to_json())
    names, whole = Names(said.draft.zones), _whole(talk, yard)
    if talk.role(yard) != OWNER:
        return talk.reply("products.zone_of_others", rows([whole]), yard=yard.name, zones=names)
    name = own_yards.name_of(talk.work, yard, _zones(talk, yard, said.draft))
    apart = (talk.say("products.button_apart", name=name), f"product:apart:{yard.id}")
    ingredient = said.read.ingredients[0].name
    buttons = rows([apart], [whole])
    return talk.reply(
        "products.zone_only", buttons, ingredient=say_ingredient(ingredient), zones=names, name=name
    )


def set_apart(talk: Talk, yard: YardRecord, draft: Draft) -> tuple[YardRecord, str] | Reply:
    """Make the zones of a draft a yard; return it and what was done, else why it cannot be."""
    zones = _zones(talk, yard, draft)
    if draft.awaits != "apart" or not zones or talk.role(yard) != OWNER:
        return talk.stale("products.hint")
    names = Names(draft.zones)
    try:
        new = own_yards.set_apart(talk.work, yard, zones, person_id=talk.person.id, now=talk.now)
    except own_yards.Mingled:
        buttons = rows([_whole(talk, yard)])
        return talk.reply("products.mingled", buttons, zones=names, yard=yard.name)
    talk.yard_id = new.id
    return new, talk.say("products.apart", zones=names, name=new.name)


def _whole(talk: Talk, yard: YardRecord) -> tuple[str, str]:
    return talk.say("products.button_whole", yard=yard.name), f"product:whole:{yard.id}"


def _zones(talk: Talk, yard: YardRecord, draft: Draft) -> list[ZoneRecord]:
    return [zone for zone in talk.standing(yard).zones if zone.name in draft.zones]
