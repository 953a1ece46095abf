"""What a person called something, matched against names we know: found, or asked back."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

#: Likeness (difflib's ratio, 0-1) from which a name is worth asking about. Our choice: lets pass
#: one slip in a short name and two or three in a long one.
WORTH_ASKING = 0.72


@dataclass(frozen=True, slots=True)
class Naming:
    """The answer to "which one is meant?".

    Attributes
    ----------
    found
        The key meant, when the text is one of its names but for case, spaces and punctuation.
    candidates
        Otherwise the keys worth asking about, likeliest first; empty when nothing comes near.
    """

    found: str | None
    candidates: tuple[str, ...] = ()

    @classmethod
    def of(cls, text: str, names: Mapping[str, Sequence[str]]) -> Naming:
        """Match a text against the names of each key. A slip of spelling is never guessed away."""
        by_name = {_bare(name): key for key, each in names.items() for name in each}
        asked = _bare(text)
        if asked in by_name:
            return cls(by_name[asked])
        near = difflib.get_close_matches(asked, by_name, n=5, cutoff=WORTH_ASKING)
        return cls(None, tuple(dict.fromkeys(by_name[name] for name in near)))


def _bare(text: str) -> str:
    return re.sub(r"[^a-z0-9]", "", text.casefold())
