"""A season by itself: an invented crew lives through a spring in the terminal.

It drives the session a person would talk to, prints what a person would see, and looks after each
stop into what is kept: a stop counts only when the yard has really got there.
"""

from __future__ import annotations

import re
import textwrap
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Final

from bot.saying.catalogue import say
from bot.terminal import PLATFORM, NotARequest, Said, Session
from bot.terminal_people import show
from jobs.agronomy.season import Kind, State, Target
from jobs.standing import Standing, standing_of
from storage import chats, yards
from storage.database import Database
from storage.yards import YardRecord

#: Late in an invented winter, so that a spring lies ahead; always the same one.
BEGINS_AT: Final = datetime(2026, 2, 15, 14, tzinfo=UTC)

#: Somewhere on the plains; the county named in the tour is on no map.
_PLACE: Final = (38.72, -96.41)
_NAME: Final = "Alder Court 7"
_ZONES: Final = "mill lawn 60x40, ditch strip 5 by 80 ft, kiln side 30x20 minus 6x10"
_AREA_M2: Final = (60 * 40 + 5 * 80 + 30 * 20 - 6 * 10) * 0.3048**2
_LABEL: Final = "prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year"
_WIDTH: Final = 80
_LONGEST_DAYS: Final = {Kind.SOIL_WARMING: 90, Kind.WINDOW_OPEN: 60, Kind.SECOND_HALF_DUE: 90}


class StopMissed(Exception):
    """Raised when the yard did not get to a stop; says which and what was there instead."""


class Tour:
    """The invented crew's spring.

    Parameters
    ----------
    session
        A session on a fresh database.
    db
        That database.
    user
        The session's user.
    write
        Prints a line.
    """

    def __init__(
        self, session: Session, db: Database, user: int, write: Callable[[str], object]
    ) -> None:
        self._session = session
        self._db = db
        self._user = str(user)
        self._write = write
        self._stop = ""

    def play(self) -> None:
        """Go through every stop.

        Raises
        ------
        StopMissed
            At the first stop that was not reached.
        """
        began_on = self._session.now.date()
        stops: dict[str, Callable[[], object]] = {
            "register": self._register,
            "measure": self._measure,
            "product": self._product,
            "soil_warming": lambda: self._until(Kind.SOIL_WARMING, State.WAITING),
            "window_open": lambda: self._until(Kind.WINDOW_OPEN, State.WINDOW_OPEN),
            "amounts": self._amounts,
            "applied": self._applied,
            "watered_in": self._watered_in,
            "second_half_due": lambda: self._until(Kind.SECOND_HALF_DUE, State.RETREAT_DUE),
        }
        self._write(textwrap.fill(say("tour.opening"), _WIDTH))
        for number, (stop, reach) in enumerate(stops.items(), start=1):
            self._stop = stop
            heading = say(f"tour.{stop}", number=number, count=len(stops))
            self._write(f"\n=== {heading}")
            reach()
        ended_on = self._session.now.date()
        closing = say("tour.closing", count=len(stops), first=began_on, last=ended_on)
        self._write(f"\n{closing}")

    def _register(self) -> None:
        self._say("/start")
        self._turn(f"({_PLACE[0]}, {_PLACE[1]})", lambda: self._session.location(*_PLACE))
        self._tap("Rename")
        self._say(_NAME)
        self._require(self._yard().name == _NAME, f"the yard is called {self._yard().name}")

    def _measure(self) -> None:
        self._say(_ZONES)
        self._tap("Keep")
        zones = self._standing().zones
        area_m2 = sum(zone.area_m2 for zone in zones)
        self._require(len(zones) == 3, f"{len(zones)} zones are kept")
        self._require(abs(area_m2 - _AREA_M2) < 1e-6, f"the total is {area_m2} m²")

    def _product(self) -> None:
        self._say(_LABEL)
        self._require(self._yard().product_id is not None, "no product is kept")

    def _amounts(self) -> None:
        said = "\n".join(message.reply.text for message in self._say("/amounts"))
        for zone in ("mill lawn", "ditch strip", "kiln side"):
            self._require(zone in said, f"the amounts do not name {zone}")
        # 3.2 lb per 1000 sq ft on 3340 sq ft are 10.688 lb.
        total = re.search(r"\b10\.(?:68|69|7)\d* lb", said)
        self._require(total is not None, "the total is not 10.69 lb")

    def _applied(self) -> None:
        self._say("applied")
        done = self._standing().done
        self._require(len(done) == 1, f"{len(done)} applications are recorded")
        self._require_state(State.APPLIED)

    def _watered_in(self) -> None:
        self._wait(1)
        if not self._is_watered_in():
            self._say("watered 0.5 in")
        self._require(self._is_watered_in(), "it still waits for water")

    def _is_watered_in(self) -> bool:
        done = self._standing().done
        return all(application.watered_in_on is not None for application in done)

    def _until(self, kind: Kind, state: State) -> None:
        shown_after, came = 0, False
        for days in range(1, _LONGEST_DAYS[kind] + 1):
            heard = self._session.wait("P1D")
            if heard:
                self._write(f"\n{_passing(days - shown_after)}")
                show(self._session, heard, self._write, _WIDTH)
                shown_after = days
            came = any(message.alert == kind for message in heard)
            if came:
                break
        self._require(came, f"no such alert within {_LONGEST_DAYS[kind]} days")
        self._require_state(state)

    def _wait(self, days: int) -> None:
        self._turn(_passing(days), lambda: self._session.wait(f"P{days}D"))

    def _say(self, text: str) -> list[Said]:
        return self._turn(f"> {text}", lambda: self._session.say(text))

    def _tap(self, label: str) -> list[Said]:
        return self._turn(f"> [{label}]", lambda: self._session.tap(label))

    def _turn(self, shown: str, act: Callable[[], list[Said]]) -> list[Said]:
        self._write(f"\n{shown}")
        try:
            said = act()
        except NotARequest as problem:
            raise self._missed(str(problem)) from problem
        show(self._session, said, self._write, _WIDTH)
        went_wrong = any(message.reply.text == say("help.trouble") for message in said)
        self._require(not went_wrong, "an error of ours, see the log")
        return said

    def _yard(self) -> YardRecord:
        with self._db.reading() as work:
            chat = chats.find_chat(work, PLATFORM, self._user)
            mine = [] if chat is None else yards.of_chat(work, chat.id)
        self._require(len(mine) == 1, f"{len(mine)} yards are registered")
        return mine[0]

    def _standing(self) -> Standing:
        with self._db.reading() as work:
            return standing_of(work, self._yard())

    def _require_state(self, state: State) -> None:
        season = self._standing().season(Target.SUMMER_ANNUALS)
        found = None if season is None else season.state
        self._require(found == state, f"the season is at {found}")

    def _require(self, is_so: bool, otherwise: str) -> None:
        if not is_so:
            raise self._missed(otherwise)

    def _missed(self, reason: str) -> StopMissed:
        return StopMissed(say("tour.missed", stop=self._stop, reason=reason))


def _passing(days: int) -> str:
    return say("tour.days_pass", days=days)
