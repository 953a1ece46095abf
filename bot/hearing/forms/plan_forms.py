"""The year's plan in short: ``two halves``, ``halves 8 weeks apart``, ``late-summer round``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Any, Final

from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "plan")
_LONGEST_NUMBER: Final = 3


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


def read_allowed(text: str, scene: Scene) -> Slots | None:
    """Read ``what is still allowed``; "me pasé" asks it only with its mark."""
    said = tidied(text, " .!?¿¡")
    is_asked = _says("allowed").whole(said) or ("?" in text and _says("too_much").whole(said))
    is_of_report = scene.said_before == "report_applied" and _says("was_right").whole(said)
    return Slots(read=AllowedAsked()) if is_asked or is_of_report else None


def read_apart(text: str, _scene: Scene) -> Slots | None:
    """Read ``halves 8 weeks apart``; None for other texts."""
    said = tidied(text)
    weeks = _says("apart_weeks").whole(said)
    apart = weeks or _says("apart_days").whole(said)
    if apart is None or len(apart["n"]) > _LONGEST_NUMBER:
        return None
    return Slots(read=PlanSaid(split_days=int(apart["n"]) * (7 if weeks else 1)))


FORMS: Final = (
    Form("ask_barrier", read_allowed, is_sure=True),
    saying("set_timing", "plan.asked", PlanSaid(is_asked=True), may_ask=True),
    saying("set_timing", "plan.as_last_year", PlanSaid(as_last_year=True)),
    Form("set_timing", read_apart),
    saying("set_timing", "plan.no_late_summer", PlanSaid(has_late_summer_round=False)),
    saying("set_timing", "plan.late_summer", PlanSaid(has_late_summer_round=True)),
    saying("set_timing", "plan.dormant", PlanSaid(has_dormant_half=True, rounds=2)),
    saying("set_timing", "plan.no_dormant", PlanSaid(has_dormant_half=False)),
    saying("set_timing", "plan.two", PlanSaid(rounds=2)),
    saying("set_timing", "plan.one", PlanSaid(rounds=1)),
)
