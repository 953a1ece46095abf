"""The sketch of a yard, and the person's own photo of one on paper."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from bot.hearing.forms.sketch_forms import PhotoAsked
from bot.hearing.heard import ActHeard
from bot.pictures.render import PictureSpec
from bot.pictures.sketch_words import sketch
from bot.saying.values import Day
from bot.talk import rounds_said, topics
from bot.talk.amounts_said import weighed
from bot.talk.talk import Talk
from bot.turn import Reply, rows
from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.label_doubts import FactsMissing
from jobs.agronomy.ledger import UseUnknown
from jobs.agronomy.whats_next import Stage
from jobs.local_days import local
from jobs.uses import how_much as amount_uses
from jobs.uses import sketch_photos as uses
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


def tap(talk: Talk, yard: YardRecord, action: str) -> list[Reply]:
    """Answer the buttons of this subject."""
    return show_photo(talk, yard) if action.split(":")[1] == "photo" else show(talk, yard)


def keep_photo(talk: Talk, path: str) -> list[Reply]:
    """Keep a photo with the yard being talked about."""
    yard = talk.yard()
    if yard is None:
        return [talk.reply("help.photo")]
    entry = uses.keep_photo(talk.work, yard, path, person_id=talk.person.id, now=talk.now)
    undo = rows([(talk.say("applying.button_undo"), f"undo:{entry}")])
    # While a label is asked for, it is the label's: what it says is typed all the same.
    key = "photo_of_label" if talk.topic == topics.PRODUCT else "photo_kept"
    return [talk.reply(f"sketching.{key}", undo, yard=yard.name)]


def show_photo(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show the newest photo kept with a yard."""
    found = photos.newest(talk.work, yard.id)
    if found is None:
        return [talk.reply("sketching.photo_none", yard=yard.name)]
    day = Day(local(found.added_at, yard.timezone).date(), talk.today(yard))
    if not Path(found.path).is_file():
        return [talk.reply("sketching.photo_gone", day=day)]
    return [Reply(talk.say("sketching.photo", yard=yard.name, day=day), picture=found.path)]


def _amounts(talk: Talk, yard: YardRecord) -> tuple[dict[int, str], set[int]]:
    """Return each zone's amount of the next round, or why it gets none; and which had it."""
    try:
        found = amount_uses.for_yard(talk.work, yard, talk.today(yard))
    except (
        amount_uses.NothingMeasured,
        amount_uses.NoProduct,
        amount_uses.AllLeftOut,
        FactsMissing,
        LabelLimitExceeded,
        UseUnknown,
    ):
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
    return amounts, down


HANDLERS: Final = {"show_sketch": on_show_sketch}
