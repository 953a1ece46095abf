"""Regular expressions that are compiled when they are first needed: most starts need few."""

from __future__ import annotations

import re
from typing import Any, cast


class _Later:
    """A pattern until somebody asks anything of it."""

    def __init__(self, text: str, flags: int) -> None:
        self._said = text, flags

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(*self._said), name)
        setattr(self, name, found)
        return found


def expression(text: str, flags: int = 0) -> re.Pattern[str]:
    """Return a pattern for its methods, as `re.compile` does, compiled when one is called."""
    return cast(re.Pattern[str], _Later(text, int(flags)))
