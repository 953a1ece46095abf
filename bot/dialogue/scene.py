"""What hearing may know of a turn: the moment, the names at hand and the question that waits."""

from __future__ import annotations

from typing import Final

from bot.dialogue import sizes_waiting, topics
from bot.dialogue.talk import Talk
from bot.hearing.heard import Moment, Pending, Scene
from jobs.agronomy.season import State
from jobs.local_days import is_abroad
from storage.yards import YardRecord


def scene_of(talk: Talk) -> Scene:
    """Return what hearing may know of a turn."""
    yard = talk.yard()
    zones = () if yard is None else tuple(sizes_waiting.areas(talk, yard))
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
        pace_m=talk.person.pace_m,
        said_before=talk.said_before,
        asked_before=talk.asked_before,
        is_abroad=yard is not None and is_abroad(yard.timezone),
    )


def pending_of(talk: Talk) -> Pending | None:
    """Return our question that waits for this person's answer, or None."""
    asked = asked_of(talk)
    if asked is None:
        return None
    is_drafted = talk.topic in topics.DRAFTED
    return Pending(asked.act, asked.expects, draft=dict(talk.data) if is_drafted else None)


def asked_of(talk: Talk) -> topics.Asked | None:
    """Return the question that waits, as the table of topics has it."""
    if talk.topic is None:
        return None
    return topics.asked(talk.topic, str(talk.data.get("awaits", talk.data.get("step", ""))))


#: The moments in which something is called for, or is down.
_MOMENTS: Final[dict[State, Moment]] = {
    State.WINDOW_OPEN: "open",
    State.APPLIED: "applied",
    State.RETREAT_DUE: "due",
}


def _moment(talk: Talk, yard: YardRecord | None, *, has_zones: bool) -> Moment:
    if yard is None:
        return "new"
    if not has_zones:
        return "placed"
    return _MOMENTS.get(talk.state(yard), "ready")


def _ingredients(talk: Talk, yard: YardRecord) -> tuple[str, ...]:
    product = talk.standing(yard).product
    return () if product is None else tuple(part.name for part in product.ingredients)
