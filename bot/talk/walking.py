"""Walking: a zone's corners shared one after another, and the length of a pace."""

from __future__ import annotations

import math
from typing import Any, Final

from bot.dialogue import sizes_waiting, topics, unkept
from bot.dialogue.named_here import free_zone_name
from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.forms.sketch_forms import CornerSaid, PaceSaid
from bot.hearing.hear import hear_as
from bot.hearing.heard import ActHeard
from bot.hearing.readers.lexing import figures
from bot.saying.values import Area
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.shapes import ImpossibleShape
from jobs.agronomy.units import from_si
from jobs.agronomy.walked import PHONE_M, TAPE_BELOW_M2, Place
from jobs.uses import corners as uses
from storage.yards import YardRecord

#: Corners nearer together than this are one [m].
_SAME_SPOT_M: Final = 0.5


def begin(talk: Talk, yard: YardRecord, name: str) -> list[Reply]:
    """Begin walking a zone."""
    if not name:
        return [talk.reply("walking.begin_unnamed")]
    talk.expect(topics.WALKING, yard_id=yard.id, zone=name, places=[])
    return [Reply(talk.say("walking.begin", zone=name), _buttons(talk, yard, 0), asks_place=True)]


def place(talk: Talk, lat: float, lon: float) -> list[Reply] | None:
    """Take a corner; None where nobody is walking."""
    if talk.topic != topics.WALKING:
        return None
    yard = talk.yard_by_id(talk.data["yard_id"])
    if yard is None:
        return None
    data = talk.data
    places = _places(data)
    try:
        step = uses.step_m(yard, places, (lat, lon))
    except uses.TooFar as far:
        km, miles = f"{far.metres / 1000:.1f} km", f"{far.metres / 1609.344:.1f} miles"
        distance = km if talk.is_metric else miles
        return [talk.reply("walking.too_far", distance=distance, yard=yard.name)]
    if step is not None and step < _SAME_SPOT_M:
        return [Reply(talk.say("walking.same"), _buttons(talk, yard, len(places)), asks_place=True)]
    places.append((lat, lon))
    talk.expect(topics.WALKING, **{**data, "places": [list(each) for each in places]})
    if step is None:
        text = talk.say("walking.first", zone=data["zone"])
    else:
        text = talk.say("walking.next", count=len(places), step=_length(talk, step))
    return [Reply(text, _buttons(talk, yard, len(places)), asks_place=True)]


def on_walk_corners(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Begin a walk, end it, let go of its last corner, or take the length of a pace."""
    said, slots = heard.slots.read, heard.slots
    if slots.unread is not None:
        return [Reply(slots.unread.sentence())]
    if isinstance(said, PaceSaid):
        return _pace(talk, yard, said.pace_m)
    if isinstance(said, CornerSaid) and talk.topic == topics.WALKING:
        return _done(talk, yard) if said.is_last else _drop(talk, yard)
    if slots.name is not None:
        return begin(talk, yard, slots.name)
    name = slots.zones[0] if slots.zones else free_zone_name(talk, yard)
    return begin(talk, yard, name)


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject."""
    what = action.split(":")[1]
    if what == "begin":
        return begin(talk, yard, free_zone_name(talk, yard))
    if talk.topic != topics.WALKING or talk.data.get("yard_id") != yard.id:
        return [talk.stale("help.hint_zones")]
    if what == "drop":
        return _drop(talk, yard)
    if what == "stop":
        zone = talk.data["zone"]
        talk.settle()
        return [talk.reply("walking.stopped", zone=zone)]
    return _done(talk, yard)


def _done(talk: Talk, yard: YardRecord) -> list[Reply]:
    data = talk.data
    places = _places(data)
    if len(places) < 3:
        text = talk.say("walking.too_few", count=len(places))
        return [Reply(text, _buttons(talk, yard, len(places)), asks_place=True)]
    echo = talk.say("walking.echo", count=len(places))
    try:
        walked = uses.close(yard, data["zone"], places, f"walked {data['zone']}", echo)
    except ImpossibleShape as impossible:
        return [_impossible(talk, yard, data["zone"], impossible, len(places))]
    before = {name.casefold(): m2 for name, m2 in sizes_waiting.areas(talk, yard).items()}
    others = unkept.add(talk, yard, [walked.zone])
    talk.expect(topics.ZONES)
    line = sizes_waiting.line_of(talk, walked.zone, before.get(walked.zone.name.casefold()))
    limit = Area(TAPE_BELOW_M2)
    tape = talk.say("walking.tape", limit=limit, zone=walked.zone.name)
    return [
        *others,
        talk.reply(
            "walking.kept",
            sizes_waiting.keep_or_fix(talk, yard),
            line=line,
            error=Area(walked.error_m2),
            percent=f"{walked.error_m2 / walked.zone.area_m2 * 100:.0f}",
            phone=_length(talk, PHONE_M),
            tape=tape if walked.is_tape_better else "",
            yard=yard.name,
            total=Area(math.fsum(sizes_waiting.areas(talk, yard).values())),
        ),
    ]


def _impossible(
    talk: Talk, yard: YardRecord, zone: str, impossible: ImpossibleShape, count: int
) -> Reply:
    names = {"side", "other_side"}
    facts = {name: f"{value:.0f}" for name, value in impossible.numbers.items() if name in names}
    facts |= {"example": f"walk {zone}", "said": zone}
    text = talk.say(f"reading.shape_{impossible.reason}", **facts)
    return Reply(text, _buttons(talk, yard, count), asks_place=True)


def _drop(talk: Talk, yard: YardRecord) -> list[Reply]:
    places = _places(talk.data)[:-1]
    talk.expect(topics.WALKING, **{**talk.data, "places": [list(each) for each in places]})
    key = "walking.dropped" if places else "walking.none_left"
    text = talk.say(key, count=len(places))
    return [Reply(text, _buttons(talk, yard, len(places)), asks_place=True)]


def _pace(talk: Talk, yard: YardRecord, pace_m: float) -> list[Reply]:
    is_awaited = talk.topic == topics.PACE
    waiting = talk.data.get("text", "") if is_awaited else ""
    talk.person = uses.set_pace(talk.work, yard, talk.person, pace_m)
    unit = "cm" if talk.is_metric else "in"
    said = talk.say("walking.pace", pace=f"{figures(round(from_si(pace_m, unit), 1))} {unit}")
    if not waiting:
        return [Reply(said)]
    talk.settle()
    again = hear_as("measure", waiting, scene_of(talk))
    return [Reply(said), *talk.answer("measure", yard, again)]


def _places(data: dict[str, Any]) -> list[Place]:
    return [(float(lat), float(lon)) for lat, lon in data["places"]]


def _buttons(talk: Talk, yard: YardRecord, count: int) -> Buttons:
    line = [(talk.say("walking.button_stop"), f"walk:stop:{yard.id}")]
    if count:
        line.insert(0, (talk.say("walking.button_drop"), f"walk:drop:{yard.id}"))
    if count >= 3:
        line.insert(0, (talk.say("walking.button_done"), f"walk:done:{yard.id}"))
    return rows(line)


def _length(talk: Talk, metres: float) -> str:
    unit = talk.length_unit
    return f"{figures(round(from_si(metres, unit), 1 if metres < 10 else 0))} {unit}"


HANDLERS: Final = {"walk_corners": on_walk_corners}
