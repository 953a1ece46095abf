"""Texts that were not understood, kept for whoever runs the bot where people agreed to it."""

from __future__ import annotations

from bot.dialogue.scene import scene_of
from bot.dialogue.talk import Talk
from bot.hearing.unnamed import unnamed
from jobs.sources.gazetteer import STATES, find_places
from storage import unread


def note(talk: Talk, said: str) -> None:
    """Keep a text without names, places and numbers; nothing unless both sides agreed."""
    if not (talk.around.keeps_unread and talk.chat.keeps_unread):
        return
    scene = scene_of(talk)
    mine = talk.yards()
    people = [member.name for yard in mine for member in talk.standing(yard).members]
    names = [*scene.zones, *scene.yards, talk.person.name, talk.chat.title, *people]
    unread.add(
        talk.work,
        on=talk.now.date(),
        language=talk.chat.language,
        moment=scene.moment,
        said=unnamed(said, names, lambda words: words in STATES or bool(find_places(words))),
    )
