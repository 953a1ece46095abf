"""Worries about water: ``two inches fell overnight, redo it?``, ``three dry weeks, wasted?``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.normal import normal
from bot.hearing.phrases import phrases
from bot.hearing.readers.measures import of_kind, read_figures

_says: Final = partial(phrases, "water")
_UNITS: Final = ("in", "mm", "cm")


@dataclass(frozen=True)
class WorrySaid:
    """Whether somebody worries for want of rain, or for too much of it."""

    is_dry: bool


def read_worry(text: str, scene: Scene) -> Slots | None:
    """Read whether rain or drought undid an application; None for other texts."""
    if _says("redo").first(text) is None:
        return None
    is_dry = _says("dry").first(text) is not None
    if not is_dry and _says("rained").first(text) is None:
        return None
    return Slots(depth_m=None if is_dry else _depth_m(text, scene), read=WorrySaid(is_dry=is_dry))


def _depth_m(text: str, scene: Scene) -> float | None:
    figures = of_kind(read_figures(normal(text, scene.language).text), "length")
    return next((each.value for each in figures if each.unit in _UNITS), None)


def read_on_all(text: str, scene: Scene) -> Slots | None:
    """Read ``half an inch on all``, of whoever has several yards; None for other texts."""
    # The words for every yard behind it are found where all that is said of everywhere is.
    is_all = _says("on_all").whole(normal(text, scene.language).text.strip(" .!"))
    depth_m = _depth_m(text, scene) if is_all and len(scene.yards) > 1 else None
    return None if depth_m is None else Slots(depth_m=depth_m, every_yard=True)


FORMS: Final = (
    Form("ask_washed_out", read_worry),
    Form("report_watered", read_on_all, is_sure=True),
)
