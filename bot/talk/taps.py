"""Taps: what each button answers, and what a share in the yard must allow for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from bot.talk import (
    amounts,
    applying,
    buying,
    crews,
    days,
    grass,
    manners,
    products,
    readings,
    rounds,
    rounds_of_work,
    scouting,
    screening,
    seeding,
    sketching,
    soil,
    spreaders,
    undoing,
    walking,
    weeds,
    yards,
    zones,
)
from bot.talk.talk import Talk
from bot.turn import Reply
from storage.yards import YardRecord

Answer = list[Reply]


@dataclass(frozen=True, slots=True)
class Tap:
    """One kind of button: what answers it, and what a share in the yard must allow for it."""

    answer: Callable[[Talk, YardRecord, str], Answer]
    needs: str = "change"


def tap(talk: Talk, action: str) -> Answer:
    """Answer a button by its action: a subject, mostly a verb, and numbers, the yard's first."""
    subject, _, rest = action.partition(":")
    parts = rest.split(":")
    if subject in ("undo", "redo"):
        verb, number = ("", rest) if rest.isdigit() else (parts[0], parts[-1])
        return undoing.tap(talk, subject, verb, int(number) if number.isdigit() else None)
    if subject == "round" and talk.yards():
        return rounds_of_work.tap(talk, parts)
    if action == "yard:new":
        return new_yard(talk)
    if action.startswith("yard:at:") and parts[-1].isdigit():
        meanwhile = yards.said_meanwhile(talk)
        return with_meanwhile(talk, yards.place_chosen(talk, int(parts[-1])), meanwhile)
    found = _TAPS.get((subject, parts[0])) or _TAPS.get((subject, ""))
    numbers = [int(part) for part in parts if part.isdigit()]
    if found is None or not numbers:
        return [_stale(talk)]
    # A question about a product that is not kept yet belongs to the yard being talked about.
    yard = talk.yard() if numbers[0] == 0 else talk.yard_by_id(numbers[0])
    if yard is None:
        return [_stale(talk)]
    if not talk.may(yard, found.needs):
        return crews.refuse(talk, yard)
    return found.answer(talk, yard, action)


def new_yard(talk: Talk) -> Answer:
    """Register another yard, and ask whose it is."""
    return [*yards.new(talk), *screening.whose(talk)]


def with_meanwhile(talk: Talk, replies: Answer, text: str) -> Answer:
    """Answer what was said before there was a yard, now that there is one."""
    yard = talk.yard()
    if not text or yard is None:
        return replies
    return [*replies, *zones.take(talk, yard, text)]


def _stale(talk: Talk) -> Reply:
    return talk.reply("help.button_stale", hint=talk.say("help.hint_yard"))


def _last_number(action: str) -> int:
    return int(action.rsplit(":", 1)[1])


#: Buttons by subject and verb; an empty verb stands for every other one of the subject.
_TAPS: Final[dict[tuple[str, str], Tap]] = {
    ("soil", ""): Tap(lambda talk, yard, _: soil.show(talk, yard), "see"),
    ("day", ""): Tap(lambda talk, yard, _: days.show(talk, yard), "see"),
    ("weeds", ""): Tap(lambda talk, yard, _: weeds.show(talk, yard), "see"),
    ("seen", ""): Tap(scouting.tapped, "confirm"),
    ("seen", "lead"): Tap(scouting.tapped),
    ("rounds", ""): Tap(rounds.tapped),
    ("seed", ""): Tap(seeding.tapped),
    ("grass", ""): Tap(grass.tap),
    ("spreader", ""): Tap(spreaders.tap, "see"),
    ("buy", ""): Tap(buying.tap, "see"),
    ("walk", ""): Tap(walking.tap),
    ("sketch", ""): Tap(sketching.tap, "see"),
    ("screen", ""): Tap(screening.tap),
    ("owner", ""): Tap(screening.owner_tap),
    ("amounts", ""): Tap(lambda talk, yard, _: amounts.show(talk, yard), "see"),
    ("zones", "list"): Tap(lambda talk, yard, _: zones.show(talk, yard, ""), "see"),
    ("zones", "fix"): Tap(lambda talk, yard, _: zones.fix(talk, yard)),
    ("zones", "keep"): Tap(lambda talk, yard, _: zones.keep(talk, yard)),
    ("zones", "sure"): Tap(
        lambda talk, yard, _: zones.settle_doubt(talk, yard, is_right=True),
    ),
    ("zones", "drop"): Tap(
        lambda talk, yard, _: zones.settle_doubt(talk, yard, is_right=False),
    ),
    ("zones", "clear"): Tap(
        lambda talk, yard, _: zones.settle_removal(talk, yard, is_sure=True),
    ),
    ("zones", "leave"): Tap(
        lambda talk, yard, _: zones.settle_removal(talk, yard, is_sure=False),
    ),
    ("yard", "go"): Tap(lambda talk, yard, _: yards.choose(talk, yard), "see"),
    ("yard", "show"): Tap(lambda talk, yard, _: yards.overview(talk, yard), "see"),
    ("yard", "move"): Tap(lambda talk, yard, _: yards.move(talk, yard)),
    ("yard", "name"): Tap(lambda talk, yard, _: yards.ask_name(talk, yard)),
    ("yard", "tz"): Tap(lambda talk, yard, _: yards.ask_timezone(talk, yard)),
    ("yard", "lead"): Tap(lambda talk, yard, _: yards.ask_lead(talk, yard)),
    ("yard", "rounds"): Tap(
        lambda talk, yard, action: yards.set_rounds(talk, yard, _last_number(action))
    ),
    ("reading", "sure"): Tap(
        lambda talk, yard, _: readings.confirm(talk, yard, is_right=True), "confirm"
    ),
    ("reading", "not"): Tap(
        lambda talk, yard, _: readings.confirm(talk, yard, is_right=False), "confirm"
    ),
    ("product", "use"): Tap(
        lambda talk, yard, action: products.use(talk, yard, _last_number(action))
    ),
    ("product", ""): Tap(
        lambda talk, yard, action: products.confirm(talk, yard, action.split(":")[1])
    ),
    ("apply", "all"): Tap(lambda talk, yard, _: applying.confirm_all(talk, yard), "confirm"),
    ("apply", "again"): Tap(lambda talk, yard, _: applying.confirm_again(talk, yard), "confirm"),
    ("apply", "not"): Tap(lambda talk, _yard, _action: applying.confirm_not(talk), "confirm"),
    ("water", "done"): Tap(
        lambda talk, yard, _: applying.watered(talk, yard, "watered in"), "confirm"
    ),
    ("crew", ""): Tap(crews.tap, "see"),
    ("later", "ask"): Tap(lambda talk, yard, _: manners.ask_later(talk, yard), "confirm"),
    ("later", "days"): Tap(manners.later_days, "confirm"),
    ("later", "warmer"): Tap(lambda talk, yard, _: manners.later_warmer(talk, yard), "confirm"),
    ("mute", ""): Tap(manners.mute_tapped),
}
