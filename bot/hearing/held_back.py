"""Changes held back where a clause states no fact: a question, a plan, another's."""

from __future__ import annotations

import re
from typing import Final

from bot.hearing import words
from bot.hearing.guards import Manner

Ranked = list[tuple[str, float]]

#: Acts that say something was done: no question, plan, condition or other person's is one.
REPORTS: Final = frozenset(
    {
        "report_applied",
        "report_gap",
        "report_too_much",
        "report_watered",
        "report_rain",
        "report_seeded",
        "report_weeds",
        "report_soil",
        "report_service",
        "change_record",
    }
)
#: Facts that a question does not state either.
FACTS: Final = frozenset({"enter_product", "measure", "set_stock", "set_spreader", "set_grass"})
#: Of these a plan or a condition makes something else.
DEEDS: Final = frozenset({"report_applied", "report_watered", "report_seeded", "report_service"})
#: How many times as high the odds are of a report that is asked, planned, denied. The sentences
#: know manners too: of seven authors not learnt from, what was surely (0.99) a report in spite of a
#: "not" was one 48 times of 48, at 0.65-0.95 12 of 26.
LEAST: Final = 0.05
#: What is left of the likelihood of an act that lacks its value, however sure it looks.
BARE: Final = 0.3
#: Acts that are made of values: without one of these kinds they are hardly meant.
EVIDENCE: Final = {
    "enter_product": {"product", "rate", "percent", "amount", "area", "depth", "number"},
    "measure": {"size", "area", "length", "number"},
    "set_spreader": {
        *("amount", "number", "speed", "minutes", "area", "rate", "size", "length", "depth")
    },
    "report_soil": {"temp", "number", "depth"},
    "set_sprinkler": {"depth", "minutes", "number"},
    "join": {"code", "number"},
    "remove_zone": {"zone", "all", "part", "rest"},
    "set_licence": {"licence", "number", "zip", "code"},
}


def is_to_come(piece: str) -> bool:
    """Tell whether a clause speaks of what ought to be, or is forecast."""
    return words.phrases("commands", "to_come", "words").search(piece) is not None


def held_back(
    ranked: Ranked,
    said: Manner,
    text: str,
    *,
    is_planned: bool,
    is_to_come: bool,
    is_count: bool = False,
) -> Ranked:
    """Return likelihoods with changes held back where a clause is no statement of a fact."""
    report = LEAST if said.is_question else 1.0
    report *= LEAST if said.is_condition else 1.0
    fact = report
    # "Watered it tomorrow" is a slip of the day, of which its handler tells.
    is_ahead = "<day> ahead" in text and (is_planned or not said.is_past)
    report *= LEAST if is_ahead else 1.0
    report_held = report * (LEAST if is_planned else 1.0)
    report_held *= LEAST if said.is_denied else 1.0
    report_held *= LEAST if is_to_come else 1.0
    deed = report_held * (LEAST if said.is_third else 1.0)
    # "No crabgrass so far": what is not there is no sighting.
    seen = report * (LEAST if said.is_denied else 1.0)
    is_offered = words.phrases("commands", "offered", "words").search(text) is not None
    kinds = set(KIND.findall(text))
    left = {
        **dict.fromkeys(FACTS, fact),
        **dict.fromkeys(REPORTS, report),
        **dict.fromkeys(DEEDS, deed),
        # "The lawn service wants 95 bucks" is nothing they did; "Miller got done by my uncle" is.
        "report_service": (report_held if _OURS & kinds else deed) * (LEAST if is_offered else 1.0),
        "report_rain": seen * (LEAST if is_to_come else 1.0),
        "report_weeds": seen,
    }
    bare = {act for act, needed in EVIDENCE.items() if not needed & kinds}
    if is_count and not {"temp", "depth"} & kinds:
        # "Round two is in the ground" reads no thermometer.
        bare.add("report_soil")
    # Not made up to one again: what is held back is not sure, however unlikely all else is.
    held = [
        (act, less_likely(share, left.get(act, 1.0)) * (BARE if act in bare else 1.0))
        for act, share in ranked
    ]
    return sorted(held, key=lambda each: -each[1])


def less_likely(share: float, factor: float) -> float:
    """Return a likelihood whose odds are so many times as high."""
    return share * factor / (1.0 - share + share * factor) if factor < 1.0 else share


#: What is named so is ours, whoever treats it.
_OURS: Final = frozenset({"zone", "yard"})
KIND: Final = re.compile(r"<(\w+)>")
