"""Spreaders in short: ``4.2 lb over 8 x 150 ft, setting 5``, ``pans 1 ft apart: 0.4 0.9 ... g``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final, TypeAlias

from bot.hearing.forms.form import Form, saying
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import plain
from bot.hearing.readers.measures import LEAST_BARE_SQ_FT, Figure, near, of_kind, read_figures
from bot.hearing.readers.spoken import spoken
from jobs.agronomy.units import si_factor, to_si

_says: Final = partial(phrases, "spreader")
#: Half of the round's rate, or the whole of it; None where not said.
Half: TypeAlias = bool | None


@dataclass(frozen=True)
class RunSaid:
    """A weighed run: product used [kg], area [m²] or the length walked [m], and the dial."""

    used_kg: float
    area_m2: float | None
    length_m: float | None = None
    setting: float | None = None
    is_half: Half = None


@dataclass(frozen=True)
class PansSaid:
    """What pans caught, left to right [kg], how far apart [m], their area [m²] and the runs.

    `is_mean` where one catch stands for all of them.
    """

    caught_kg: tuple[float, ...]
    apart_m: float
    area_m2: float | None
    runs: int = 1
    is_mean: bool = False
    is_weighed: bool = True


@dataclass(frozen=True)
class SwathSaid:
    """How wide a spreader throws [m], and an area to walk a course for [m²]."""

    swath_m: float
    area_m2: float | None = None


@dataclass(frozen=True)
class CourseAsked(SwathSaid):
    """How long a course of a swath is."""


@dataclass(frozen=True)
class CupSaid:
    """The weight of one level cup [kg]."""

    kg: float


@dataclass(frozen=True)
class CupsAsked:
    """Amounts in cups or spoons are asked for."""

    are_spoons: bool


@dataclass(frozen=True)
class ScaleAsked:
    """Whether a scale with such steps [kg] is fine enough."""

    step_kg: float


@dataclass(frozen=True)
class SpreaderAsked:
    """What to weigh out for a spreader is asked for, by its name."""


@dataclass(frozen=True)
class TriesAsked:
    """The weighed tries are asked for."""


def read_asked(text: str, scene: Scene) -> Slots | None:
    """Read what is asked of a spreader; None for other texts."""
    read = _spreader(text, scene)
    is_mean = isinstance(read, PansSaid) and (read.is_mean or not read.caught_kg)
    return (
        Slots(read=read)
        if isinstance(read, CupsAsked | ScaleAsked | CourseAsked) or is_mean
        else None
    )


def read_set(text: str, scene: Scene) -> Slots | None:
    """Read what was weighed, caught or measured of a spreader; None for other texts."""
    if text.rstrip().endswith("?"):
        return None
    read = _spreader(text, scene)
    if isinstance(read, CourseAsked) or not isinstance(
        read, RunSaid | PansSaid | CupSaid | SwathSaid
    ):
        return None
    return Slots(read=read)


def _spreader(text: str, scene: Scene) -> object | None:
    said = spoken(plain(text).text)
    figures = read_figures(said)
    if _says("pans").first(said):
        return _pans(said, figures)
    if _says("cups").first(said):
        return _cups(said, figures)
    if not figures:
        return None
    masses = of_kind(figures, "mass")
    if _says("scale").first(said):
        return ScaleAsked(masses[0].value) if len(masses) == 1 and masses[0].value > 0 else None
    is_width = _says("swath").first(said) or _says("course").first(said)
    if is_width and not of_kind(figures, "mass", "flow", "volume", "speed"):
        return _swath(said, figures)
    if scene.pending is not None and scene.pending.kind == "enter_product":
        return None
    return _run(said, figures, scene)


def _run(text: str, figures: list[Figure], scene: Scene) -> RunSaid | None:
    masses, lengths = of_kind(figures, "mass"), of_kind(figures, "length")
    areas = of_kind(figures, "area")
    dial = near(text, figures, _says("dial"))
    if len(masses) != 1 or not _says("run").first(text) or _says("planned").first(text):
        return None
    area_m2 = length_m = None
    if len(lengths) == 2:
        area_m2 = lengths[0].value * lengths[1].value
    elif len(lengths) == 1:
        length_m = lengths[0].value
    elif len(areas) == 1:
        area_m2 = areas[0].value
    elif dial is not None:
        area_m2 = _bare_area(figures, dial)
    if area_m2 is None and length_m is None:
        return None
    setting = dial.value if dial is not None and dial.kind == "bare" and dial.value > 0 else None
    return RunSaid(masses[0].value, area_m2, length_m, setting, _said_half(text))


def _bare_area(figures: list[Figure], dial: Figure) -> float | None:
    bare = [each for each in figures if each.kind == "bare" and each is not dial]
    is_area = len(bare) == 1 and bare[0].value >= LEAST_BARE_SQ_FT
    return to_si(bare[0].value, "sq ft") if is_area else None


def _pans(text: str, figures: list[Figure]) -> PansSaid:
    masses, areas = of_kind(figures, "mass"), of_kind(figures, "area")
    catches = [f for f in figures if f.kind == "bare"] + masses
    area = areas[0].value if areas else None
    if len(catches) == 1 and masses:
        return PansSaid((masses[0].value,), 0.0, area, is_mean=True)
    spacing = near(text, figures, _says("apart"), is_before=True)
    apart_m = spacing.value if spacing and spacing.kind == "length" else to_si(1.0, "ft")
    factor = si_factor(masses[-1].unit) if masses else 0.001
    ordered = sorted(catches, key=lambda figure: figure.start)
    values = tuple(f.value if f.kind == "mass" else f.value * factor for f in ordered)
    runs = _says("runs").first(text)
    times = max(int(runs["count"]), 1) if runs is not None else 1
    return PansSaid(values, apart_m, area, times, is_weighed=bool(masses))


def _cups(text: str, figures: list[Figure]) -> CupSaid | CupsAsked | None:
    is_spoon = _says("spoons").first(text) is not None
    masses = of_kind(figures, "mass")
    if not is_spoon and len(masses) == 1 and masses[0].value > 0:
        return CupSaid(masses[0].value)
    return None if figures and not is_spoon and not masses else CupsAsked(is_spoon)


def _swath(text: str, figures: list[Figure]) -> SwathSaid | None:
    lengths, areas = of_kind(figures, "length"), of_kind(figures, "area")
    if len(lengths) != 1 or lengths[0].value <= 0 or "128" in text:
        return None
    area_m2 = areas[0].value if areas and areas[0].value > 0 else None
    said = CourseAsked if _says("course").first(text) else SwathSaid
    return said(lengths[0].value, area_m2)


def _said_half(text: str) -> Half:
    if _says("half").first(text):
        return True
    return False if _says("full").first(text) else None


FORMS: Final = (
    saying("ask_spreader", "spreader.show", SpreaderAsked()),
    saying("ask_spreader", "spreader.tries", TriesAsked()),
    Form("ask_spreader", read_asked),
    Form("set_spreader", read_set),
)
