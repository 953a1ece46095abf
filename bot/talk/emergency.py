"""Emergencies come before anything else, in any state of a conversation."""

from __future__ import annotations

import re
from typing import Final

# Broad on purpose: answering once too often costs a glance, missing one may cost a life.
_EMERGENCY: Final = re.compile(
    r"""
      \b(ate|eaten|swall?ow\w*|ingest\w*|drank|drunk|licked|licking|chew(ed|ing))\b
    | \beat(s|ing)?\b.*\b(granule|product|herbicide|fertili[sz]er|bag|stuff|it)s?\b
    | \b(eye|eyes|mouth|mouths|lips|tongue|face)\b
    | \b(vomit\w*|throwing\s+up|threw\s+up|poison\w*|posion\w*|toxic|seizure\w*)\b
    | \b(convuls\w*|unconscious)\b
    | \b(collaps\w*|faint\w*|drool\w*|trembl\w*|overdos\w*|emergency|911|112|999)\b
    | \b(sick|ill|nause\w*|dizzy|throw(s)?\s+up)\b
    | \b(can['’]?t|cannot|not|trouble|hard\s+to|difficult\w*)\s+breath\w*
    | \b(inhal\w*|breath(ed|ing)?\s+(it|in|the|some|dust|fumes?)|chok(ed|ing))\b
    | \bspill\w*|\bspilt\b|\bleak\w*
    | \b(storm|street|floor|yard)?\s*drains?\b | \bsewer\b | \bmanhole\b
    | \b(into|in|reached|reaches|toward\w*)\s+(the\s+|a\s+|our\s+|my\s+|their\s+|\w+['’]s\s+)*
        (pond|creek|stream|river|lake|ditch|gutter|well)\b
    | \bsplash\w* | \b(on|burn\w*|rash|itch\w*)\b[^.]*\bskin\b | \bskin\b.*\b(burn|rash)\w*
    """,
    re.IGNORECASE | re.VERBOSE,
)


def is_emergency(text: str) -> bool:
    """Tell whether a text may speak of an emergency."""
    return _EMERGENCY.search(text) is not None
