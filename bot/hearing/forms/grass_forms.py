"""Zones are not alike, in short: ``front is tall fescue, ditch strip is near water 60 x 25 ft``."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form, saying
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases
from bot.hearing.readers.grass_words import ZoneFact, read_facts, read_grass
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.sizes import Item, ZoneRead, ZonesRead
from bot.hearing.readers.zone_names import find_names
from bot.hearing.stretches import Stretch

_says: Final = partial(phrases, "grass")


@dataclass(frozen=True)
class FactsSaid:
    """What was said of zones, each with the names it was said of (none for the zones asked)."""

    facts: tuple[tuple[ZoneFact, tuple[str, ...]], ...]


def apart_from_sizes(read: ZonesRead) -> tuple[ZonesRead, list[tuple[ZoneFact, tuple[str, ...]]]]:
    """Return sizes without the grass named beside them, and it with the zones it is of.

    ``front 60x40 bermuda``; what comes behind all sizes is of all: ``front 60x40, tall fescue``.
    """
    items: list[Item] = []
    found: list[tuple[ZoneFact, tuple[str, ...]]] = []
    for item in read.items:
        name = item.name if isinstance(item, ZoneRead) else None
        said = words.finder("grasses").search(words.bare(name or ""))
        fact = read_grass(item.said if isinstance(item, Unread) else said.group() if said else "")
        if fact is None or not (fact.grass or fact.grass_candidates):
            items.append(item)
        elif isinstance(item, ZoneRead) and said is not None and name is not None:
            left = " ".join(f"{name[: said.start()]} {name[said.end() :]}".split())
            items.append(replace(item, name=left or None))
            found.append((fact, (left,) if left else ()))
        else:
            here = [each.name for each in items if isinstance(each, ZoneRead) and each.name]
            found.append((fact, tuple(here if item is read.items[-1] else here[-1:])))
    return ZonesRead(tuple(items)), [each for each in found if each[1]]


def read_zone_facts(text: str, scene: Scene) -> Slots | None:
    """Read facts of zones; None for other texts."""
    unit = scene.length_unit
    facts = read_facts(text, unit)
    named = [(fact, _names(fact, scene)) for fact in facts or ()]
    is_whole = bool(named) and all(names for _, names in named)
    if not is_whole and scene.asked == "set_grass":
        known = words.canon("grasses").get(words.bare(text.strip(" .!")), "")
        bare = read_grass(text)
        # Plain "fescue" is asked about, whatever it mostly is.
        if bare is None or (bare.grass is None and len(bare.grass_candidates) < 2):
            bare = read_grass(known.replace("_", " ")) or bare
        if bare is not None:
            return Slots(read=FactsSaid(((bare, ()),)))
    if not is_whole and len(words.finder("grasses").findall(words.bare(text))) > 1:
        # "Front's zoysia, back is bermuda" is cut by its zones.
        return None
    # "Whose lawn it is I have no idea" is about no grass of a zone.
    is_nothing = len(named) == 1 and not named[0][1] and named[0][0].grass in (None, "unknown")
    if not named or is_nothing:
        return None
    return Slots(read=FactsSaid(tuple(named)))


def each_grass(clause: Stretch, scene: Scene) -> FactsSaid | None:
    """Pair grasses with the zones they are of: "fescue up front, bermuda in the back".

    None where fewer than two are named. Whatever is named first leads: zones stand before their
    grass or behind it all through. What is excepted of a first grass has the next.
    """
    told = clause.of("zone", "all", "grass")
    grasses = [span for span in told if span.kind == "grass"]
    if len({span.value for span in grasses}) < 2:
        return None
    of: dict[int, list[str]] = {span.start: [] for span in grasses}
    leads = told if told[0].kind == "grass" else told[::-1]
    at, excepted = leads[0], list[str]()
    for span in leads:
        before = clause.normal.text[clause.start : span.start]
        names = list(span.names or scene.zones)
        if span.kind == "grass":
            at = span
        elif at.kind != "grass" or _says("unsure").at_end(before):
            continue
        elif _says("except").at_end(before):
            excepted = names
            of[at.start] = [name for name in scene.zones if name not in excepted]
        else:
            of[at.start] += [name for name in names if name not in of[at.start]]
    facts = []
    for span in grasses:
        said = clause.normal.traced.original(span.start, span.end)
        fact = read_grass(said) or read_grass(str(span.value).replace("_", " "))
        named = tuple(of[span.start] or excepted)
        if fact is not None and named:
            facts.append((fact, named))
    return FactsSaid(tuple(facts)) if facts else None


def read_named_facts(text: str, scene: Scene) -> Slots | None:
    """Read a statement whose every fact names the zones it is of."""
    slots = None if text.rstrip().endswith("?") else read_zone_facts(text, scene)
    if slots is None or not isinstance(slots.read, FactsSaid):
        return None
    return slots if all(names for _, names in slots.read.facts) else None


def _names(fact: ZoneFact, scene: Scene) -> tuple[str, ...]:
    names, is_all, leftover = find_names(scene.zones, fact.zones)
    if leftover:
        return ()
    return scene.zones if is_all else names


FORMS: Final = (
    saying("set_grass", "grass.asked", may_ask=True),
    Form("set_grass", read_named_facts, is_sure=True),
    Form("set_grass", read_zone_facts),
)
