"""Write emulated soil forecast files for the measured stations, one a station.

Run from the repository: ``python -m tests.bench.emulate_forecasts FOLDER [--every-days 7]``.
``soilbell hindcast --forecast FOLDER/STATION.csv.gz`` reads them.
"""

from __future__ import annotations

import argparse
import csv
import gzip
import math
from datetime import date, timedelta
from pathlib import Path

from tests.bench.scoring import YEARS, emulated_forecast
from tests.bench.soil_from_air import stations


def issue_dates(every_days: int) -> list[date]:
    """Every ``every_days``-th day from 1 February to July, each year."""
    return [
        date(year, 2, 1) + timedelta(days=days)
        for year in YEARS
        for days in range(0, 180, every_days)
    ]


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--every-days", type=int, default=7)
    asked = parser.parse_args()
    asked.folder.mkdir(parents=True, exist_ok=True)
    for station in stations():
        path = asked.folder / f"{station.name}.csv.gz"
        with gzip.open(path, "wt", newline="", encoding="utf-8") as file:
            writer = csv.writer(file, lineterminator="\n")
            writer.writerow(["issued", "date", "soil5_c"])
            for issued in issue_dates(asked.every_days):
                forecast = emulated_forecast(station.name, station.series, issued)
                for ahead, value in enumerate(forecast.soil5_c):
                    if not math.isnan(value):
                        day = forecast.first_day + timedelta(days=ahead)
                        writer.writerow([issued, day, f"{value:.2f}"])
        print(path)


if __name__ == "__main__":
    main()
