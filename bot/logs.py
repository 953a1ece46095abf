"""The log: to stderr, and never with a secret in it.

Libraries that would write whole addresses of calls are kept quiet; should a secret reach a record
all the same, in a message or a traceback, it is blotted out before the line is written.
"""

from __future__ import annotations

import logging
import sys
from collections.abc import Iterable
from typing import Final

_FORMAT: Final = "%(asctime)s %(levelname)s %(name)s: %(message)s"
_BLOT: Final = "[secret]"

#: These write addresses of calls, which hold the token, at INFO and below.
_TALKATIVE: Final = ("httpx", "httpcore", "hpack", "urllib3")


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
        for secret in self._secrets:
            line = line.replace(secret, _BLOT)
        return line


def set_up(level: str, secrets: Iterable[str]) -> None:
    """Log to stderr from ``level`` on, without ``secrets``."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(DiscreetFormatter(secrets))
    logging.basicConfig(level=level, handlers=[handler], force=True)
    logging.captureWarnings(True)
    for name in _TALKATIVE:
        logging.getLogger(name).setLevel(logging.WARNING)
    logging.getLogger("alembic").setLevel(logging.WARNING)
    logging.getLogger("apscheduler").setLevel(logging.WARNING)
    # What goes wrong with the chat platform is told by ourselves, once and without tracebacks.
    if logging.getLogger().level > logging.DEBUG:
        logging.getLogger("telegram").setLevel(logging.CRITICAL)
