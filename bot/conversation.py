"""One turn, one unit of work: answered once, whatever is delivered twice."""

from __future__ import annotations

import hashlib
import logging
from collections.abc import Callable
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from typing import Any, Final, TypeAlias

from sqlalchemy.exc import IntegrityError

from bot.dialogue.talk import Surroundings, Talk
from bot.dialogue.topics import PRODUCT
from bot.forgetting import delete_files
from bot.hearing import emergency
from bot.hearing.readers.label_photo import SeenFigure
from bot.label_reader import read_label
from bot.paging import first_pages, next_page
from bot.pictures.render import PictureSpec, render
from bot.saying.catalogue import hinted, language_for, say
from bot.saying.voice import change_voice, speaking
from bot.table_files import NoTable, read_table
from bot.talk.routing import route, understood
from bot.talk.table import ANSWERS
from bot.telling.pinned import first_line_of
from bot.turn import Reply, Turn, legible
from jobs.resting import wake
from storage import chats, pins
from storage.chats import ChatRecord
from storage.database import Database, StaleWrite, may_pass
from storage.recorder import Author, recorder_of, sign

log = logging.getLogger(__name__)

#: A turn that met another of the same person is answered again this often before giving up.
_TRIES: Final = 5
#: How reading an action fails that is none of ours: nothing is changed then.
_UNREADABLE: Final = (LookupError, ValueError, TypeError, OverflowError)

Draw: TypeAlias = Callable[[PictureSpec, Path], Path]


class NotKept(Exception):
    """Raised when a turn could not be kept for now: nothing is changed, and it is not lost."""


class Conversation:
    """Answers turns.

    Parameters
    ----------
    db
        The database.
    around
        Where the conversation runs.
    pictures
        Folder in which pictures are drawn.
    units
        Units new chats are answered in.
    look
        Looks at the soil of a yard that nobody has looked at yet.
    draw
        What draws a picture into a folder and returns its path.
    read
        What reads the photo of a label: nothing where nothing is sure, None where it cannot.
    """

    def __init__(
        self,
        db: Database,
        around: Surroundings,
        *,
        pictures: Path,
        units: str = "us",
        look: Callable[[int, datetime], object] = lambda _yard_id, _now: None,
        draw: Draw = render,
        read: Callable[[Path], tuple[SeenFigure, ...] | None] = read_label,
    ) -> None:
        self._db = db
        self._around = around
        self._pictures = pictures
        self._draw = draw
        self._read = read
        self._units = units
        self._look = look

    def invite_by(self, link: str) -> None:
        """Give invitations as links, once the platform has told our name there.

        Parameters
        ----------
        link
            A deep link with a place for its ``{payload}``.
        """
        self._around = replace(self._around, invite_link=link)

    @property
    def turns_at_once(self) -> int:
        """How many turns are worth beginning at once.

        Where one writes at a time, one thread that finds its caches warm takes a fifth less.
        """
        return 8 if self._db.is_shared else 1

    def first_aid(self, turn: Turn) -> Reply | None:
        """Return what helps in an emergency, if a turn may speak of one; nothing else is needed."""
        if turn.text is None or not emergency.speaks_of_one(legible(turn.text)):
            return None
        with speaking(language_for(turn.language)):
            return Reply(say("help.emergency"))

    def handle(self, turn: Turn) -> list[Reply]:
        """Answer a turn, pictures drawn; the same turn again gets the same answer.

        Nothing is raised: what goes wrong on our side is logged and answered with a sentence, and
        an emergency is answered even when the database is not.
        """
        try:
            return [self._drawn(self.looked(turn, reply)) for reply in self.answer(turn)]
        except NotKept:
            log.warning("turn %s could not be kept", turn.key)
            return self._apology(turn, "help.trouble")

    def answer(self, turn: Turn) -> list[Reply]:
        """Answer a turn, pictures still to be drawn; what it changes is kept when this returns.

        The same turn again gets the same answer and changes nothing. What goes wrong on our side is
        logged and answered with a sentence.

        Raises
        ------
        NotKept
            While the database is locked or out of reach: nothing is changed, and the turn may be
            given again.
        """
        turn = self._with_label_read(self._with_own_copy(_with_table(turn).legible()))
        for _ in range(_TRIES):
            try:
                return self._answer(turn)
            except (StaleWrite, IntegrityError):
                # Another turn of this person, or this very turn, was answered at the same moment.
                log.info("turn %s met another", turn.key)
            except Exception as trouble:
                if may_pass(trouble):
                    raise NotKept(str(getattr(trouble, "orig", trouble))) from trouble
                if turn.tap is not None and isinstance(trouble, _UNREADABLE):
                    # Taps come back from people's own programs: this one is old, or forged.
                    log.warning("a tap was not understood: %s", type(trouble).__name__)
                    return self._apology(turn, "help.button_stale")
                log.exception("turn %s failed", turn.key)
                return self._apology(turn, "help.trouble")
        return self._apology(turn, "help.busy")

    def _apology(self, turn: Turn, key: str) -> list[Reply]:
        """Say that a turn was not seen through, in the language of who said it; help goes first."""
        with speaking(language_for(turn.language)):
            return [self.first_aid(turn) or Reply(say(key, hint=say("help.hint_yard")))]

    def looked(self, turn: Turn, reply: Reply) -> Reply:
        """Return a reply with what the first look at its yard shows behind its first line.

        Slow: the weather may be asked for. Where it cannot be had the reply is as it was.
        """
        return behind_first_line(reply, self.look_line(turn, reply))

    def look_line(self, turn: Turn, reply: Reply) -> str:
        """Return what the first look at a reply's yard shows; nothing where there is none."""
        if reply.looks_at is None:
            return ""
        try:
            self._look(reply.looks_at, turn.at)
            with self._db.reading() as work:
                chat = chats.find_chat(work, turn.platform, turn.chat)
                if chat is None:
                    return ""
                own = chats.own_tongue(work, turn.platform, turn.person)
                chat = _as_answered(chat, turn, *own)
                with speaking(chat.language, chat.units):
                    return first_line_of(work, reply.looks_at, self._around, turn.at)
        except Exception:
            log.exception("the first look at yard %s failed", reply.looks_at)
            return ""

    def _with_own_copy(self, turn: Turn) -> Turn:
        """Copy a photo to where pictures are kept, unless it lies there; by contents, so once."""
        if turn.photo is None or Path(turn.photo).parent == self._pictures:
            return turn
        try:
            content = Path(turn.photo).read_bytes()
            name = hashlib.sha256(content).hexdigest()[:24]
            path = self._pictures / f"photo-{name}{Path(turn.photo).suffix.lower()}"
            if not path.exists():
                self._pictures.mkdir(mode=0o700, parents=True, exist_ok=True)
                path.touch(0o600)
                path.write_bytes(content)
        except OSError:
            log.exception("a photo could not be copied")
            return turn
        return replace(turn, photo=str(path))

    def _with_label_read(self, turn: Turn) -> Turn:
        """Read a photo that comes while a label is asked for, outside the unit of work: slow."""
        if turn.photo is None:
            return turn
        try:
            with self._db.reading() as work:
                topic = chats.topic_of(work, turn.platform, turn.chat, turn.person)
            return replace(turn, seen=self._read(Path(turn.photo))) if topic == PRODUCT else turn
        except Exception:
            log.exception("the photo of a label could not be read")
            return turn

    def _drawn(self, reply: Reply) -> Reply:
        """Draw what is still to be drawn; where that fails the words go alone."""
        if reply.drawing is None:
            return reply
        try:
            path = self._draw(reply.drawing, self._pictures)
        except Exception:
            log.exception("a picture could not be drawn")
            return replace(reply, drawing=None)
        return replace(reply, drawing=None, picture=str(path))

    def _answer(self, turn: Turn) -> list[Reply]:
        with speaking():
            replies, talk = self._answered(turn)
            if talk is not None and talk.erased is not None:
                # Only now are the rows gone for good.
                delete_files(talk.erased, talk.chat.id, self._pictures, self._around.files)
            for left in () if talk is None else talk.afterwards:
                left()
        return replies

    def _answered(self, turn: Turn) -> tuple[list[Reply], Talk | None]:
        """Answer a turn in one unit of work; without a talk where it was answered before."""
        with self._db.writing() as work:
            begun = chats.begin_turn(
                work,
                turn.key,
                turn.platform,
                chat=turn.chat,
                title=turn.chat_title,
                person=turn.person,
                name=turn.person_name,
                units=self._units,
                language=language_for(turn.language),
                now=turn.at,
            )
            person = begun.person
            chat = _as_answered(begun.chat, turn, person.language, person.units)
            change_voice(chat.language, chat.units)
            if begun.answered is not None:
                kept = [Reply.from_json(row) for row in begun.answered.replies]
                return first_pages(begun.answered.id, kept), None
            talk = Talk(
                work=work,
                now=turn.at,
                turn=turn,
                chat=chat,
                person=person,
                dialogue=begun.dialogue,
                around=self._around,
                answers=ANSWERS,
            )
            self._wake(talk)
            sign(work, _author(talk))
            more = None if turn.tap is None else next_page(work, chat, turn.tap)
            waiting = talk.topic, dict(talk.data)
            replies = understood(route(talk), talk.heard) if more is None else [more]
            if turn.tap is not None and replies and _has_settled(talk, waiting):
                replies = [replace(replies[0], settles=True), *replies[1:]]
            if talk.erased is not None:
                return replies, talk
            if self._around.has_pins and _has_changed(talk):
                yard = talk.yard()
                pins.touch(work, chat.id, None if yard is None else yard.id)
            chats.save_dialogue(work, talk.finished_dialogue(), now=turn.at)
            turn_id = chats.record_turn(
                work,
                turn.key,
                chat_id=chat.id,
                person_id=person.id,
                at=turn.at,
                said=turn.said(),
                replies=[reply.to_json() for reply in replies],
            )
            return first_pages(turn_id, replies), talk

    def _wake(self, talk: Talk) -> None:
        """Look at the yard talked about, should it rest, before anything is said of it."""
        yard = talk.yard()
        if yard is not None:
            wake(talk.work, yard, self._around.source, self._around.outlooks, talk.now)


def _with_table(turn: Turn) -> Turn:
    """Read the table of a file, outside the unit of work; without one the turn says so."""
    if turn.document is None or turn.table is not None:
        return turn
    try:
        return replace(turn, table=read_table(Path(turn.document)))
    except NoTable as trouble:
        log.info("a file was no table: %s", type(trouble).__name__)
    except OSError:
        log.exception("a file could not be opened")
    return turn


def _as_answered(
    chat: ChatRecord, turn: Turn, language: str | None, units: str | None
) -> ChatRecord:
    """Return a chat as whoever speaks there is answered: as they asked, else as is hinted.

    The hint counts where several people write; in a chat of one's own it was taken at its first.
    """
    language = language or (hinted(turn.language) if turn.is_group else None)
    return replace(chat, language=language or chat.language, units=units or chat.units)


def behind_first_line(reply: Reply, line: str) -> Reply:
    """Return a reply with what a first look showed behind its first line."""
    first, _, rest = reply.text.partition("\n")
    text = "\n".join(part for part in (first, line, rest) if part)
    return replace(reply, text=text if line else reply.text, looks_at=None)


def _has_settled(talk: Talk, waiting: tuple[str | None, dict[str, Any]]) -> bool:
    """Tell whether a turn changed something kept, or answered the question that waited."""
    return _has_changed(talk) or (waiting[0] is not None and waiting != (talk.topic, talk.data))


def _has_changed(talk: Talk) -> bool:
    """Tell whether a turn changed something kept."""
    recorder = recorder_of(talk.work)
    talk.work.flush()
    return recorder is not None and recorder.has_seen_any


def _author(talk: Talk) -> Author:
    """Return who changes what is changed in a turn, and by which words."""
    yard, turn = talk.yard(), talk.turn
    return Author(
        person_id=talk.person.id,
        chat_id=talk.chat.id,
        at=talk.now,
        said=turn.text or turn.tap or "",
        turn=turn.key,
        yard_id=None if yard is None else yard.id,
    )
