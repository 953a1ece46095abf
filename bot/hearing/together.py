"""Acts heard in one message, each beside the others: what one makes of another."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Final

from bot.hearing import policy, words
from bot.hearing.acts import ACTS
from bot.hearing.bags import bags_used
from bot.hearing.concepts import concepts_of
from bot.hearing.heard import ActHeard, Scene
from bot.hearing.phrases import phrases
from bot.hearing.readers.zone_names import but_of
from bot.hearing.words import bare


def together(heard: Sequence[ActHeard], scene: Scene) -> list[ActHeard]:
    """Return the acts of a message without what only says another of them again."""
    done = _with_yes_and_no(
        _with_theirs(_with_figure_behind(_with_all_but_a_part(_slips(heard)))), scene
    )
    done = _with_bags(_with_its_place([_undone(each, done) for each in _with_grass(done)]))
    again = policy.of_one_matter([each.act for each in done])
    return [
        each
        for each in done
        if each.act not in again
        and not _is_figure_asked_about(each, done, scene)
        and not _is_what_is_asked_on(each, done)
        and not _is_wish_beside_question(each, done)
        and not _is_what_was_used(each, done)
        and not _is_of_a_new_place(each, done, scene)
    ]


def _slips(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts without an undo that only opens what it puts right.

    "Scratch that, didn't do the side" takes that zone back; "scratch that, did the back too"
    nothing.
    """
    if not any(each.act == "undo" for each in done):
        return list(done)
    undone = [each for each in done if each.act == "report_not_done" and each.slots.zones]
    too = phrases("sentences", "too")
    added = [each for each in done if each.act == "report_applied" and too.first(each.said)]
    if not undone and not added:
        return list(done)
    return [
        replace(each, slots=replace(each.slots, of="undo")) if each in undone else each
        for each in done
        if each.act != "undo"
    ]


def _with_all_but_a_part(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts, all but a part of no zone as all of it and the part: "all but a corner"."""
    told: list[ActHeard] = []
    for each in done:
        slots = each.slots
        is_but = each.act == "report_gap" and slots.all_zones and not slots.parts
        if is_but and slots.read is None and but_of(each.said) is not None:
            told.append(replace(each, act="report_applied", slots=replace(slots, part=None)))
            each = replace(each, slots=replace(slots, zones=(), all_zones=False, on=None))
        told.append(each)
    return told


def _with_figure_behind(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts, a figure behind a report as the report's: "did the side too, oh, 3 lb".

    It names no place, and puts right nothing that is on record.
    """
    told: list[ActHeard] = []
    for each in done:
        before, new = told[-1] if told else None, each.slots
        is_figure = each.act == "change_record" and not new.zones and new.amount is not None
        if before is None or before.act != "report_applied" or not is_figure:
            told.append(each)
        elif before.slots.amount is None and before.slots.packs is None:
            told[-1] = replace(before, slots=replace(before.slots, amount=new.amount))
        else:
            told.append(each)
    return told


def _with_theirs(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts with what others went on to do as theirs: "my guy came and did the front"."""
    told: list[ActHeard] = []
    for each in done:
        before = told[-1] if told else None
        is_own = words.phrases("whose", "own", "words").search(bare(each.said)) is not None
        is_theirs = before is not None and before.act == "report_service" and not is_own
        if before is None or not is_theirs or each.act != "report_applied":
            told.append(each)
            continue
        added = {
            name: getattr(each.slots, name)
            for name in ("zones", "all_zones", "strangers", "on", "amount", "parts", "unread")
            if not getattr(before.slots, name)
        }
        told[-1] = replace(before, slots=replace(before.slots, **added))
    return told


def _with_yes_and_no(done: Sequence[ActHeard], scene: Scene) -> list[ActHeard]:
    """Return the acts with a yes or no beside others as what it says: "back yes, front no".

    Of zones, while they wait, it is a report; else it is said in passing.
    """
    if len(done) < 2:
        return list(done)
    is_waited_for = scene.moment in ("open", "due")
    told: list[ActHeard] = []
    for each in done:
        act = _REPORTED.get(each.act, each.act)
        if act == each.act:
            told.append(each)
        elif is_waited_for and each.slots.zones:
            told.append(replace(each, act=act))
    return told


_REPORTED: Final = {"confirm": "report_applied", "deny": "report_not_done"}


def _is_figure_asked_about(each: ActHeard, done: Sequence[ActHeard], scene: Scene) -> bool:
    """Tell whether figures belong to a question beside them: "how much for that bit, it's 5x8"."""
    is_beside = any(not ACTS[other.act].changes for other in done)
    is_kept = not scene.zones or any(name in scene.zones for name in each.slots.zones)
    is_own = is_kept if each.act == "measure" else each.slots.product is not None
    is_own = is_own or scene.asked == each.act
    return is_beside and each.act in ("measure", "enter_product") and not is_own


def _undone(each: ActHeard, done: Sequence[ActHeard]) -> ActHeard:
    """Return an act, a reminder beside a report as what is not done: "front is in, rest later".

    What had no water alone is no work that is not done: it is told how it stands with the water.
    """
    is_dry = phrases("sentences", "no_water").first(bare(each.said)) is not None
    if each.act == "report_not_done" and is_dry and len(done) == 1:
        return replace(each, act="ask_water")
    is_beside = any(other.act == "report_applied" for other in done)
    says_so = words.phrases("commands", "remind", "words").search(bare(each.said))
    if each.act != "snooze" or not is_beside or says_so is not None:
        return each
    return replace(each, act="report_not_done")


def _is_what_is_asked_on(each: ActHeard, done: Sequence[ActHeard]) -> bool:
    """Tell whether a question stands on it: "have not watered yet, how long do I have"."""
    acts = {other.act for other in done}
    is_asked = any(act.startswith("ask_") for act in acts) and not _DONE & acts
    says_so = words.phrases("commands", "yet", "words").search(bare(each.said)) is not None
    return each.act == "report_not_done" and is_asked and says_so


_DONE: Final = frozenset({"report_applied", "report_gap", "report_service"})


def _with_its_place(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts, one more yard with the place said beside it: "another one, in Salina"."""
    where = next((each.slots for each in done if each.act == "give_place"), None)
    if where is None or where.read is None:
        return list(done)
    return [
        replace(
            each, slots=replace(each.slots, read=where.read, name=each.slots.name or where.name)
        )
        if each.act == "add_yard"
        else each
        for each in done
    ]


def _with_grass(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts, sizes with the grass said beside them: "40 by 100, mostly buffalograss"."""
    grass = [each for each in done if each.act == "set_grass" and each.slots.grass is not None]
    sizes = [each for each in done if each.act == "measure"]
    named = [name for each in grass for name in each.slots.zones]
    if len(grass) != 1 or len(sizes) != 1 or named or grass[0].slots.read is not None:
        return list(done)
    measured = replace(sizes[0], slots=replace(sizes[0].slots, grass=grass[0].slots.grass))
    return [measured if each is sizes[0] else each for each in done if each is not grass[0]]


def _is_of_a_new_place(each: ActHeard, done: Sequence[ActHeard], scene: Scene) -> bool:
    """Tell whether sizes are another yard's: "the next one is in Salina, about half an acre"."""
    is_beside = any(other.act in ("give_place", "add_yard") for other in done)
    return each.act == "measure" and is_beside and bool(scene.yards)


def _with_bags(done: Sequence[ActHeard]) -> list[ActHeard]:
    """Return the acts with the bags told beside a report as what it took: "all down, two bags"."""
    used = next((each for each in done if _is_what_was_used(each, done)), None)
    bags = None if used is None else bags_used(bare(used.said))
    return [
        replace(each, slots=replace(each.slots, packs=bags))
        if each.act == "report_applied" and bags is not None and each.slots.amount is None
        else each
        for each in done
    ]


def _is_wish_beside_question(each: ActHeard, done: Sequence[ActHeard]) -> bool:
    """Tell whether a wish is only what a question stands on: "I leave Friday, is it too late"."""
    is_asked = any(other.act.startswith("ask_") for other in done)
    is_said = words.phrases("commands", "remind", "words").search(bare(each.said)) is not None
    return is_asked and each.act in _WISHES and not is_said


#: What is wished of the bot: beside a question, nobody of seven who wrote for us meant one.
_WISHES: Final = frozenset(
    {"snooze", "mute", "set_days", "set_quiet", "set_timing", "set_sprinkler", "stop_alerts"}
)


def _is_what_was_used(each: ActHeard, done: Sequence[ActHeard]) -> bool:
    """Tell whether bags beside a report are what went down, not what is left of them."""
    is_beside = any(other.act in ("report_applied", "enter_product") for other in done)
    return each.act == "set_stock" and is_beside and "left" not in concepts_of(bare(each.said))
