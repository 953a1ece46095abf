"""Turning to one of several yards: by its name or number, or from the list of all."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from datetime import date
from typing import Final

from bot.dialogue import place_first
from bot.dialogue.named_here import find_yard
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.hearing.words import bare
from bot.saying import shown_names
from bot.saying.values import Day, Names
from bot.telling import rounds_said, yard_overview
from bot.turn import Buttons, Reply, rows
from jobs.agronomy.whats_next import Next, Stage
from storage.yards import YardRecord

#: Yards listed at once, each with a button: with what stands around them a page.
MOST_LISTED: Final = 8


def on_turn_to_yard(talk: Talk, at: YardRecord, heard: ActHeard) -> list[Reply]:
    """Turn to the yard that was named; without a name show the one talked about."""
    name = heard.slots.yard or heard.slots.name
    if name is None:
        return yard_overview.overview(talk, at)
    mine = talk.yards()
    found = find_yard(mine, name)
    if len(found) > 1:
        return [talk.reply("yards.which_of", _buttons(talk, found))]
    if found:
        talk.turn_to(found[0].id)
        return yard_overview.choose(talk, found[0])
    names = Names([each.name for each in mine[:MOST_LISTED]])
    said = name if len(name) <= 40 else f"{name[:39]}…"
    return [talk.reply("yards.unknown", _buttons(talk, mine), said=said, names=names)]


def show(talk: Talk, page: int = 0, how: str = "") -> list[Reply]:
    """Answer "yards": all of them in pages, with where each lies and stands.

    By town where towns are known, or by what is most urgent (``due``).
    """
    mine, at = talk.yards(), talk.yard()
    if at is None:
        return place_first.need(talk)
    has_towns = len({each.town for each in mine}) > 1
    how = how or ("town" if has_towns and len(mine) > MOST_LISTED else "kept")
    ordered = _ordered(talk, mine, how)
    pages = -(-len(mine) // MOST_LISTED)
    page = min(max(0, page), pages - 1)
    shown = ordered[page * MOST_LISTED : (page + 1) * MOST_LISTED]
    lines = [_line(talk, each) for each in shown]
    if pages > 1:
        counted = Counter(yard_overview.state_words(talk, each) for each in mine).most_common()
        states = [talk.say("yards.all_state", count=n, state=state) for state, n in counted]
        lines.insert(0, talk.say("yards.all_states", states=Names(states)))
        lines.append(talk.say("yards.all_page", page=page + 1, pages=pages))
    turns = []
    if page > 0:
        turns.append((talk.say("yards.button_back"), f"yards:{page - 1}:{how}"))
    if page < pages - 1:
        turns.append((talk.say("yards.button_next"), f"yards:{page + 1}:{how}"))
    if len(mine) > 2:
        other = "due" if how != "due" else "town" if has_towns else "kept"
        turns.append((talk.say(f"yards.button_by_{other}"), f"yards:0:{other}"))
    text = talk.say(
        "yards.all",
        count=len(mine),
        yard=next((each.name for each in mine if each.id != at.id), at.name),
        at=at.name,
        lines="\n".join(lines),
    )
    return [Reply(text, (*_buttons(talk, shown), *rows(turns)))]


def on_list_yards(talk: Talk, _yard: YardRecord, heard: ActHeard) -> list[Reply]:
    """List all yards; "yards in Wahoo" turns to the page on which that town's begin."""
    said = bare(heard.said)
    ordered = _ordered(talk, talk.yards(), "town")
    towns = [bare((each.town or "").partition(",")[0]) for each in ordered]
    at = next((n for n, town in enumerate(towns) if town and f" {town}" in said), None)
    return show(talk) if at is None else show(talk, at // MOST_LISTED, "town")


def turn_page(talk: Talk, parts: Sequence[str]) -> list[Reply]:
    """Answer the buttons of the list: another page, another order."""
    page = int(parts[0]) if parts[0].isdigit() else 0
    how = parts[1] if len(parts) > 1 and parts[1] in ("town", "due", "kept") else ""
    return [replace(each, replaces=True) for each in show(talk, page, how)]


def _ordered(talk: Talk, mine: Sequence[YardRecord], how: str) -> list[YardRecord]:
    if how == "town":
        return sorted(mine, key=lambda each: (each.town is None, each.town or ""))
    if how == "due":
        return sorted(mine, key=lambda each: _urgency(rounds_said.next_of(talk, each)))
    return list(mine)


#: Stages by what is most pressing.
_PRESSING: Final = (Stage.LATE, Stage.OPEN, Stage.HALF_DUE, Stage.AHEAD)


def _urgency(upcoming: Next) -> tuple[int, date]:
    stage = upcoming.stage
    rank = _PRESSING.index(stage) if stage in _PRESSING else len(_PRESSING)
    return rank, upcoming.by or upcoming.opens_on or date.max


def _line(talk: Talk, yard: YardRecord) -> str:
    state = yard_overview.state_words(talk, yard)
    upcoming = rounds_said.next_of(talk, yard)
    if upcoming.by is not None and upcoming.stage in _PRESSING[:2]:
        by = Day(upcoming.by, talk.today(yard))
        state = talk.say("yards.all_by", state=state, by=by)
    if yard.town is None:
        return talk.say("yards.all_line", yard=yard.name, state=state)
    return talk.say("yards.all_line_town", yard=yard.name, town=yard.town, state=state)


def _buttons(talk: Talk, found: Sequence[YardRecord]) -> Buttons:
    labels = [
        (talk.say("yards.button_other", yard=shown_names.short(each.name)), f"yard:go:{each.id}")
        for each in found[:MOST_LISTED]
    ]
    return rows(*(labels[at : at + 2] for at in range(0, len(labels), 2)))


HANDLERS: Final = {"turn_to_yard": on_turn_to_yard, "list_yards": on_list_yards}
