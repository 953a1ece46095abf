"""A message that goes on with the one before: "and the front?", "are you sure", "got it"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Final

from bot.hearing.acts import ACTS
from bot.hearing.answering import typed_button
from bot.hearing.concepts import concepts_of
from bot.hearing.heard import GOES_ON, ActHeard, Scene, Slots
from bot.hearing.heard_values import Span, abstracted
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases, which
from bot.hearing.slots import fill
from bot.hearing.stretches import stretch

#: What a message may name to go on with, and the slots that a question of it has.
_NAMED: Final = {
    "zone": ("zones",),
    "all": ("zones", "all_zones"),
    "part": ("part", "zones"),
    "day": ("on",),
    "weed": ("weed",),
    "work": ("work",),
    "grass": ("grass",),
}


def follow_up(form: Normal, spans: Sequence[Span], scene: Scene) -> ActHeard | None:
    """Return the act before, of what this message names; None where it says more than a name."""
    act, said = scene.said_before, form.traced.said.strip()
    may_go_on = act.startswith("ask_") or (act in GOES_ON and not said.endswith("?"))
    if may_go_on and phrases("following", "other_yard").whole(_words(form)) is not None:
        others = [name for name in scene.yards if name != scene.yard]
        return ActHeard(act, Slots(yard=others[0]), said) if len(others) == 1 else None
    text = abstracted(form.text, spans) if may_go_on else ""
    if not names_only(text):
        return None
    if act in GOES_ON and phrases("following", "links").at_start(text) is None:
        return None
    kinds, may_have = {span.kind for span in spans}, set(ACTS[act].slots)
    if not kinds <= {"yard", *(kind for kind, slots in _NAMED.items() if may_have & {*slots})}:
        return None
    return ActHeard(act, fill(act, stretch(form, spans), scene), said)


def reaction(form: Normal, scene: Scene) -> ActHeard | None:
    """Return what is only said to the answer before: a nod, a doubt; nothing is changed by it."""
    text, said = _words(form), form.traced.said.strip()
    pending, is_beside = scene.pending, scene.said_before.startswith("ask_")
    if pending is not None and not is_beside and _ANY_WORDS & set(pending.expects):
        return None
    is_of_it = not is_beside or scene.said_before == "ask_why"
    if pending is not None and is_of_it and pending.kind in _TOLD_HOW:
        about = which("courtesy", ("how_asked", "can_wait"), text)
        if about is not None:
            return ActHeard("help", Slots(about=about), said, "pending")
    if phrases("courtesy", "doubt").whole(text) is not None:
        return ActHeard("ask_why", said=said, why="pending")
    # "Ok" is a yes to what is asked, and where somebody was called.
    is_free = pending is None and scene.moment not in ("open", "due")
    is_free = is_free and typed_button(said, scene) is None
    is_nod = phrases("courtesy", "nod").whole(text) is not None and (is_beside or is_free)
    if is_nod or phrases("courtesy", "noted").whole(text) is not None:
        is_thanks = "thanks" in concepts_of(form.text)
        return ActHeard("thanks", said=said, why="grammar" if is_thanks else "pending")
    return None


#: What is answered in any words; "cool" is a name there.
_ANY_WORDS: Final = frozenset({"name", "place", "timezone", "free"})


#: Questions of which is told how they are answered, and that they may wait.
_TOLD_HOW: Final = frozenset({"give_place", "measure", "enter_product", "set_grass"})


def is_asked_again(form: Normal) -> bool:
    """Tell whether the answer before is only asked for once more: "so that's a yes?"."""
    return phrases("courtesy", "once_more").whole(_words(form)) is not None


def _words(form: Normal) -> str:
    """Return the words of a text, without the marks between them."""
    return " ".join(re.findall(r"[\w']+", form.text))


def names_only(text: str) -> bool:
    """Tell whether a text with tokens for its values names things, and says nothing of them."""
    return phrases("following", "names").whole(text.strip(" ?.!,")) is not None
