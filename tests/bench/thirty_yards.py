"""A season of thirty yards, a helper and two products over HTTP: messages, mornings, totals.

``python -m tests.bench.thirty_yards`` sets them up by a pasted list, ticks the day's list off in
turns and prints what it came to. Takes about two minutes of a processor.
"""

import io
import json
import os
import tempfile
from datetime import UTC, datetime
from pathlib import Path

import pandas as pd

from tests.service.crew_season import FIELDS, crew

YARDS = 30


def main() -> None:
    """Live the season and print its figures as one JSON object."""
    os.environ["NO_PROXY"] = "127.0.0.1"
    start = datetime(2026, 3, 1, 14, tzinfo=UTC)
    with crew(Path(tempfile.mkdtemp()), YARDS, start) as found:
        found.set_up()
        to_set_up = sum(found.sent.values())
        found.live(until=datetime(2026, 12, 28, 14, tzinfo=UTC))
        found.say(FIELDS)
        days = found.days_of()
        log = pd.read_csv(io.BytesIO(found.files("export all")[".csv"]))
    begun = min(found.sent)
    apart = [(each[1] - each[0]).days for each in days.values() if len(each) > 1]
    figures = {
        "messages_to_set_up": to_set_up,
        "yards": len(days),
        "without_second": [name for name, each in days.items() if len(each) < 2],
        "days_apart": [min(apart), max(apart)],
        "told_to_owner": len(found.told),
        "mornings": len({day for day, _ in found.told}),
        "most_messages_a_day": max(n for day, n in found.sent.items() if day != begun),
        "records": len(log),
        "product": {
            str(unit): round(float(total), 3)
            for unit, total in log.groupby("Unit")["Product amount"].sum().items()
        },
    }
    print(json.dumps(figures, indent=1))


if __name__ == "__main__":
    main()
