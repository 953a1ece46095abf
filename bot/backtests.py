"""The back-tests as commands: replays and hindcasts of a station's record, written out."""

from __future__ import annotations

import json
from datetime import timedelta
from pathlib import Path
from typing import TextIO

from bot.letters import letters
from bot.saying.catalogue import say, shown
from bot.saying.values import Temperature
from bot.saying.voice import UnitSystem
from jobs.agronomy.units import c_from_f
from jobs.hindcast import hindcast_rows, write_forecasts_csv
from jobs.replay import ReplayLine, replay_years
from jobs.sources.recorded import Station, read_forecasts, read_station


def station_at(path: str, at: tuple[float, float] | None) -> Station:
    """Return the station of a file.

    Raises
    ------
    RecordUnreadable
        If it cannot be read, or nobody says where it stands.
    """
    return read_station(path, at)


def print_replay(
    station: Station,
    first_year: int,
    last_year: int,
    *,
    apply_after: timedelta | None,
    units: UnitSystem,
    as_json: bool,
    out: TextIO,
) -> None:
    """Print a line for each change of state and each alert of some years."""
    for line in replay_years(station, first_year, last_year, apply_after=apply_after, units=units):
        text = _text(station, line)
        if as_json:
            out.write(json.dumps(_row(line, text), ensure_ascii=False) + "\n")
        else:
            soil = "-" if line.soil_5day_c is None else shown(Temperature(line.soil_5day_c))
            first = text.splitlines()[0]
            when = line.at.strftime("%Y-%m-%d %H:%M")
            out.write(f"{when}  {line.kind:<16} {line.state:<13} {soil:>8}  {first}\n")
        out.flush()


def write_hindcast(
    station: Station,
    *,
    threshold_f: float,
    from_year: int,
    to_year: int,
    every_days: int,
    forecast: Path | None,
    out: Path,
) -> int:
    """Write what the outlook would have said to a CSV file; return the number of rows."""
    rows = hindcast_rows(
        station.series,
        threshold_c=c_from_f(threshold_f),
        from_year=from_year,
        to_year=to_year,
        every_days=every_days,
        forecasts=None if forecast is None else read_forecasts(forecast),
        station=station.name,
    )
    with out.open("w", newline="", encoding="utf-8") as file:
        return write_forecasts_csv(rows, file)


def _text(station: Station, line: ReplayLine) -> str:
    if line.letter is not None:
        return letters.write(line.letter).text
    return say("letters.state", yard=station.name, state=line.state)


def _row(line: ReplayLine, text: str) -> dict[str, object]:
    return {
        "at": line.at.isoformat(),
        "kind": line.kind,
        "target": line.target,
        "state": line.state,
        "soil_5day_c": None if line.soil_5day_c is None else round(line.soil_5day_c, 2),
        "days_to_emergence": line.days_to_emergence,
        "text": text,
    }
