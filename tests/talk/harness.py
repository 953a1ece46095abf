"""A conversation in a test: the real machine on a file database, with a climate and a clock."""

from __future__ import annotations

import re
from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from bot.terminal import Said, Session, TerminalMessenger
from bot.wiring import MovedClock, assemble
from jobs.sources.base import Source
from tests.made_once import CLIMATE, database_at

#: A made-up yard near the middle of the continent.
PLACE = (39.18, -96.57)
START = datetime(2026, 2, 10, 14, tzinfo=UTC)

ZONES = "pool lawn 60x40 ft, strip 5 by 80 ft, south bed 12 m x 9 m minus 3x4"
PRODUCT = (
    "/product prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 sq ft a year"
)


class Talker:
    """Somebody talking to the machine; replies are kept newest last."""

    def __init__(
        self,
        folder: Path,
        *,
        start: datetime = START,
        source: Source | None = None,
        user: int = 1,
    ) -> None:
        self.db = database_at(folder / "talk.sqlite3")
        self.messenger = TerminalMessenger()
        self.source = source or CLIMATE
        self.clock = MovedClock(self.db, "test", start, stands_still=True)
        self.machine = assemble(self.db, self.source, self.messenger, owner="test")
        self.session = Session(self.machine, self.messenger, self.clock, user)

    def say(self, text: str) -> list[Said]:
        return self.session.say(text)

    def ask(self, text: str) -> str:
        """Say something and return the text of everything that came back."""
        return text_of(self.session.say(text))

    def tap(self, label: str) -> str:
        return text_of(self.session.tap(label))

    def take_back(self) -> str:
        """Undo, and say yes where that is asked first; return the text of what came back."""
        said = self.say("/undo")
        return self.tap("Take it back") if "Take it back" in labels_of(said) else text_of(said)

    def wait(self, span: str) -> list[Said]:
        return self.session.wait(span)

    def settle_in(self) -> None:
        """Register the made-up yard with zones and a product."""
        self.say("/start")
        self.session.location(*PLACE)
        self.say(ZONES)
        self.say(PRODUCT)

    def until_alert(self, kind: str, days: int = 250) -> Said:
        """Wait day by day until an alert of a kind arrives."""
        for _ in range(days):
            for said in self.wait("P1D"):
                if said.alert == kind:
                    return said
        raise AssertionError(f"no {kind} within {days} days")


def text_of(said: Sequence[Said]) -> str:
    return "\n".join(message.reply.text for message in said)


def labels_of(said: Sequence[Said]) -> list[str]:
    return [button.label for message in said for row in message.reply.buttons for button in row]


def numbers(text: str) -> list[float]:
    return [float(number.replace(",", "")) for number in re.findall(r"\d[\d,]*\.?\d*", text)]
