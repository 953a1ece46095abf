"""A person's own photos, and what was read on one of a label: confirmed figure by figure.

A dose is never taken from a photo: each figure is shown and confirmed, then goes the way of typed
words, and a rate is not among them.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing import drafts
from bot.hearing.draft import Draft, ProductSaid
from bot.hearing.readers.label_photo import SeenFigure
from bot.saying.printed_amounts import Measure
from bot.saying.values import Day, LabelRate
from bot.turn import Reply
from jobs.local_days import local
from jobs.uses import sketch_photos as uses
from storage import photos
from storage.yards import YardRecord

#: What a figure answers, as if it had been asked for.
_AWAITS: Final = {
    "ingredient": "ingredient",
    "strength": "strength",
    "weight": "rate",
    "covers": "rate",
    "maximum": "maximum",
}


def keep_photo(talk: Talk, path: str) -> list[Reply]:
    """Keep a photo with the yard talked about; while a label is asked for it is the label's."""
    yard = talk.yard()
    if yard is None:
        return [talk.reply("help.photo")]
    is_of_label = talk.topic == topics.PRODUCT
    uses.keep_photo(
        talk.work, yard, path, person_id=talk.person.id, now=talk.now, is_of_label=is_of_label
    )
    undo = talk.undo()
    if not is_of_label:
        return [talk.reply("sketching.photo_kept", undo, yard=yard.name)]
    if talk.turn.seen:
        return [_ask(talk, Draft.from_json(talk.data), talk.turn.seen, is_first=True)]
    key = "of_label" if talk.turn.seen is None else "unsure"
    return [talk.reply(f"sketching.photo_{key}", undo, yard=yard.name)]


def is_asking(talk: Talk) -> bool:
    """Tell whether a figure that was read on a photo is being asked about."""
    return talk.topic == topics.PRODUCT and bool(talk.data.get("seen"))


def answered(talk: Talk, draft: Draft, *, is_so: bool) -> ProductSaid | list[Reply]:
    """Take a confirmed figure, or leave it out; ask for the next, else return what was said."""
    if not is_asking(talk):
        return [talk.stale("products.hint")]
    figure, *left = [SeenFigure(*each) for each in talk.data["seen"]]
    if is_so:
        said = drafts.continued(replace(draft, awaits=_AWAITS[figure.kind]), figure.said)
        draft = drafts.kept(said, "sure")
    elif figure.kind == "ingredient":
        # The percentage is of that ingredient.
        left = [each for each in left if each.kind != "strength"]
    if left:
        return [_ask(talk, draft, left)]
    return drafts.reread(replace(draft, awaits=""))


def show(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show the photo of the label of the product used here."""
    found = None if yard.product_id is None else photos.of_product(talk.work, yard.product_id)
    if found is None:
        return [talk.stale("products.hint")]
    return [shown_photo(talk, yard, found, talk.say("sketching.label"))]


def _ask(talk: Talk, draft: Draft, seen: Sequence[SeenFigure], *, is_first: bool = False) -> Reply:
    kept = [[each.kind, each.value, each.unit] for each in seen]
    talk.expect(topics.PRODUCT, **replace(draft, awaits="sure").to_json(), seen=kept)
    buttons = talk.row(
        ("sketching.button_seen", "product:seen:0"), ("sketching.button_unseen", "product:unseen:0")
    )
    amount, _, period = seen[0].unit.partition(" per ")
    said: object = amount
    if period:
        said = LabelRate(seen[0].value, f"{amount}/1000 sq ft")
    elif seen[0].kind != "ingredient":
        said = Measure(seen[0].value, amount)
    key = f"sketching.seen_ask_{'first' if is_first else 'next'}"
    return talk.reply(key, buttons, kind=seen[0].kind, said=said, period=period)


def show_photo(talk: Talk, yard: YardRecord) -> list[Reply]:
    """Show the newest photo kept with a yard."""
    found = photos.newest(talk.work, yard.id)
    if found is None:
        return [talk.reply("sketching.photo_none", yard=yard.name)]
    return [shown_photo(talk, yard, found, yard.name)]


def shown_photo(talk: Talk, yard: YardRecord, photo: photos.PhotoRecord, of: str) -> Reply:
    """Return a kept photo of a yard or a label, where its file is still there."""
    day = Day(local(photo.added_at, yard.timezone).date(), talk.today(yard))
    if not Path(photo.path).is_file():
        return talk.reply("sketching.photo_gone", day=day)
    return Reply(talk.say("sketching.photo", yard=of, day=day), picture=photo.path)
