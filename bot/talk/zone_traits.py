"""Zones are not alike: grass, part in the round, water, slope, new seed, and what is left out."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import timedelta
from typing import Final, get_args

from bot.dialogue import topics, unkept
from bot.dialogue.named_here import names_of, zones_said
from bot.dialogue.talk import Talk
from bot.hearing.forms.grass_forms import FactsSaid
from bot.hearing.forms.wish_forms import GroundSaid, SlopeSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.grass_words import ZoneFact
from bot.hearing.readers.lexing import figures
from bot.saying.plants import say_grass
from bot.saying.shown_names import capital
from bot.saying.values import Area, Day, Names
from bot.telling import offers
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.turf import turf_species
from jobs.agronomy.units import from_si
from jobs.turf_limits import NONE_OF_THEM, UNKNOWN
from jobs.uses import grass as uses
from jobs.uses import keeping_wishes
from storage.yards import YardRecord, ZoneRecord

#: Grasses offered as buttons: the commonest of lawns; any other can be written.
_OFFERED: Final = (
    ("tall_fescue", "kentucky_bluegrass"),
    ("perennial_ryegrass", "fine_fescue"),
    ("bermudagrass", "zoysiagrass"),
    ("st_augustinegrass", "centipedegrass"),
)


#: Grasses of like names offered as buttons in one row.
_MOST_CANDIDATES: Final = 3


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer "grass": ask for the first zone nobody named, else list what is known."""
    zones = talk.standing(yard).zones
    if not zones:
        return [talk.reply("grass.none_measured")]
    missing = [zone for zone in zones if zone.grass is None]
    if missing:
        return [ask(talk, yard, missing[0])]
    lines = "\n".join(
        talk.say("grass.line", zone=zone.name, facts=Names(_facts(talk, zone))) for zone in zones
    )
    return [talk.reply("grass.known", yard=yard.name, lines=lines, zone=zones[0].name)]


def ask(talk: Talk, yard: YardRecord, zone: ZoneRecord) -> Reply:
    """Ask for the grass of one zone."""
    talk.expect(topics.GRASS, yard_id=yard.id, zone_ids=[zone.id], goes_on=True)
    start = f"grass:set:{yard.id}:{zone.id}"
    grasses = [[(capital(say_grass(key)), f"{start}:{key}") for key in line] for line in _OFFERED]
    last = [
        (talk.say("grass.button_unknown"), f"{start}:{UNKNOWN}"),
        (talk.say("grass.button_later"), f"grass:later:{yard.id}"),
    ]
    return talk.reply("grass.ask", rows(*grasses, last), zone=zone.name)


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject."""
    _, what, *rest = action.split(":")
    if what == "later":
        talk.settle()
        return [talk.reply("grass.later")]
    if what == "ask":
        return show(talk, yard)
    zones = talk.standing(yard).zones
    if what == "none":
        return _none_of_them(talk, yard, zones)
    key = rest[-1]
    chosen = [zone for zone in zones if str(zone.id) == rest[1]]
    if not chosen or (key != UNKNOWN and key not in turf_species()):
        return [talk.stale("help.hint_zones")]
    lines = [_set(talk, yard, chosen, uses.Change(grass=key), key)]
    return _with_next(talk, yard, lines)


def on_set_grass(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Keep what is said of zones or of the ground; ask what is open."""
    said, slots = heard.slots.read, heard.slots
    if isinstance(said, GroundSaid | SlopeSaid):
        return set_ground(talk, yard, said)
    zones = talk.standing(yard).zones
    if not zones and slots.grass is not None:
        unkept.hold_grass(talk, yard, slots.grass, ())
        return [talk.reply("grass.held_first", grass=say_grass(slots.grass))]
    if not zones:
        return [talk.reply("grass.none_measured")]
    if isinstance(said, FactsSaid):
        return _take_said(talk, yard, zones, said)
    if slots.grass is None:
        return show(talk, yard)
    asked: list[ZoneRecord] = []
    if talk.topic == topics.GRASS:
        asked = [zone for zone in zones if zone.id in talk.data.get("zone_ids", ())]
    named = zones_said(zones, slots) or asked or zones
    fact = ZoneFact(zones="", said=heard.said, grass=slots.grass)
    return _take_facts(talk, yard, [(fact, named)])


def _take_said(
    talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord], said: FactsSaid
) -> list[Reply]:
    pairs = []
    for fact, names in said.facts:
        named = [zone for zone in zones if zone.name in names]
        if not names and talk.topic == topics.GRASS:
            named = [zone for zone in zones if zone.id in talk.data.get("zone_ids", ())]
        if not named:
            words = names_of(zones)
            return [talk.reply("grass.which_zone", yard=yard.name, said=fact.zones, names=words)]
        pairs.append((fact, named))
    return _take_facts(talk, yard, pairs)


# --- inside ---------------------------------------------------------------------------------------


def _take_facts(
    talk: Talk, yard: YardRecord, pairs: Sequence[tuple[ZoneFact, Sequence[ZoneRecord]]]
) -> list[Reply]:
    lines = [_take_fact(talk, yard, fact, named) for fact, named in pairs]
    open_ones = [(fact, named) for fact, named in pairs if fact.grass_candidates]
    if not open_ones:
        return _with_next(talk, yard, lines)
    # The grass that was meant is awaited, for the zones it was said of.
    fact, named = open_ones[0]
    goes_on = talk.topic == topics.GRASS and bool(talk.data.get("goes_on"))
    ids = [zone.id for zone in named]
    talk.expect(topics.GRASS, yard_id=yard.id, zone_ids=ids, goes_on=goes_on)
    buttons: Buttons = ()
    if len(named) == 1:
        start = f"grass:set:{yard.id}:{named[0].id}"
        choices = fact.grass_candidates[:_MOST_CANDIDATES]
        buttons = rows([(capital(say_grass(key)), f"{start}:{key}") for key in choices])
    return [Reply("\n".join(lines), buttons)]


def _take_fact(talk: Talk, yard: YardRecord, fact: ZoneFact, named: Sequence[ZoneRecord]) -> str:
    names, first = names_of(named), named[0].name
    if fact.grass_candidates:
        known = " / ".join(say_grass(key) for key in fact.grass_candidates)
        return talk.say("grass.near", said=fact.said, names=known)
    if fact.grass is not None:
        return _set(talk, yard, named, uses.Change(grass=fact.grass), fact.grass)
    if fact.part is not None:
        part: uses.Part = "ask" if fact.part == "ask" else "never"
        _keep(talk, yard, named, uses.Change(part="every" if fact.part == "every" else part))
        return talk.say(f"grass.part_{fact.part}", zones=names)
    if fact.lock is not None:
        return _lock(talk, yard, fact, named)
    note = _note(fact.note or "")
    if fact.is_denied:
        _keep(talk, yard, named, uses.Change(drop_notes=frozenset({note})))
        return talk.say(f"grass.not_{note}", zones=names)
    if fact.buffer_m is not None:
        return _buffer(talk, yard, fact.buffer_m, named)
    _keep(talk, yard, named, uses.Change(add_notes=frozenset({note})))
    key = "grass.buffer_ask" if note == "water" else f"grass.{note}"
    return talk.say(key, zones=names, zone=first)


def _buffer(
    talk: Talk, yard: YardRecord, buffer_m: tuple[float, float], named: Sequence[ZoneRecord]
) -> str:
    unit = talk.length_unit
    strip = " x ".join(f"{figures(round(from_si(side, unit), 1))} {unit}" for side in buffer_m)
    try:
        changed = _keep(talk, yard, named, uses.Change(buffer_m=buffer_m))
    except uses.BufferTooLarge as large:
        area = Area(large.zone.area_m2)
        return talk.say("grass.buffer_large", strip=strip, zone=large.zone.name, area=area)
    return talk.say(
        "grass.buffer",
        zones=names_of(changed),
        strip=strip,
        left=Area(sum(zone.treated_m2 for zone in changed)),
        area=Area(sum(zone.area_m2 for zone in changed)),
    )


def _lock(talk: Talk, yard: YardRecord, fact: ZoneFact, named: Sequence[ZoneRecord]) -> str:
    params = {"zones": names_of(named), "zone": named[0].name}
    if fact.lock == "open":
        young = _too_young(talk, yard, named)
        if young is not None:
            return young
        _keep(talk, yard, named, uses.Change(unlock=True))
        return talk.say("grass.unlock", **params)
    now = talk.said_at(yard)
    when = find_when(fact.said, now)
    on = when.at.date() if isinstance(when, WhenRead) and not when.is_future else now.date()
    locks: dict[str | None, uses.Lock] = {"seed": "seed", "rest": "rest"}
    lock = locks.get(fact.lock, "sod")
    _keep(talk, yard, named, uses.Change(lock=lock, on=on))
    return talk.say(f"grass.lock_{lock}", **params)


def _too_young(talk: Talk, yard: YardRecord, named: Sequence[ZoneRecord]) -> str | None:
    """Return why a zone stays left out: the label's own least age of turf."""
    if yard.product_id is None:
        return None
    days = talk.standing(yard).chosen.turf_age_days
    laid = [zone.locked_on for zone in named if zone.locked_on is not None]
    if days is None or not laid:
        return None
    from_day = max(laid) + timedelta(days=days)
    today = talk.today(yard)
    if from_day <= today:
        return None
    day = Day(from_day, today)
    return talk.say("labels.too_young", zones=names_of(named), days=days, day=day)


def _set(
    talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord], change: uses.Change, key: str
) -> str:
    changed = _keep(talk, yard, zones, change)
    word = key if key == UNKNOWN else "grass"
    return talk.say(f"grass.{word}", zones=names_of(changed), grass=say_grass(key))


def _keep(
    talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord], change: uses.Change
) -> list[ZoneRecord]:
    return uses.change(talk.work, yard, zones, change, now=talk.now)


def _with_next(talk: Talk, yard: YardRecord, lines: list[str]) -> list[Reply]:
    """Say what was kept, and go on asking where grasses were being asked for."""
    was_asking = talk.topic == topics.GRASS and bool(talk.data.get("goes_on"))
    if talk.topic == topics.GRASS and not was_asking:
        talk.settle()
    text = "\n".join(lines)
    missing = [zone for zone in talk.standing(yard).zones if zone.grass is None]
    if was_asking and missing:
        question = ask(talk, yard, missing[0])
        return [Reply(f"{text}\n{question.text}", question.buttons)]
    if was_asking:
        talk.settle()
    undo = talk.undo(key="grass.button_undo")
    return offers.with_offer(talk, yard, "grass", [Reply(text, undo)])


def _none_of_them(talk: Talk, yard: YardRecord, zones: Sequence[ZoneRecord]) -> list[Reply]:
    unknown = [zone for zone in zones if zone.grass in (None, UNKNOWN)]
    if not unknown:
        return [talk.stale()]
    _keep(talk, yard, unknown, uses.Change(grass=NONE_OF_THEM))
    return [talk.reply("grass.other", zones=names_of(unknown))]


def _facts(talk: Talk, zone: ZoneRecord) -> list[str]:
    if zone.grass is None:
        facts = [talk.say("grass.not_named")]
    elif zone.grass in (UNKNOWN, NONE_OF_THEM):
        facts = [talk.say(f"grass.fact_{zone.grass}")]
    else:
        facts = [say_grass(zone.grass)]
    if zone.part != "every":
        facts.append(talk.say(f"grass.fact_{zone.part}"))
    if zone.buffer_m2:
        area = Area(zone.buffer_m2)
        facts.append(talk.say("grass.fact_buffer", area=area))
    facts += [talk.say(f"grass.fact_{note}") for note in zone.notes if note != "water"]
    if zone.locked_why is not None:
        facts.append(talk.say(f"grass.fact_{zone.locked_why}"))
    return facts


def _note(name: str) -> uses.Note:
    return next((note for note in get_args(uses.Note) if note == name), "water")


def set_ground(talk: Talk, yard: YardRecord, said: GroundSaid | SlopeSaid) -> list[Reply]:
    """Keep what the ground is, or whether it slopes."""
    if isinstance(said, SlopeSaid):
        keeping_wishes.change_yard(talk.work, yard, {"is_slope": said.is_slope})
        return [talk.reply("wishes.slope" if said.is_slope else "wishes.level", yard=yard.name)]
    keeping_wishes.change_yard(talk.work, yard, {"ground": said.ground})
    ground = talk.say(f"wishes.grounds.{said.ground}")
    return [talk.reply("wishes.ground", yard=yard.name, ground=ground)]


HANDLERS: Final = {"set_grass": on_set_grass}
