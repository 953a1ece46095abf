"""What reading can come to beside a plain yes: a piece not understood, something to tell.

Reasons are keys of ``reading.ftl``; the sentence is made where it is said, in the language of
the person.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from bot.saying import catalogue, examples


@dataclass(frozen=True)
class Unread:
    """A piece we could not read, or will not guess at.

    Attributes
    ----------
    said : str
        The piece as the person wrote it.
    reason : str
        Key in the catalogue, such as ``reading.three_dimensions``.
    example : str
        A correct way to write it.
    facts : tuple of (str, str)
        Further placeholders of the sentence.
    """

    said: str
    reason: str
    example: str
    facts: tuple[tuple[str, str], ...] = ()

    def sentence(self) -> str:
        """Return the sentence for the person."""
        figures = (set(re.findall(r"\d+", each)) for each in (self.said, self.example))
        is_own = bool(set.intersection(*figures))
        example = examples.in_words(self.example, is_own=is_own)
        facts = {name: examples.size_in_words(fact) for name, fact in self.facts}
        return catalogue.say(self.reason, said=self.said, example=example, **facts)


@dataclass(frozen=True)
class Note:
    """Something to tell beside what was read: a key in the catalogue and its placeholders."""

    reason: str
    facts: tuple[tuple[str, str], ...] = ()

    def sentence(self) -> str:
        """Return the sentence for the person."""
        return catalogue.say(self.reason, **dict(self.facts))
