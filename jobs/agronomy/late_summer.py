"""Annual bluegrass in late summer: when its seed comes up, and when to be told.

It follows moisture more than heat, so every date here is rough. Where the soil never gets warm
enough to fall through 70 °F, the regional date stands in. The window opens by the soil, weeks
before it is expected to have fallen through 70 °F, or by a published date of the region, whichever
is first; the heads-up comes before that.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from typing import Final

from jobs.agronomy.climatology import Climate
from jobs.agronomy.outlook import Outlook
from jobs.agronomy.readout import DateQuantiles, crossings
from jobs.agronomy.units import c_from_f

#: Soil falling through this brings the seed up: common practice, no primary source [°C].
EVENT_C: Final = c_from_f(70.0)

#: The heads-up comes as soil falls through this: our inference from the regional dates [°C].
HEADS_UP_C: Final = c_from_f(75.0)

#: A place has to be this much warmer than the event in the mean year for the fall to mean
#: anything [°C]. An inference, no source.
_CLEARLY_C: Final = 0.5

#: Emergence begins in August (Kaminski & Dernoeden 2007, Crop Sci. 47:775-781, published): a cool
#: spell before is none.
_NOT_BEFORE: Final = (8, 1)

#: From the regional date for applying to the event, and from the heads-up to that date [days].
_LEAD_DAYS: Final = 14

#: Before a published date the window opens this long, or on the first day of a published span; the
#: last call comes this long before the date, the heads-up this long before the window [days].
#: Inferences: two weeks to find a day that suits, ten days to buy.
_OPENS_BEFORE_DAYS: Final = 14
_LAST_CALL_DAYS: Final = 5
_HEADS_UP_BEFORE_DAYS: Final = 10


@dataclass(frozen=True, slots=True)
class AutumnDate:
    """A region's date by which to apply against annual bluegrass; ``first`` where a span is given.

    Attributes
    ----------
    region
        Its name.
    first, last
        Month and day.
    source, certainty
        Of the dates; the region's outline is always ours, from memory.
    """

    region: str
    first: tuple[int, int] | None
    last: tuple[int, int]
    source: str
    certainty: str

    @property
    def is_published(self) -> bool:
        """Whether a publication gives the date; if not, it opens no window by itself."""
        return self.certainty == "published"

    def opens_on(self, year: int) -> date:
        """Return the (northern) day from which the round may be put down by this date."""
        if self.first is not None:
            return date(year, *self.first)
        return date(year, *self.last) - timedelta(days=_OPENS_BEFORE_DAYS)

    def last_call_on(self, year: int) -> date:
        """Return the (northern) day of the last call before this date."""
        return date(year, *self.last) - timedelta(days=_LAST_CALL_DAYS)


_GEORGIA: Final = "T. R. Murphy, Univ. of Georgia lecture notes"

#: South, west, north, east and the date; the first that holds the point counts.
_REGIONS: Final = (
    (
        (33.0, -94.6, 36.5, -89.6),
        AutumnDate("Arkansas", None, (8, 15), "Univ. of Arkansas Extension 2009", "published"),
    ),
    (
        (34.0, -85.6, 35.0, -82.9),
        AutumnDate("northern Georgia", (8, 25), (9, 15), _GEORGIA, "published"),
    ),
    (
        (32.6, -85.6, 34.0, -81.5),
        AutumnDate("the Georgia Piedmont", None, (9, 20), _GEORGIA, "published"),
    ),
    (
        (30.3, -85.6, 32.6, -80.8),
        AutumnDate("southern Georgia", (9, 15), (10, 15), _GEORGIA, "published"),
    ),
)

#: Anywhere else: between first emergence in August and its peak from late September (Kaminski &
#: Dernoeden 2007); an inference.
ELSEWHERE: Final = AutumnDate(
    "regions without a published date",
    None,
    (9, 1),
    "between first emergence in August and its peak (Kaminski & Dernoeden 2007)",
    "inference",
)


def autumn_date(lat: float, lon: float) -> AutumnDate:
    """Return the date by which to apply around a point."""
    for (south, west, north, east), found in _REGIONS:
        if south <= lat < north and west <= lon < east:
            return found
    return ELSEWHERE


@dataclass(frozen=True, slots=True)
class LateSummer:
    """When annual bluegrass begins to come up, and when to be told to get ready (northern days).

    Attributes
    ----------
    event
        Soil falling through 70 °F from August on; in cool summers two weeks after the regional date
        for applying.
    heads_up_on
        75 °F falling, or the region's date, whichever is first; ten days before a published date
        opens the window, two weeks before a date of ours.
    """

    event: DateQuantiles
    heads_up_on: date


def late_summers(
    climates: Sequence[Climate], outlooks: Sequence[Outlook], points: Sequence[tuple[float, float]]
) -> list[LateSummer]:
    """Return the late summer of places, given by latitude and longitude."""
    found: list[LateSummer | None] = [None] * len(points)
    by_year: dict[int, list[int]] = {}
    for place, outlook in enumerate(outlooks):
        by_year.setdefault(outlook.issued.year, []).append(place)
    for year, places in by_year.items():
        part, since = [outlooks[place] for place in places], date(year, *_NOT_BEFORE)
        events = crossings(part, EVENT_C, "falling", since=since)
        heads_ups = crossings(part, HEADS_UP_C, "falling", since=since)
        for place, event, heads_up in zip(places, events, heads_ups, strict=True):
            region, warmest_c = autumn_date(*points[place]), float(climates[place].mean_c.max())
            if warmest_c < EVENT_C + _CLEARLY_C:
                day = date(year, *region.last) + timedelta(days=_LEAD_DAYS)
                event = DateQuantiles(day, day, day, 1.0, day)
            if region.is_published:
                told_on = region.opens_on(year) - timedelta(days=_HEADS_UP_BEFORE_DAYS)
            else:
                told_on = date(year, *region.last) - timedelta(days=_LEAD_DAYS)
            if warmest_c >= HEADS_UP_C + _CLEARLY_C and heads_up.p50 is not None:
                told_on = min(told_on, heads_up.p50)
            found[place] = LateSummer(event, told_on)
    return [each for each in found if each is not None]
