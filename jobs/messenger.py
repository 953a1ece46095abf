"""How alerts leave: the protocol that the floor above implements, and what may become of a try.

DeliveryTrouble
├── TryLater          told to wait, or it surely never left
├── MayHaveArrived    no answer: it may be there, so it is repeated once, and says so
└── NobodyThere       blocked, gone: the chat falls silent until it speaks again
"""

from __future__ import annotations

from collections.abc import Mapping
from concurrent.futures import Future
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any, Protocol, runtime_checkable


@dataclass(frozen=True, slots=True)
class Letter:
    """An alert on its way, as facts: the text is made when it is sent.

    Language, units and the yard's name are today's, whatever they were when the alert was written.
    `others` are alerts told in the same message: several yards of one person, due together.
    `is_repeat` where it was sent before and nobody knows whether it arrived: the reader is told.
    """

    alert_id: int
    platform: str
    address: str
    language: str
    units: str
    yard_id: int
    yard_name: str
    timezone: str
    target: str
    kind: str
    facts: Mapping[str, Any]
    at: datetime
    others: tuple[Letter, ...] = ()
    is_repeat: bool = False


class DeliveryTrouble(Exception):
    """Base of what may go wrong with a letter."""


class TryLater(DeliveryTrouble):
    """The letter surely did not arrive; send it again after a while."""

    def __init__(self, reason: str, after: timedelta = timedelta(minutes=1)) -> None:
        super().__init__(reason)
        self.after = after


class MayHaveArrived(DeliveryTrouble):
    """Nobody knows whether the letter arrived."""


class NobodyThere(DeliveryTrouble):
    """The chat cannot be reached any more."""


class ChatMoved(DeliveryTrouble):
    """The chat has a new address; the letter goes there."""

    def __init__(self, new_address: str) -> None:
        super().__init__(new_address)
        self.new_address = new_address


class Messenger(Protocol):
    """Whatever carries letters to people."""

    def send(self, letter: Letter) -> None:
        """Send a letter.

        Raises
        ------
        DeliveryTrouble
            One of the kinds above when it did not surely arrive.
        """
        ...


@runtime_checkable
class SwiftMessenger(Messenger, Protocol):
    """A messenger that carries several letters at a time."""

    def room(self) -> int:
        """Return how many more letters would leave at once, the pace of the platform kept."""
        ...

    def begin(self, letter: Letter) -> Future[None]:
        """Put a letter into words and begin to send it.

        Returns
        -------
        concurrent.futures.Future
            Done when it arrived; its exception is a `DeliveryTrouble` when it did not surely.
        """
        ...
