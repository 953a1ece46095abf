"""Taps: what each button answers, and what a share in the yard must allow for it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
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
    label_photos,
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
from bot.telling import amounts_said, crew_told, yard_overview
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
    return [*registering.new(talk), *crew_told.whose(talk)]


def _number(part: str) -> int | None:
    """Return a number of an action; None for words, and for what no database counts to."""
    is_number = part.isascii() and part.isdigit() and len(part) <= _MOST_DIGITS
    return int(part) if is_number else None


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


def _of_yard(answer: Callable[[Talk, YardRecord], Answer]) -> Callable[..., Answer]:
    """Return what answers a button by its yard alone."""
    return lambda talk, yard, _action: answer(talk, yard)


def _numbered(answer: Callable[[Talk, YardRecord, int], Answer]) -> Callable[..., Answer]:
    """Return what answers a button by its yard and its last number."""
    return lambda talk, yard, action: answer(talk, yard, _number(action.rsplit(":", 1)[1]) or 0)


def _as_act(act: str) -> Tap:
    """Return a button that says no more than its act does."""
    return Tap(lambda talk, yard, _action: talk.answer(act, yard), act)


#: Buttons by subject and verb; an empty verb stands for every other one of the subject.
_TAPS: Final[dict[tuple[str, str], Tap]] = {
    ("soil", ""): _as_act("ask_soil"),
    ("day", "all"): Tap(_of_yard(partial(week_ahead.show, is_whole=True)), "ask_day"),
    ("day", ""): Tap(_of_yard(week_ahead.show), "ask_day"),
    ("weeds", "air"): Tap(_of_yard(partial(weeds.show, is_by_air=True)), "ask_weeds"),
    ("weeds", ""): Tap(_of_yard(weeds.show), "ask_weeds"),
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
    ("sketch", "photo"): Tap(_of_yard(label_photos.show_photo), "show_sketch"),
    ("sketch", ""): Tap(_of_yard(sketching.show), "show_sketch"),
    ("screen", ""): Tap(screening.tap, "set_timing"),
    ("owner", ""): Tap(screening.owner_tap, "set_timing"),
    ("amounts", "why"): Tap(amounts_said.why, "ask_amounts"),
    ("amounts", ""): Tap(_of_yard(amounts_said.show), "ask_amounts"),
    ("zones", "list"): _as_act("show_zones"),
    ("zones", "fix"): Tap(_of_yard(measuring.fix), "measure"),
    ("zones", "keep"): Tap(_of_yard(measuring.keep), "measure"),
    ("zones", "sure"): Tap(_of_yard(partial(measuring.settle_doubt, is_right=True)), "measure"),
    ("zones", "drop"): Tap(_of_yard(partial(measuring.settle_doubt, is_right=False)), "measure"),
    ("zones", "forget"): Tap(taking_out.forget_tapped, "remove_zone"),
    ("zones", "clear"): Tap(
        _of_yard(partial(taking_out.settle_removal, is_sure=True)), "remove_zone"
    ),
    ("zones", "leave"): Tap(
        _of_yard(partial(taking_out.settle_removal, is_sure=False)), "remove_zone"
    ),
    ("ground", ""): Tap(same_ground_asked.settle, "measure"),
    ("yard", "go"): Tap(_of_yard(yard_overview.choose), "turn_to_yard"),
    ("yard", "show"): Tap(_of_yard(yard_overview.overview), "turn_to_yard"),
    ("yard", "more"): Tap(_of_yard(yard_overview.more), "turn_to_yard"),
    ("yard", "move"): Tap(_of_yard(registering.move), "name_yard"),
    ("yard", "remove"): Tap(_of_yard(partial(parting.settle_removal, is_sure=True)), "remove_yard"),
    ("yard", "keep"): Tap(_of_yard(partial(parting.settle_removal, is_sure=False)), "remove_yard"),
    ("why", ""): Tap(reasons.tapped, "ask_why"),
    ("notice", ""): Tap(notices.tapped, "ask_notice"),
    ("yard", "name"): Tap(_of_yard(registering.ask_name), "name_yard"),
    ("yard", "tz"): Tap(_of_yard(planning.ask_timezone), "set_timing"),
    ("yard", "lead"): Tap(_of_yard(planning.ask_lead), "set_timing"),
    ("yard", "later"): Tap(_of_yard(registering.later), "show_zones"),
    ("yard", "rounds"): Tap(_numbered(planning.set_rounds), "set_timing"),
    ("reading", "sure"): Tap(
        _of_yard(partial(own_thermometer.confirm, is_right=True)), "report_soil"
    ),
    ("reading", "not"): Tap(
        _of_yard(partial(own_thermometer.confirm, is_right=False)), "report_soil"
    ),
    ("product", "was"): Tap(product_keeping.was_it, "enter_product"),
    ("product", "use"): Tap(_numbered(other_yards.use), "enter_product"),
    ("product", "all"): Tap(_of_yard(other_yards.product_for_all), "enter_product"),
    ("product", ""): Tap(
        lambda talk, yard, action: product_entry.confirm(talk, yard, action.split(":")[1]),
        "enter_product",
    ),
    ("apply", "all"): Tap(_of_yard(applying.confirm_all), "report_applied"),
    ("apply", "part"): Tap(_of_yard(applying.ask_part), "report_applied"),
    ("apply", "zone"): Tap(applying.zone_tapped, "report_applied"),
    ("apply", "not_yet"): _as_act("report_not_done"),
    ("record", "sure"): Tap(shortfalls.taken_out, "change_record"),
    ("apply", "on"): Tap(which_day.tapped(applying.on_report_applied), "report_applied"),
    ("service", "on"): Tap(which_day.tapped(services.on_report_service), "report_service"),
    ("apply", "again"): Tap(_of_yard(applying.confirm_again), "report_applied"),
    ("apply", "not"): Tap(
        lambda talk, _yard, _action: applying.confirm_not(talk), "report_applied"
    ),
    ("service", ""): Tap(services.where_tapped, "report_service"),
    ("water", "done"): _as_act("report_watered"),
    ("crew", ""): Tap(inviting.tap, "turn_to_yard"),
    ("later", "ask"): Tap(_of_yard(when_to_write.ask_later), "snooze"),
    ("later", "days"): Tap(when_to_write.later_days, "snooze"),
    ("later", "warmer"): Tap(_of_yard(when_to_write.later_warmer), "snooze"),
    ("mute", ""): Tap(when_to_write.mute_tapped, "mute"),
}
