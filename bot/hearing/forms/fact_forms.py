"""What people ask about anywhere, by the phrases of ``words/facts.toml``: an old bag, a pond, snow.

A text is about it where it asks and holds such a phrase, or says little else. What reports, plans
or names a zone with figures is another act's.
"""

from __future__ import annotations

import re
from functools import partial
from typing import Final

from bot.hearing import words
from bot.hearing.forms.form import Form
from bot.hearing.guards import is_marked, manner
from bot.hearing.heard import Scene, Slots
from bot.hearing.normal import language_of

#: Words beside the phrase in a text that does not ask.
_FEW_WORDS: Final = 6
#: Words of what was done, is planned, or is to be kept: no question about the trade.
_DEED: Final = re.compile(
    r"\b(?:appl(?:y|ied)|put (?:it )?down|went (?:down|on)|spread it|treated|remind|remember"
    r"|yesterday|this morning|aplique|eche|puse|ayer|recuerda|recuerdame)\b"
)


def read_about(text: str, scene: Scene, *, about: str) -> Slots | None:
    """Read a question about one of the facts; None for other texts."""
    said = re.sub(r"['’]", "", words.bare(text))
    found = _phrases(about).search(said)
    if found is None:
        return None
    language = language_of(said, scene.language)
    is_asked = manner(said, language, has_mark=is_marked(text)).is_question
    rest = f"{said[: found.start()]} {said[found.end() :]}"
    is_little = len(re.findall(r"[a-z]+", rest)) <= _FEW_WORDS
    is_deed = not is_asked and _DEED.search(rest) is not None
    is_sized = re.search(r"\d", rest) is not None
    is_zone = any(words.bare(zone) in rest for zone in scene.zones) and not is_asked
    if is_deed or is_sized or is_zone or not (is_asked or is_little):
        return None
    return Slots(about=about)


def about_of(text: str, scene: Scene) -> str | None:
    """Return the fact a text asks about, or None."""
    found = (about for about in FACTS if read_about(text, scene, about=about) is not None)
    return next(found, None)


def _phrases(about: str) -> re.Pattern[str]:
    return words.phrases("facts", "about", about, "words")


#: Every fact there is an answer for, with the act it belongs to.
FACTS: Final[dict[str, str]] = {
    about: row["act"] for about, row in words.table("en", "facts")["about"].items()
}

FORMS: Final = tuple(
    Form(act, partial(read_about, about=about), is_sure=True) for about, act in FACTS.items()
)
