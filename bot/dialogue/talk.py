"""One turn of conversation in progress: what a subject of talk has at hand."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import date, datetime, timedelta
from pathlib import Path
from typing import Any, TypeAlias

from bot.dialogue import topics
from bot.hearing.acts import ACTS
from bot.hearing.heard import ActHeard, Heard
from bot.saying.catalogue import say
from bot.saying.printed_amounts import Measure
from bot.saying.voice import UnitSystem, change_voice
from bot.turn import Buttons, Reply, Turn, rows
from jobs.agronomy.season import State, Target
from jobs.local_days import local
from jobs.outlooks import Outlooks
from jobs.standing import Standing, standing_of
from jobs.uses.giving_up import Erased
from storage import chats, crews, held, journal, yards
from storage.chats import ChatRecord, DialogueRecord, PersonRecord
from storage.database import Work
from storage.seasons import SeasonRecord
from storage.yards import YardRecord

#: Number of the dialogue's own schema; a row of another number is begun again, kindly.
DIALOGUE_SCHEMA = 1


@dataclass(frozen=True, slots=True)
class Surroundings:
    """What a conversation needs to know about where it runs."""

    source: str
    is_invented: bool
    can_move_clock: bool
    credit: str | None
    outlooks: Outlooks
    #: Deep link of an invitation with a place for its ``{payload}``, where the platform has them.
    invite_link: str | None = None
    #: Folder in which exported files are written.
    files: Path = Path("exports")
    #: Whether whoever runs the bot reads texts that were not understood, of chats that agree.
    keeps_unread: bool = False
    #: Whether a message of each yard is pinned that always says how it stands.
    has_pins: bool = False


#: Takes the turn, the yard (`YardRecord`, or None where the act needs none) and what was heard.
Handler: TypeAlias = Callable[["Talk", Any, ActHeard], list[Reply]]


@dataclass(frozen=True, slots=True)
class Answers:
    """What answers each act, each where there is no yard yet, and a typed yes or no."""

    acts: Mapping[str, Handler]
    beforehand: Mapping[str, Handler]
    #: Takes the turn and whether it is a yes; None where that settles nothing that waits.
    yes_or_no: Callable[[Talk, bool], list[Reply] | None]


#: Under which the sizes that wait stand in a dialogue's row.
_UNKEPT = "unkept"
#: And the act that a message was, for one that goes on with it: "and the front?".
_BEFORE = "before"
#: And that message, where it was a question: "so that's a yes?".
_ASKED = "asked"
#: Nobody goes on with it after so long. Our choice.
_GOES_ON_FOR = timedelta(hours=1)

#: The platform keeps what it could not deliver for a day; an older date is no date of a message.
_LONGEST_KEPT = timedelta(hours=24)

#: Silence after which what was said before it is not asked about any more. Our choice.
_PASSES_AFTER = timedelta(hours=36)

#: Role of the chat a yard belongs to.
OWNER = "own"
_RANKS = ("", "see", "confirm", "change", OWNER)


@dataclass(slots=True)
class Talk:
    """A turn being answered; everything it writes goes into one unit of work.

    `topic` and `data` say what is awaited from this person next; they are written back at the end.
    """

    work: Work
    now: datetime
    turn: Turn
    chat: ChatRecord
    person: PersonRecord
    dialogue: DialogueRecord
    around: Surroundings
    answers: Answers
    topic: str | None = None
    data: dict[str, Any] = field(default_factory=dict)
    yard_id: int | None = None
    #: Sizes that wait for [Keep], whatever else is awaited (see `bot.dialogue.unkept`).
    unkept: dict[str, Any] = field(default_factory=dict)
    #: The act that this person's message before was, if another may go on with it.
    said_before: str = ""
    #: That message itself, if it was a question.
    asked_before: str = ""
    #: What was heard of a text; None for turns that are none.
    heard: Heard | None = None
    #: What was deleted, where this turn has deleted everything; nothing of the turn is kept then.
    erased: Erased | None = None
    #: Whether this turn has put a question.
    has_asked: bool = False
    #: What is to be done once the turn is kept: slow work, such as writing files.
    afterwards: list[Callable[[], object]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.yard_id = self.dialogue.yard_id
        is_over = self.now - self.dialogue.updated_at > _PASSES_AFTER
        if self.dialogue.topic in topics.PASSING and is_over:
            return
        if self.dialogue.schema in (0, DIALOGUE_SCHEMA):
            self.topic = self.dialogue.topic
            self.data = dict(self.dialogue.data)
            self.unkept = self.data.pop(_UNKEPT, {})
            before, asked = (str(self.data.pop(name, "")) for name in (_BEFORE, _ASKED))
            is_fresh = self.now - self.dialogue.updated_at <= _GOES_ON_FOR
            if is_fresh and before in ACTS:
                self.said_before, self.asked_before = before, asked

    def answer(
        self, act: str, yard: YardRecord | None, heard: ActHeard | None = None
    ) -> list[Reply]:
        """Return what is answered to an act, as if it had been heard and may be done."""
        return self.answers.acts[act](self, yard, heard or ActHeard(act))

    def is_told(self, act: str) -> bool:
        """Tell whether an act is among those of the message that is answered."""
        return self.heard is not None and any(each.act == act for each in self.heard.acts)

    def say(self, key: str, **params: object) -> str:
        """Return a sentence in the chat's language."""
        return say(key, **params)

    def reply(self, key: str, buttons: Buttons = (), **params: object) -> Reply:
        """Return a reply of one sentence from the catalogue."""
        return Reply(self.say(key, **params), buttons)

    def row(self, *buttons: tuple[str, str]) -> Buttons:
        """Return one row of buttons, each by the key of its words and its action."""
        return self.rows(buttons)

    def rows(self, *lines: Sequence[tuple[str, str]]) -> Buttons:
        """Return rows of buttons, each by the key of its words and its action."""
        return rows(*([(self.say(key), action) for key, action in line] for line in lines))

    def undo(self, entry: int | None = None, key: str = "applying.button_undo") -> Buttons:
        """Return the button that takes back what this turn changed, or an entry of the journal."""
        number = journal.entry_now(self.work) if entry is None else entry
        return () if number is None else self.row((key, f"undo:{number}"))

    def expect(self, topic: str, **data: Any) -> None:
        """Await something from this person about the yard talked about, and nothing else."""
        yard = self.yard()
        if yard is not None:
            # Should somebody else register another meanwhile, this one is still meant.
            self.yard_id = yard.id
        self.topic = topic
        self.data = data
        self.has_asked = True

    def settle(self) -> None:
        """Await nothing any more."""
        self.topic = None
        self.data = {}

    @property
    def is_metric(self) -> bool:
        """Whether this chat is answered in metric units."""
        return self.chat.units == "metric"

    @property
    def unit_system(self) -> UnitSystem:
        """Units this chat is answered in."""
        return "metric" if self.is_metric else "us"

    @property
    def length_unit(self) -> str:
        """Unit of dimensions written without one."""
        return "m" if self.is_metric else "ft"

    @property
    def scale(self) -> Measure | None:
        """The step of this person's scale, as far as they told it."""
        step, unit = self.person.scale_step, self.person.scale_unit
        return None if step is None or unit is None else Measure(step, unit)

    def said_at(self, yard: YardRecord) -> datetime:
        """Return when a turn was said, in a yard's time zone: days in its words count from there.

        A message of last night may be answered this morning, after an outage.
        """
        said = self.turn.said_at
        is_known = said is not None and timedelta(0) <= self.now - said <= _LONGEST_KEPT
        return local(said if is_known and said is not None else self.now, yard.timezone)

    def yards(self) -> list[YardRecord]:
        """Return the yards of this chat: those shared with it, then its own."""
        return list(held.made(self.work, ("yards", self.chat.id), self._yards))

    def _yards(self) -> list[YardRecord]:
        own = yards.of_chat(self.work, self.chat.id)
        shared = [yard for yard, _ in crews.shared_with(self.work, self.chat.id)]
        return [yard for yard in shared if yard.chat_id != self.chat.id] + own

    def role(self, yard: YardRecord) -> str:
        """Return what this chat may do with a yard: `OWNER`, a crew's role, or nothing (``""``)."""
        if yard.chat_id == self.chat.id:
            return OWNER
        shared = crews.shared_with(self.work, self.chat.id)
        return next((role for each, role in shared if each.id == yard.id), "")

    def may(self, yard: YardRecord, what: str) -> bool:
        """Tell whether this chat may ``see``, ``confirm`` or ``change`` a yard."""
        return _RANKS.index(self.role(yard)) >= _RANKS.index(what)

    def yard(self) -> YardRecord | None:
        """Return the yard this person is talking about: the one chosen, else the newest."""
        mine = self.yards()
        chosen = [yard for yard in mine if yard.id == self.yard_id]
        return chosen[0] if chosen else (mine[-1] if mine else None)

    def yard_by_id(self, yard_id: int) -> YardRecord | None:
        """Return a yard of this chat by its id, talked about from now on; None if not here."""
        found = next((yard for yard in self.yards() if yard.id == yard_id), None)
        if found is not None:
            self.turn_to(yard_id)
        return found

    def turn_to(self, yard_id: int) -> None:
        """Talk about a yard from now on; what was awaited about another is let go."""
        talked_about = self.yard()
        if talked_about is not None and talked_about.id != yard_id:
            self.settle()
        self.yard_id = yard_id

    def let_go_of_the_gone(self) -> None:
        """Await nothing about a yard that is not here any more."""
        if self.yard_id is not None and all(yard.id != self.yard_id for yard in self.yards()):
            self.settle()
            self.yard_id = None

    def today(self, yard: YardRecord) -> date:
        """Return the local day of a yard."""
        return local(self.now, yard.timezone).date()

    def standing(self, yard: YardRecord) -> Standing:
        """Return a yard as it stands now."""
        return standing_of(self.work, yard)

    def season(self, yard: YardRecord) -> SeasonRecord | None:
        """Return the yard's spring season, or None before its first look."""
        return self.standing(yard).season(Target.SUMMER_ANNUALS)

    def state(self, yard: YardRecord) -> State:
        """Return where the yard's spring stands."""
        season = self.season(yard)
        return State.WAITING if season is None else State(season.state)

    def use_units(self, units: str) -> None:
        """Answer this person in other units from now on; alerts of a group keep theirs."""
        chats.answer_in(self.work, self.person.id, units=units)
        yard = self.yard()
        journal.note(self.work, None if yard is None else yard.id, "chat.units", self.chat.id)
        self.chat = replace(self.chat, units=units)
        change_voice(units=units)

    def stale(self, hint: str = "help.hint_yard") -> Reply:
        """Return that a button is too old, with the words of a key on what to do instead."""
        return self.reply("help.button_stale", hint=self.say(hint))

    def use_language(self, language: str) -> None:
        """Answer this person in another language from now on; alerts of a group keep theirs."""
        chats.answer_in(self.work, self.person.id, language=language)
        self.chat = replace(self.chat, language=language)
        change_voice(language)

    def finished_dialogue(self) -> DialogueRecord:
        """Return the dialogue row as this turn leaves it."""
        is_aside = self.heard is not None and self.heard.is_aside
        before, asked = self.said_before, self.asked_before
        if not is_aside:
            before = self.heard.goes_on if self.heard else ""
            asked = self.heard.acts[0].said if self.heard and before.startswith("ask_") else ""
        beside = {_UNKEPT: self.unkept, _BEFORE: before, _ASKED: asked}
        return replace(
            self.dialogue,
            topic=self.topic,
            data=self.data | {key: value for key, value in beside.items() if value},
            yard_id=self.yard_id,
            schema=DIALOGUE_SCHEMA,
        )
