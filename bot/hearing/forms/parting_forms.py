"""Parting in short: ``ERASE``, ``start again``, ``everything as a file``."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form, saying, tidied
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import which

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
    said = which("parting", ("keep_unread", "keep_no_unread"), tidied(text))
    option = KEEP_NO_UNREAD if said == "keep_no_unread" else KEEP_UNREAD
    return None if said is None else Slots(of="ask_privacy", option=option)


FORMS: Final = (
    saying("erase", "parting.erase", EraseSaid()),
    saying("stop_alerts", "parting.again", StartAgainSaid()),
    saying("ask_privacy", "parting.everything", EverythingAsked(), is_sure=True),
    Form("confirm", read_unread, is_sure=True),
)
