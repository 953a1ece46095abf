"""The time zone of a place, found offline."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from functools import lru_cache
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError, available_timezones

import tzfpy

#: The year whose rules tell a zone's standard time: one fixed year, so that a place's days are
#: always cut at the same hour, whatever a zone's rules were before or will be.
_REFERENCE_YEAR = 2024


class UnknownZone(ValueError):
    """No time zone has that name."""


def zone_at(lat: float, lon: float) -> str:
    """Return the IANA name of the time zone at a point.

    Parameters
    ----------
    lat, lon
        Degrees north and east.

    Returns
    -------
    str
        A name that `zoneinfo` knows. At sea, and where the packaged map has no answer, the
        nautical zone of the longitude (``Etc/GMT+5`` is five hours *behind* UTC, after POSIX).

    Raises
    ------
    ValueError
        For a point that is not on the globe.
    """
    if not (-90 <= lat <= 90 and -180 <= lon <= 180):
        raise ValueError(f"no place on the globe: {lat}, {lon}")
    name = tzfpy.get_tz(lon, lat)
    return name if name and is_zone(name) else _nautical_zone(lon)


def zone_named(text: str) -> str | None:
    """Return the zone a person means by ``america/chicago`` or ``Chicago``, or None.

    A whole name wins; else the last part of a name, where only one zone ends so.
    """
    wanted = text.strip().replace(" ", "_").casefold()
    names = _names_by_casefold()
    if wanted in names:
        return names[wanted]
    endings = [name for key, name in names.items() if "/" in key and key.endswith(f"/{wanted}")]
    # "posix/..." and "right/..." are not listed by zoneinfo; aliases such as "US/..." are.
    return endings[0] if len(endings) == 1 else None


def is_zone(name: str) -> bool:
    """Return whether `zoneinfo` knows the zone."""
    try:
        ZoneInfo(name)
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return False
    return True


@lru_cache(maxsize=1024)
def standard_offset(zone: str) -> timedelta:
    """Return a zone's offset from UTC in standard time (no summer time).

    The smaller of the offsets on 1 January and 1 July of one reference year: right on both
    hemispheres, and for Ireland, whose law calls its summer time the standard.

    Raises
    ------
    UnknownZone
        When no zone has that name.
    """
    if not is_zone(zone):
        raise UnknownZone(f"no time zone is called {zone!r}")
    offsets = []
    for month in (1, 7):
        at = datetime(_REFERENCE_YEAR, month, 1, tzinfo=UTC).astimezone(ZoneInfo(zone))
        offsets.append(at.utcoffset() or timedelta(0))
    return min(offsets)


def standard_offset_at(lat: float, lon: float) -> timedelta:
    """Return the offset of local standard time at a point."""
    return standard_offset(zone_at(lat, lon))


def _nautical_zone(lon: float) -> str:
    hours = round(lon / 15)
    return "Etc/GMT" if hours == 0 else f"Etc/GMT{-hours:+d}"


@lru_cache(maxsize=1)
def _names_by_casefold() -> dict[str, str]:
    return {name.casefold(): name for name in available_timezones()}
