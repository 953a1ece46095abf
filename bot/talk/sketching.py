"""The sketch of a yard, and the person's own photo of one on paper."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.sketch_forms import PhotoAsked
from bot.hearing.heard import ActHeard
from bot.pictures.render import PictureSpec
from bot.pictures.sketch_words import sketch
from bot.talk.label_photos import show_photo
from bot.telling import rounds_said
from bot.telling.amounts_said import weighed
from bot.turn import Reply, rows
from jobs.agronomy.whats_next import Stage
from jobs.uses import how_much as amount_uses
from storage import photos
from storage.yards import YardRecord


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Answer /sketch: the yard drawn, with the same in words."""
    zones = talk.standing(yard).zones
    if not zones:
        return [talk.reply("sketching.none")]
    amounts, down = _amounts(talk, yard)
    if rounds_said.next_of(talk, yard).stage is Stage.DOWN:
        down = {zone.id for zone in zones if zone.is_treated}
    drawn = sketch(yard.name, zones, amounts=amounts, done=down)
    spec = PictureSpec.of(drawn)
    buttons = []
    if photos.newest(talk.work, yard.id) is not None:
        buttons.append((talk.say("sketching.button_photo"), f"sketch:photo:{yard.id}"))
    return [Reply(spec.text, rows(buttons), drawing=spec)]


def on_show_sketch(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Show the sketch, or the person's own photo of it."""
    is_photo = isinstance(heard.slots.read, PhotoAsked)
    return show_photo(talk, yard) if is_photo else show(talk, yard)


def _amounts(talk: Talk, yard: YardRecord) -> tuple[dict[int, str], set[int]]:
    """Return each zone's amount of the next round, or why it gets none; and which had it."""
    try:
        found = amount_uses.for_yard(talk.work, yard, talk.today(yard))
    except amount_uses.NO_AMOUNTS:
        return {}, set()
    by_name = {item.zone.name: item for item in found.plan.zones}
    amounts: dict[int, str] = {}
    for zone in found.zones:
        amounts[zone.id] = weighed(talk, found, by_name[zone.name])
    for zone in talk.standing(yard).zones:
        if zone.name in (*found.down, *found.late):
            key = "down" if zone.name in found.down else "late"
            amounts[zone.id] = talk.say(f"sketching.{key}")
    down = {zone.id for zone in talk.standing(yard).zones if zone.name in found.down}
    if found.is_finished:
        down |= {zone.id for zone in found.zones}
        amounts |= dict.fromkeys(down, talk.say("sketching.down"))
    return amounts, down


HANDLERS: Final = {"show_sketch": on_show_sketch}
