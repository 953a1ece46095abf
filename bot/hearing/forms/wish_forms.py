"""What matters for the day, in short: free hours, water, ground, sprinkler, label terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Final, TypeAlias

from bot.hearing.forms.form import Form, pattern, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.wish_words import (
    read_cans,
    read_free_hours,
    read_label_terms,
    read_weekdays,
)

#: First and last minute after midnight, by the day of the week (Monday 0).
FreeHours: TypeAlias = Mapping[int, tuple[int, int]]

_GROUNDS: Final = {
    "sand": "sand",
    "sandy": "sand",
    "sandy loam": "sandy_loam",
    "loam": "loam",
    "loamy": "loam",
    "silt": "loam",
    "clay loam": "clay_loam",
    "clay": "clay",
    "heavy": "clay",
}
_GROUND: Final = "|".join(sorted(_GROUNDS, key=len, reverse=True))


_FREE: Final = pattern(r"(?:i'?m\s+|i\s+am\s+|we'?re\s+|we\s+are\s+|only\s+)*free:?\s+(?P<rest>.+)")
_WATER_DAYS: Final = pattern(
    r"(?:(?:we|i)\s+(?:may|can)\s+(?:only\s+)?)?(?:water(?:ing)?\s+days?:?|water(?:ing)?"
    r"\s+(?:is\s+)?(?:allowed\s+)?(?:only\s+)?on)\s+(?P<rest>.+)"
)
_BAN: Final = pattern(
    r"(?:there\s+is\s+|there'?s\s+)?(?:a\s+|the\s+|no\s+(?:more\s+)?)?watering\s+ban"
    r"(?:\s+(?:now|again|is\s+on|on))?(?:\s+(?:any\s?more))?"
    r"|(?:the\s+)?(?:watering\s+)?ban\s+(?:is\s+)?(?:over|ended|lifted|off)"
)
_BAN_OVER: Final = pattern(r"\b(no|over|ended|lifted|off)\b")
_CAN_WATER: Final = pattern(
    r"(?:i|we)?\s*(?:can'?t|cannot|can\s+not|can)\s+water(?:\s+(?:it|there|here))?"
    r"|no\s+(?:way\s+to\s+)?water(?:\s+there)?"
)
_CANNOT: Final = pattern(r"\bcan'?t|cannot|can\s+not|no\s")
_GROUND_IS: Final = pattern(
    rf"(?:(?:the\s+|my\s+)?(?:soil|ground)\s+is\s+|it'?s\s+)(?P<ground>{_GROUND})"
    rf"(?:\s+(?:soil|ground))?|(?P<first>{_GROUND})\s+(?:soil|ground)"
)
_SLOPE: Final = pattern(
    r"(?:it'?s\s+|it\s+is\s+|the\s+(?:yard|lawn)\s+is\s+)?(?:on\s+)?(?:a\s+|no\s+|not\s+a\s+)?"
    r"(?:steep\s+)?(?:slop(?:e|es|ed|ing|y)|hill|level|flat)(?:\s+(?:ground|yard|lawn))?"
)
_LEVEL: Final = pattern(r"\b(no|not|level|flat)\b")
_SPRINKLER: Final = pattern(r"(?:my\s+|the\s+)?sprinklers?:?\s+(?P<rest>.+)")
_LABEL: Final = pattern(r"(?:my\s+|the\s+)?label(?:\s+says)?:?\s+(?P<rest>.+)")
_CLEARED: Final = pattern(r"nothing|no\s+limits")


@dataclass(frozen=True)
class FreeSaid:
    """The hours somebody is free; None for any time, empty where they could not be read."""

    hours: FreeHours | None


@dataclass(frozen=True)
class WaterDaysSaid:
    """The days of the week on which one may water (Monday 0)."""

    days: frozenset[int]


@dataclass(frozen=True)
class BanSaid:
    """A watering ban, or its end."""

    is_on: bool


@dataclass(frozen=True)
class CanWaterSaid:
    """Whether the yard can be watered at all."""

    can: bool


@dataclass(frozen=True)
class GroundSaid:
    """What the soil is, by its key."""

    ground: str


@dataclass(frozen=True)
class SlopeSaid:
    """Whether the yard slopes."""

    is_slope: bool


@dataclass(frozen=True)
class CansSaid:
    """Water caught in cans under a sprinkler, and how long it ran."""

    depths_m: tuple[float, ...]
    minutes: float


@dataclass(frozen=True)
class TermsSaid:
    """What a label wants of water, wind and leaves; None where it wants nothing."""

    terms: dict[str, Any] | None


@dataclass(frozen=True)
class SettingsAsked:
    """Somebody wants to see what they have set."""


def read_free(text: str, _scene: Scene) -> Slots | None:
    """Read ``free Tue and Thu after 5 pm``; None for other texts."""
    match = _FREE.fullmatch(tidied(text))
    if match is None:
        return None
    read = read_free_hours(match["rest"])
    hours: FreeHours | None = {} if read is None else (None if read == "any" else read)
    return Slots(read=FreeSaid(hours))


def read_water_days(text: str, _scene: Scene) -> Slots | None:
    """Read ``watering days Tue and Sat``; None for other texts."""
    match = _WATER_DAYS.fullmatch(tidied(text))
    days = frozenset() if match is None else read_weekdays(match["rest"])
    return Slots(read=WaterDaysSaid(days)) if days else None


def read_ban(text: str, _scene: Scene) -> Slots | None:
    """Read ``watering ban`` and ``the ban is over``; None for other texts."""
    said = tidied(text)
    if _BAN.fullmatch(said) is None:
        return None
    return Slots(read=BanSaid(is_on=_BAN_OVER.search(said) is None))


def read_can_water(text: str, _scene: Scene) -> Slots | None:
    """Read ``I can't water``; None for other texts."""
    said = tidied(text)
    if _CAN_WATER.fullmatch(said) is None:
        return None
    return Slots(read=CanWaterSaid(can=_CANNOT.search(said) is None))


def read_ground(text: str, _scene: Scene) -> Slots | None:
    """Read ``the soil is clay`` and ``it's a slope``; None for other texts."""
    said = tidied(text)
    match = _GROUND_IS.fullmatch(said)
    if match is not None:
        key = _GROUNDS[(match["ground"] or match["first"]).casefold()]
        return Slots(read=GroundSaid(key))
    if _SLOPE.fullmatch(said) is None:
        return None
    return Slots(read=SlopeSaid(is_slope=_LEVEL.search(said) is None))


def read_sprinkler(text: str, _scene: Scene) -> Slots | None:
    """Read ``sprinkler 0.3 in in 20 min``; None for other texts."""
    match = _SPRINKLER.fullmatch(tidied(text))
    if match is None:
        return None
    read = read_cans(match["rest"])
    return None if read is None else Slots(read=CansSaid(tuple(read[0]), read[1]))


def read_terms(text: str, _scene: Scene) -> Slots | None:
    """Read ``label water-in 0.5 in within 24 hours, wind under 10 mph``; None for other texts."""
    match = _LABEL.fullmatch(tidied(text))
    if match is None:
        return None
    if _CLEARED.fullmatch(match["rest"]):
        return Slots(read=TermsSaid(None))
    terms = read_label_terms(match["rest"])
    return None if terms is None else Slots(read=TermsSaid(terms))


FORMS: Final = (
    Form("set_days", read_free),
    Form("set_days", read_water_days),
    Form("set_days", read_ban),
    Form("set_days", read_can_water),
    Form("set_grass", read_ground),
    Form("set_sprinkler", read_sprinkler),
    Form("enter_product", read_terms),
    saying("help", r"(?:my\s+|our\s+)?(?:wishes|settings)", SettingsAsked()),
)
