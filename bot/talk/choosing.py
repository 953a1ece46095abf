"""Which product: what an ingredient does on which grass, before anything is bought."""

from __future__ import annotations

from typing import Final

from bot.dialogue.talk import Talk
from bot.hearing.heard import ActHeard
from bot.saying.plants import say_grass, say_ingredient
from bot.saying.values import Names
from bot.turn import Reply
from jobs.agronomy.ingredient_facts import Ingredient
from jobs.agronomy.ingredients import find_ingredient, ingredients, stops
from jobs.agronomy.turf import find_species, turf_species
from storage.yards import YardRecord

#: Only these are called pre-emergents for crabgrass here; the table has others for broad leaves.
_KIND: Final = "pre"
_NOT_FOR_GRASS: Final = frozenset({"isoxaben"})


def on_ask_product(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Reply]:
    """Say which ingredients fit the grass, or what there is to say of the one named."""
    grasses = _grasses(talk, yard, heard)
    named = _named(talk, yard, heard)
    lines = [_about(talk, item, grasses) for item in named] or _list(talk, grasses)
    if not grasses:
        lines.append(talk.say("choosing.which_grass"))
    lines.append(talk.say("choosing.law"))
    buttons = () if yard is None else talk.row(("buying.button_buy", f"buy:show:{yard.id}"))
    return [Reply("\n".join(lines), buttons)]


def _named(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[Ingredient]:
    """Return the ingredient named, else those of the yard's product; none while there is none."""
    if heard.slots.product is not None:
        key = find_ingredient(heard.slots.product).found or heard.slots.product
        return [ingredients()[key]] if key in ingredients() else []
    if yard is None or yard.product_id is None or heard.slots.grass is not None:
        return []
    names = talk.standing(yard).label.ingredient_names
    return [ingredients()[name] for name in names if name in ingredients()]


def _grasses(talk: Talk, yard: YardRecord | None, heard: ActHeard) -> list[str]:
    """Return the keys of the grass asked about, else of the yard's zones."""
    if heard.slots.grass is not None:
        key = find_species(heard.slots.grass).found or heard.slots.grass
        return [key] if key in turf_species() else []
    if yard is None:
        return []
    kept = [zone.grass for zone in talk.standing(yard).zones]
    return list(dict.fromkeys(key for key in kept if key in turf_species()))


def _about(talk: Talk, item: Ingredient, grasses: list[str], *, is_listed: bool = False) -> str:
    name = say_ingredient(item.key)
    if item.kind != _KIND or item.key in _NOT_FOR_GRASS:
        return talk.say("choosing.no_pre", name=name)
    parts = [_lasts(talk, item)]
    if item.early_post is not None and item.early_post.value:
        parts.append(talk.say("choosing.early_post"))
    if item.key in _BESIDE_SEED:
        parts.append(talk.say("choosing.beside_seed"))
    # While nobody has said which grass it is, all that it can hurt are named.
    harmed = [grass for grass in grasses or turf_species() if _harms(item, grass)]
    if harmed:
        parts.append(talk.say("choosing.harms", grasses=_say_grasses(harmed)))
    elif grasses and not is_listed:
        parts.append(talk.say("choosing.fits", grasses=_say_grasses(grasses)))
    parts += [talk.say(f"choosing.{note}") for note in _notes(item, grasses)]
    if not _is_for_homes(item):
        parts.append(talk.say("choosing.not_for_homes"))
    return talk.say("choosing.one", name=name, facts=" ".join(parts))


#: What labels let go down beside new seed of some grasses (labels and trials, by the table).
_BESIDE_SEED: Final = ("siduron", "mesotrione")


def _list(talk: Talk, grasses: list[str]) -> list[str]:
    """Return the ingredients for home lawns that harm none of the grasses, longest first."""
    fitting = [
        item
        for key, item in ingredients().items()
        if item.kind == _KIND and key not in _NOT_FOR_GRASS and _is_for_homes(item)
    ]
    if grasses:
        fitting = [item for item in fitting if not any(_harms(item, each) for each in grasses)]
    fitting.sort(key=lambda item: -_weeks(item)[1])
    head = "choosing.head" if grasses else "choosing.head_any"
    shown = fitting[:_MOST]
    return [
        talk.say(head, grasses=_say_grasses(grasses)),
        *(_about(talk, item, grasses, is_listed=True) for item in shown),
    ]


#: Ingredients listed at most.
_MOST: Final = 5


def _lasts(talk: Talk, item: Ingredient) -> str:
    low, high = _weeks(item)
    if not high:
        return talk.say("choosing.lasts_unknown")
    return talk.say("choosing.lasts", low=round(low), high=round(high))


def _weeks(item: Ingredient) -> tuple[float, float]:
    """Return the weeks of control the trade gives, over all rates; zeros where it gives none."""
    if not item.control:
        return 0.0, 0.0
    return min(c.low_weeks for c in item.control), max(c.high_weeks for c in item.control)


def _harms(item: Ingredient, grass: str) -> bool:
    return any(stop.reason == "harms_turf" for stop in stops(item, grass))


#: Notes of the table that are about a grass, with the grasses.
_NOTES: Final = {
    "some_fine_fescues": ("fine_fescue",),
    "check_st_augustine_and_centipede": ("st_augustinegrass", "centipedegrass"),
}


def _notes(item: Ingredient, grasses: list[str]) -> list[str]:
    """Return the notes of an ingredient that concern one of the grasses."""
    notes = [harm.note for harm in item.harms if harm.note in _NOTES]
    return [note for note in notes if set(_NOTES[note]) & set(grasses or turf_species())]


def _is_for_homes(item: Ingredient) -> bool:
    may = item.residential is None or item.residential.value
    return may and not (item.certified_only is not None and item.certified_only.value)


def _say_grasses(keys: list[str]) -> Names:
    return Names([say_grass(key) for key in keys])


HANDLERS: Final = {"ask_product": on_ask_product}
