"""Where the sun stands: daily radiation above the air, sunrise and sunset."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Final

import numpy as np
from numpy.typing import ArrayLike

from jobs.agronomy.series import FloatArray

#: Solar constant over a day [MJ/m²]: 0.0820 MJ/m²/min (FAO-56, Allen et al. 1998, eq. 21).
_SOLAR_MJ: Final = 0.0820 * 1440
#: Sun's centre below the horizon at sunrise: 34' refraction and 16' radius, by convention.
_HORIZON_DEG: Final = -0.833
_J2000: Final = datetime(2000, 1, 1, 12, tzinfo=UTC)


def extraterrestrial_radiation(day_number: ArrayLike, latitude: ArrayLike) -> FloatArray:
    """Return daily radiation on a level plane above the air [MJ/m²], shape (..., days).

    Parameters
    ----------
    day_number
        Day of the year, shape (days,); it may run past the ends of the year.
    latitude
        [degrees north], shape (...).

    Notes
    -----
    FAO-56 (Allen et al. 1998), equations 21-25. Within 0.5 % below 60 degrees of latitude.
    """
    year_angle = 2 * np.pi * np.asarray(day_number, dtype=float) / 365.25
    distance = 1 + 0.033 * np.cos(year_angle)
    declination = 0.409 * np.sin(year_angle - 1.39)
    phi = np.radians(np.asarray(latitude, dtype=float))[..., None]
    sunset = np.arccos(np.clip(-np.tan(phi) * np.tan(declination), -1, 1))
    height = sunset * np.sin(phi) * np.sin(declination)
    height = height + np.cos(phi) * np.cos(declination) * np.sin(sunset)
    return np.asarray(_SOLAR_MJ / np.pi * distance * height)


def daylight(day: date, latitude: float, longitude: float) -> tuple[datetime, datetime] | None:
    """Return sunrise and sunset (UTC) of a local solar day, or None where there is neither.

    The low-precision sun of the Astronomical Almanac (0.01 degree, 1950-2050: mean longitude,
    mean anomaly, equation of centre to second order), taken at each event. Within a minute below
    60 degrees of latitude.

    Parameters
    ----------
    day
        The day of the local solar noon at the longitude.
    latitude, longitude
        [degrees north, degrees east].
    """
    noon = datetime(day.year, day.month, day.day, 12, tzinfo=UTC) - timedelta(days=longitude / 360)
    events = []
    for side in (-1, 1):
        event = noon
        for _ in range(3):
            hour_angle = _hour_angle_deg(event, latitude)
            if hour_angle is None:
                return None
            transit = noon - timedelta(days=_equation_of_time_deg(event) / 360)
            event = transit + side * timedelta(days=hour_angle / 360)
        events.append(event)
    return events[0], events[1]


def _hour_angle_deg(at: datetime, latitude: float) -> float | None:
    declination, _, _ = _sun(at)
    phi = np.radians(latitude)
    above = np.sin(np.radians(_HORIZON_DEG)) - np.sin(phi) * np.sin(declination)
    cosine = float(above / (np.cos(phi) * np.cos(declination)))
    return None if abs(cosine) > 1 else float(np.degrees(np.arccos(cosine)))


def _equation_of_time_deg(at: datetime) -> float:
    _, right_ascension, mean_longitude = _sun(at)
    return (mean_longitude - right_ascension + 180) % 360 - 180


def _sun(at: datetime) -> tuple[float, float, float]:
    """Declination [rad], right ascension [deg] and mean longitude [deg] of the sun."""
    n = (at - _J2000) / timedelta(days=1)
    mean_longitude = (280.460 + 0.9856474 * n) % 360
    anomaly = np.radians((357.528 + 0.9856003 * n) % 360)
    centre = 1.915 * np.sin(anomaly) + 0.020 * np.sin(2 * anomaly)
    longitude = np.radians(mean_longitude + centre)
    tilt = np.radians(23.439 - 0.0000004 * n)
    ascension = np.degrees(np.arctan2(np.cos(tilt) * np.sin(longitude), np.cos(longitude)))
    declination = np.arcsin(np.sin(tilt) * np.sin(longitude))
    return float(declination), float(ascension) % 360, float(mean_longitude)
