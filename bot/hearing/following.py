"""A message that goes on with the one before: "how much for the back", "and the front?"."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Final

from bot.hearing.acts import ACTS
from bot.hearing.heard import GOES_ON, ActHeard, Scene
from bot.hearing.heard_values import Span, abstracted
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases
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
    text = abstracted(form.text, spans) if may_go_on else ""
    if not names_only(text):
        return None
    if act in GOES_ON and phrases("following", "links").at_start(text) is None:
        return None
    kinds = {span.kind for span in spans}
    if not kinds <= {"yard", *(kind for kind in _NAMED if _may_have(act, kind))}:
        return None
    return ActHeard(act, fill(act, stretch(form, spans, 0, len(form.text)), scene), said)


def names_only(text: str) -> bool:
    """Tell whether a text with tokens for its values names things, and says nothing of them."""
    return phrases("following", "names").whole(text.strip(" ?.!,")) is not None


def _may_have(act: str, kind: str) -> bool:
    return bool(set(_NAMED[kind]) & set(ACTS[act].slots))
