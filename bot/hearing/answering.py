"""Whether a text answers the pending question: by what an answer to it is, never by guessing."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from functools import cache
from typing import Final

from rapidfuzz import fuzz

from bot.hearing import words
from bot.hearing.clause_readings import Reading
from bot.hearing.concepts import concepts_of
from bot.hearing.grammar import filled
from bot.hearing.guards import is_asked, is_marked
from bot.hearing.heard import ActHeard, Scene, Slots
from bot.hearing.heard_values import Span
from bot.hearing.held_back import REPORTS
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases
from bot.hearing.readers.places import read_place
from bot.hearing.readers.reading import Unread
from bot.hearing.stretches import stretch

#: What an answer is made of, by what is expected.
_KINDS: Final = {
    "rate": ("rate", "number", "amount", "depth"),
    "number": ("number", "percent", "amount", "area", "length", "minutes", "days", "depth", "temp"),
    "percent": ("percent", "number", "depth"),
    "size": ("size", "area"),
    "place": ("place", "zip", "town"),
    "day": ("day", "hour"),
    "zone": ("zone", "all", "rest"),
    "days": ("days", "number", "day"),
    "part": ("part", "percent", "size", "area", "zone", "all", "rest", "amount"),
    "amount": ("amount", "number", "minutes", "depth", "percent", "part"),
    "depth": ("depth",),
    "ingredient": ("product",),
    "grass": ("grass",),
}
#: What is answered in words of one's own, and the acts that such words may look like.
_FREE: Final = {
    "place": frozenset({"give_place", "unknown", "other", "add_yard", "turn_to_yard", "name_yard"}),
    "name": frozenset({"name_yard", "unknown", "other", "turn_to_yard", "add_yard", "give_place"}),
    "timezone": frozenset({"set_timing", "unknown", "other", "give_place", "set_quiet"}),
}
#: An answer in words of one's own is no longer than this.
_LONGEST: Final = 5
#: A text that looks like another act less surely than this may still be a name.
_SURE: Final = 0.6
#: What is surely something that happened, is no answer for the figures in it.
_SURE_OF_REPORT: Final = 0.8
#: What is surely nothing is no place either: "asdf".
_SURE_OF_NOTHING: Final = 0.9
#: A label typed is this near to it, of a hundred: "it is donw".
_SAME_LABEL: Final = 90.0
#: Words around an answer: "it says 3.2", "about 20".
_FILLERS: Final = 4


def yes_or_no(normal: Normal) -> str | None:
    """Return ``confirm``, ``deny`` or ``cancel`` for a text that is one and nothing else."""
    said = _bare(normal.text)
    if said == "thumbsup":
        return "confirm"
    if said == "thumbsdown":
        return "deny"
    named = (("yes", "confirm"), ("no", "deny"), ("cancel", "cancel"))
    return next((act for name, act in named if said in _answers(name)), None)


def is_all_told(normal: Normal, scene: Scene) -> bool:
    """Tell whether nothing more is to be measured: "nope, that's all of them"."""
    said = " ".join(re.sub(r"[,.!]", " ", normal.text).split())
    return scene.asked == "measure" and phrases("measuring", "all_told").whole(said) is not None


def is_way_out(normal: Normal) -> bool:
    """Tell whether a text, said while something is asked, leaves the question: ``stop``."""
    return words.canon("special", "commands").get(_bare(normal.text)) == "leave"


def is_name(normal: Normal, scene: Scene, whole: Reading) -> bool:
    """Tell whether a text is the name that was asked for, whatever else it could mean.

    A yard may be called "Soil", the word of a screen and of a button: one word of letters is its
    name. Help and a way back are no names, and a longer text is one only where it surely says
    nothing else.
    """
    if scene.pending is None or "name" not in scene.pending.expects:
        return False
    is_word = normal.traced.said.strip(" .!").isalpha()
    return is_word and whole.act not in ("help", "undo")


def typed_button(said: str, scene: Scene) -> ActHeard | None:
    """Return the button whose label was typed, but for case, pictures and a slip.

    Where nothing is awaited, yes or no alone is the one button that begins with it.
    """
    typed = _bare(words.bare(said))
    best: tuple[float, str] = (0.0, "")
    for label, action in scene.buttons:
        whole = words.bare(label)
        # "It's a client's" is the button "A client's, for pay".
        first = _bare(whole.split(",")[0]) if "," in whole and " " in whole.split(",")[0] else ""
        for shown in filter(None, (_bare(whole), first)):
            said = typed if shown != first else _IT_IS.sub("", typed)
            # A slip may be in a word, never in a figure.
            if said and re.findall(r"\d+", shown) == re.findall(r"\d+", said):
                best = max(best, (fuzz.ratio(said, shown), action))
    if best[0] < _SAME_LABEL and scene.pending is None:
        alike = [
            action
            for name, verb in (("yes", ":sure:"), ("no", ":leave"))
            if typed in _answers(name)
            for label, action in scene.buttons
            if words.bare(label).split(",")[0] in _answers(name) or verb in action
        ]
        best = (100.0, alike[0]) if len(alike) == 1 else best
    if best[0] < _SAME_LABEL:
        return None
    return ActHeard(
        scene.asked or "confirm", Slots(option=best[1]), said.strip(), "pending", best[0] / 100.0
    )


def answer(
    normal: Normal, spans: Sequence[Span], scene: Scene, whole: Reading, *, is_name: bool
) -> ActHeard | None:
    """Return the pending question's act if a text is an answer to it; None where it is not."""
    pending = scene.pending
    if pending is None or whole.manner.is_question:
        return None
    said = normal.traced.said.strip()
    short = _leading(normal, spans) if "yes_no" in pending.expects else None
    if short is not None:
        return ActHeard(short, Slots(of=pending.kind), said, "pending")
    # "Watered 30 minutes" is no maximum; "half of the back" is the part that is asked for.
    is_part = "part" in pending.expects and whole.act == "report_gap"
    is_report = (
        whole.act in (*REPORTS, "set_sprinkler")
        and whole.act != pending.kind
        and not is_part
        and whole.score >= _SURE_OF_REPORT
    )
    for expected in pending.expects:
        is_this_name = is_name and expected == "name"
        if is_report and not is_this_name:
            continue
        if is_this_name or _is_answer(expected, normal, spans) or _is_free(expected, normal, whole):
            slots = filled(pending.kind, stretch(normal, spans), scene)
            if expected in ("name", "timezone"):
                ahead = phrases("names", "call_it").at_start(said)
                slots = replace(slots, name=(said if ahead is None else ahead.after).strip(" ."))
            elif expected == "place" and slots.read is None:
                slots = replace(slots, read=said.strip(" ."))
            return ActHeard(pending.kind, slots, said, "pending")
    return None


def _leading(normal: Normal, spans: Sequence[Span]) -> str | None:
    """Return yes or no where a short text begins with it: "no not that one"."""
    said = re.findall(r"[a-z']+", normal.text)
    if not said or len(said) > _FILLERS or spans:
        return None
    if said[0] not in ("yes", "no") and "thanks" in concepts_of(normal.text):
        # "Ok thanks" ends a talk; nobody means a dose by it.
        return None
    named = (("yes", "confirm"), ("no", "deny"))
    return next((act for name, act in named if said[0] in _answers(name)), None)


def _is_free(expected: str, normal: Normal, whole: Reading) -> bool:
    """Tell whether words of one's own answer: a name, unless they surely say another thing."""
    alike = _FREE.get(expected)
    if alike is None:
        return False
    count = len(re.findall(r"[a-z]+", normal.text))
    is_short = 1 <= count <= _LONGEST
    is_nothing = whole.act in ("unknown", "other") and whole.score >= _SURE_OF_NOTHING
    if expected == "place" and is_nothing:
        return False
    return is_short and (whole.act in alike or whole.score < _SURE)


def _is_answer(expected: str, normal: Normal, spans: Sequence[Span]) -> bool:
    if expected == "place" and isinstance(read_place(normal.text), tuple | Unread):
        return True
    kinds = _KINDS.get(expected, ())
    if not any(span.kind in kinds for span in spans):
        return False
    if any(span.kind not in (*kinds, "product", "percent") for span in spans):
        return False
    ends = [0, *(span.end for span in spans)]
    starts = [*(span.start for span in spans), len(normal.text)]
    rest = "".join(normal.text[end:start] for end, start in zip(ends, starts, strict=True))
    # "The tuna can has 3/8 inch in it" tells what the cans hold.
    most = _FILLERS + 2 if expected == "depth" else _FILLERS
    return len(re.findall(r"[a-z]+", rest)) <= most


def answer_first(
    normal: Normal, spans: Sequence[Span], scene: Scene, first: tuple[int, int] | None
) -> int | None:
    """Return where the answer ends that a text begins with, before it goes on: "3.2, dog ok?".

    `first` is the text's first piece of several. An answer is the figure that is asked for with few
    words around it, or a place in a word or two.
    """
    expects = () if scene.pending is None else scene.pending.expects
    kinds = {kind for name in expects if name in _FIGURES for kind in _KINDS[name]}
    if spans and spans[0].kind == "depth" and re.search(r"[a-z\"]", str(spans[0].value)):
        # "A quarter inch fell, is it enough" answers no question for a label's figure.
        return None
    if kinds and spans and spans[0].kind in kinds:
        end = spans[0].end
        before = re.findall(r"[a-z]+", normal.text[: spans[0].start])
        goes_on = is_asked(normal.text[end:].strip()) or _GOES_ON.match(normal.text, end)
        is_cut = re.match(r"\s*\d", normal.text[end:]) is not None
        if goes_on and not is_cut and len(before) <= _FEW_BEFORE:
            return end
    if first is None or is_marked(normal.traced.original(*first)):
        return None
    inside = [span for span in spans if span.end <= first[1]]
    said = normal.text[slice(*first)].strip(" ,;.")
    if "place" in expects and not inside:
        return first[1] if re.fullmatch(r"[a-z]+(?: [a-z]+){0,2}", said) else None
    is_figure = len(inside) == 1 and inside[0].kind in kinds
    words_beside = re.findall(r"[a-z]+", said.replace(str(inside[0].value), "")) if inside else []
    return first[1] if is_figure and len(words_beside) <= _FILLERS else None


#: What is asked for as a figure, the words before it, and what stands between it and the rest.
_FIGURES: Final = frozenset({"rate", "number", "percent", "amount"})
_FEW_BEFORE: Final = 2
_GOES_ON: Final = re.compile(r"\s*(?:[,;.]\s+|\s(?:and|y|but|pero|also)\s)(?=\w+\s+\w+)")


_IT_IS: Final = re.compile(r"^(?:it is|it's|its|es)\s+")


def _bare(text: str) -> str:
    return " ".join(re.findall(r"[a-z0-9']+", text))


@cache
def _answers(name: str) -> frozenset[str]:
    every = (words.words_of(language, "answers", name, "words") for language in words.LANGUAGES)
    return frozenset(words.bare(word) for each in every for word in each)
