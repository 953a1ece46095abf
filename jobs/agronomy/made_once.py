"""What is made of a value is made once, and kept beside it."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from typing import Any, TypeVar

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, eq=False)
class MakesOnce:
    """A value that keeps what was made of it; another made of this one begins with nothing."""

    _made: dict[Hashable, Any] = field(default_factory=dict, init=False, repr=False)

    def once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """Return what was made of it under a key, made once."""
        if key not in self._made:
            self._made[key] = make()
        found: Made = self._made[key]
        return found
