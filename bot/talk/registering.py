"""Yards: registering, showing, moving and settling what is settled about them."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from bot.dialogue import named_here, topics
from bot.dialogue.place_first import need, said_meanwhile, which_town
from bot.dialogue.talk import Talk
from bot.hearing.forms.yard_forms import WhereSaid
from bot.hearing.heard import ActHeard
from bot.hearing.readers.yard_lists import TemplateAsked, YardListSaid
from bot.saying.shown_names import short
from bot.talk import many_yards
from bot.telling import crew_told
from bot.telling.products_said import ask_for_bag
from bot.turn import Reply, rows
from jobs.local_days import is_abroad
from jobs.sources.gazetteer import LEAD_IN, find_places, nearest_place, state_alone
from jobs.sources.world_cities import places_anywhere, those_in
from jobs.uses import adding_many as many_uses
from jobs.uses import yard_settings as uses
from jobs.uses.bounds import check_name
from storage import chats, pins, yards
from storage.yards import YardRecord

#: Buttons offered for towns of one name; more states than that are asked for in words.
_MOST_TOWNS: Final = 26

#: A place that may be meant: its label, latitude and longitude.
_PlaceOffered = tuple[str, float, float]

#: So many yards of a chat have a pinned message each; of more, the route and the list say it.
_MOST_PINNED: Final = 5


def on_give_place(talk: Talk, _yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Take a place: coordinates, a town or a postal code. Ambiguous towns are asked."""
    if heard.slots.unread is not None:
        talk.expect(topics.PLACE, meanwhile=said_meanwhile(talk))
        problem = heard.slots.unread.sentence()
        return [talk.reply("yards.unreadable_place", problem=problem)]
    where = heard.slots.read
    called = heard.slots.name or _called(talk)
    if isinstance(where, WhereSaid | str):
        words = where if isinstance(where, str) else where.words
        # A text that is a place whole is that one: a town's name may hold another's.
        named = _place_named(talk, heard.said if find_places(heard.said) else words, called)
        if named is not None:
            return named
        state = state_alone(words)
        if state is not None:
            talk.expect(topics.PLACE, meanwhile=said_meanwhile(talk), name=called)
            return [Reply(talk.say("yards.which_in_state", state=state), asks_place=True)]
    elif where is not None:
        lat, lon = where
        return place(talk, lat, lon, called=called)
    topic = topics.NEW_YARD if talk.topic == topics.NEW_YARD else topics.PLACE
    talk.expect(topic, meanwhile=said_meanwhile(talk), name=called)
    return [Reply(talk.say("yards.place_unknown"), asks_place=True)]


def on_add_yard(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Take one more yard, or a list of them; where its place is not said, ask for it."""
    match heard.slots.read:
        case TemplateAsked():
            return many_yards.template(talk)
        case YardListSaid(grid, is_one):
            return many_yards.add_line(talk, grid) if is_one else many_yards.show(talk, grid)
    if heard.slots.read is None and heard.slots.unread is None:
        talk.expect(topics.NEW_YARD)
        return [Reply(talk.say("yards.need_place_of_new"), asks_place=True)]
    talk.expect(topics.NEW_YARD, name=_called(talk))
    replies = on_give_place(talk, yard, heard)
    return [*replies, *([] if talk.yard() == yard else crew_told.whose(talk))]


#: Questions about a place, with which a name for it waits.
_OF_PLACES: Final = frozenset({topics.PLACE, topics.NEW_YARD, topics.WHICH_TOWN, topics.MOVE})


def _called(talk: Talk) -> str | None:
    """Return what the place that is asked for is to be called, where that was said."""
    return talk.data.get("name") if talk.topic in _OF_PLACES else None


def place(
    talk: Talk, lat: float, lon: float, town: str | None = None, called: str | None = None
) -> list[Reply]:
    """Take a place: the first one registers a yard, a later one is asked about."""
    yard, called = talk.yard(), called or _called(talk)
    if yard is None or talk.topic == topics.NEW_YARD:
        return _register(talk, lat, lon, town, called)
    if town is not None and town == yard.town:
        return [talk.reply("yards.there_already", yard=yard.name, town=town)]
    talk.expect(topics.MOVE, lat=lat, lon=lon, town=town, name=called)
    buttons = rows(
        [
            (talk.say("yards.button_new"), "yard:new"),
            (talk.say("yards.button_move", yard=short(yard.name)), f"yard:move:{yard.id}"),
        ]
    )
    return [talk.reply("yards.where_now", buttons, yard=yard.name, town=town or "no")]


def _place_named(talk: Talk, text: str, called: str | None) -> list[Reply] | None:
    """Take a town, city or postal code; None where the text names none."""
    # "Near Grand Island, out in the country": behind the town more may be said.
    head = text.partition(",")[0] if LEAD_IN.match(text.strip()) else ""
    named = places_anywhere(text, talk.chat.language) or (
        places_anywhere(head, talk.chat.language) if head else ()
    )
    found = _narrowed(talk, text) or [(each.label, each.lat, each.lon) for each in named]
    if not found:
        return None
    if len(found) == 1:
        if talk.topic == topics.WHICH_TOWN and talk.data.get("is_new"):
            talk.expect(topics.NEW_YARD)
        town, lat, lon = found[0]
        return place(talk, lat, lon, town, called)
    meanwhile, is_new = said_meanwhile(talk), talk.topic == topics.NEW_YARD
    shown = found[:_MOST_TOWNS]
    facts = {"is_new": is_new, "places": shown, "name": called}
    talk.expect(topics.WHICH_TOWN, meanwhile=meanwhile, **facts)
    return [which_town(talk)]


def _narrowed(talk: Talk, text: str) -> list[_PlaceOffered]:
    """Return the towns asked between that lie where a text names: "ks", "mexico"."""
    if talk.topic != topics.WHICH_TOWN:
        return []
    offered = [(str(label), lat, lon) for label, lat, lon in talk.data.get("places", ())]
    return [offered[at] for at in those_in([each[0] for each in offered], text)]


def place_chosen(talk: Talk, number: int) -> list[Reply]:
    """Answer the button of one of several towns of a name."""
    places = talk.data.get("places", ()) if talk.topic == topics.WHICH_TOWN else ()
    if number >= len(places):
        return need(talk)
    town, lat, lon = places[number]
    if talk.data.get("is_new"):
        talk.expect(topics.NEW_YARD, name=_called(talk))
    return place(talk, lat, lon, town)


def new(talk: Talk) -> list[Reply]:
    """Answer [New yard]."""
    if talk.topic != topics.MOVE:
        return need(talk)
    data = talk.data
    return _register(talk, data["lat"], data["lon"], data.get("town"), _called(talk))


def move(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Move ...]."""
    if talk.topic != topics.MOVE:
        return need(talk)
    lat, lon, town = talk.data["lat"], talk.data["lon"], talk.data.get("town")
    talk.settle()
    moved = uses.move(talk.work, yard, lat, lon, person_id=talk.person.id, now=talk.now, town=town)
    key = "yards.moved" if moved.town else "yards.moved_at"
    return [Reply(talk.say(key, **_whereabouts(moved)))]


def ask_name(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Ask for another name."""
    talk.expect(topics.NAME, yard_id=yard.id)
    return [talk.reply("yards.ask_name", yard=yard.name)]


def on_name_yard(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Give the yard the name that was said; ask for it where none was."""
    name = " ".join((heard.slots.name or "").split())
    if not name:
        return ask_name(talk, yard)
    check_name(name)
    if talk.topic == topics.NAME:
        talk.settle()
    renamed = uses.rename(talk.work, yard, name)
    return [talk.reply("yards.renamed", yard=renamed.name)]


def later(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer [Size later]: the next question is the product, unless there is one."""
    if yard.product_id is not None:
        talk.settle()
        return [talk.reply("yards.size_later")]
    first, *more = ask_for_bag(talk, yard)
    return [replace(first, text=f"{talk.say('yards.size_later')}\n{first.text}"), *more]


def _register(
    talk: Talk, lat: float, lon: float, town: str | None, called: str | None
) -> list[Reply]:
    own = yards.of_chat(talk.work, talk.chat.id)
    number = len(talk.yards()) + 1
    name = called or ""
    if not name or named_here.named_like(talk.yards(), name):
        name = talk.say("yards.default_name", number=number)
    command = uses.Register(talk.chat.id, talk.person.id, lat, lon, name, town)
    yard = uses.register(talk.work, command, talk.now)
    if len(own) > 1:
        # What was said of all of them before is not asked again.
        yard = many_uses.take_over(talk.work, yard, many_uses.common_of(talk.work, own))
    if talk.around.has_pins and number <= _MOST_PINNED:
        pins.want(talk.work, yard.id, talk.now)
    talk.turn_to(yard.id)
    talk.expect("zones")
    buttons = talk.rows(
        [
            ("walking.button_walk", f"walk:begin:{yard.id}"),
            ("yards.button_size_later", f"yard:later:{yard.id}"),
        ],
        [
            ("yards.button_rename", f"yard:name:{yard.id}"),
            ("yards.button_zone", f"yard:tz:{yard.id}"),
        ],
    )
    is_new_to_metres = not talk.is_metric and is_abroad(yard.timezone)
    if is_new_to_metres and number == 1:
        # Feet and pounds are of one country: abroad nobody has to ask for their own units.
        talk.use_units("metric")
        chats.tell_in(talk.work, talk.chat.id, units="metric")
    near = None if yard.town else nearest_place(lat, lon)
    key = "registered" if yard.town else "registered_at" if near is None else "registered_near"
    whereabouts = _whereabouts(yard)
    if near is not None:
        whereabouts["town"] = near.label
    text = talk.say(f"yards.{key}", **whereabouts)
    if is_new_to_metres:
        text += f"\n{talk.say('yards.units_metric' if number == 1 else 'yards.units_hint')}"
    if talk.around.is_invented:
        text += f"\n{talk.say('help.invented')}"
    return [Reply(text, buttons, looks_at=yard.id)]


def _whereabouts(yard: YardRecord) -> dict[str, str]:
    return {
        "yard": yard.name,
        "town": yard.town or "",
        "lat": f"{yard.lat:.2f}",
        "lon": f"{yard.lon:.2f}",
        "zone": yard.timezone,
    }


HANDLERS: Final = {"give_place": on_give_place, "add_yard": on_add_yard, "name_yard": on_name_yard}
