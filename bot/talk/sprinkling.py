"""Watering in: minutes and cycles, what rain is forecast, and the two worried questions."""

from __future__ import annotations

from datetime import timedelta
from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.forms.water_forms import WorrySaid
from bot.hearing.heard import ActHeard
from bot.saying.values import Day, Depth
from bot.telling.water_due import missing_words
from bot.turn import Reply
from jobs.local_days import local
from jobs.uses import water_so_far as uses
from storage.yards import YardRecord

#: A spell without rain so long after an application is what somebody worries about who names none.
_DRY_DAYS: Final = 10


def on_ask_washed_out(talk: Talk, yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """Answer ``two inches fell overnight, redo it?`` and ``three dry weeks, is it wasted?``."""
    said = heard.slots.read
    if isinstance(said, WorrySaid) and said.is_dry:
        return [_dry(talk, yard)]
    depth_m = heard.slots.depth_m
    return [_heavy(talk, yard, None if depth_m is None else depth_m * 1000)]


def _heavy(talk: Talk, yard: YardRecord, said_mm: float | None) -> Reply:
    found = uses.after_rain(talk.work, yard, talk.around.source, said_mm, talk.now)
    if found is None:
        return talk.reply("watering.nothing_down", yard=yard.name)
    if said_mm is None and found.after.rain_mm < 1.0:
        is_long = found.state.by - talk.now < timedelta(days=-_DRY_DAYS)
        return _dry(talk, yard) if is_long else talk.reply("watering.heavy_how_much")
    key = {
        "keep": "watering.heavy_keep",
        "keep_watered_in": "watering.heavy_watered_in",
        "look_for_washed_spots": "watering.heavy_look",
    }[found.after.answer]
    lines = [
        talk.say(
            key,
            yard=yard.name,
            rain=Depth(found.after.rain_mm / 1000),
            limit=Depth(found.after.limit_mm / 1000),
        )
    ]
    if not found.after.was_watered_in and found.after.rain_mm >= found.state.missing_mm > 0:
        # What somebody asks about is kept only when they tell it.
        rain = Depth(found.after.rain_mm / 1000)
        lines.append(talk.say("watering.heavy_counts", rain=rain))
    return Reply(
        "\n".join(lines),
        talk.row(("yards.button_amounts", f"amounts:{yard.id}")),
        data={"after_rain": found.to_json()},
    )


def _dry(talk: Talk, yard: YardRecord) -> Reply:
    found = uses.after_drought(talk.work, yard, talk.around.source, talk.now)
    if found is None:
        return talk.reply("watering.nothing_down", yard=yard.name)
    spell = found.spell
    had = found.state.rain_mm + found.state.irrigated_mm
    here = local(found.state.by, yard.timezone).date()
    missing = Depth(spell.missing_mm / 1000)
    lines = [
        talk.say(
            f"watering.dry_{spell.answer}",
            yard=yard.name,
            days=round(spell.days_dry),
            missing=missing,
            had=Depth(had / 1000),
            by=Day(here, talk.today(yard)),
        )
    ]
    if spell.answer != "watered_in":
        minutes = missing_words(talk, yard, spell.missing_mm)
        if minutes:
            lines.append(minutes)
        if spell.share_left is not None:
            share = round(100 * spell.share_left)
            lines.append(talk.say("watering.dry_share", share=share))
    return Reply("\n".join(lines), data={"dry_spell": found.to_json()})


HANDLERS: Final = {"ask_washed_out": on_ask_washed_out}
