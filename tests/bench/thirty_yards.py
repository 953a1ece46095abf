"""A season of thirty yards, a helper and two products: messages, mornings, deadlines, totals.

``python -m tests.bench.thirty_yards`` sets them up by a list, ticks the day's list off every day
and prints what it came to. Takes about a minute of a processor.
"""

import csv
import json
import re
import tempfile
from collections import Counter
from datetime import UTC, datetime
from pathlib import Path

import pandas as pd

from bot.terminal import Session
from storage import applications, yards
from tests.talk.harness import Talker, labels_of

TOWNS = ("Wahoo,NE", "Lincoln,NE", "Ashland,NE", "Milford,NE")
GRANULE = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"
LIQUID = "dithiopyr 2 lb per gal liquid, 0.5 fl oz per 1000 sq ft, max 1.5 fl oz per 1000 a year"
DAYS = 130


def listed(folder: Path) -> str:
    """Write the list of thirty invented yards."""
    path = folder / "thirty.csv"
    with path.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file)
        out.writerow(["name", "customer", "town", "state", "zones", "product"])
        for n in range(30):
            town, state = TOWNS[n % 4].split(",")
            product = LIQUID if n % 5 == 0 else GRANULE
            zones = f"front {40 + n}x40, back 30x20"
            out.writerow([f"Birch {n}", f"C. {n}", town, state, zones, product])
    return str(path)


def main() -> None:
    """Live the season and print its figures as one JSON object."""
    folder = Path(tempfile.mkdtemp())
    owner = Talker(folder, start=datetime(2026, 3, 1, 14, tzinfo=UTC))
    messages = 3
    owner.say("/start")
    owner.session.document(listed(folder))
    owner.tap("Add 30 yards")
    owner.say("/crew")
    code = re.search(r"/start join_\w+", owner.tap("To all 30 yards, to confirm"))
    helper = Session(owner.machine, owner.messenger, owner.clock, 2)
    helper.say(code[0])  # type: ignore[index]
    told: list[datetime] = []
    most = 0
    for _ in range(DAYS):
        told += [each.at for each in owner.wait("P1D")]
        said = owner.say("/today")
        count = 0
        while ticks := [each for each in labels_of(said) if each.startswith("Done: ")]:
            tick = next(
                button.action
                for row in said[-1].reply.buttons
                for button in row
                if button.label == ticks[0]
            )
            said = owner.session.tap(tick)
            count += 1
        most = max(most, count)
    with owner.db.reading() as work:
        done = {
            yard.name: [each.applied_on for each in applications.of_yard(work, yard.id)]
            for yard in yards.of_chat(work, 1)
        }
    files = [each.reply.file for each in owner.say("export all") if each.reply.file]
    log = pd.read_csv(files[0])
    figures = {
        "messages_to_set_up": messages,
        "yards": len(done),
        "without_second": [name for name, days in done.items() if len(days) < 2],
        # The helper's chat gets its own: half of what both were told.
        "messages_told_to_both": len(told),
        "mornings": len({each.date() for each in told}),
        "most_taps_a_day": most,
        "product": {
            str(unit): round(float(total), 3)
            for unit, total in log.groupby("Unit")["Product amount"].sum().items()
        },
        "applications_by_day": dict(
            Counter(each.isoformat() for days in done.values() for each in days)
        ),
    }
    print(json.dumps(figures, indent=1))


if __name__ == "__main__":
    main()
