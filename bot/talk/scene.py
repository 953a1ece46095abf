"""What hearing may know of a turn: the moment, the names at hand and the question that waits."""

from __future__ import annotations

from typing import Any, Final, cast, get_args

from bot.hearing.heard import Moment, Pending, Scene
from bot.talk import applying, grass, products, readings, scouting, screening, seeding, walking
from bot.talk import spreader_slips as slips
from bot.talk import yards as yard_talk
from bot.talk import zones as zone_talk
from bot.talk.talk import Talk
from jobs.agronomy.season import State
from jobs.labels import product_of
from storage import products as product_rows
from storage import yards
from storage.yards import YardRecord

#: What is asked by each topic: the act the question belongs to, and what an answer to it is.
_ASKED: Final[dict[str, tuple[str, tuple[str, ...]]]] = {
    yard_talk.PLACE_TOPIC: ("give_place", ("place",)),
    yard_talk.WHICH_TOPIC: ("give_place", ("place",)),
    yard_talk.MOVE_TOPIC: ("give_place", ()),
    yard_talk.NAME_TOPIC: ("name_yard", ("name",)),
    yard_talk.ZONE_TOPIC: ("set_timing", ("timezone",)),
    yard_talk.LEAD_TOPIC: ("set_timing", ("days", "number")),
    zone_talk.TOPIC: ("measure", ("size", "yes_no")),
    zone_talk.DOUBT_TOPIC: ("measure", ("yes_no", "size")),
    zone_talk.REMOVE_TOPIC: ("remove_zone", ("yes_no",)),
    zone_talk.PACE_TOPIC: ("measure", ("size",)),
    applying.SURE_TOPIC: ("report_applied", ("yes_no",)),
    readings.SURE_TOPIC: ("report_soil", ("yes_no",)),
    walking.TOPIC: ("walk_corners", ("place",)),
    seeding.TOPIC: ("plan_seed", ("day", "grass")),
    scouting.TOPIC: ("report_weeds", ("zone",)),
    screening.TOPIC: ("ask_need", ("yes_no", "free")),
    slips.RAN_OUT_TOPIC: ("report_gap", ("free",)),
    grass.TOPIC: ("set_grass", ("grass",)),
}

#: The same of a product, by the piece of it that is asked for.
_OF_PRODUCT: Final[dict[str, tuple[str, ...]]] = {
    "all": ("ingredient", "rate", "percent"),
    "rate": ("rate",),
    "maximum": ("rate", "amount", "no"),
    "sure": ("yes_no", "rate"),
    "certified": ("yes_no",),
    "period": ("free",),
    "form": ("free",),
    "ingredient": ("ingredient",),
}


def scene_of(talk: Talk) -> Scene:
    """Return what hearing may know of a turn."""
    yard = talk.yard()
    zones = () if yard is None else tuple(z.name for z in yards.zones(talk.work, yard.id))
    return Scene(
        now=talk.now if yard is None else talk.said_at(yard),
        language=talk.chat.language,
        units="metric" if talk.is_metric else "us",
        moment=_moment(talk, yard, has_zones=bool(zones)),
        zones=zones,
        yards=tuple(each.name for each in talk.yards()),
        yard=None if yard is None else yard.name,
        pending=pending_of(talk),
        products=() if yard is None else _ingredients(talk, yard),
    )


def pending_of(talk: Talk) -> Pending | None:
    """Return our question that waits for this person's answer, or None."""
    if talk.topic is None:
        return None
    if talk.topic == products.TOPIC:
        awaits = str(talk.data.get("awaits", "all"))
        return Pending("enter_product", _OF_PRODUCT.get(awaits, ("rate", "ingredient")))
    asked = _ASKED.get(talk.topic)
    return None if asked is None else Pending(*asked)


def _moment(talk: Talk, yard: YardRecord | None, *, has_zones: bool) -> Moment:
    if yard is None:
        return "new"
    if not has_zones:
        return "placed"
    season = talk.season(yard)
    by_state = {
        State.WINDOW_OPEN: "open",
        State.APPLIED: "applied",
        State.RETREAT_DUE: "due",
    }
    state = None if season is None else State(season.state)
    moment: Any = "ready" if state is None else by_state.get(state, "ready")
    assert moment in get_args(Moment)
    return cast(Moment, moment)


def _ingredients(talk: Talk, yard: YardRecord) -> tuple[str, ...]:
    if yard.product_id is None:
        return ()
    product = product_of(product_rows.product(talk.work, yard.product_id))
    return tuple(part.name for part in product.ingredients)
