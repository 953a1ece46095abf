"""Spreaders in short: ``4.2 lb over 8 x 150 ft, setting 5``, ``pans 1 ft apart: 0.4 0.9 ... g``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final, TypeAlias

from bot.hearing import guards, words
from bot.hearing.forms.form import Form, saying
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import plain
from bot.hearing.readers.measures import LEAST_BARE_SQ_FT, Figure, near, of_kind, read_figures
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.zone_names import find_names
from jobs.agronomy.units import si_factor, to_si

_says: Final = partial(phrases, "spreader")
#: A figure with so few words goes on with what was said of a machine.
_FEW_WORDS: Final = 6
#: No dial goes so far.
_MOST_OF_DIAL: Final = 100
#: Spreaders throw at least and at most so far [m].
_SWATHS_M: Final = (0.2, 25.0)
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
class DialSaid:
    """Which setting the run before was at."""

    setting: float


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
class HowAsked:
    """How a machine is set and checked, step by step."""


@dataclass(frozen=True)
class TriesAsked:
    """The weighed tries are asked for."""


def read_asked(text: str, scene: Scene) -> Slots | None:
    """Read what is asked of a spreader; None for other texts."""
    read = _spreader(text, scene)
    is_mean = isinstance(read, PansSaid) and (read.is_mean or not read.caught_kg)
    is_asked = isinstance(read, CupsAsked | ScaleAsked | CourseAsked) or is_mean
    return Slots(read=read) if is_asked else None


def read_cups_asked(text: str, scene: Scene) -> Slots | None:
    """Read that amounts are asked for in cups or spoons, of a zone or of each."""
    read = _spreader(text, scene) if guards.is_asked(text) else None
    if not isinstance(read, CupsAsked):
        return None
    return Slots(zones=find_names(scene.zones, text)[0], read=read)


def read_set(text: str, scene: Scene, *, is_sure: bool = False) -> Slots | None:
    """Read what was weighed, caught or measured of a spreader; None for other texts.

    Where it `is_sure` that a text tells of one, its figures say what they are without more words.
    """
    if text.rstrip().endswith("?"):
        return None
    is_next = is_of_machine(text, scene)
    read = _dial(text, is_next=is_next) or _spreader(text, scene, is_sure=is_sure or is_next)
    if isinstance(read, CourseAsked) or not isinstance(
        read, RunSaid | PansSaid | CupSaid | SwathSaid | DialSaid
    ):
        return None
    return Slots(read=read)


def is_of_machine(text: str, scene: Scene) -> bool:
    """Tell whether a figure is of a machine by what was asked or said before: "22 inches"."""
    is_next = scene.pending is None and scene.said_before in ("ask_spreader", "set_spreader")
    is_named = any(words.stands_in(words.bare(zone), words.bare(text)) for zone in scene.zones)
    return scene.asked == "set_spreader" or (
        is_next and len(text.split()) <= _FEW_WORDS and not is_named
    )


def _dial(text: str, *, is_next: bool) -> DialSaid | None:
    said = spoken(plain(text).text).strip(" .!,")
    found = _says("dial_alone").whole(said) if is_next or _says("dial").first(said) else None
    figures = [] if found is None else of_kind(read_figures(found["n"]), "bare")
    is_one = bool(figures) and 0 < figures[0].value < _MOST_OF_DIAL
    return DialSaid(figures[0].value) if is_one else None


def _spreader(text: str, scene: Scene, *, is_sure: bool = False) -> object | None:
    said = spoken(plain(text).text)
    if scene.length_unit:
        said = _says("bare_sides").without(said, lambda sides: f"{sides.it} {scene.length_unit}")
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
    is_hopper = _says("hopper").first(said) is not None
    masses = [] if is_hopper else masses
    is_width = _says("swath").first(said) or _says("course").first(said)
    is_lone = is_sure and not _says("boom").first(said)
    if (is_width or is_lone) and not masses and not of_kind(figures, "flow", "volume"):
        return _swath(said, figures)
    is_other = is_hopper or scene.asked == "enter_product"
    return None if is_other else _run(said, figures, is_sure=is_sure)


def _run(text: str, figures: list[Figure], *, is_sure: bool) -> RunSaid | None:
    masses, lengths = of_kind(figures, "mass"), of_kind(figures, "length")
    areas = of_kind(figures, "area")
    dial = near(text, figures, _says("dial")) or _dial_at(text, figures)
    is_told = is_sure or (_says("run").first(text) and not _says("planned").first(text))
    if len(masses) != 1 or not is_told or _says("not_run").first(text):
        return None
    area_m2 = length_m = None
    if len(lengths) == 2:
        area_m2 = lengths[0].value * lengths[1].value
    elif len(lengths) == 1:
        length_m = lengths[0].value
    elif len(areas) == 1:
        area_m2 = areas[0].value
    elif dial is not None or is_sure:
        area_m2 = _bare_area(figures, dial)
    if area_m2 is None and length_m is None:
        return None
    setting = dial.value if dial is not None and dial.kind == "bare" and dial.value > 0 else None
    return RunSaid(masses[0].value, area_m2, length_m, setting, _said_half(text))


def _dial_at(text: str, figures: list[Figure]) -> Figure | None:
    """Return the figure behind "at", "on" or "to" that is too small for an area."""
    small = [each for each in figures if each.kind == "bare" and each.value < _MOST_OF_DIAL]
    return next((each for each in small if _says("at").at_end(text[: each.start])), None)


def _bare_area(figures: list[Figure], dial: Figure | None) -> float | None:
    bare = [each.value for each in of_kind(figures, "bare") if each is not dial]
    areas = [each for each in bare if each >= LEAST_BARE_SQ_FT]
    return to_si(areas[0], "sq ft") if len(areas) == 1 else None


def _pans(text: str, figures: list[Figure]) -> PansSaid:
    masses, areas = of_kind(figures, "mass"), of_kind(figures, "area")
    dial = near(text, figures, _says("dial"))
    catches = [f for f in figures if f.kind == "bare" and f is not dial] + masses
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
    is_wide = len(lengths) == 1 and _SWATHS_M[0] <= lengths[0].value <= _SWATHS_M[1]
    if not is_wide or "128" in text or _says("long").first(text):
        return None
    area_m2 = areas[0].value if areas and areas[0].value > 0 else None
    said = CourseAsked if _says("course").first(text) else SwathSaid
    return said(lengths[0].value * (2 if _says("each_side").first(text) else 1), area_m2)


def _said_half(text: str) -> Half:
    if _says("half").first(text):
        return True
    return False if _says("full").first(text) else None


FORMS: Final = (
    saying("ask_spreader", "spreader.show", SpreaderAsked()),
    saying("ask_spreader", "spreader.tries", TriesAsked()),
    saying("ask_spreader", "spreader.how", HowAsked(), is_sure=True),
    Form("ask_spreader", read_cups_asked, is_sure=True),
    Form("ask_spreader", read_asked),
    Form("set_spreader", read_set),
)
