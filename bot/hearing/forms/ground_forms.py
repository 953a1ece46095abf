"""Zones renamed, split and merged: ``rename front to north``, ``merge side and front``."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import partial
from typing import Final, TypeAlias

from bot.hearing.forms.form import Form
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import fold, phrases
from bot.hearing.readers.sizes import read_zones
from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import fraction_of

_says: Final = partial(phrases, "ground")
_LONGEST_NAME: Final = 4
#: Figures that no name holds.
_SIGNS: Final = re.compile(r"[%\d]{3}")


@dataclass(frozen=True)
class RenameSaid:
    """A zone that is to be called otherwise."""

    zone: str
    name: str


@dataclass(frozen=True)
class PieceSaid:
    """A part a zone is split into: its name, its size in our writing [m²] or its share of it."""

    name: str | None = None
    area_m2: float | None = None
    share: float | None = None


@dataclass(frozen=True)
class SplitSaid:
    """A zone that is to be split; without sizes it is asked how large the parts are."""

    zone: str
    pieces: tuple[PieceSaid, ...] = ()


@dataclass(frozen=True)
class MergeSaid:
    """Zones that are to be one; `name` is None where none was said."""

    zones: tuple[str, ...]
    name: str | None = None


@dataclass(frozen=True)
class SideSaid:
    """One side of a zone that is put right: its figure, and the one that it takes the place of."""

    zone: str
    new: str
    old: str


GroundSaid: TypeAlias = RenameSaid | SplitSaid | MergeSaid


#: What is renamed, split or merged is said in fewer letters.
_LONGEST: Final = 300


def read_rename(text: str, scene: Scene) -> Slots | None:
    """Read ``rename front to north``, ``call the front north``; None for other texts."""
    if len(text) > _LONGEST:
        return None
    said = _without_end(text)
    renamed = _says("rename").whole(said)
    found = renamed or _says("renamed").whole(said)
    name = None if found is None else _name(found["name"], is_sure=renamed is not None)
    if found is not None and name is not None:
        zone = _one(scene, found["zone"])
        strange = None if zone or renamed is None else _stranger(scene, found["zone"])
        if zone is not None:
            return Slots(zones=(zone,), read=RenameSaid(zone, name))
        if strange is not None:
            return Slots(strangers=(strange,), read=RenameSaid(strange, name))
    call = _says("call").whole(said)
    return None if call is None else _called(call["both"], scene)


def _stranger(scene: Scene, said: str) -> str | None:
    """Return words that seem to be for ground, and are for no zone and no yard there is."""
    words = said.strip(" \"'").casefold()
    named, is_all, _ = find_names(scene.zones, words)
    is_yard = any(words in yard.casefold() for yard in scene.yards) or _says("a_yard").first(words)
    is_long = len(words.split()) > _LONGEST_NAME
    is_ground = scene.zones and words and not (named or is_all or is_yard or is_long)
    return words if is_ground else None


def _called(both: str, scene: Scene) -> Slots | None:
    for zone in sorted(scene.zones, key=len, reverse=True):
        if not fold(both).startswith(f"{fold(zone)} "):
            continue
        rest = both[len(zone) :].strip()
        more = _says("after_zone").at_start(rest)
        name = _name(rest if more is None else more.after)
        if name is not None:
            return Slots(zones=(zone,), read=RenameSaid(zone, name))
    return None


def read_split(text: str, scene: Scene) -> Slots | None:
    """Read ``split the back into play area 20x30 and the rest``; None for other texts."""
    if len(text) > _LONGEST or "?" in text:
        return None
    said = text.strip(" .!")
    split = _says("split").whole(said)
    found = split or _says("are_parts").whole(said)
    if found is None:
        return None
    zone, how = _one(scene, found["zone"]), found["how"]
    if zone is None:
        is_split = split is not None and _says("surely_split").first(said)
        strange = _stranger(scene, found["zone"]) if is_split else None
        return Slots(strangers=(strange,), read=SplitSaid(strange)) if strange else None
    if _says("halves").whole(how):
        return _slots(zone, (PieceSaid(share=0.5), PieceSaid(share=0.5)))
    named = _says("named_halves").whole(how)
    if named is not None:
        names = [_name(each) for each in _each(_says("half").without(named["names"]))]
        is_fit = len(names) > 1 and None not in names
        return _slots(zone, [PieceSaid(n, share=1 / len(names)) for n in names]) if is_fit else None
    if _says("no_sizes").whole(how):
        return _slots(zone, ())
    into = _says("into").at_start(how)
    pieces = _pieces(how if into is None else into.after, scene)
    return None if pieces is None else _slots(zone, pieces)


def read_merge(text: str, scene: Scene) -> Slots | None:
    """Read ``merge side and front into sunny``; None for other texts."""
    if len(text) > _LONGEST or "?" in text:
        return None
    said = _without_end(text)
    merge = _says("merge").whole(said)
    found = merge or _says("merged").whole(said)
    if found is None:
        return None
    zones, is_all, rest = find_names(scene.zones, found["these"])
    if is_all:
        zones = scene.zones
    name: str | None = found["name"].strip() or None
    into = None if name is None else _one(scene, name)
    if into is not None:
        zones, name = tuple(z for z in scene.zones if z in (*zones, into)), into
    elif name is not None:
        name = _name(name)
        if name is None:
            return None
    is_more = bool(_says("beside").without(rest).strip())
    strange = tuple(each for part in _each(rest) if (each := _stranger(scene, part)))
    if merge is not None and strange and is_more:
        return Slots(zones=zones, strangers=strange, read=MergeSaid(zones, name))
    if len(zones) < 2 or is_more:
        return None
    return Slots(zones=zones, read=MergeSaid(zones, name))


def read_side(text: str, scene: Scene) -> Slots | None:
    """Read ``the front is 75, not 70``; None for other texts, and where no zone is named."""
    said = _says("side").whole(text.strip(" .!")) if len(text) <= _LONGEST else None
    zones = () if said is None else find_names(scene.zones, said["zone"])[0]
    if said is None or len(zones) != 1:
        return None
    return Slots(zones=zones, read=SideSaid(zones[0], said["new"], said["old"]))


def _slots(zone: str, pieces: Sequence[PieceSaid]) -> Slots:
    return Slots(zones=(zone,), read=SplitSaid(zone, tuple(pieces)))


def _one(scene: Scene, said: str) -> str | None:
    """Return the one zone that words name and nothing beside."""
    named, _, rest = find_names(scene.zones, said.strip(" \"'"))
    return named[0] if len(named) == 1 and not rest else None


def _without_end(text: str) -> str:
    """Return a text without the courtesies at its end."""
    said = text.strip(" .,!")
    while (end := _says("after_name").at_end(said)) is not None:
        said = end.before.rstrip(" .,!")
    return said


def _name(said: str, *, is_sure: bool = False) -> str | None:
    """Return a name without what stands around it; None for what is none.

    Behind a sure "rename" it may be a yard: "dog yard".
    """
    name = _without_end(said).strip(" \"'“”‘’.,!")
    before = _says("before_name").at_start(name)
    name = name if before is None else before.after.strip()
    words = _says("ground_word").without(name) if is_sure else name
    is_sentence = "?" in name or _SIGNS.search(name) or _says("no_name").first(words)
    return None if not name or len(name.split()) > _LONGEST_NAME or is_sentence else name


def _each(said: str) -> list[str]:
    """Return the parts of a list."""
    parts = re.split("[,;&+]", _says("and").without(said, ","))
    return [part.strip() for part in parts if part.strip()]


def _pieces(said: str, scene: Scene) -> tuple[PieceSaid, ...] | None:
    found = [_piece(each, scene) for each in _each(said)]
    if len(found) < 2 or any(each is None for each in found):
        return None
    return tuple(each for each in found if each is not None)


def _piece(said: str, scene: Scene) -> PieceSaid | None:
    """Read ``play area 20x30``, ``a third upper``, ``the rest``, ``lower``."""
    left = _says("left_over").whole(said)
    if left is not None:
        return PieceSaid(_name(left["name"]) if left["name"] else None)
    if _says("sized").first(said.replace("*", "x")):
        read = read_zones(said, scene.length_unit, scene.pace_m)
        if len(read.zones) != 1 or read.questions:
            return None
        return PieceSaid(read.zones[0].name, read.zones[0].area_m2)
    share = fraction_of(said)
    if share is not None:
        words = _says("share").without(said)
        return PieceSaid(_name(re.sub(r"[\d/%]+", " ", words)), share=share)
    name = _name(said)
    return None if name is None else PieceSaid(name)


FORMS: Final = (
    Form("measure", read_side, is_sure=True),
    Form("measure", read_rename, is_sure=True),
    Form("measure", read_split, is_sure=True),
    Form("measure", read_merge, is_sure=True),
)
