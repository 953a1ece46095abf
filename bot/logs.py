"""The log: to stderr, and never with a secret in it, nor with what people say or where they live.

Libraries that would write whole addresses of calls, or messages, are kept quiet at every level.
Should a secret or a place reach a record all the same, in a message or a traceback, it is blotted
out before the line is written; of an exception that may quote what somebody said only the kind is
told, and where it was raised.
"""

from __future__ import annotations

import logging
import re
import sys
import traceback
from collections.abc import Iterable
from typing import Any, Final

_FORMAT: Final = "%(asctime)s %(levelname)s %(name)s: %(message)s"
_BLOT: Final = "[secret]"

#: These write addresses of calls, which hold the token, at INFO and below.
_TALKATIVE: Final = ("aiohttp", "urllib3")


class DiscreetFormatter(logging.Formatter):
    """Writes records with every secret blotted out.

    Parameters
    ----------
    secrets
        What must never be written.
    """

    def __init__(self, secrets: Iterable[str]) -> None:
        super().__init__(_FORMAT)
        # The longest first, so that a part of a secret does not spoil the match of the whole.
        self._secrets = sorted({secret for secret in secrets if secret}, key=len, reverse=True)

    def format(self, record: logging.LogRecord) -> str:
        """Return the line, traceback included."""
        line = super().format(record)
        for pattern, blot in _PLACES:
            line = pattern.sub(blot, line)
        for secret in self._secrets:
            line = line.replace(secret, _BLOT)
        return line

    def formatException(self, ei: Any) -> str:  # noqa: N802 - the library's name
        """Return a traceback without the words of exceptions that may quote people."""
        lines: list[str] = []
        trouble, seen = ei[1], set()
        while trouble is not None and id(trouble) not in seen:
            seen.add(id(trouble))
            frames = "".join(traceback.format_tb(trouble.__traceback__))
            lines.insert(0, f"Traceback (most recent call last):\n{frames}{_told(trouble)}")
            trouble = trouble.__cause__ or (
                None if trouble.__suppress_context__ else trouble.__context__
            )
        return "\n\nand then\n\n".join(lines)


def _told(trouble: BaseException) -> str:
    kind = type(trouble)
    is_telling = issubclass(kind, _TELLING) or kind.__module__.startswith(_TELLING_MODULES)
    name = f"{kind.__module__}.{kind.__qualname__}".removeprefix("builtins.")
    if not is_telling:
        return f"{name} (what it says is left out)"
    return f"{name}: {_QUOTED.sub(' [left out]', str(trouble))}"


#: Exceptions that speak of machines and programs, not of what people said.
_TELLING: Final = (OSError, AttributeError, NameError, ImportError, MemoryError, RecursionError)
_TELLING_MODULES: Final = ("sqlalchemy", "sqlite3", "psycopg", "telegram", "jobs.schedule")
#: Values a database server quotes: one that did not fit, or the whole row, behind its first line.
_QUOTED: Final = re.compile(
    r'(?:: "|\n(?:DETAIL|CONTEXT|HINT|LINE \d+):).*?(?=\n\[SQL: |\Z)', re.DOTALL
)
#: Places in addresses of the weather services.
_PLACES: Final = (
    (re.compile(r"\b(latitude|longitude)=[-\d.,%A-Fa-f]+"), r"\1=[place]"),
    (re.compile(r"/(points|gridpoints|stations)/[^\s?]+"), r"/\1/[place]"),
)


def set_up(level: str, secrets: Iterable[str]) -> None:
    """Log to stderr from ``level`` on, without ``secrets``."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(DiscreetFormatter(secrets))
    logging.basicConfig(level=level, handlers=[handler], force=True)
    logging.captureWarnings(True)
    for name in _TALKATIVE:
        logging.getLogger(name).setLevel(logging.ERROR)
    logging.getLogger("alembic").setLevel(logging.WARNING)
    logging.getLogger("apscheduler").setLevel(logging.WARNING)
    # What goes wrong with the chat platform is told by ourselves, once and without tracebacks; at
    # lower levels the library would write down whole messages.
    logging.getLogger("telegram").setLevel(logging.CRITICAL + 1)
