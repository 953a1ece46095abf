"""A part that got nothing, in short: ``ran out half way on the front``, ``missed 2 ft x 60 ft``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.readers.measures import of_kind, read_figures
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.zone_names import find_names
from jobs.agronomy.spreader import Pass

_RAN_OUT: Final = re.compile(
    r"\b(?:ran|run|running)\s+out\b|\bse\s+(?:me|nos)\s+acab[oó]\b", re.IGNORECASE
)
_MISSED: Final = re.compile(
    r"\bmiss(?:ed)?\b|\bskipped\b|\bleft\s+out\s+a\b|\bnos?\s+falt[oó]\b", re.IGNORECASE
)
_FRACTIONS: Final = (
    (r"\bhalf|1/2\b|\bmitad\b", 1 / 2),
    (r"\btwo[ -]thirds|2/3\b|\bdos\s+tercios\b", 2 / 3),
    (r"\bthird|1/3\b|\btercio\b", 1 / 3),
    (r"\bthree[ -]quarters|3/4\b|\btres\s+cuartos\b", 3 / 4),
    (r"\bquarter|1/4\b|\bcuarto\b", 1 / 4),
)
_PASSES: Final[tuple[tuple[Pass, str], ...]] = (
    ("one", r"\b(?:one|single)\s+(?:pass|go)\b|\buna\s+(?:sola\s+)?pasada\b"),
    ("first", r"\b(?:first|1st)\s+(?:pass|way|direction)\b|\bprimera(?:\s+pasada)?\b"),
    (
        "second",
        r"\b(?:second|2nd|crosswise|other)\s+(?:pass|way|direction)\b|\bsegunda(?:\s+pasada)?\b",
    ),
)
#: A typed answer to which pass it was is no longer than this.
_MOST_WORDS: Final = 6


@dataclass(frozen=True)
class RanOutSaid:
    """The hopper ran out: the share or area [m²] covered, what was in it [kg], in which pass."""

    share: float | None = None
    area_m2: float | None = None
    used_kg: float | None = None
    in_pass: Pass | None = None


@dataclass(frozen=True)
class PassSaid:
    """Which pass it was."""

    in_pass: Pass


@dataclass(frozen=True)
class StripeSaid:
    """A stripe that was missed: its width and length [m]."""

    width_m: float
    length_m: float


def read_gap(text: str, scene: Scene) -> Slots | None:
    """Read ``ran out half way on the front``, ``missed a stripe 2 ft x 60 ft``, a pass."""
    if text.rstrip().endswith("?"):
        return None
    typed = spoken(text)
    pending = scene.pending
    if pending is not None and pending.kind == "report_gap":
        bare = _typed(text)
        in_pass = pass_of(f"{bare} pass" if len(bare.split()) == 1 else bare)
        if in_pass is not None and len(bare.split()) <= _MOST_WORDS and not _RAN_OUT.search(typed):
            return Slots(read=PassSaid(in_pass))
    named, is_all, _ = find_names(scene.zones, typed)
    figures = read_figures(typed)
    if _RAN_OUT.search(typed):
        areas, masses = of_kind(figures, "area"), of_kind(figures, "mass")
        said = RanOutSaid(
            share=fraction_of(typed),
            area_m2=areas[0].value if areas else None,
            used_kg=masses[0].value if masses else None,
            in_pass=pass_of(typed),
        )
        return Slots(zones=named, all_zones=is_all, read=said)
    lengths = of_kind(figures, "length")
    is_stripe = len(lengths) == 2 and min(each.value for each in lengths) > 0
    if not _MISSED.search(typed) or not is_stripe:
        return None
    width, length = sorted(each.value for each in lengths)
    return Slots(zones=named, all_zones=is_all, read=StripeSaid(width, length))


def fraction_of(text: str) -> float | None:
    """Return the fraction a text names, or None."""
    found = (part for words, part in _FRACTIONS if re.search(words, text, re.IGNORECASE))
    return next(found, None)


def pass_of(text: str) -> Pass | None:
    """Return the pass a text names, only with the word itself: a zone may be "first lawn"."""
    found = (each for each, words in _PASSES if re.search(words, text, re.IGNORECASE))
    return next(found, None)


def _typed(text: str) -> str:
    return " ".join(text.casefold().strip(" ?.!").split())


FORMS: Final = (Form("report_gap", read_gap),)
