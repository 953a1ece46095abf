"""The emergence clock: when weeds come up, by degree-days and by thresholds of soil and air.

The clock that decides is smooth crabgrass on soil at 5 cm: degree-days over 12 °C from 1 March, 42
for the first visible seedlings (Fidanza, Dernoeden & Zhang 1996, Crop Sci. 36:990-996). They
counted at 2.5 cm; at 5 cm the daily mean runs some 0.5 °C cooler in spring (from memory), about
three days late, which is the wrong side: lean early. Every constant stands in ``weeds.toml`` with
its source and certainty.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any, Final, Literal

from jobs.agronomy import tables
from jobs.agronomy.outlook import Outlook
from jobs.agronomy.readout import DateQuantiles, crossings, degree_days_reaches
from jobs.agronomy.units import c_from_f

MonthDay = tuple[int, int]
Rule = Literal["degree_days", "soil_rising", "soil_falling"]

#: The weed the clock of the season runs by.
LEADING_WEED: Final = "smooth_crabgrass"


@dataclass(frozen=True, slots=True)
class Stage:
    """A stage of emergence: reached at ``at`` (degree-days [°C d], or soil temperature [°C])."""

    name: str
    at: float


@dataclass(frozen=True, slots=True)
class Weed:
    """How one weed's emergence is told.

    ``base_c`` and ``count_from`` are None for rules on soil temperature.
    """

    name: str
    rule: Rule
    base_c: float | None
    count_from: MonthDay | None
    stages: tuple[Stage, ...]
    source: str
    certainty: str


@cache
def weeds() -> dict[str, Weed]:
    """Return every weed of the table by name. Treat as read-only: it is shared."""
    table = tables.load("weeds")
    return {
        name: _weed(name, row)
        for season in ("summer", "winter")
        for name, row in table[season].items()
    }


def emergence(
    outlook: Outlook,
    weed: str = LEADING_WEED,
    stage: str | None = None,
    *,
    count_from: MonthDay | None = None,
) -> DateQuantiles:
    """Return when a weed reaches a stage.

    Parameters
    ----------
    outlook
        The outlook.
    weed
        Name in the table.
    stage
        Name of the stage; default: the first one of the weed (``"heads_up"`` for annual
        bluegrass).
    count_from
        Month and day degree-days are counted from; default: the weed's own (1 March). See
        `count_start` for mild winters.

    Raises
    ------
    KeyError
        If there is no such weed or stage.
    """
    return emergences([outlook], [count_from], weed, stage)[0]


def emergences(
    outlooks: Sequence[Outlook],
    counts_from: Sequence[MonthDay | None],
    weed: str = LEADING_WEED,
    stage: str | None = None,
) -> list[DateQuantiles]:
    """Return when a weed reaches a stage at each place, as `emergence`."""
    row = weeds()[weed]
    by_name = {s.name: s for s in row.stages}
    wanted = row.stages[0] if stage is None else by_name[stage]
    base_c = row.base_c
    if base_c is None:
        return crossings(outlooks, wanted.at, "rising" if row.rule == "soil_rising" else "falling")
    alike: dict[date, list[int]] = {}
    for place, (outlook, count_from) in enumerate(zip(outlooks, counts_from, strict=True)):
        start = count_from or row.count_from or (3, 1)
        alike.setdefault(date(outlook.spring_year, *start), []).append(place)
    found: dict[int, DateQuantiles] = {}
    for since, places in alike.items():
        part = [outlooks[place] for place in places]
        read = degree_days_reaches(part, base_c, wanted.at, since)
        found.update(zip(places, read, strict=True))
    return [found[place] for place in range(len(outlooks))]


def _weed(name: str, row: dict[str, Any]) -> Weed:
    stages_ = tuple(
        Stage(s["name"], s["degree_days"] if "degree_days" in s else c_from_f(s["soil_f"]))
        for s in row["stages"]
    )
    start = row.get("count_from")
    return Weed(
        name=name,
        rule=row["rule"],
        base_c=row.get("base_c"),
        count_from=None if start is None else (start[0], start[1]),
        stages=stages_,
        source=row["source"],
        certainty=row["certainty"],
    )
