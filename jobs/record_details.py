"""What an applicator's record holds of one application besides where, when, what and how much.

The fields are a superset of what US states ask for (Pennsylvania, Maryland COMAR 15.05.01.12, Texas
4 TAC 7.143, and the rescinded 7 CFR 110.3, as far as they were read). What the federal list named
(product and registration number, amount, size of the area, site, place, date, the applicator's name
and number) is in the log; start and end, weather, carrier, equipment, supervision and re-entry are
what states add (from memory).
"""

from __future__ import annotations

from dataclasses import asdict, dataclass, fields, replace
from datetime import date, datetime
from typing import Any, Literal, get_args

import numpy as np

from jobs.local_days import local
from jobs.packed_cells import HeldCell

#: Where the weather on a record comes from.
WeatherBasis = Literal["hour", "day", "said"]


@dataclass(frozen=True, slots=True)
class RecordDetails:
    """Fields of one record; None where nobody knows. Text is kept as the person wrote it.

    Attributes
    ----------
    air_c, humidity_pct, wind_m_s, soil_c, rain_mm
        Weather at that hour, or of that day (`weather_basis`).
    wind_from, sky
        As somebody said: no weather data of ours holds them.
    ended, carrier, equipment, calibration, batch, applicator, licence, posted, reentry, notes
        What only people know.
    air, humidity
        As somebody read them, in place of what the weather data say.
    supervisor, supervisor_licence
        Under whom it was put down by somebody without a licence of their own.
    is_hour_open
        True where only the day was said: noon stands for the hour, and is told nobody.
    in_pass
        Which of two crossing passes it was, while the other is still to come.
    """

    air_c: float | None = None
    humidity_pct: float | None = None
    wind_m_s: float | None = None
    soil_c: float | None = None
    rain_mm: float | None = None
    weather_basis: WeatherBasis | None = None
    wind: str | None = None
    wind_from: str | None = None
    sky: str | None = None
    ended: str | None = None
    carrier: str | None = None
    equipment: str | None = None
    calibration: str | None = None
    batch: str | None = None
    weed: str | None = None
    applicator: str | None = None
    licence: str | None = None
    posted: str | None = None
    reentry: str | None = None
    notes: str | None = None
    air: str | None = None
    humidity: str | None = None
    supervisor: str | None = None
    supervisor_licence: str | None = None
    in_pass: str | None = None
    is_hour_open: bool | None = None

    def to_json(self) -> dict[str, Any]:
        """Return primitives for storage, the known fields only."""
        return {name: value for name, value in asdict(self).items() if value is not None}

    @classmethod
    def from_json(cls, row: dict[str, Any]) -> RecordDetails:
        """Return what `to_json` wrote; fields of other versions are passed over."""
        known = {field.name for field in fields(cls)}
        return cls(**{name: value for name, value in row.items() if name in known})

    def with_said(self, field: str, value: str) -> RecordDetails:
        """Return the details with one field as a person says it.

        Raises
        ------
        ValueError
            If it is no field people may set.
        """
        if field not in SAID_FIELDS:
            raise ValueError(field)
        return self.from_json({**self.to_json(), field: value})


#: Fields people may set or correct.
SAID_FIELDS = (
    "wind",
    "wind_from",
    "air",
    "humidity",
    "sky",
    "ended",
    "carrier",
    "equipment",
    "calibration",
    "batch",
    "weed",
    "applicator",
    "licence",
    "supervisor",
    "supervisor_licence",
    "posted",
    "reentry",
    "notes",
)

assert get_args(WeatherBasis) == ("hour", "day", "said")


def weather_then(held: HeldCell | None, at: datetime, timezone: str) -> RecordDetails:
    """Return the weather of an application as far as the cell's data tells it.

    The hour's where the hourly data reach it, else the day's; the soil is always the day's.
    """
    if held is None:
        return RecordDetails()
    on = local(at, timezone).date()
    day = _of_day(held, on)
    hourly = held.hourly
    if hourly is not None:
        index = round((at - hourly.first_hour).total_seconds() // 3600)
        if 0 <= index < len(hourly.air_c) and np.isfinite(hourly.air_c[index]):
            return replace(
                day,
                air_c=_number(hourly.air_c[index]),
                humidity_pct=_number(hourly.humidity_pct[index]),
                wind_m_s=_number(hourly.wind_m_s[index]),
                weather_basis="hour",
            )
    return day


def _of_day(held: HeldCell, on: date) -> RecordDetails:
    series = held.known if on <= held.known.last_day or held.forecast is None else held.forecast
    found = series.between(on, on)
    if not len(found):
        return RecordDetails()
    air_c, soil_c = _number(found.tmean_c[0]), _number(found.soil5_c[0])
    is_known = air_c is not None or soil_c is not None
    return RecordDetails(
        air_c=air_c,
        soil_c=soil_c,
        rain_mm=_number(found.rain_mm[0]),
        weather_basis="day" if is_known else None,
    )


def _number(value: float) -> float | None:
    return round(float(value), 2) if np.isfinite(value) else None
