"""Taps: what each button answers, and what a share in the yard must allow for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from bot.dialogue import place_first, rights, same_ground_asked
from bot.dialogue.talk import Talk
from bot.talk import (
    applying,
    buying,
    courtesies,
    digest_answers,
    exporting,
    inviting,
    many_yards,
    measuring,
    notices,
    other_yards,
    own_thermometer,
    parting,
    planning,
    product_entry,
    product_keeping,
    reasons,
    registering,
    rounds_of_work,
    scouting,
    screening,
    services,
    shortfalls,
    sketching,
    soil_now,
    sowing,
    spreader_slips,
    spreaders,
    taking_out,
    turning,
    undoing,
    walking,
    weeds,
    week_ahead,
    when_to_write,
    which_day,
    zone_traits,
)
from bot.talk.meanwhile import with_meanwhile
from bot.telling import amounts_said, owners, yard_overview
from bot.turn import Reply
from storage.yards import YardRecord

Answer = list[Reply]


@dataclass(frozen=True, slots=True)
class Tap:
    """One kind of button: what answers it, and the act it stands for, whose right it needs."""

    answer: Callable[[Talk, YardRecord, str], Answer]
    act: str


def tap(talk: Talk, action: str) -> Answer:
    """Answer a button by its action: a subject, mostly a verb, and numbers, the yard's first."""
    subject, _, rest = action.partition(":")
    parts = rest.split(":")
    numbers = [number for number in map(_number, parts) if number is not None]
    if subject in ("undo", "redo"):
        verb = "" if _number(parts[0]) is not None else parts[0]
        return undoing.tap(talk, subject, verb, numbers[-1] if numbers else None)
    if subject == "round":
        return rounds_of_work.tap(talk, parts[0], numbers)
    if subject == "parting":
        return parting.tap(talk, action)
    if subject == "yards":
        return turning.turn_page(talk, parts)
    if subject == "digest" and numbers:
        return digest_answers.tap(talk, parts[0], numbers)
    if subject == "list":
        return many_yards.settle(talk, is_yes=parts[0] == "add")
    if subject in ("language", "units"):
        return courtesies.tap(talk, action)
    if action == "yard:new":
        return new_yard(talk)
    if action.startswith("yard:at:") and numbers:
        meanwhile = place_first.said_meanwhile(talk)
        return with_meanwhile(talk, registering.place_chosen(talk, numbers[0]), meanwhile)
    found = _TAPS.get((subject, parts[0])) or _TAPS.get((subject, ""))
    if found is None or not numbers:
        return [talk.stale()]
    # A question about a product that is not kept yet belongs to the yard being talked about.
    yard = talk.yard() if numbers[0] == 0 else talk.yard_by_id(numbers[0])
    if yard is None:
        return [talk.stale()]
    return rights.refuse_act(talk, yard, found.act) or found.answer(talk, yard, action)


def act_of(action: str) -> str:
    """Return the act a button stands for."""
    subject, _, rest = action.partition(":")
    verb = rest.partition(":")[0]
    if subject == "hear":
        return verb
    found = _TAPS.get((subject, verb)) or _TAPS.get((subject, ""))
    return _OTHERS.get(subject, "confirm") if found is None else found.act


def new_yard(talk: Talk) -> Answer:
    """Register another yard, and ask whose it is."""
    return [*registering.new(talk), *owners.whose(talk)]


def _number(part: str) -> int | None:
    """Return a number of an action; None for words, and for what no database counts to."""
    is_number = part.isascii() and part.isdigit() and len(part) <= _MOST_DIGITS
    return int(part) if is_number else None


def _last_number(action: str) -> int:
    return _number(action.rsplit(":", 1)[1]) or 0


#: Buttons that are about no one yard, or have a way of their own.
_OTHERS: Final = {
    "undo": "undo",
    "redo": "undo",
    "round": "ask_today",
    "yard": "add_yard",
    "list": "add_yard",
    "digest": "report_watered",
    "yards": "list_yards",
    "parting": "ask_privacy",
    "language": "set_language",
    "units": "set_units",
}

#: Digits of the largest number an action may hold: identities are counted in 64 bits.
_MOST_DIGITS: Final = 18

#: Buttons by subject and verb; an empty verb stands for every other one of the subject.
_TAPS: Final[dict[tuple[str, str], Tap]] = {
    ("soil", ""): Tap(lambda talk, yard, _: soil_now.show(talk, yard), "ask_soil"),
    ("day", "all"): Tap(week_ahead.tapped, "ask_day"),
    ("day", ""): Tap(lambda talk, yard, _: week_ahead.show(talk, yard), "ask_day"),
    ("weeds", "air"): Tap(lambda talk, yard, _: weeds.by_air(talk, yard), "ask_weeds"),
    ("weeds", ""): Tap(lambda talk, yard, _: weeds.show(talk, yard), "ask_weeds"),
    ("seen", ""): Tap(scouting.tapped, "report_weeds"),
    ("seen", "lead"): Tap(scouting.tapped, "set_timing"),
    ("rounds", ""): Tap(planning.tapped, "set_timing"),
    ("seed", ""): Tap(sowing.tapped, "plan_seed"),
    ("same", ""): Tap(other_yards.same_tapped, "set_grass"),
    ("export", ""): Tap(exporting.tapped, "export"),
    ("grass", ""): Tap(zone_traits.tap, "set_grass"),
    ("spreader", "missed"): Tap(spreader_slips.left_out_tapped, "report_gap"),
    ("spreader", "went"): Tap(spreader_slips.went_tapped, "report_applied"),
    ("spreader", "done"): Tap(spreader_slips.went_tapped, "report_applied"),
    ("spreader", "first"): Tap(spreader_slips.went_tapped, "report_applied"),
    ("spreader", "all"): Tap(spreader_slips.went_tapped, "report_applied"),
    ("spreader", "second"): Tap(spreader_slips.second_tapped, "report_applied"),
    ("spreader", "ran_first"): Tap(spreader_slips.ran_out_tapped, "ask_spreader"),
    ("spreader", "ran_second"): Tap(spreader_slips.ran_out_tapped, "ask_spreader"),
    ("spreader", "ran_one"): Tap(spreader_slips.ran_out_tapped, "ask_spreader"),
    ("spreader", ""): Tap(spreaders.tap, "ask_spreader"),
    ("buy", ""): Tap(buying.tap, "ask_buy"),
    ("walk", ""): Tap(walking.tap, "walk_corners"),
    ("sketch", ""): Tap(sketching.tap, "show_sketch"),
    ("screen", ""): Tap(screening.tap, "set_timing"),
    ("owner", ""): Tap(screening.owner_tap, "set_timing"),
    ("amounts", "why"): Tap(amounts_said.why, "ask_amounts"),
    ("amounts", ""): Tap(lambda talk, yard, _: amounts_said.show(talk, yard), "ask_amounts"),
    ("zones", "list"): Tap(lambda talk, yard, _: measuring.show(talk, yard), "show_zones"),
    ("zones", "fix"): Tap(lambda talk, yard, _: measuring.fix(talk, yard), "measure"),
    ("zones", "keep"): Tap(lambda talk, yard, _: measuring.keep(talk, yard), "measure"),
    ("zones", "sure"): Tap(
        lambda talk, yard, _: measuring.settle_doubt(talk, yard, is_right=True), "measure"
    ),
    ("zones", "drop"): Tap(
        lambda talk, yard, _: measuring.settle_doubt(talk, yard, is_right=False), "measure"
    ),
    ("zones", "clear"): Tap(
        lambda talk, yard, _: taking_out.settle_removal(talk, yard, is_sure=True), "remove_zone"
    ),
    ("zones", "leave"): Tap(
        lambda talk, yard, _: taking_out.settle_removal(talk, yard, is_sure=False), "remove_zone"
    ),
    ("ground", ""): Tap(same_ground_asked.settle, "measure"),
    ("yard", "go"): Tap(lambda talk, yard, _: yard_overview.choose(talk, yard), "turn_to_yard"),
    ("yard", "show"): Tap(lambda talk, yard, _: yard_overview.overview(talk, yard), "turn_to_yard"),
    ("yard", "more"): Tap(lambda talk, yard, _: yard_overview.more(talk, yard), "turn_to_yard"),
    ("yard", "move"): Tap(lambda talk, yard, _: registering.move(talk, yard), "name_yard"),
    ("yard", "remove"): Tap(
        lambda talk, yard, _: parting.settle_removal(talk, yard, is_sure=True), "remove_yard"
    ),
    ("yard", "keep"): Tap(
        lambda talk, yard, _: parting.settle_removal(talk, yard, is_sure=False), "remove_yard"
    ),
    ("why", ""): Tap(reasons.tapped, "ask_why"),
    ("notice", ""): Tap(notices.tapped, "ask_notice"),
    ("yard", "name"): Tap(lambda talk, yard, _: registering.ask_name(talk, yard), "name_yard"),
    ("yard", "tz"): Tap(lambda talk, yard, _: planning.ask_timezone(talk, yard), "set_timing"),
    ("yard", "lead"): Tap(lambda talk, yard, _: planning.ask_lead(talk, yard), "set_timing"),
    ("yard", "later"): Tap(lambda talk, yard, _: registering.later(talk, yard), "show_zones"),
    ("yard", "rounds"): Tap(
        lambda talk, yard, action: planning.set_rounds(talk, yard, _last_number(action)),
        "set_timing",
    ),
    ("reading", "sure"): Tap(
        lambda talk, yard, _: own_thermometer.confirm(talk, yard, is_right=True), "report_soil"
    ),
    ("reading", "not"): Tap(
        lambda talk, yard, _: own_thermometer.confirm(talk, yard, is_right=False), "report_soil"
    ),
    ("product", "was"): Tap(product_keeping.was_it, "enter_product"),
    ("product", "use"): Tap(
        lambda talk, yard, action: other_yards.use(talk, yard, _last_number(action)),
        "enter_product",
    ),
    ("product", "all"): Tap(
        lambda talk, yard, _: other_yards.product_for_all(talk, yard), "enter_product"
    ),
    ("product", ""): Tap(
        lambda talk, yard, action: product_entry.confirm(talk, yard, action.split(":")[1]),
        "enter_product",
    ),
    ("apply", "all"): Tap(lambda talk, yard, _: applying.confirm_all(talk, yard), "report_applied"),
    ("apply", "part"): Tap(lambda talk, yard, _: applying.ask_part(talk, yard), "report_applied"),
    ("apply", "not_yet"): Tap(
        lambda talk, yard, _: shortfalls.not_yet(talk, yard), "report_not_done"
    ),
    ("apply", "on"): Tap(which_day.tapped(applying.on_report_applied), "report_applied"),
    ("service", "on"): Tap(which_day.tapped(services.on_report_service), "report_service"),
    ("apply", "again"): Tap(
        lambda talk, yard, _: applying.confirm_again(talk, yard), "report_applied"
    ),
    ("apply", "not"): Tap(
        lambda talk, _yard, _action: applying.confirm_not(talk), "report_applied"
    ),
    ("service", ""): Tap(services.where_tapped, "report_service"),
    ("water", "done"): Tap(
        lambda talk, yard, _: talk.answer("report_watered", yard), "report_watered"
    ),
    ("crew", ""): Tap(inviting.tap, "turn_to_yard"),
    ("later", "ask"): Tap(lambda talk, yard, _: when_to_write.ask_later(talk, yard), "snooze"),
    ("later", "days"): Tap(when_to_write.later_days, "snooze"),
    ("later", "warmer"): Tap(
        lambda talk, yard, _: when_to_write.later_warmer(talk, yard), "snooze"
    ),
    ("mute", ""): Tap(when_to_write.mute_tapped, "mute"),
}
