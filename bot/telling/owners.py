"""Whose a yard is: asked of a further one, and what is missing to treat it for pay."""

from __future__ import annotations

from bot.dialogue.talk import Talk
from bot.saying.values import Day
from bot.turn import Reply
from storage.yards import YardRecord


def whose(talk: Talk) -> list[Reply]:
    """Ask whose a further yard is, as soon as there is one."""
    mine = talk.yards()
    yard = talk.yard()
    if yard is None or len(mine) < 2 or yard.owner is not None:
        return []
    buttons = talk.rows(
        [
            ("screening.button_own", f"owner:own:{yard.id}"),
            ("screening.button_friend", f"owner:friend:{yard.id}"),
        ],
        [("screening.button_pay", f"owner:pay:{yard.id}")],
    )
    return [talk.reply("screening.whose", buttons, yard=yard.name)]


def licence_line(talk: Talk, yard: YardRecord) -> str | None:
    """Return what is missing to treat a client's yard for pay; it never holds anything back."""
    if yard.owner != "pay":
        return None
    person = talk.person
    if person.licence is None:
        return talk.say("screening.licence_missing")
    if person.licence_until is not None and person.licence_until < talk.today(yard):
        day = Day(person.licence_until, talk.today(yard))
        return talk.say("screening.licence_expired", number=person.licence, day=day)
    return None
