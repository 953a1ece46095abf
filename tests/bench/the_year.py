"""A whole year of a yard with both rounds over the shared stations: is the label ever passed?

Each yard does at once what it is told, as far as its own figures let it. Counted beside the
machine, from what was put down alone: the label's maximum is never passed, no zone goes without
its second half where no maximum stands against it, and both seasons end in waiting.

Run from the repository: ``python -m tests.bench.the_year [YEARS A STATION]``.
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time, timedelta
from pathlib import Path

from jobs.agronomy.amounts import LabelLimitExceeded
from jobs.agronomy.season import Kind, State, Target
from jobs.deliver import deliver_due
from jobs.deliver import next_due_at as next_delivery_at
from jobs.local_days import local
from jobs.messenger import Letter
from jobs.outlooks import Outlooks
from jobs.schedule import Job, advance
from jobs.sources.recorded import RecordedSource, Station
from jobs.uses import confirming, how_much
from jobs.watch import Watch
from storage import applications as kept
from storage import chats, products, seasons, yards
from storage.database import Database
from storage.recorder import Author
from storage.yards import NewZone, YardRecord
from tests.bench.soil_from_air import stations

RATE_LB_1000 = 3.2
#: The label's maximum a calendar year [lb/1000 sq ft]: none, one full rate, two, three.
CAPS = (None, 3.2, 6.4, 9.6)
CALLS = (Kind.WINDOW_OPEN, Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING)


@dataclass
class Year:
    """What one year came to."""

    told: list[str] = field(default_factory=list)
    refused: int = 0
    done: int = 0
    down_lb_1000: float = 0.0
    ends: tuple[str, ...] = ()
    is_second_half_down: bool = False


class Play:
    """One station, one year, one cap."""

    def __init__(self, db: Database, station: Station, year: int, cap: float | None) -> None:
        self.db, self.station, self.year, self.cap = db, station, year, cap
        self.outcome = Year()
        self.source = RecordedSource(station)
        self.watch = Watch(db, self.source, Outlooks(), keeps_quiet_hours=False)
        self.start = datetime.combine(date(year, 1, 1), time(14), tzinfo=UTC)
        self.register()

    def send(self, letter: Letter) -> None:
        self.outcome.told.append(f"{letter.target}:{letter.kind}")
        if letter.kind in CALLS and not letter.facts.get("is_capped"):
            self.put_down(letter.at)

    def put_down(self, now: datetime) -> None:
        with self.db.writing(Author(1, 1, now)) as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            try:
                found = how_much.for_yard(work, yard, local(now, yard.timezone).date())
            except (LabelLimitExceeded, how_much.AllLeftOut):
                self.outcome.refused += 1
                return
            command = confirming.Confirm(found.zones, now, None, "bench", True)
            confirming.confirm(work, yard, command, person_id=1, now=now)
        self.outcome.done += 1

    def run(self) -> Year:
        deliver = Job(
            "deliver",
            timedelta(minutes=1),
            lambda now: _ignore(deliver_due(self.db, self, now, owner="bench")),
            lambda: next_delivery_at(self.db),
        )
        watch = Job("watch", timedelta(minutes=1), self.watch.tick, self.watch.next_due_at)
        advance((watch, deliver), self.start, self.start + timedelta(days=364))
        with self.db.reading() as work:
            done = kept.of_yard(work, 1)
            self.outcome.down_lb_1000 = RATE_LB_1000 * sum(
                each.applied_on.year == self.year for each in done
            )
            spring = [each for each in done if each.target == Target.SUMMER_ANNUALS]
            self.outcome.is_second_half_down = len(spring) >= 2
            found = [seasons.season(work, 1, target) for target in Target]
        self.outcome.ends = tuple("-" if each is None else each.state for each in found)
        return self.outcome

    def register(self) -> YardRecord:
        hours = self.station.utc_offset / timedelta(hours=1)
        maxima = [
            {
                "value": self.cap,
                "unit": "lb/1000 sq ft",
                "of": "product",
                "period": "calendar_year",
                "ingredient": None,
            }
        ]
        with self.db.writing() as work:
            chat = chats.chat_at(work, "bench", "1", title="", units="us", now=self.start)
            person = chats.person_at(work, "bench", "1", name="bench", now=self.start)
            product = products.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                said="made up",
                form="granule",
                ingredients=[{"name": "prodiamine", "strength": 0.38, "unit": "%"}],
                rate_value=RATE_LB_1000,
                rate_unit="lb/1000 sq ft",
                rate_si=RATE_LB_1000 * 48.8243,
                maxima=[] if self.cap is None else maxima,
                now=self.start,
            )
            yard = yards.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                name=self.station.name,
                lat=self.station.lat,
                lon=self.station.lon,
                timezone=f"Etc/GMT{-hours:+.0f}" if hours else "Etc/GMT",
                lead_days=21,
                split_days=56,
                rounds=2,
                now=self.start,
            )
            zone = NewZone("lawn", "100 m²", "100 m²", "", 100.0)
            yards.keep_zones(work, yard.id, [zone], person_id=person.id, now=self.start)
            yards.change(work, yard.id, product_id=product.id, has_late_summer_round=True)
        return yard


def _ignore(_: object) -> None:
    return None


def judge(outcome: Year, cap: float | None) -> list[str]:
    """Return what went wrong in a year."""
    wrong = []
    if cap is not None and outcome.down_lb_1000 > cap * 1.0001:
        wrong.append(f"{outcome.down_lb_1000:g} down of {cap:g}")
    is_free = cap is None or cap >= 2 * RATE_LB_1000
    was_called = f"{Target.SUMMER_ANNUALS}:{Kind.SECOND_HALF_DUE}" in outcome.told
    if is_free and was_called and not outcome.is_second_half_down:
        wrong.append("second half called for and not let down")
    if any(state not in (State.WAITING, "-") for state in outcome.ends):
        wrong.append(f"ends in {outcome.ends}")
    return wrong


def main() -> None:
    """Play the stations and print what came of it."""
    a_station = int(sys.argv[1]) if len(sys.argv) > 1 else 1
    played = failed = 0
    for number, station in enumerate(stations()):
        for offset in range(a_station):
            year = 2012 + (number + 5 * offset) % 11
            cap = CAPS[(number + offset) % len(CAPS)]
            with tempfile.TemporaryDirectory(prefix="the-year-") as folder:
                db = Database(f"sqlite:///{Path(folder) / 'year.sqlite3'}", is_throwaway=True)
                db.upgrade()
                outcome = Play(db, station, year, cap).run()
                db.close()
            wrong = judge(outcome, cap)
            played += 1
            failed += bool(wrong)
            words = ", ".join(told.replace("_annuals", "") for told in outcome.told)
            print(
                f"{station.name[:18]:18s} {year} cap {cap or '-':>4} "
                f"down {outcome.down_lb_1000:4.1f}"
                f" refused {outcome.refused}  {'; '.join(wrong) or 'ok'}  [{words}]",
                flush=True,
            )
    print(f"{played} station-years, {failed} with something wrong")


if __name__ == "__main__":
    main()
