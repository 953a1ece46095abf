"""Parting in short: ``ERASE``, ``start again``, ``everything as a file``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.heard import Scene, Slots

_AGAIN: Final = (
    r"start\s+(?:again|over)|(?:write|text|message)\s+(?:to\s+)?me\s+again"
    r"|(?:turn\s+)?(?:the\s+)?(?:alerts|messages)\s+(?:back\s+)?on(?:\s+again)?"
)
_EVERYTHING: Final = (
    r"(?:(?:send|give)\s+me\s+)?(?:everything|all\s+(?:of\s+)?my\s+data|my\s+data|all\s+of\s+it)"
    r"\s+(?:as|in)\s+(?:a|one)(?:\s+json)?\s+file"
)
_UNREAD: Final = re.compile(
    r"(?:you\s+may\s+)?(?P<no>don'?t\s+|do\s+not\s+)?keep\s+(?P<none>no\s+)?unread\s+texts?",
    re.IGNORECASE,
)

#: Actions of the buttons that say whether unread texts may be kept.
KEEP_UNREAD: Final = "parting:unread_on"
KEEP_NO_UNREAD: Final = "parting:unread_off"


@dataclass(frozen=True)
class EraseSaid:
    """The very word that confirms that everything is to be deleted."""


@dataclass(frozen=True)
class StartAgainSaid:
    """Somebody wants to be told again."""


@dataclass(frozen=True)
class EverythingAsked:
    """Somebody wants all that is kept of them as a file."""


def read_unread(text: str, _scene: Scene) -> Slots | None:
    """Read ``keep unread texts`` as the button of that name; None for other texts."""
    match = _UNREAD.fullmatch(tidied(text))
    if match is None:
        return None
    is_off = match["no"] is not None or match["none"] is not None
    return Slots(of="ask_privacy", option=KEEP_NO_UNREAD if is_off else KEEP_UNREAD)


FORMS: Final = (
    saying("erase", "erase", EraseSaid()),
    saying("stop_alerts", _AGAIN, StartAgainSaid()),
    saying("ask_privacy", _EVERYTHING, EverythingAsked(), is_sure=True),
    Form("confirm", read_unread),
)
