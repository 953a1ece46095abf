"""What may be awaited of a person: the questions, the act each belongs to, what an answer is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

PLACE: Final = "yards.place"
WHICH_TOWN: Final = "yards.which"
NEW_YARD: Final = "yards.new"
YARD_LIST: Final = "yards.list"
MOVE: Final = "yards.move"
NAME: Final = "yards.name"
TIMEZONE: Final = "yards.timezone"
LEAD: Final = "yards.lead"
ZONES: Final = "zones"
ZONE_DOUBT: Final = "zones.doubt"
ZONES_REMOVE: Final = "zones.remove"
PACE: Final = "zones.pace"
WALKING: Final = "walking"
PRODUCT: Final = "product"
GRASS: Final = "grass"
SCREENING: Final = "screening"
APPLY_PART: Final = "applying.part"
TREATED_WHERE: Final = "treated where"
APPLY_SURE: Final = "applying.sure"
WHICH_DAY: Final = "applying.which_day"
READING_SURE: Final = "readings.sure"
WATER_DEPTH: Final = "watered.depth"
RAN_OUT: Final = "ran out"
MISSED: Final = "missed"
SEEDING: Final = "seeding"
SCOUTING: Final = "scouting"
SWATH: Final = "spreader.swath"
CHOOSE: Final = "choose"
WHICH_YARD: Final = "which yard"
REMOVE_YARD: Final = "parting.yard"
ERASE: Final = "parting.erase"

#: Questions whose answers are read together with what was said before.
DRAFTED: Final = frozenset({PRODUCT, RAN_OUT, MISSED})


#: Questions about what was said a moment ago: the next day nobody is asked them any more.
PASSING: Final = frozenset(
    {
        APPLY_PART,
        TREATED_WHERE,
        APPLY_SURE,
        WHICH_DAY,
        READING_SURE,
        WATER_DEPTH,
        RAN_OUT,
        MISSED,
        SWATH,
        SCOUTING,
        CHOOSE,
        WHICH_YARD,
        MOVE,
        ZONES_REMOVE,
        SCREENING,
        SEEDING,
        REMOVE_YARD,
        ERASE,
    }
)

#: Questions whose buttons stay good while something is looked up, and which no other text answers.
STANDING: Final = (
    PRODUCT,
    ZONES,
    ZONE_DOUBT,
    ZONES_REMOVE,
    APPLY_SURE,
    WHICH_DAY,
    READING_SURE,
    PLACE,
    YARD_LIST,
)


#: What the actions of a question's own buttons begin with, by its topic.
BUTTONS_OF: Final = {
    APPLY_PART: "apply:zone:",
    PRODUCT: "product:",
    ZONES: "zones:",
    ZONE_DOUBT: "zones:",
    ZONES_REMOVE: "zones:",
    APPLY_SURE: "apply:",
    WHICH_DAY: "apply:",
    READING_SURE: "reading:",
    SCREENING: "screen:",
    SEEDING: "seed:",
    YARD_LIST: "list:",
}


@dataclass(frozen=True)
class Asked:
    """A question: the act it belongs to, and what an answer to it is (see `Pending.expects`).

    `again` is the key of its words when it is taken up again, behind ``hearing.back.``.
    """

    act: str
    again: str
    expects: tuple[str, ...] = ()


#: Questions by topic and step; an empty step stands for every other one.
ASKED: Final[dict[tuple[str, str], Asked]] = {
    (PLACE, ""): Asked("give_place", "place", ("place",)),
    (NEW_YARD, ""): Asked("add_yard", "new_yard", ("place",)),
    (WHICH_TOWN, ""): Asked("give_place", "which_town", ("place",)),
    (YARD_LIST, ""): Asked("add_yard", "yard_list", ("yes_no",)),
    (MOVE, ""): Asked("give_place", "move"),
    (NAME, ""): Asked("name_yard", "name", ("name",)),
    (TIMEZONE, ""): Asked("set_timing", "timezone", ("timezone",)),
    (LEAD, ""): Asked("set_timing", "lead", ("days", "number")),
    (ZONES, ""): Asked("measure", "zones", ("size", "yes_no")),
    (ZONE_DOUBT, ""): Asked("measure", "zones", ("yes_no", "size")),
    (ZONES_REMOVE, ""): Asked("remove_zone", "remove_zones", ("yes_no",)),
    (PACE, ""): Asked("walk_corners", "pace", ("pace", "size")),
    (WALKING, ""): Asked("walk_corners", "walking", ("place",)),
    (PRODUCT, ""): Asked("enter_product", "product", ("ingredient", "rate", "percent")),
    (PRODUCT, "rate"): Asked("enter_product", "rate", ("rate",)),
    (PRODUCT, "maximum"): Asked("enter_product", "maximum", ("rate", "amount", "yes_no")),
    (PRODUCT, "period"): Asked("enter_product", "period"),
    (PRODUCT, "form"): Asked("enter_product", "form"),
    (PRODUCT, "sure"): Asked("enter_product", "sure", ("yes_no", "rate")),
    (PRODUCT, "apart"): Asked("enter_product", "apart", ("yes_no",)),
    (PRODUCT, "certified"): Asked("enter_product", "sure", ("yes_no",)),
    (PRODUCT, "ingredient"): Asked("enter_product", "ingredient", ("ingredient", "yes_no")),
    (PRODUCT, "strength"): Asked("enter_product", "strength", ("percent",)),
    (PRODUCT, "coverage"): Asked("enter_product", "coverage", ("amount", "rate")),
    (GRASS, ""): Asked("set_grass", "grass", ("grass",)),
    (SCREENING, ""): Asked("ask_need", "screening", ("yes_no",)),
    (SCREENING, "weed"): Asked("ask_need", "screening", ("weed",)),
    (SCREENING, "water"): Asked("ask_need", "screening", ("water", "yes_no")),
    (APPLY_PART, ""): Asked("report_applied", "part", ("part",)),
    (APPLY_PART, "amount"): Asked("report_applied", "amount", ("part",)),
    (TREATED_WHERE, ""): Asked("report_service", "treated_where", ("zone",)),
    (APPLY_SURE, ""): Asked("report_applied", "again", ("yes_no",)),
    (WHICH_DAY, ""): Asked("report_applied", "which_day", ("day",)),
    (WHICH_DAY, "report_service"): Asked("report_service", "which_day", ("day",)),
    (READING_SURE, ""): Asked("report_soil", "reading", ("yes_no",)),
    (WATER_DEPTH, ""): Asked("report_watered", "water_depth", ("depth",)),
    (RAN_OUT, ""): Asked("report_gap", "covered"),
    (RAN_OUT, "pass"): Asked("report_gap", "pass"),
    (MISSED, ""): Asked("report_gap", "missed", ("zone", "size", "area")),
    (SWATH, ""): Asked("set_spreader", "swath", ("number",)),
    (SEEDING, ""): Asked("plan_seed", "seeding", ("yes_no", "day", "grass")),
    (REMOVE_YARD, ""): Asked("remove_yard", "remove_yard", ("yes_no",)),
    (ERASE, ""): Asked("erase", "erase", ("yes_no",)),
    (SCOUTING, ""): Asked("report_weeds", "weeds_where", ("zone",)),
}


def asked(topic: str, step: str) -> Asked | None:
    """Return the question of a topic and step; None where nothing is awaited."""
    return ASKED.get((topic, step)) or ASKED.get((topic, ""))
