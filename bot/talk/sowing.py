"""Seed: may it go in, when, and who goes first where a round is planned."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Any, Final

from bot.dialogue import topics
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.seed_forms import MownSaid, SeedSaid
from bot.hearing.heard import ActHeard
from bot.saying.plants import say_grass, say_ingredient
from bot.saying.values import Day, Names
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.seeding import SeedingWait
from jobs.agronomy.turf import turf_species
from jobs.uses import seed_plans as uses
from storage.yards import YardRecord, ZoneRecord


def on_ask_seed(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer whether seed may go in, and when; a plan with a button that keeps it."""
    wish = _wish(talk, yard, heard)
    return [wish] if isinstance(wish, Reply) else _answer(talk, yard, wish)


def on_report_seeded(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep that seed is down, or that it was mown."""
    if heard.slots.work == "mow" or isinstance(heard.slots.read, MownSaid):
        return _take_mown(talk, yard, heard)
    wish = _wish(talk, yard, heard)
    if isinstance(wish, Reply):
        return [wish]
    if wish.on is not None and (talk.today(yard) - wish.on).days >= _GROWN_IN_DAYS:
        # "They seeded bermuda five years ago" tells the grass, and no seed that waits.
        slots = replace(heard.slots, on=None)
        is_grass = slots.grass is not None
        told = talk.answer("set_grass", yard, ActHeard("set_grass", slots)) if is_grass else []
        return told or [talk.reply("seeding.long_ago", on=Day(wish.on, talk.today(yard)))]
    return _take_sown(talk, yard, wish)


#: Seed of a year ago has long been mown as often as any label asks.
_GROWN_IN_DAYS: Final = 365


def tapped(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons under an answer about seed."""
    what = action.split(":")[1]
    if talk.topic != topics.SEEDING or talk.data.get("yard_id") != yard.id:
        return [talk.stale()]
    if what == "plan":
        return _plan(talk, yard, _wish_kept(talk, yard))
    return _decide(talk, yard, is_seed_first=what == "first")


def _answer(talk: Talk, yard: YardRecord, wish: uses.Wish) -> list[Reply]:
    found = uses.ask(talk.work, yard, wish, talk.now)
    lines = []
    for zones, each in _alike(talk, yard, wish, found):
        lines += _answer_lines(talk, yard, wish, each, zones)
    if wish.method == "slit":
        lines.append(talk.say("seeding.slit"))
    # Where nothing known stops seed there is nothing to except.
    is_waited = any(each.answer.waits and each.unknown_on is None for each in found)
    if is_waited and {each.species for each in found} == {None}:
        lines.append(talk.say("seeding.no_species"))
    lines += _collision_lines(talk, yard, found, "collides_known")
    buttons: Buttons = ()
    if wish.on is not None and all(each.allows for each in found):
        talk.expect(topics.SEEDING, yard_id=yard.id, **_kept(wish))
        label = talk.say("seeding.button_plan", on=Day(wish.on, talk.today(yard)))
        buttons = rows([(label, f"seed:plan:{yard.id}")])
    return [Reply("\n".join(dict.fromkeys(lines)), buttons)]


def _alike(
    talk: Talk, yard: YardRecord, wish: uses.Wish, found: Sequence[uses.ZoneAnswer]
) -> list[tuple[Names, uses.ZoneAnswer]]:
    """Return zones that are told the same together, by their first."""
    together: dict[object, list[uses.ZoneAnswer]] = {}
    for each in found:
        told = _answer_lines(talk, yard, wish, each, Names([each.zone]))
        same = tuple(line.replace(each.zone, "") for line in told)
        together.setdefault(same, []).append(each)
    return [(Names([each.zone for each in of]), of[0]) for of in together.values()]


def _answer_lines(
    talk: Talk, yard: YardRecord, wish: uses.Wish, each: uses.ZoneAnswer, zones: Names
) -> list[str]:
    today = talk.today(yard)
    on = Day(wish.on or today, today)
    waits = each.answer.waits
    if each.unknown_on is not None:
        day = Day(each.unknown_on, today)
        return [talk.say("seeding.unknown", zone=zones, day=day)]
    if not waits or each.answer.earliest is None:
        return [talk.say("seeding.yes_free", zone=zones, on=on)]
    earliest = Day(max(each.answer.earliest, today), today)
    key = "when" if wish.on is None else ("yes" if each.allows else "no")
    params: dict[str, object] = {"zone": each.zone, "on": on, "earliest": earliest}
    lines = [talk.say(f"seeding.{key}", **(params | {"zone": zones}))]
    deciding = waits[0]
    params |= {
        "days": deciding.days,
        "ingredient": say_ingredient(deciding.treated.ingredient),
        "treated": Day(deciding.treated.day, today),
    }
    lines.append(talk.say(f"seeding.reason_{deciding.basis}", **params))
    if deciding.basis == "default" and deciding.treated.form == "granule":
        lines.append(talk.say("seeding.reason_default_form"))
    return [*lines, *_trials(talk, waits)]


def _trials(talk: Talk, waits: Sequence[SeedingWait]) -> list[str]:
    """Name published trials that saw harm for longer than we wait; shorter ones are not named."""
    lines = []
    for wait in waits:
        if not wait.is_shorter_than_a_trial:
            continue
        longest = max(wait.trials, key=lambda trial: trial.weeks)
        lines.append(
            talk.say("seeding.trial", species=say_grass(longest.species), weeks=longest.weeks)
        )
    return lines


def _collision_lines(
    talk: Talk, yard: YardRecord, found: Sequence[uses.ZoneAnswer], key: str
) -> list[str]:
    by_round: dict[uses.Collision, list[str]] = {}
    for each in found:
        for clash in each.collisions:
            by_round.setdefault(clash, []).append(each.zone)
    return [
        talk.say(
            f"seeding.{key}",
            round=talk.say(f"seeding.round_{clash.target}"),
            day=Day(clash.planned_on, talk.today(yard)),
            zones=Names(zones),
        )
        for clash, zones in by_round.items()
    ]


def _plan(talk: Talk, yard: YardRecord, wish: uses.Wish) -> list[Reply]:
    found = uses.ask(talk.work, yard, wish, talk.now)
    ids = uses.plan(talk.work, yard, wish, person_id=talk.person.id, now=talk.now)
    assert wish.on is not None
    on = Day(wish.on, talk.today(yard))
    lines = [talk.say("seeding.planned", zones=names_of(wish.zones), on=on)]
    for key in dict.fromkeys(each.species for each in found):
        allowed = uses.at_seeding(key)
        if allowed:
            lines.append(talk.say("seeding.at_seeding", names=Names(allowed)))
    clashes = _collision_lines(talk, yard, found, "collides")
    if not clashes:
        talk.settle()
        return [Reply("\n".join(lines), talk.undo())]
    names = {each.zone for each in found if each.collisions}
    kept = [i for i, zone in zip(ids, wish.zones, strict=True) if zone.name in names]
    talk.expect(topics.SEEDING, yard_id=yard.id, ids=kept, names=sorted(names))
    choice = talk.row(
        ("seeding.button_seed_first", f"seed:first:{yard.id}"),
        ("seeding.button_round_first", f"seed:round:{yard.id}"),
    )
    return [Reply("\n".join([*lines, *clashes]), choice + talk.undo())]


def _decide(talk: Talk, yard: YardRecord, *, is_seed_first: bool) -> list[Reply]:
    ids, names = talk.data.get("ids", []), talk.data.get("names", [])
    talk.settle()
    try:
        uses.decide(talk.work, yard, ids, is_seed_first=is_seed_first, now=talk.now)
    except uses.NoSuchSeeding:
        return [talk.reply("seeding.gone")]
    key = "seeding.seed_first" if is_seed_first else "seeding.round_first"
    return [talk.reply(key, talk.undo(), zones=Names(names))]


def _take_sown(talk: Talk, yard: YardRecord, wish: uses.Wish) -> list[Reply]:
    today = talk.today(yard)
    if wish.on is not None and wish.on > today:
        said = Day(wish.on, today)
        return [talk.reply("seeding.future_sown", said=said, zone=wish.zones[0].name)]
    wish = replace(wish, on=wish.on or talk.said_at(yard).date())
    uses.sown(talk.work, yard, wish, person_id=talk.person.id, now=talk.now)
    return [
        talk.reply(
            "seeding.sown",
            talk.undo(),
            zones=names_of(wish.zones),
            zone=wish.zones[0].name,
            on=Day(wish.on or today, today),
        )
    ]


def _take_mown(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    zones = talk.standing(yard).zones
    on, today = talk.said_at(yard).date(), talk.today(yard)
    if heard.slots.on is not None:
        on = heard.slots.on.at.date()
    named = zones_said(zones, heard.slots)
    if on > today:
        said = Day(on, today)
        return [talk.reply("seeding.future_mown", said=said, zone=(named or zones)[0].name)]
    done = uses.mown(talk.work, yard, named or zones, on=on, now=talk.now)
    if not done:
        return [talk.reply("seeding.mown_none", yard=yard.name)]
    lines = [
        talk.say(
            _mown_key(each, on),
            zone=each.zone,
            count=each.mowings,
            wanted=each.wanted,
            on=Day(on, today),
            seeded=Day(each.seed_on, today),
        )
        for each in done
    ]
    return [Reply("\n".join(lines), talk.undo() if any(e.is_counted for e in done) else ())]


def _mown_key(each: uses.Mown, on: date) -> str:
    if each.is_counted:
        return "seeding.mown_ready" if each.is_grown_in else "seeding.mown"
    return "seeding.mown_early" if on <= each.seed_on else "seeding.mown_before"


def _wish(talk: Talk, yard: YardRecord, heard: ActHeard) -> uses.Wish | Reply:
    slots, said = heard.slots, heard.slots.read
    zones = talk.standing(yard).zones
    if slots.unread is not None:
        return Reply(slots.unread.sentence())
    is_short = isinstance(said, SeedSaid)
    if not zones:
        return talk.answer("show_zones", yard)[0]
    if is_short and slots.rest:
        names = names_of(zones)
        return talk.reply("seeding.unclear", yard=yard.name, names=names, zone=zones[0].name)
    on = None if slots.on is None else slots.on.at.date()
    return uses.Wish(
        zones_said(zones, slots) or zones,
        slots.grass if slots.grass in turf_species() else None,
        said.method if is_short else "broadcast",
        on,
        said.label_days if is_short else None,
        heard.said,
    )


def _kept(wish: uses.Wish) -> dict[str, Any]:
    return {
        "zones": [zone.id for zone in wish.zones],
        "species": wish.species,
        "method": wish.method,
        "on": None if wish.on is None else wish.on.isoformat(),
        "label_days": wish.label_days,
        "said": wish.said,
    }


def _wish_kept(talk: Talk, yard: YardRecord) -> uses.Wish:
    data = talk.data
    zones: list[ZoneRecord] = [
        zone for zone in talk.standing(yard).zones if zone.id in data["zones"]
    ]
    on = date.fromisoformat(data["on"])
    return uses.Wish(zones, data["species"], data["method"], on, data["label_days"], data["said"])


HANDLERS: Final = {
    "ask_seed": on_ask_seed,
    "plan_seed": on_ask_seed,
    "report_seeded": on_report_seeded,
}
