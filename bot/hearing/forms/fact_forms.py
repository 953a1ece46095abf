"""What people ask about anywhere, by the phrases of ``words/facts.toml``: an old bag, a pond, snow.

A text is about it where it asks and holds such a phrase, or says little else. What reports, plans
or names a zone with figures is another act's.
"""

from __future__ import annotations

import re
from functools import lru_cache, partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.guards import is_marked, manner
from bot.hearing.heard import Scene, Slots
from bot.hearing.normal import language_of
from bot.hearing.phrases import phrases

#: Words beside the phrase in a text that does not ask.
_FEW_WORDS: Final = 6
#: Hardly anything is so many words, but for little ones: "hay nieve (en el suelo)".
_HARDLY_ANY: Final = 2
_LONG_WORD: Final = 4


def read_about(text: str, scene: Scene, *, about: str, is_plain: bool = False) -> Slots | None:
    """Read a question about one of the facts; None for other texts.

    `is_plain` where it must be put as a question, or say hardly anything else.
    """
    said = _plain(text)
    found = words.phrases("facts", "about", about, "words").search(said)
    if found is None:
        return None
    language = language_of(said, scene.language)
    is_asked = manner(said, language, has_mark=is_marked(text)).is_question
    rest = f"{said[: found.start()]} {said[found.end() :]}"
    said_beside = re.findall(r"[a-z]+", rest)
    if is_plain:
        is_little = sum(len(word) >= _LONG_WORD for word in said_beside) <= _HARDLY_ANY
    else:
        is_little = len(said_beside) <= _FEW_WORDS
    is_told = phrases("fact", "deed").first(rest) or (
        about != "frost" and phrases("fact", "that_day").first(rest)
    )
    is_deed = not is_asked and bool(is_told)
    is_sized = re.search(r"\d", rest) is not None
    is_zone = any(words.bare(zone) in rest for zone in scene.zones) and not is_asked
    if is_deed or is_sized or is_zone or not (is_asked or is_little):
        return None
    return Slots(about=about)


# Asked for each of some fifty facts.
@lru_cache(maxsize=32)
def _plain(text: str) -> str:
    return re.sub(r"['’]", "", words.bare(text))


def about_of(text: str, scene: Scene) -> str | None:
    """Return the fact a text asks about, or None."""
    found = (about for about in FACTS if read_about(text, scene, about=about) is not None)
    return next(found, None)


#: Every fact there is an answer for, with the act it belongs to.
FACTS: Final[dict[str, str]] = {
    about: row["act"] for about, row in words.table("en", "facts")["about"].items()
}

#: What is asked is about the fact; what speaks of it among other words may be another thing.
FORMS: Final = tuple(
    Form(act, partial(read_about, about=about, is_plain=is_plain), is_sure=is_plain)
    for is_plain in (True, False)
    for about, act in FACTS.items()
)
