"""The buttons somebody has before them: their words may be typed as well as tapped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from bot.dialogue import topics
from bot.dialogue.talk import Talk
from bot.hearing.words import stands_in
from bot.letters import letters
from bot.turn import Buttons, Reply
from jobs.letters_due import letter_of
from storage.shown import newest_shown
from storage.yards import YardRecord

#: So many buttons of a question stand under another answer.
_FEW = 4
#: Turns looked back on for the newest message with buttons.
_LOOK_BACK = 3


def buttons_of(talk: Talk) -> tuple[tuple[str, str], ...]:
    """Return label and action of each button of the newest message that has any."""
    return tuple((each.label, each.action) for row in _newest(talk) for each in row)


def of_question(talk: Talk) -> Buttons:
    """Return the buttons of the question that waits, as the newest message with any shows them.

    A question with a page of them is put again in words alone.
    """
    begin = topics.BUTTONS_OF.get(talk.topic or "")
    if begin is None:
        return ()
    lines = [tuple(b for b in row if b.action.startswith(begin)) for row in _newest(talk)]
    found = tuple(line for line in lines if line)
    return found if sum(map(len, found)) <= _FEW else ()


def _newest(talk: Talk) -> Buttons:
    """Return the buttons of the newest message that has some, an answer or an alert."""
    turns, sent = newest_shown(talk.work, talk.chat.id, _LOOK_BACK)
    newest_first = (
        (turn.at, Reply.from_json(row)) for turn in turns[::-1] for row in turn.replies[::-1]
    )
    newest = next(((at, reply) for at, reply in newest_first if reply.buttons), None)
    for alert, sent_at in sent[-1:]:
        if newest is None or sent_at > newest[0]:
            letter = letter_of(talk.work, alert, sent_at)
            if letter is not None:
                told = letters.write(replace(letter, at=talk.now))
                return told.buttons or (() if newest is None else newest[1].buttons)
    return () if newest is None else newest[1].buttons


def newest_yards(talk: Talk, mine: Sequence[YardRecord], lately: timedelta) -> list[YardRecord]:
    """Return the yards that the newest answer or alert names which names any; none of long ago.

    An answer counts where it names the yard talked about: others may be named beside it.
    """
    turns, sent = newest_shown(talk.work, talk.chat.id, _LOOK_BACK)
    here = talk.yard()
    shown: list[tuple[datetime, list[YardRecord]]] = []
    for turn in turns:
        text = " ".join(Reply.from_json(row).text for row in turn.replies)
        named = [yard for yard in mine if stands_in(yard.name, text)]
        is_of_here = here is not None and here.id in [yard.id for yard in named]
        shown.append((turn.at, named if is_of_here else []))
    for alert, sent_at in sent:
        letter = letter_of(talk.work, alert, sent_at)
        ids = set() if letter is None else {each.yard_id for each in (letter, *letter.others)}
        shown.append((sent_at, [yard for yard in mine if yard.id in ids]))
    shown.sort(key=lambda each: each[0])
    # The last of several of one moment is the newest.
    newest_first = shown[::-1]
    return next((found for at, found in newest_first if found and talk.now - at <= lately), [])
