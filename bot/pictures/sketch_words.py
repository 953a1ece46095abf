"""From a yard's kept zones to its sketch: units and words."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from bot.pictures.yard_sketch import Sketch, SketchZone
from bot.saying.catalogue import say, shown
from bot.saying.values import Area
from bot.saying.voice import voice
from jobs.agronomy.shape_store import from_json
from storage.yards import ZoneRecord


def sketch(
    yard: str,
    zones: Sequence[ZoneRecord],
    *,
    amounts: Mapping[int, str] | None = None,
    done: Collection[int] = (),
) -> Sketch:
    """Return a yard's sketch; ``amounts`` are finished words, ``done`` what is, by zones' rows."""
    amounts = amounts or {}
    total_m2 = sum(zone.treated_m2 for zone in zones if zone.is_treated)
    left_m2 = sum(zone.treated_m2 for zone in zones if zone.is_treated and zone.id not in done)
    key = "total" if not done else "total_left" if left_m2 else "total_done"
    total = say(
        f"pictures.sketch.{key}", count=len(zones), total=Area(total_m2), left=Area(left_m2)
    )
    return Sketch(
        title=yard,
        total=total if zones else "",
        zones=tuple(
            SketchZone(
                name=zone.name,
                size=_size(zone),
                amount=amounts.get(zone.id),
                shape=from_json(zone.shape),
                is_treated=zone.is_treated,
                is_done=zone.id in done,
                buffer_m2=zone.buffer_m2,
            )
            for zone in zones
        ),
        system=voice().units,
    )


def _size(zone: ZoneRecord) -> str:
    """Return a zone's size; along water, what is treated and what is left as a buffer."""
    if not zone.buffer_m2:
        return shown(Area(zone.area_m2))
    treated, buffer = Area(zone.treated_m2), Area(zone.buffer_m2)
    return say("pictures.sketch.buffered", treated=treated, buffer=buffer)
