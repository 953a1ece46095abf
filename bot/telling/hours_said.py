"""Hours of the day in words, and those in which a chat is left alone."""

from __future__ import annotations

from datetime import time
from typing import Final

from bot.dialogue.talk import Talk
from bot.saying.values import Clock
from storage import wishes

DAY_MIN: Final = 24 * 60


def quiet_words(talk: Talk, chat: wishes.ChatWishes) -> str:
    """Say a chat's quiet hours."""
    if chat.quiet_from == chat.quiet_until:
        return talk.say("wishes.summary_never_quiet")
    first, last = clock(talk, chat.quiet_from), clock(talk, chat.quiet_until)
    return talk.say("wishes.summary_quiet", first=first, last=last)


def clock(talk: Talk, minutes: int) -> Clock | str:
    """Say minutes after midnight as a time of day."""
    if minutes % DAY_MIN == 0:
        return talk.say("wishes.midnight")
    return Clock(time(minutes // 60 % 24, minutes % 60))
