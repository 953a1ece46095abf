"""The acts: everything that people do by words, with what each changes and who may do it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal, TypeAlias

#: The right an act needs on the yard talked about, from none to the owner's own.
Needs: TypeAlias = Literal["none", "see", "confirm", "change", "own"]


@dataclass(frozen=True)
class Act:
    """One thing people do by words.

    Attributes
    ----------
    name : str
        Its name, such as ``report_applied``.
    changes : bool
        Whether it changes something kept; a question never does.
    needs : str
        The right it needs on the yard talked about. ``none`` where it concerns the person alone,
        or makes a yard of their own.
    slots : tuple of str
        Names of the slots of `heard.Slots` that it may carry.
    is_for_anywhere : bool
        Whether it has an answer of its own where there is no yard.
    """

    name: str
    changes: bool
    needs: Needs
    slots: tuple[str, ...] = ()
    is_for_anywhere: bool = False


def _asks(name: str, *slots: str, needs: Needs = "see", anywhere: bool = False) -> Act:
    return Act(name, False, needs, slots, anywhere)


def _changes(name: str, needs: Needs, *slots: str, anywhere: bool = False) -> Act:
    return Act(name, True, needs, slots, anywhere)


_WHERE: Final = ("zones", "all_zones", "part", "parts")
_DONE: Final = (*_WHERE, "on", "amount")

_TABLE: Final[tuple[Act, ...]] = (
    _changes("give_place", "none", "read"),
    _changes("add_yard", "none", "name", "read"),
    _asks("turn_to_yard", "yard"),
    _asks("list_yards", needs="none"),
    _changes("name_yard", "change", "name"),
    # The owner gives it up; whoever has a share leaves. Which of them it is, its handler asks.
    _changes("remove_yard", "see", "yard"),
    _changes("set_timing", "change", "days", "number", "name"),
    _changes("measure", "change", "zones", "area_m2", "read"),
    _changes("remove_zone", "change", "zones"),
    _asks("show_zones", "zones"),
    _changes("walk_corners", "change", "zones", "name"),
    _asks("show_sketch"),
    _changes("enter_product", "change", "product", "read"),
    _asks("show_product"),
    _asks("ask_product", "product", "grass", anywhere=True),
    _changes("set_stock", "change", "amount", "number", "part"),
    _asks("ask_buy", "amount", "number", anywhere=True),
    _asks("ask_amounts", *_WHERE, "area_m2", anywhere=True),
    _changes("set_grass", "change", *_WHERE, "grass", "read"),
    _asks("ask_need", "grass", anywhere=True),
    _changes("set_spreader", "change", "amount", "area_m2", "number", "read"),
    _asks("ask_spreader", "zones", "number"),
    _asks("ask_soil", "on", "depth_m"),
    _asks("ask_when", "zones", "on", anywhere=True),
    _asks("ask_late", "zones", "weed", anywhere=True),
    _asks("ask_weeds", "weed", anywhere=True),
    _changes("report_soil", "confirm", "soil_c", "depth_m", "zones", "on", "read"),
    _asks("ask_day", "on", "zones", anywhere=True),
    _changes("set_days", "change", "weekdays", "work", "read"),
    _asks("ask_why", anywhere=True),
    _changes("report_applied", "confirm", *_DONE, "person", "product", "work"),
    _changes("report_not_done", "confirm", *_WHERE, "on"),
    _changes("report_gap", "confirm", *_WHERE, "on", "amount", anywhere=True),
    _changes("report_too_much", "confirm", *_WHERE, "on", "amount", anywhere=True),
    _changes("report_service", "confirm", *_DONE, "person", "product", anywhere=True),
    _changes("change_record", "confirm", *_DONE),
    # The yard itself may be what was given up.
    _changes("undo", "confirm", anywhere=True),
    _changes("report_watered", "confirm", *_WHERE, "on", "minutes", "depth_m"),
    _changes("report_rain", "confirm", "on", "depth_m"),
    _changes("set_sprinkler", "change", "depth_m", "minutes", "read"),
    _asks("ask_water", "zones", "minutes", "depth_m", anywhere=True),
    _asks("ask_washed_out", "zones", "on", "depth_m", anywhere=True),
    _asks("ask_barrier", "zones", anywhere=True),
    _changes("snooze", "confirm", "on", "days"),
    _changes("mute", "own", anywhere=True),
    _asks("ask_seed", "zones", "on", "grass", "work", anywhere=True),
    _changes("plan_seed", "change", "zones", "on", "grass"),
    _changes("report_seeded", "confirm", "zones", "on", "grass", "work"),
    _asks("ask_other_work", "work", "on", "zones", anywhere=True),
    _changes("report_weeds", "confirm", "zones", "weed", "on"),
    _asks("ask_identify", "weed", needs="none"),
    _asks("ask_keep_off", "on", anywhere=True),
    _asks("emergency", needs="none"),
    _asks("ask_today"),
    _asks("ask_left", "zones"),
    _changes("share", "see", "person", "name"),
    _changes("join", "none", "read"),
    _asks("ask_who", "zones", "yard", "on", "person"),
    # A licence is the person's own; a product's number, which is the yard's, its handler checks.
    _changes("set_licence", "confirm", "read"),
    _asks("export", "on"),
    _asks("look_back", "on"),
    _asks("ask_notice", anywhere=True),
    _changes("set_units", "none", "units"),
    _changes("set_language", "none", "language"),
    _changes("set_quiet", "none", "read"),
    _changes("stop_alerts", "none"),
    _asks("ask_privacy", needs="none"),
    _changes("erase", "none"),
    _asks("help", needs="none"),
    _asks("greet", needs="none"),
    _asks("thanks", needs="none"),
    _asks("cancel", needs="none"),
    _changes("confirm", "none", "of"),
    _asks("deny", "of", needs="none"),
    _asks("other", needs="none"),
    _asks("unknown", needs="none"),
)

#: In a group only its admins do these: they silence everybody there, or let go of its yards.
FOR_ADMINS: Final = frozenset({"snooze", "mute", "set_quiet", "stop_alerts", "remove_yard"})

#: Every act, by its name.
ACTS: Final[dict[str, Act]] = {act.name: act for act in _TABLE}


def is_change(name: str) -> bool:
    """Tell whether what was heard is an act that changes something kept."""
    return name in ACTS and ACTS[name].changes
