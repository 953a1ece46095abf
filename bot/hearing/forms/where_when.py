"""What most forms share: the day and the zones a text in short names, and what is left of it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bot.hearing.heard import Scene
from bot.hearing.phrases import Phrases
from bot.hearing.readers.dates import WhenRead, find_when
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.zone_names import find_names

#: Words left over in a text in short; more make it a sentence, which is no form.
FEW_WORDS: Final = 3


@dataclass(frozen=True)
class WhereWhen:
    """The day (or why it cannot be read), the zones, and the words left."""

    on: WhenRead | None
    unread: Unread | None
    zones: tuple[str, ...]
    all_zones: bool
    rest: str

    @property
    def is_sentence(self) -> bool:
        """Whether too much is left for a form."""
        return len(self.rest.split()) > FEW_WORDS


def where_when(text: str, scene: Scene, fillers: Phrases) -> WhereWhen:
    """Return the day and the zones of a text; `fillers` say nothing of their own."""
    when = find_when(text, scene.now)
    rest = when.rest if isinstance(when, WhenRead) else text
    named, is_all, leftover = find_names(scene.zones, fillers.without(rest).strip(" ?!"))
    return WhereWhen(
        when if isinstance(when, WhenRead) else None,
        when if isinstance(when, Unread) else None,
        named,
        is_all,
        leftover,
    )
