"""Zones: measured in words, shown back, fixed and taken out."""

from __future__ import annotations

import math
import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

from rapidfuzz import fuzz

from bot.dialogue import sizes_waiting, topics, unkept
from bot.dialogue.named_here import free_zone_name, total_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.grass_forms import apart_from_sizes
from bot.hearing.forms.ground_forms import MergeSaid, RenameSaid, SideSaid, SplitSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.grass_words import ZoneFact
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.sizes import Doubt, Item, ZoneRead, ZonesRead, read_zones
from bot.hearing.readers.zone_names import is_whole_lot
from bot.saying.catalogue import shown
from bot.saying.examples import size_in_words
from bot.saying.plants import say_grass
from bot.saying.values import Area, Names
from bot.talk import reshaping
from bot.telling.parts_said import no_such
from bot.telling.products_said import ask_for_bag
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.shape_store import from_json, to_json
from storage.yards import NewZone, YardRecord

#: The question whether a bare number is an area.
_LONE: Final = "reading.lone_area"
#: The question whether a name is that of a zone that is there.
_NEAR: Final = "reading.near_name"
#: Names this alike [per cent] differ by a slip: "frnt" and "front".
_ONE_SLIP: Final = 88


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """List what is kept, or ask for the first sizes."""
    kept = talk.standing(yard).zones
    talk.expect(topics.ZONES)
    if not kept:
        return [talk.reply("zones.none", rows([_walk_button(talk, yard)]))]
    lines = "\n".join(sizes_waiting.line_of(talk, zone) for zone in kept)
    return [
        talk.reply(
            "zones.list",
            rows(
                [(talk.say("zones.button_fix"), f"zones:fix:{yard.id}"), _walk_button(talk, yard)]
            ),
            yard=yard.name,
            total=total_of(kept),
            lines=lines,
            name=kept[0].name,
        )
    ]


def on_measure(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep every zone that could be read, and ask about the rest."""
    read = heard.slots.read
    if heard.slots.unread is not None:
        talk.expect(topics.ZONES)
        return [Reply(heard.slots.unread.sentence())]
    if isinstance(read, RenameSaid | SplitSaid | MergeSaid):
        if heard.slots.strangers:
            return [no_such(talk, yard, heard.slots.strangers)]
        # Of a zone that waits, that it is kept goes before.
        kept = unkept.keep(talk)
        return unkept.said_first(kept, reshaping.reshape(talk, yard, read))
    if isinstance(read, SideSaid):
        return _with_side(talk, yard, read)
    if not isinstance(read, ZonesRead):
        return show(talk, yard)
    if heard.slots.of == "another":
        # "Next one is my neighbor's, front 30x40": no size of this yard is changed by it.
        return [talk.reply("zones.another_yard", yard=yard.name)]
    sizes, grasses = apart_from_sizes(_off_its_ground(talk, yard, read))
    first, *others = take(talk, yard, sizes)
    names = [zone.name for zone in sizes.zones if zone.name is not None]
    if not grasses and heard.slots.grass and names:
        grasses = [(ZoneFact("", "", grass=heard.slots.grass), tuple(names))]
    for fact, of in grasses:
        if fact.grass_candidates == (heard.slots.grass,):
            # Words around it, or a slip, and one grass it can be.
            fact = replace(fact, grass=heard.slots.grass)
        first = _beside_grass(talk, yard, first, fact, of)
    return [first, *others]


def _with_side(talk: Talk, yard: YardRecord, said: SideSaid) -> list[Reply]:
    """Take a zone's size with one side put right; ask for all of it where it has no such side."""
    echo = _sizes(talk, yard).get(said.zone, "")
    old = re.compile(rf"(?<![\d.,]){re.escape(said.old)}(?= (?:ft|m|yd|in|cm|paces)\b)")
    read = read_zones(old.sub(said.new, echo), talk.length_unit)
    if len(old.findall(echo)) == 1 and read.zones and not read.questions:
        return take(talk, yard, ZonesRead((replace(read.zones[0], name=said.zone),)))
    talk.expect(topics.ZONES)
    return [talk.reply("zones.ask_fix", example=f"{said.zone} {echo}", name=said.zone)]


def _sizes(talk: Talk, yard: YardRecord) -> dict[str, str]:
    """Return the sizes of a yard's zones in our writing, by name, with those that wait."""
    kept = {each.name: each.echo for each in talk.standing(yard).zones}
    return kept | {each.name: each.echo for each in sizes_waiting.waiting(talk, yard)}


def _off_its_ground(talk: Talk, yard: YardRecord, read: ZonesRead) -> ZonesRead:
    """Return sizes with what stands on one taken off it: "the back has a 10 by 14 shed".

    Where it was not said what it stands on, it is the one size that waits.
    """
    waiting = [each.name for each in sizes_waiting.waiting(talk, yard)]
    only = waiting[0] if len(waiting) == 1 and not read.zones else ""
    there = _sizes(talk, yard)
    there |= {each.name: each.echo for each in read.zones if each.name}
    less: dict[str, ZoneRead] = {}
    left: list[Item] = []
    for item in read.items:
        on = ""
        if isinstance(item, Doubt) and item.reason == _HARD:
            on = item.on if item.on in there else only
            if item.zone.is_again:
                # "The patio's actually 16x20": what was taken off for it is measured anew.
                had = [name for name, echo in there.items() if f" minus {item.zone.name} " in echo]
                on = had[0] if len(had) == 1 else on
                there[on] = _whole(there.get(on, ""), item.zone.name or "")
        zone = _without(item, there.get(on, ""), talk.length_unit)
        if zone is None:
            left.append(item)
        else:
            there[on], less[on] = zone.echo, replace(zone, name=on)
    kept = (each for each in left if not (isinstance(each, ZoneRead) and each.name in less))
    return ZonesRead((*kept, *less.values()))


def _whole(echo: str, thing: str) -> str:
    """Return a size without what was taken off it for a thing."""
    first, *off = echo.split(" minus ")
    return " minus ".join([first, *(each for each in off if not each.startswith(f"{thing} "))])


def _without(item: Item, echo: str, unit: str) -> ZoneRead | None:
    """Return a size less a thing; None where it has no size in our writing, or is smaller."""
    if not echo or not isinstance(item, Doubt):
        return None
    less = read_zones(f"{echo} minus {item.zone.name} {item.zone.echo}", unit)
    return less.zones[0] if len(less.zones) == 1 and not less.questions else None


#: Why a house or a driveway is no zone.
_HARD: Final = "reading.hard_surface"


def _beside_grass(
    talk: Talk, yard: YardRecord, reply: Reply, fact: ZoneFact, names: Sequence[str]
) -> Reply:
    """Keep the grass named beside sizes with those that wait; ask where several have the name."""
    if fact.grass is None:
        kinds = Names([say_grass(key) for key in fact.grass_candidates], "or")
        line = talk.say("grass.which_kind", said=fact.said, names=kinds)
    else:
        unkept.hold_grass(talk, yard, fact.grass, names)
        line = talk.say("grass.held", names=Names(names), grass=say_grass(fact.grass))
    return replace(reply, text=f"{reply.text}\n{line}")


def take(talk: Talk, yard: YardRecord, read: ZonesRead) -> list[Reply]:
    """Take what was read of sizes, to be kept with [Keep] or by going on; ask about the rest."""
    before = sizes_waiting.areas(talk, yard)
    apart, questions = _apart(read)
    new: list[NewZone] = []
    for zone in apart:
        near = _near(list(before), zone)
        if near is not None:
            questions.append(near)
            continue
        again = [each.name for each in sizes_waiting.waiting(talk, yard)] or list(before)
        if zone.name is None and zone.is_again and len(apart) == 1 and again:
            # "It's more like 7,500 sq ft": what was measured last, or all there is, once more.
            if len(again) > 1:
                example = f"{again[-1]} {zone.echo}"
                questions.append(Unread(zone.said, "reading.which_again", example))
                continue
            zone = replace(zone, name=again[0])
        name = zone.name or free_zone_name(talk, yard, [*before, *(e.name for e in new)])
        new.append(NewZone(name, zone.said, zone.echo, to_json(zone.shape), zone.area_m2))
    replies: list[Reply] = []
    if new:
        replies += unkept.add(talk, yard, new)
        notes = [note.sentence() for zone in apart for note in zone.notes]
        replies.append(_taken(talk, yard, new, before, notes))
        talk.expect(topics.ZONES)
        if talk.turn.is_group:
            # Everybody there works with them from now on.
            replies += unkept.keep(talk)
    if questions:
        more = f"\n{talk.say('zones.unread_more')}" if new else ""
        buttons: Buttons = ()
        doubts = [each for each in questions if isinstance(each, Doubt)]
        is_one_yes = len(doubts) == 1 or all(each.reason == _LONE for each in doubts)
        if len(doubts) == len(questions) and is_one_yes:
            buttons = _expect_doubts(talk, yard, doubts)
        else:
            _expect_rest(talk, yard, [q for q in questions if isinstance(q, Unread)])
        lines = dict.fromkeys(question.sentence() for question in questions)
        replies.append(Reply("\n".join(lines) + more, buttons))
    if not replies:
        talk.expect(topics.ZONES)
        replies.append(talk.reply("zones.none"))
    return replies


def _apart(read: ZonesRead) -> tuple[list[ZoneRead], list[Unread | Doubt]]:
    """Return the zones with a name of their own, and what to ask, with two of one name among it."""
    sizes: dict[str, dict[str, ZoneRead]] = {}
    for zone in read.zones:
        sizes.setdefault((zone.name or zone.said).casefold(), {})[zone.echo] = zone
    kept = [next(iter(each.values())) for each in sizes.values() if len(each) == 1]
    questions: list[Unread | Doubt] = list(read.questions)
    for each in sizes.values():
        first, *more = each.values()
        if more:
            facts = (("name", first.name or ""), ("sizes", "; ".join(each)))
            example = f"{first.name} {first.echo}, {first.name} two {more[0].echo}"
            questions.append(Unread(first.said, "reading.same_name", example, facts))
    return kept, questions


def _near(names: Sequence[str], zone: ZoneRead) -> Doubt | None:
    """Return the question whether a new name means a zone that is there: "strip" for "side strip".

    A word of just one zone's name, or a slip in it.
    """
    said = (zone.name or "").casefold()
    if not said or said in map(str.casefold, names):
        return None
    words = set(re.findall(r"\w+", said))
    found = [name for name in names if words < set(re.findall(r"\w+", name.casefold()))]
    found = found or [name for name in names if fuzz.ratio(said, name.casefold()) >= _ONE_SLIP]
    if len(found) != 1:
        return None
    meant = replace(zone, name=found[0])
    facts = (("name", zone.name or ""), ("near", found[0]))
    return Doubt(zone.said, _NEAR, meant, f"{found[0]} {zone.echo}", facts)


def keep(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Keep]: the sizes are right; say what comes next."""
    talk.settle()
    # Of sizes that were cancelled nothing is kept, whatever button is still there. In a group they
    # are kept as they are said.
    is_new = sizes_waiting.are_there(talk) or talk.turn.is_group
    asked = unkept.keep(talk, is_said=False)
    total = total_of(talk.standing(yard).zones)
    if yard.product_id is not None:
        amounts = talk.row(("yards.button_amounts", f"amounts:{yard.id}"))
        key = "zones.kept_all_product" if is_new else "zones.kept_nothing_new"
        return [talk.reply(key, amounts, yard=yard.name, total=total), *asked]
    first, *more = ask_for_bag(talk, yard)
    key = "zones.kept_all" if is_new else "zones.kept_nothing_new"
    said = talk.say(key, yard=yard.name, total=total)
    return [replace(first, text=f"{said}\n{first.text}"), *more, *asked]


def fix(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Fix]: ask for the zone again."""
    names = list(sizes_waiting.areas(talk, yard))
    if not names:
        return show(talk, yard)
    talk.expect(topics.ZONES)
    unit = talk.length_unit
    example = f"{names[-1]} {'18x12' if talk.is_metric else '60x40'} {unit}"
    return [talk.reply("zones.ask_fix", example=example, name=names[-1])]


def settle_doubt(talk: Talk, yard: YardRecord, is_right: bool) -> list[Reply]:
    """Answer the question about a doubtful size, from its buttons."""
    if talk.topic != topics.ZONE_DOUBT:
        return [talk.stale("help.hint_zones")]
    data = talk.data
    talk.expect(topics.ZONES)
    if not is_right and data.get("own"):
        data = {**data, "name": data["own"]}
    elif not is_right:
        return [talk.reply("zones.doubt_dropped", said=data["said"], example=data["example"])]
    taken = list(sizes_waiting.areas(talk, yard))
    new: list[NewZone] = []
    for each in data["zones"]:
        name = data.get("name") or each["name"]
        name = name or free_zone_name(talk, yard, [*taken, *(zone.name for zone in new)])
        area_m2 = from_json(each["shape"]).area_m2
        new.append(NewZone(name, each["said"], each["echo"], each["shape"], area_m2))
    others = unkept.add(talk, yard, new)
    return [
        *others,
        talk.reply(
            "zones.doubt_kept",
            sizes_waiting.keep_or_fix(talk, yard),
            line="\n".join(sizes_waiting.line_of(talk, each) for each in new),
            yard=yard.name,
            total=shown(Area(math.fsum(sizes_waiting.areas(talk, yard).values()))),
        ),
    ]


def _taken(
    talk: Talk, yard: YardRecord, new: list[NewZone], before: Mapping[str, float], notes: list[str]
) -> Reply:
    known = {name.casefold(): area_m2 for name, area_m2 in before.items()}
    lines = [sizes_waiting.line_of(talk, each, known.get(each.name.casefold())) for each in new]
    lines += dict.fromkeys(notes)
    hint = talk.say("zones.hint_right")
    after = sizes_waiting.areas(talk, yard)
    whole = [name for name in after if is_whole_lot(name)]
    if whole and len(after) > len(whole):
        lines.append(talk.say("zones.within", whole=whole[0]))
    if set(after) - {each.name for each in new}:
        names = Names(list(after))
        hint = f"{talk.say('zones.hint_others', yard=yard.name, names=names)}\n{hint}"
    return talk.reply(
        "zones.kept",
        sizes_waiting.keep_or_fix(talk, yard),
        lines="\n".join(lines),
        yard=yard.name,
        total=shown(Area(math.fsum(after.values()))),
        hint=hint,
    )


def _walk_button(talk: Talk, yard: YardRecord) -> tuple[str, str]:
    return talk.say("walking.button_walk"), f"walk:begin:{yard.id}"


def _expect_rest(talk: Talk, yard: YardRecord, questions: list[Unread]) -> None:
    """Await what was asked about; sizes in paces wait for the length of a pace."""
    paced = [question.said for question in questions if question.reason == "reading.pace_unknown"]
    if paced:
        talk.expect(topics.PACE, yard_id=yard.id, text=", ".join(paced))
    else:
        talk.expect(topics.ZONES)


def _expect_doubts(talk: Talk, yard: YardRecord, doubts: Sequence[Doubt]) -> Buttons:
    """Await one yes for doubtful sizes."""
    first = doubts[0]
    own = dict(first.facts)["name"] if first.reason == _NEAR else None
    zones = [
        {
            "name": each.zone.name,
            "said": each.said,
            "echo": size_in_words(each.zone.echo),
            "shape": to_json(each.zone.shape),
        }
        for each in doubts
    ]
    said, example = first.said, first.example
    talk.expect(topics.ZONE_DOUBT, zones=zones, said=said, example=example, own=own)
    yes = talk.say("zones.button_yes_all")
    if len(doubts) == 1:
        yes = talk.say("zones.button_yes_zone", area=shown(Area(first.zone.area_m2)))
    no = talk.say("zones.button_no_zone" if own is None else "zones.button_another_zone")
    return rows([(yes, f"zones:sure:{yard.id}"), (no, f"zones:drop:{yard.id}")])


HANDLERS: Final = {"measure": on_measure, "show_zones": lambda talk, yard, _heard: show(talk, yard)}
