"""A message cut into clauses, where another thing may begin."""

from __future__ import annotations

import bisect
import itertools
import re
from collections.abc import Iterator, Sequence
from functools import cache, partial
from typing import Final

from bot.hearing import words
from bot.hearing.features import tokens_of
from bot.hearing.guards import without_mornings
from bot.hearing.heard_values import Span, abstracted
from bot.hearing.normal import Normal
from bot.hearing.phrases import kind, phrases

_says: Final = partial(phrases, "sentences")
#: More pieces are not tried: the shortest join their neighbours.
MOST: Final = 5
#: Every way to cut a text is weighed: of one that is longer than this, fewer pieces are tried.
_LONG: Final = 700
_MOST_OF_LONG: Final = 3

Stretch = tuple[int, int]


def cut(
    normal: Normal, spans: Sequence[Span], start: int = 0, end: int | None = None
) -> list[Stretch]:
    """Return the stretches of a normal form between which another act may begin."""
    return _few(normal.text, spans, pieces(normal, spans, start, end))


def pieces(
    normal: Normal, spans: Sequence[Span], start: int = 0, end: int | None = None
) -> list[Stretch]:
    """Return every stretch between two joints, however short."""
    text = normal.text
    stop = len(text) if end is None else end
    places = [start]
    # Values stand in order and apart, so that the first behind a joint's beginning tells.
    ends = [span.end for span in spans]
    for match in _joint(normal.language).finditer(text, start, stop):
        at = bisect.bisect_right(ends, match.start())
        after = spans[at] if at < len(spans) else None
        is_inside = after is not None and after.start < match.end()
        if not match["mark"] and _asks_on(normal.language).search(text, places[-1], match.start()):
            # "How much can I still put on": the question goes on.
            continue
        # "front and back" is one place; "front, side tomorrow" may be two things.
        if not is_inside and not _is_list(text, match, spans, at):
            places.append(match.end() if match["mark"] else match.start())
    places += _without_a_mark(text, spans, start, stop)
    places = [*sorted(set(places)), stop]
    return [(first, last) for first, last in itertools.pairwise(places) if text[first:last].strip()]


def _without_a_mark(text: str, spans: Sequence[Span], start: int, stop: int) -> Iterator[int]:
    """Yield where the next place begins without a mark: "front is done | back is soaked"."""
    ended, begun = (words.phrases("commands", name, "words") for name in ("done", "place_is"))
    for span in spans:
        is_place = span.kind in ("zone", "yard") and start < span.start and span.end < stop
        before = text[start : span.start] if is_place else ""
        article = _says("article").at_end(before)
        before = (before if article is None else article.before).rstrip()
        if before and begun.match(text, span.end + 1):
            last = [each.end() for each in ended.finditer(before)]
            if last and last[-1] == len(before):
                yield start + len(before)


@cache
def _asks_on(language: str) -> re.Pattern[str]:
    """Return a pattern of a question that has only begun: "how much", "mañana"."""
    found = words.phrases("commands", "begun", "words", language=language)
    return re.compile(rf"(?:{found.pattern})\s*$")


def _is_list(text: str, match: re.Match[str], spans: Sequence[Span], at: int) -> bool:
    """Tell whether a comma or an "and" stands between two values of one kind."""
    if not 0 < at < len(spans) or spans[at - 1].kind != spans[at].kind:
        return False
    before, after = spans[at - 1], spans[at]
    gap = text[before.end : match.start()] + text[match.end() : after.start]
    # "front, side tomorrow": behind the second name something else is said of it alone.
    rest = re.split(r"[.,;!?]", text[after.end : after.end + 28])[0]
    is_alone = goes_on(rest)
    day = abstracted(text, spans, after.end, after.end + len(rest)) if is_alone else ""
    if not match["mark"] and _ONE_DAY.fullmatch(day):
        # "Hit the back and the strip Thursday" says the day of both.
        is_alone = not words.phrases("guards", "past", "words").search(text, 0, before.start)
    return not re.search(r"\w", _says("article").without(gap)) and not is_alone


#: A day that may be behind or ahead: "Thursday", "on Thursday", "el jueves".
_ONE_DAY: Final = re.compile(r"\s*(?:\w\w\s+)?<day> some\s*")


def goes_on(text: str) -> bool:
    """Tell whether a text says what is said of the second of two names alone."""
    return words.phrases("guards", "goes_on", "words").search(without_mornings(text)) is not None


def without_joint(text: str) -> str:
    """Return a clause without what joins it to the one before."""
    rest = text
    while (joined := _says("joined").at_start(rest)) is not None:
        rest = joined.after.lstrip(" ,")
    return rest or text


def _few(text: str, spans: Sequence[Span], found: list[Stretch]) -> list[Stretch]:
    def size(stretch: Stretch) -> int:
        return len(tokens_of(abstracted(text, spans, *stretch)))

    most = MOST if len(text) <= _LONG else _MOST_OF_LONG
    sizes = [size(each) for each in found]
    while len(found) > 1:
        least = sizes.index(min(sizes))
        if sizes[least] >= 2 and len(found) <= most:
            break
        other = (
            least - 1
            if least and (least == len(found) - 1 or sizes[least - 1] <= sizes[least + 1])
            else least + 1
        )
        first, last = sorted((least, other))
        found[first : last + 1] = [(found[first][0], found[last][1])]
        sizes[first : last + 1] = [size(found[first])]
    return found


@cache
def _joint(language: str) -> re.Pattern[str]:
    joints = "|".join(
        sorted(words.words_of(language, "guards", "joints", "words"), key=len, reverse=True)
    )
    return re.compile(
        rf"(?P<mark>[.!?;\n]+(?=\s|$)|,(?!\d)|:(?=\s)|\s-+\s)|(?<=\s)(?:{joints})(?=\s)(?!\s+{kind('half_behind')})"
    )
