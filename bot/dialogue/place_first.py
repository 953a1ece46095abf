"""The place comes first: asked for before anything else, with what was said meanwhile kept."""

from __future__ import annotations

from typing import Final

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.turn import Reply, rows
from jobs.sources.gazetteer import STATES
from storage.yards import YardRecord

#: What is kept of what is said before there is a yard, and how much of it.
KEPT_MEANWHILE: Final = ("measure", "enter_product", "set_grass")
_MOST_MEANWHILE: Final = 6
#: What happened on some day is said again: "yesterday" is another day by then.
_TOLD_AGAIN: Final = frozenset({"report_applied", "report_watered", "report_rain", "report_gap"})


def need(talk: Talk, heard: ActHeard | None = None) -> list[Reply]:
    """Answer what cannot be done before there is a yard; sizes and labels are kept until then."""
    meanwhile = said_meanwhile(talk)
    is_kept = heard is not None and heard.act in KEPT_MEANWHILE
    if heard is not None and is_kept:
        meanwhile = [*meanwhile, [heard.act, heard.said]][-_MOST_MEANWHILE:]
    act = "" if heard is None else heard.act
    if act == "remove_yard":
        talk.expect(topics.PLACE, meanwhile=meanwhile)
        return [talk.reply("yards.none_to_remove")]
    if talk.topic == topics.WHICH_TOWN:
        # Which of several towns is still open: it is asked again, not the place anew.
        talk.expect(topics.WHICH_TOWN, **{**talk.data, "meanwhile": meanwhile})
        return [which_town(talk)]
    talk.expect(topics.PLACE, meanwhile=meanwhile)
    key = "yards.need_yard_first" if is_kept else "yards.need_yard"
    lines = [talk.say(key)]
    if act in _TOLD_AGAIN:
        lines.append(talk.say("yards.tell_again"))
    return [Reply("\n".join(lines), asks_place=True)]


def which_town(talk: Talk) -> Reply:
    """Ask which of several towns of one name is meant."""
    labels = [str(label) for label, *_ in talk.data["places"]]
    buttons = [(label, f"yard:at:{number}") for number, label in enumerate(labels)]
    codes = set(STATES.values())
    inside = [label.split(" (")[0].rpartition(", ")[2] in codes for label in labels]
    return talk.reply(
        "yards.which_town",
        rows(*[buttons[at : at + 2] for at in range(0, len(buttons), 2)]),
        town=labels[0].partition(",")[0],
        is_abroad="no" if all(inside) else "yes",
    )


def said_meanwhile(talk: Talk) -> list[list[str]]:
    """Return what was said before there was a yard and could not be used yet: acts and texts."""
    is_waiting = talk.topic in (topics.PLACE, topics.WHICH_TOWN)
    kept = talk.data.get("meanwhile") if is_waiting else None
    return list(kept) if isinstance(kept, list) else []


def with_place(talk: Talk, yard: YardRecord | None, replies: list[Reply]) -> list[Reply]:
    """Ask for the place behind an answer where there is no lawn yet."""
    if yard is not None:
        return replies
    if talk.topic not in (topics.PLACE, topics.WHICH_TOWN):
        talk.expect(topics.PLACE, meanwhile=said_meanwhile(talk))
    text = "\n".join([*(reply.text for reply in replies), talk.say("beforehand.where")])
    return [Reply(text, asks_place=True)]
