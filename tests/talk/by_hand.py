"""Handlers called by hand on the real machine: acts and slots go in, nothing is heard."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, TypeVar

from bot.dialogue.talk import Surroundings, Talk
from bot.hearing.acts import ACTS
from bot.hearing.heard import ActHeard, Slots, Why
from bot.talk.table import ANSWERS, BEFOREHAND, HANDLERS
from bot.turn import Reply, Turn
from jobs import deliver
from jobs.agronomy.maxima import LabelMaximum
from jobs.agronomy.rates import Rate
from jobs.agronomy.strengths import ActiveIngredient, Strength
from jobs.digests import Manners
from jobs.messenger import Letter
from jobs.outlooks import Outlooks
from jobs.schedule import Job, advance
from jobs.uses import confirming, entering_products, zones
from jobs.uses import yard_settings as yard_uses
from jobs.watch import Watch
from storage import chats, yards
from storage.recorder import Author, sign
from storage.yards import NewZone, YardRecord
from tests.made_once import CLIMATE, database_at

T = TypeVar("T")

#: A made-up yard near the middle of the continent, as in the other conversations.
PLACE = (39.18, -96.57)
START = datetime(2026, 2, 10, 14, tzinfo=UTC)


class _Letters:
    """A messenger that keeps what it is given."""

    def __init__(self) -> None:
        self.sent: list[Letter] = []

    def send(self, letter: Letter) -> None:
        self.sent.append(letter)


class House:
    """A database with its watch and its outbox, and a clock that the tests move."""

    def __init__(self, folder: Path, *, keeps_unread: bool = False) -> None:
        self.db = database_at(folder / "by_hand.sqlite3")
        self.now = START
        self.letters = _Letters()
        source = CLIMATE
        outlooks = Outlooks()
        watch = Watch(self.db, source, outlooks)
        self.pictures = folder / "pictures"
        self.around = Surroundings(
            source=source.name,
            is_invented=source.is_invented,
            can_move_clock=True,
            credit=None,
            outlooks=outlooks,
            files=self.pictures / "exports",
            keeps_unread=keeps_unread,
        )
        manners = Manners(source.name)
        self._jobs = (
            Job("watch", timedelta(seconds=20), watch.tick, watch.next_due_at),
            Job(
                "deliver",
                timedelta(seconds=20),
                lambda now: deliver.deliver_due(
                    self.db, self.letters, now, owner="test", manners=manners
                ),
                lambda: deliver.next_due_at(self.db),
            ),
        )

    def wait(self, days: float) -> list[Letter]:
        """Move the clock; return what was sent meanwhile."""
        before = len(self.letters.sent)
        until = self.now + timedelta(days=days)
        advance(self._jobs, self.now, until)
        self.now = until
        return self.letters.sent[before:]

    def until(self, kind: str, days: int = 250) -> None:
        """Wait day by day until something of a kind is sent."""
        for _ in range(days):
            if any(letter.kind == kind for letter in self.wait(1)):
                return
        raise AssertionError(f"no {kind} within {days} days")


class Somebody:
    """A person in a chat of the house."""

    def __init__(self, house: House, number: int = 1, name: str = "Casey Dell") -> None:
        self.house, self.number, self.name = house, number, name
        self._turns = 0
        #: The newest talk, as its turn left it.
        self.talk: Talk | None = None

    def do(self, act: str, *, why: Why = "ranker", said: str = "", **slots: Any) -> list[Reply]:
        """Let the handler of an act answer, with the rights that its row asks for."""

        def answer(talk: Talk) -> list[Reply]:
            yard = talk.yard()
            heard = ActHeard(act, Slots(**slots), said or act, why)
            if yard is None:
                return (BEFOREHAND if ACTS[act].is_for_anywhere else HANDLERS)[act](
                    talk, None, heard
                )
            needs = ACTS[act].needs
            assert needs == "none" or talk.may(yard, needs), f"{act} needs {needs}"
            return HANDLERS[act](talk, yard, heard)

        return self.turn(answer, said or act)

    def ask(self, act: str, **slots: Any) -> str:
        """Return the text of everything an act is answered with."""
        return "\n".join(reply.text for reply in self.do(act, **slots))

    def turn(self, answer: Any, said: str = "") -> list[Reply]:
        """Answer one turn in one unit of work, as the machine does."""
        house = self.house
        self._turns += 1
        address = str(self.number)
        with house.db.writing() as work:
            key = f"{address}:{self._turns}:{house.now.isoformat()}"
            begun = chats.begin_turn(
                work,
                key,
                "test",
                chat=address,
                title="",
                person=address,
                name=self.name,
                units="us",
                language="en",
                now=house.now,
            )
            chat, person = begun.chat, begun.person
            turn = Turn(
                key=key, platform="test", chat=address, person=address, at=house.now, text=said
            )
            talk = Talk(work, house.now, turn, chat, person, begun.dialogue, house.around, ANSWERS)
            sign(work, Author(person.id, chat.id, house.now, said, key))
            replies: list[Reply] = answer(talk)
            self.talk = talk
            if talk.erased is None:
                chats.save_dialogue(work, talk.finished_dialogue(), now=house.now)
                chats.record_turn(
                    work,
                    key,
                    chat_id=chat.id,
                    person_id=person.id,
                    at=house.now,
                    said=turn.said(),
                    replies=[reply.to_json() for reply in replies],
                )
        for left in self.talk.afterwards:
            left()
        return replies

    def within(self, what: Callable[[Talk], T]) -> T:
        """Do something within a turn that answers nothing; return what it returns."""
        found: list[T] = []

        def answer(talk: Talk) -> list[Reply]:
            found.append(what(talk))
            return []

        self.turn(answer)
        return found[0]

    def settle_in(self, name: str = "Alder Court") -> None:
        """Register a made-up yard with two zones and a product."""

        def register(talk: Talk) -> list[Reply]:
            work, now, person_id = talk.work, talk.now, talk.person.id
            place = yard_uses.Register(talk.chat.id, person_id, *PLACE, name)
            yard = yard_uses.register(work, place, now)
            said = [("front", 223.0), ("strip", 37.0)]
            new = [NewZone(zone, zone, zone, "rectangle", area_m2) for zone, area_m2 in said]
            zones.keep(work, yard, new, person_id=person_id, now=now)
            rate = Rate(3.2, "lb/1000 sq ft")
            most = LabelMaximum(Rate(6.4, "lb/1000 sq ft"))
            prodiamine = ActiveIngredient("prodiamine", Strength(0.38, "%"))
            command = entering_products.Enter(
                "prodiamine 0.38%", "granule", (prodiamine,), rate, (most,)
            )
            entering_products.enter(work, yard, command, person_id=person_id, now=now)
            talk.turn_to(yard.id)
            return []

        self.turn(register)
        self.house.wait(0.01)

    def apply(self, *names: str) -> None:
        """Put it down on the zones named, on all where none is."""

        def put_down(talk: Talk) -> list[Reply]:
            yard = talk.yard()
            assert yard is not None
            kept = yards.zones(talk.work, yard.id)
            done = [zone for zone in kept if not names or zone.name in names]
            command = confirming.Confirm(done, talk.now, None, "it is down", is_sure=True)
            confirming.confirm(talk.work, yard, command, person_id=talk.person.id, now=talk.now)
            return []

        self.turn(put_down)

    @property
    def yard(self) -> YardRecord:
        """The yard talked about."""
        with self.house.db.reading() as work:
            chat = chats.find_chat(work, "test", str(self.number))
            assert chat is not None
            return yards.of_chat(work, chat.id)[-1]


def text_of(replies: list[Reply]) -> str:
    return "\n".join(reply.text for reply in replies)


def labels_of(replies: list[Reply]) -> list[str]:
    return [button.label for reply in replies for row in reply.buttons for button in row]
