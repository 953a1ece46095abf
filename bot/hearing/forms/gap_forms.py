"""A part that got nothing, in short: ``ran out half way on the front``, ``missed 2 ft x 60 ft``."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, Final

from bot.hearing import guards
from bot.hearing.forms.form import Form, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.names_heard import Names, as_kept
from bot.hearing.normal import normal
from bot.hearing.phrases import Said, phrases
from bot.hearing.readers.measures import Figure, of_kind, read_figures
from bot.hearing.readers.spoken import spoken
from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import PartSaid, find_parts
from jobs.agronomy.spreader import Pass

_says: Final = partial(phrases, "gap")
_PASSES: Final[tuple[Pass, ...]] = ("one", "first", "second")
#: What is missed between two passes is no wider than spreaders throw (common practice, no source).
_WIDEST_STRIPE_M: Final = 5.0
#: A typed answer to which pass it was is no longer than this.
_MOST_WORDS: Final = 6


#: A length without its unit is in the person's own [m].
_LENGTHS: Final = {"ft": 0.3048, "m": 1.0}


@dataclass(frozen=True)
class RanOutSaid:
    """The hopper ran out: what was in it [kg], in which pass; how far it went is in the slots."""

    used_kg: float | None = None
    in_pass: Pass | None = None


@dataclass(frozen=True)
class PassSaid:
    """Which pass it was."""

    in_pass: Pass


@dataclass(frozen=True)
class StripeSaid:
    """A stripe that was missed: its width and length [m]; the length where it was said."""

    width_m: float
    length_m: float | None = None


def by_kept_names(text: str, scene: Scene) -> tuple[str, tuple[str, ...]]:
    """Return a text in kept names, and these, where it calls zones by words of its language."""
    form = normal(text, scene.language)
    found = [
        (start, end, names[0])
        for kind, start, end, names in Names(scene.zones).find(form.text, form.language)
        if kind == "zone" and names is not None and len(names) == 1
    ]
    return as_kept(form.text, found), tuple(dict.fromkeys(name for _, _, name in found))


def read_gap(text: str, scene: Scene) -> Slots | None:
    """Read ``ran out half way on the front``, ``missed a stripe 2 ft x 60 ft``, a pass."""
    if text.rstrip().endswith("?"):
        return None
    typed = spoken(text)
    pending = scene.pending
    is_asked = scene.asked == "report_gap" and not guards.is_asked(text)
    if is_asked:
        bare = tidied(text.casefold(), " ?.!")
        in_pass = pass_of(f"{bare} pass" if len(bare.split()) == 1 else bare)
        if in_pass is not None and len(bare.split()) <= _MOST_WORDS and not _ran_out(typed):
            return Slots(read=PassSaid(in_pass))
    draft = None if pending is None else pending.draft
    answer = _answer(typed, draft, scene) if is_asked and draft else None
    if answer is not None or _ran_out_before(text, scene) is not None:
        return answer
    named, is_all, _ = find_names(scene.zones, typed)
    if _ran_out(typed):
        said = ran_out_said(typed)
        if not named:
            typed, named = by_kept_names(text, scene)
        parts = find_parts(scene.zones, typed)
        return Slots(zones=named, all_zones=is_all, parts=parts, read=said)
    is_missed = is_asked and not (draft and {"zone", "slip"} & draft.keys())
    stripe = _stripe(typed, scene) if is_missed or _says("missed").first(typed) else None
    if stripe is not None:
        return Slots(zones=named, all_zones=is_all, read=stripe)
    parts = find_parts(scene.zones, typed) if is_missed else ()
    left = tuple(replace(part, is_left=True) for part in parts if not part.is_open)
    return Slots(zones=named, parts=left) if left else None


def _stripe(typed: str, scene: Scene) -> StripeSaid | None:
    """Read the stripe that a text tells of: ``2 ft x 60 ft``, ``2 ft wide``."""
    lengths = of_kind(read_figures(typed), "length") or _bare_sides(typed, scene)
    if not 1 <= len(lengths) <= 2 or lengths[0].value <= 0:
        return None
    if len(lengths) == 1:
        is_wide = _says("wide").at_start(typed[lengths[0].end :].lstrip()) is not None
        return StripeSaid(lengths[0].value) if is_wide else None
    width, length = sorted(each.value for each in lengths)
    return StripeSaid(width, length)


def _answer(typed: str, draft: Mapping[str, Any], scene: Scene) -> Slots | None:
    """Read how far it went, of which zone, from how much; what was said of it before is `draft`."""
    if "width_m" in draft:
        lengths = of_kind(read_figures(typed), "length", "bare")
        if len(lengths) != 1:
            return None
        unit = scene.length_unit if lengths[0].kind == "bare" else "m"
        stripe = StripeSaid(float(draft["width_m"]), lengths[0].value * _LENGTHS.get(unit, 1.0))
        return Slots(zones=tuple(draft["zones"]), read=stripe)
    if "zone" not in draft:
        return None
    names = (str(draft["zone"]),) if draft["zone"] else scene.zones
    parts, figures = find_parts(names, typed), read_figures(typed)
    named, _, rest = find_names(names, typed)
    used = figures[0].value if [each.kind for each in figures] == ["mass"] else None
    is_part = bool(parts) and not parts[0].is_open
    if not is_part and (used is None or len(typed.split()) > _MOST_WORDS) and (rest or not named):
        return None
    zones = names if draft["zone"] else named
    if not is_part and draft.get("share") and len(zones) == 1:
        parts = (PartSaid(zones[0], draft["share"]),)
    return Slots(
        zones=zones, parts=parts, read=RanOutSaid(used or draft["used_kg"], draft["in_pass"])
    )


def _bare_sides(typed: str, scene: Scene) -> list[Figure]:
    """Return the two sides of "like 3 by 60" in the person's own unit, where that is known."""
    sides = _says("sides").first(typed)
    if sides is None or not scene.length_unit:
        return []
    unit = scene.length_unit
    figures = read_figures(f"{sides['a']} {unit} {sides['b']} {unit}")
    lengths = of_kind(figures, "length")
    narrow_m = min((each.value for each in lengths), default=0.0)
    return lengths if narrow_m <= _WIDEST_STRIPE_M else []


def read_before(text: str, scene: Scene, *, is_done: bool) -> Slots | None:
    """Read ``put it on the front, ran out before the back``: what comes before that `is_done`.

    Where nothing does, such as in ``ran out before the back``, that is not done, and nothing is
    said of the others.
    """
    covered, unreached = _ran_out_before(text, scene) or ((), ())
    zones = covered if is_done else unreached
    return Slots(zones=zones) if zones and bool(covered) == is_done else None


def _ran_out_before(text: str, scene: Scene) -> tuple[tuple[str, ...], tuple[str, ...]] | None:
    """Return the zones covered and those not reached, where a hopper ran out between zones."""
    typed = spoken(text)
    if _ran_out(typed) and not find_names(scene.zones, typed)[0]:
        typed, _ = by_kept_names(text, scene)
    ran_out = _ran_out(typed)
    before = None if ran_out is None else _says("before").first(ran_out.after)
    if ran_out is None or before is None or find_parts(scene.zones, typed):
        return None
    unreached, _, _ = find_names(scene.zones, before.after)
    covered, is_all, _ = find_names(scene.zones, ran_out.before)
    if not unreached or is_all or set(unreached) & set(covered) or read_figures(typed):
        return None
    return covered, unreached


def is_gap(text: str) -> bool:
    """Tell whether words of a gap stand in a text."""
    return any(_says(name).first(text) is not None for name in ("ran_out", "empty", "missed"))


def ran_out_said(typed: str) -> RanOutSaid | None:
    """Return what a text says of a hopper that ran out; None where it says nothing of one."""
    if not _ran_out(typed) and not _says("empty").first(typed):
        return None
    masses = of_kind(read_figures(typed), "mass")
    return RanOutSaid(masses[0].value if masses else None, pass_of(typed))


def pass_of(text: str) -> Pass | None:
    """Return the pass a text names, only with the word itself: a zone may be "first lawn"."""
    return next((each for each in _PASSES if _says(f"pass_{each}").first(text)), None)


def _ran_out(text: str) -> Said | None:
    """Return where a hopper is said to have run out: of nothing else, such as of daylight."""
    found = _says("ran_out").every(text)
    return next((e for e in found if not _says("of_other").at_start(e.after.lstrip())), None)


FORMS: Final = (
    Form("report_gap", read_gap),
    Form("report_applied", partial(read_before, is_done=True)),
    Form("report_not_done", partial(read_before, is_done=False)),
)
