"""A random season lived with one yard, and what every surface says of it held against each other.

What is said is read off the sentences people get; pictures and the calendar speak by their data.
``python -m tests.bench.seasons_lived --seasons 200`` lives many.
"""

from __future__ import annotations

import random
import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from pathlib import Path

from icalendar import Calendar

from bot.terminal import Said
from jobs.agronomy.season import Target
from jobs.agronomy.whats_next import TO_DO, Stage
from jobs.local_days import local
from jobs.season_facts import sight_now
from jobs.sources.simulated import SimulatedSource
from jobs.uses.chart_values import soil_chart_values
from jobs.uses.recording import to_come
from storage import yards
from tests.talk.harness import PLACE, Talker, labels_of

#: Labels a made-up yard may go by: long and short lasting, with room for one round or for two.
PRODUCTS = (
    "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year",
    "/product dithiopyr 0.13% granule, 4.5 lb per 1000 sq ft, max 9 lb per 1000 sq ft a year",
    "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 4 lb per 1000 sq ft a year",
)
ZONES = ("front 60x40, back 50x30", "lawn 80x45", "front 60x40, side 5x80 ft, back 40x40")
LAST_DAY = date(2026, 7, 14)
#: How often the files are made: they take longer than all else that is asked.
_EXPORTS = 0.3

_DAY = r"(today|yesterday|tomorrow|\w{3} \w{3} \d{1,2}(?:, \d{4})?)"
_MONTHS = ("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec")
_ANY = frozenset(Stage)
_NOW = frozenset({Stage.OPEN, Stage.LATE, Stage.HALF_DUE})
_NOTHING_NOW = _ANY - _NOW


@dataclass(frozen=True, slots=True)
class Says:
    """What one surface says: the stages it may mean, days by what they are of, and amounts."""

    surface: str
    stages: frozenset[Stage]
    days: dict[str, date]
    amounts: dict[str, str]


#: Sentences by surface: the stages they may mean, and the days in them.
_SENTENCES: dict[str, tuple[tuple[str, frozenset[Stage]], ...]] = {
    "soil": (
        (rf"Apply between {_DAY}(?P<opens>) and {_DAY}(?P<by>)", frozenset({Stage.AHEAD})),
        (rf"Apply and water in by {_DAY}(?P<by>)", frozenset({Stage.OPEN})),
        (rf"deadline was {_DAY}(?P<was>)\. It helps up to {_DAY}(?P<by>)", frozenset({Stage.LATE})),
        (rf"First crabgrass was expected {_DAY}(?P<up>)", frozenset({Stage.MISSED})),
        (
            rf"Second application(?: of [^:]+)?: (?:about )?{_DAY}(?P<half>)",
            frozenset({Stage.DOWN}),
        ),
        ("Applied. No more is due", frozenset({Stage.DOWN})),
        ("The next application (?:of .+ )?is due now", frozenset({Stage.HALF_DUE})),
        ("Nothing to apply: your label", frozenset({Stage.CAPPED})),
        ("window is over, or too far off", frozenset({Stage.FAR})),
    ),
    "yard": (
        (rf"Apply between {_DAY}(?P<opens>) and {_DAY}(?P<by>)", frozenset({Stage.AHEAD})),
        (rf"Apply and water in by {_DAY}(?P<by>)", frozenset({Stage.OPEN})),
        (rf"deadline was {_DAY}(?P<was>)\. It helps up to {_DAY}(?P<by>)", frozenset({Stage.LATE})),
        (rf"First crabgrass was expected {_DAY}(?P<up>)", frozenset({Stage.MISSED})),
        (rf"Last application: {_DAY}(?P<last>)", frozenset({Stage.DOWN, Stage.HALF_DUE})),
        (
            rf"Second application(?: of [^:]+)?: (?:about )?{_DAY}(?P<half>)",
            frozenset({Stage.DOWN}),
        ),
        ("The next application (?:of .+ )?is due now", frozenset({Stage.HALF_DUE})),
        ("Nothing to apply: your label", frozenset({Stage.CAPPED})),
        ("window is over, or too far off", frozenset({Stage.FAR})),
        (rf"watering in: [\d.]+ in by {_DAY}(?P<water>)", _ANY),
    ),
    "today": (
        ("nothing due|nothing to do", _NOTHING_NOW),
        (rf": by {_DAY}(?P<by>) \(", frozenset({Stage.OPEN})),
        ("(?P<by_today>)deadline today", frozenset({Stage.OPEN})),
        (rf"late, do it now; it helps up to {_DAY}(?P<by>)", frozenset({Stage.LATE})),
        ("second application", frozenset({Stage.HALF_DUE})),
        (rf"opens (?:about )?{_DAY}(?P<opens>), deadline {_DAY}(?P<by>)", frozenset({Stage.AHEAD})),
    ),
    "day": (
        ("No application is due\\.", _NOTHING_NOW),
        (rf"No application is due before {_DAY}(?P<next>)", frozenset({Stage.AHEAD, Stage.DOWN})),
        (rf"[Dd]eadline(?::|,) {_DAY}(?P<by>)", _ANY),
    ),
    "amounts": (
        ("window is over", frozenset({Stage.MISSED})),
        ("nothing more to apply this season", frozenset({Stage.DOWN})),
        (rf"The window opens (?:about )?{_DAY}(?P<opens>)", frozenset({Stage.AHEAD})),
        (rf"This application is due (?:about )?{_DAY}(?P<half>)", frozenset({Stage.DOWN})),
    ),
    "window_open": (
        (rf": window open\. Apply and water in by {_DAY}(?P<by>) \(weeds", frozenset({Stage.OPEN})),
    ),
    "act_now": ((rf"Apply and water in by {_DAY}(?P<by>) \(weeds", frozenset({Stage.OPEN})),),
    "window_missed": (("too late for a plain", frozenset({Stage.MISSED, Stage.LATE})),),
    "second_half_due": (("application 2 of 2 is due", frozenset({Stage.HALF_DUE})),),
    "water_in": ((rf"to go by {_DAY}(?P<water>)", _ANY),),
    "record": ((rf"(?s).*#\d+ {_DAY}(?P<last>)", _ANY),),
}
#: Where a sentence that is missing says something: that nothing keeps one from putting it down.
_SILENT = {"day": _NOW, "amounts": _ANY - {Stage.MISSED, Stage.AHEAD}}


def read(surface: str, text: str, today: date) -> Says:
    """Return what a surface says, from its sentences."""
    stages, days, found_any = _ANY, dict[str, date](), False
    for pattern, means in _SENTENCES.get(surface, ()):
        found = re.search(pattern, text)
        if found is None:
            continue
        found_any = found_any or means != _ANY
        stages &= means
        names = [name for name in found.groupdict() if name != "by_today"]
        if "by_today" in found.groupdict():
            days["by"] = today
        said = [each for each in found.groups() if each]
        days |= {name: _day(each, today) for name, each in zip(names, said, strict=True)}
    # An answer without amounts, such as a question, says nothing of when.
    if not found_any and (surface != "amounts" or "in all." in text):
        stages &= _SILENT.get(surface, _ANY)
    return Says(surface, stages, days, _amounts(surface, text))


def disagreements(said: Sequence[Says]) -> Iterator[str]:
    """Return in words where surfaces contradict each other."""
    common = frozenset.intersection(*(each.stages for each in said))
    if not common:
        each_means = {each.surface: sorted(each.stages) for each in said if each.stages != _ANY}
        yield f"stages: {each_means}"
    for of in ("days", "amounts"):
        by_name: dict[str, dict[str, object]] = {}
        for each in said:
            for name, value in getattr(each, of).items():
                by_name.setdefault(name, {})[each.surface] = value
        for name, values in by_name.items():
            if len(set(values.values())) > 1:
                yield f"{name}: {values}"


class Season:
    """One random season of a made-up yard."""

    def __init__(self, number: int, folder: Path) -> None:
        self._chance = random.Random(number)
        start = datetime(2026, 2, 20, 14, tzinfo=UTC) + timedelta(days=self._chance.randint(0, 20))
        self.talker = Talker(folder, start=start, source=SimulatedSource(number))
        # Pictures are asked by their values: nothing is drawn.
        conversation = self.talker.machine.conversation
        conversation.handle = conversation.answer
        self.talker.say("/start")
        self.talker.session.location(PLACE[0] + self._chance.uniform(-3, 2), PLACE[1])
        self.talker.say(self._chance.choice(ZONES))
        self.talker.tap("Keep")
        self.talker.say(self._chance.choice(PRODUCTS))
        self.talker.wait("PT1H")
        #: How readily something that is due is done in a week, and whether in one go.
        self._is_ready = self._chance.choice((0.0, 0.3, 0.8))
        self._in_parts = self._chance.random() < 0.3

    def live(self) -> Iterator[str]:
        """Live to the summer; return where surfaces contradict each other on every seventh day."""
        while self.today <= LAST_DAY:
            heard = self.talker.wait("P7D")
            said = self._asked([each for each in heard if each.at.date() == self.today])
            for each in disagreements(said):
                yield f"{self.today}: {each}"
            self._do(frozenset.intersection(*(each.stages for each in said)))

    @property
    def today(self) -> date:
        """The yard's day."""
        return local(self.talker.session.now, "America/Chicago").date()

    def _asked(self, alerts: Sequence[Said]) -> list[Says]:
        asked = ("soil", "yard", "today", "day", "amounts", "record", "sketch")
        found = [read(each, self.talker.ask(f"/{each}"), self.today) for each in asked]
        told = [each for each in alerts if each.alert in _SENTENCES]
        found += [self._told(str(each.alert), each.reply.text) for each in told]
        return [*found, *self._of_data()]

    def _told(self, kind: str, text: str) -> Says:
        """Return what an alert says; of some zones it leaves open where the others stand."""
        says = read(kind, text, self.today)
        named = re.search(r"on ([\w ,]+)\. Crabgrass", text)
        if (
            kind != "window_missed"
            or named is None
            or len(re.split(", | and ", named[1])) == self._zones()
        ):
            return says
        return replace(says, stages=says.stages | {Stage.DOWN})

    def _zones(self) -> int:
        with self.talker.db.reading() as work:
            return len(yards.zones(work, 1))

    def _of_data(self) -> Iterator[Says]:
        talker, now = self.talker, self.talker.session.now
        source, outlooks = talker.source.name, talker.machine.conversation._around.outlooks
        with talker.db.reading() as work:
            yard = yards.yard(work, 1)
            assert yard is not None
            values = soil_chart_values(work, yard, source, outlooks, now)
            assert values is not None
            shown = values.upcoming
            half = shown.stage is Stage.DOWN
            said = {"half" if half else "opens": shown.opens_on, "by": shown.by}
            days = {name: day for name, day in said.items() if day is not None}
            yield Says("chart", frozenset({shown.stage}), days, {})
            sight = sight_now(work, yard, source, outlooks, now)
            items = {
                each.kind: (each.first, each.last)
                for each in reversed(to_come(work, yard, now, sight))
                if each.target == Target.SUMMER_ANNUALS
            }
        yield self._of_calendar("calendar", items)
        if self._chance.random() < _EXPORTS:
            yield self._of_calendar("calendar file", self._of_file())

    def _of_calendar(self, surface: str, items: Mapping[str, tuple[date, date]]) -> Says:
        first, last = items.get("window", (self.today, None))
        if last is not None:
            days = {"by": last, **({"opens": first} if first > self.today else {})}
            return Says(surface, TO_DO, days, {})
        if "half2" in items:
            return Says(surface, frozenset({Stage.DOWN}), {"half": items["half2"][0]}, {})
        return Says(surface, _ANY - TO_DO, {}, {})

    def _of_file(self) -> dict[str, tuple[date, date]]:
        """Return what the calendar file holds: its entries for days that have not passed."""
        files = [Path(each.reply.file) for each in self.talker.say("/export") if each.reply.file]
        (file,) = (each for each in files if each.suffix == ".ics")
        found = {}
        for entry in Calendar.from_ical(file.read_bytes()).walk("VEVENT"):
            kind, of, *_ = str(entry["UID"]).split(".")
            last = entry.decoded("DTEND") - timedelta(days=1)
            is_so = entry["STATUS"] != "CANCELLED" and last >= self.today
            if is_so and of not in set(Target) - {Target.SUMMER_ANNUALS}:
                found[kind] = entry.decoded("DTSTART"), last
        return found

    def _do(self, stages: frozenset[Stage]) -> None:
        if stages & _NOW and self._chance.random() < self._is_ready:
            self._say(f"applied {self._zone()}" if self._in_parts else "applied")
        elif self._chance.random() < 0.03:
            self._say("applied")
        if self._chance.random() < 0.3:
            self.talker.say("watered half an inch")
        if self._chance.random() < 0.1:
            self.talker.say(f"soil {self._chance.randint(38, 75)}")

    def _zone(self) -> str:
        with self.talker.db.reading() as work:
            return self._chance.choice([zone.name for zone in yards.zones(work, 1)])

    def _say(self, text: str) -> None:
        asked = labels_of(self.talker.say(text))
        if "Yes, that's right" in asked and self._chance.random() < 0.5:
            self.talker.tap("Yes, that's right")


def _day(said: str, today: date) -> date:
    near = {"yesterday": -1, "today": 0, "tomorrow": 1}.get(said)
    if near is not None:
        return today + timedelta(days=near)
    words = said.replace(",", "").split()[1:]
    year = int(words[2]) if len(words) > 2 else today.year
    return date(year, _MONTHS.index(words[0]) + 1, int(words[1]))


def _amounts(surface: str, text: str) -> dict[str, str]:
    """Return what is printed of the round: its total, and what each zone takes or that it is down.

    Of a sketch the words are made of what is drawn.
    """
    much = r"[\d.]+ lb|[\d.]+ oz"
    exact = rf"({much})"
    totals = {
        "amounts": rf"^.*?: {exact} in all\.",
        "today": rf"^1\. .*?, {exact}$",
        "window_open": rf"You need {exact}\.",
        "act_now": rf"You need {exact}\.",
    }
    zones = {
        "amounts": rf"^([a-z]+): {exact} per pass",
        "sketch": rf"\d\. ([a-z]+), [\d,]+ sq ft, ({much}|done)",
    }
    found = re.search(totals[surface], text, re.MULTILINE) if surface in totals else None
    said = {} if found is None else {"total": found[1]}
    if surface in zones:
        said |= {
            f"of {name}": much for name, much in re.findall(zones[surface], text, re.MULTILINE)
        }
    down = re.search(r"^Already done this time: (.*)\.$", text, re.MULTILINE)
    if down is not None:
        said |= {f"of {name}": "done" for name in re.split(", | and ", down[1])}
    return said
