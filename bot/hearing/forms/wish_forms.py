"""What matters for the day, in short: free hours, water, ground, sprinkler, label terms."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import partial
from typing import Any, Final, TypeAlias

from bot.hearing.forms.form import hearing, saying
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import Said, phrases, which
from bot.hearing.readers.wish_words import (
    read_cans,
    read_free_hours,
    read_label_terms,
    read_weekdays,
)

#: First and last minute after midnight, by the day of the week (Monday 0).
FreeHours: TypeAlias = Mapping[int, tuple[int, int]]

_says: Final = partial(phrases, "wish")
#: Kinds of soil; the longer names first.
_GROUNDS: Final = ("sandy_loam", "clay_loam", "sand", "loam", "clay")


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


def read_free(found: Said, _scene: Scene) -> Slots | None:
    """Read ``free Tue and Thu after 5 pm``; None for other texts."""
    read = read_free_hours(found["rest"])
    hours: FreeHours | None = {} if read is None else (None if read == "any" else read)
    return Slots(read=FreeSaid(hours))


def read_water_days(found: Said, _scene: Scene) -> Slots | None:
    """Read ``watering days Tue and Sat``; None for other texts."""
    days = read_weekdays(found["rest"])
    return Slots(read=WaterDaysSaid(days)) if days else None


def read_ground(found: Said, _scene: Scene) -> Slots | None:
    """Read ``the soil is clay``; None for other texts."""
    ground = which("wish", _GROUNDS, found["ground"])
    return None if ground is None else Slots(read=GroundSaid(ground))


def read_sprinkler(found: Said, _scene: Scene) -> Slots | None:
    """Read ``sprinkler 0.3 in in 20 min``; None for other texts."""
    read = read_cans(found["rest"])
    return None if read is None else Slots(read=CansSaid(tuple(read[0]), read[1]))


def read_terms(found: Said, _scene: Scene) -> Slots | None:
    """Read ``label water-in 0.5 in within 24 hours, wind under 10 mph``; None for other texts."""
    if _says("cleared").whole(found["rest"]):
        return Slots(read=TermsSaid(None))
    terms = read_label_terms(found["rest"])
    return None if terms is None else Slots(read=TermsSaid(terms))


FORMS: Final = (
    hearing("set_days", "wish.free", read_free),
    hearing("set_days", "wish.water_days", read_water_days),
    saying("set_days", "wish.ban", BanSaid(is_on=True), is_sure=True),
    saying("set_days", "wish.no_ban", BanSaid(is_on=False), is_sure=True),
    saying("set_days", "wish.can_water", CanWaterSaid(can=True)),
    saying("set_days", "wish.cannot_water", CanWaterSaid(can=False)),
    hearing("set_grass", "wish.ground", read_ground),
    saying("set_grass", "wish.slope", SlopeSaid(is_slope=True)),
    saying("set_grass", "wish.no_slope", SlopeSaid(is_slope=False)),
    hearing("set_sprinkler", "wish.sprinkler", read_sprinkler),
    hearing("enter_product", "wish.label", read_terms),
    saying("help", "wish.settings", SettingsAsked()),
)
