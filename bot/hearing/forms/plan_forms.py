"""The year's plan in short: ``two halves``, ``halves 8 weeks apart``, ``late-summer round``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Any, Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots

_NO: Final = r"(?:no|without|skip|drop|stop|cancel)"
_LATE: Final = r"(?:late[- ]summer|autumn|fall|annual\s+bluegrass|poa(?:\s+annua)?)"
_WORDS: Final[tuple[tuple[re.Pattern[str], dict[str, Any]], ...]] = tuple(
    (re.compile(rf"\s*{pattern}\s*[.!]?\s*", re.IGNORECASE), values)
    for pattern, values in (
        (
            rf"{_NO}\s+(?:the\s+)?{_LATE}\s+(?:rounds?|applications?)",
            {"has_late_summer_round": False},
        ),
        (
            rf"(?:(?:with|add)\s+)?(?:an?\s+|the\s+)?{_LATE}\s+rounds?(?:\s+(?:too|yes|on))?",
            {"has_late_summer_round": True},
        ),
        (
            r"(?:the\s+)?first\s+half\s+in\s+(?:the\s+)?(?:late\s+)?(?:autumn|fall|november)",
            {"has_dormant_half": True, "rounds": 2},
        ),
        (
            r"dormant(?:[- ]season)?\s+(?:first\s+)?(?:half|round)",
            {"has_dormant_half": True, "rounds": 2},
        ),
        (
            r"(?:the\s+)?first\s+half\s+in\s+(?:the\s+)?spring|no\s+dormant\s+(?:half|round)",
            {"has_dormant_half": False},
        ),
        (r"(?:in\s+)?two\s+halves|split\s+it|two\s+rounds", {"rounds": 2}),
        (
            r"(?:only\s+)?(?:one|a\s+single)\s+(?:round|application)(?:\s+a\s+spring)?",
            {"rounds": 1},
        ),
    )
)
_SPLIT: Final = re.compile(
    r"\s*(?:halves|split)\s+(?:every\s+)?(?P<number>\d{1,3})\s*(?P<unit>days?|weeks?)(?:\s+apart)?"
    r"\s*\.?\s*",
    re.IGNORECASE,
)
_PLAN: Final = re.compile(r"\s*(?:rounds|(?:the\s+)?plan)\s*[?.!]?\s*", re.IGNORECASE)
_AS_LAST_YEAR: Final = re.compile(
    r"\s*(?:(?:same\s+)?as\s+last\s+year|copy\s+last\s+year)\s*[.!]?\s*", re.IGNORECASE
)


@dataclass(frozen=True)
class PlanSaid:
    """What was said of the year's plan; None where nothing was.

    Attributes
    ----------
    rounds : int or None
        Applications in spring, one or two.
    split_days : int or None
        Days between the two.
    has_late_summer_round, has_dormant_half : bool or None
        Whether there is one in late summer, and whether the first one lies in late autumn.
    as_last_year, is_asked : bool
        Whether all of it is as it was last year; whether the plan is only asked for.
    """

    rounds: int | None = None
    split_days: int | None = None
    has_late_summer_round: bool | None = None
    has_dormant_half: bool | None = None
    as_last_year: bool = False
    is_asked: bool = False

    def values(self) -> dict[str, Any]:
        """Return what is to be changed, by the names of a yard's settings."""
        said = {
            "rounds": self.rounds,
            "split_days": self.split_days,
            "has_late_summer_round": self.has_late_summer_round,
            "has_dormant_half": self.has_dormant_half,
        }
        return {name: value for name, value in said.items() if value is not None}


@dataclass(frozen=True)
class AllowedAsked:
    """What the label's maxima still allow is asked."""


def read_allowed(text: str, _scene: Scene) -> Slots | None:
    """Read ``what is still allowed``; None for other texts."""
    said = " ".join(words.bare(text).replace("'", "").split()).strip(" .!?¿¡")
    is_asked = words.canon("special", "commands").get(said) == "allowed"
    return Slots(read=AllowedAsked()) if is_asked else None


def read_plan(text: str, _scene: Scene) -> Slots | None:
    """Read a choice of the year's plan; None for other texts."""
    if _PLAN.fullmatch(text):
        return Slots(read=PlanSaid(is_asked=True))
    if _AS_LAST_YEAR.fullmatch(text):
        return Slots(read=PlanSaid(as_last_year=True))
    split = _SPLIT.fullmatch(text)
    if split is not None:
        days = int(split["number"]) * (7 if split["unit"].lower().startswith("w") else 1)
        return Slots(read=PlanSaid(split_days=days))
    values = next((values for pattern, values in _WORDS if pattern.fullmatch(text)), None)
    return None if values is None else Slots(read=PlanSaid(**values))


FORMS: Final = (Form("ask_barrier", read_allowed), Form("set_timing", read_plan))
