"""What a place is called by whoever says where it is: "my mom's place in Salina"."""

from __future__ import annotations

from functools import partial
from typing import Final

from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "place")


def name_of_place(text: str) -> str | None:
    """Return what a place is called in a text that tells where it is; None where it is not."""
    for how in ("whose", "what"):
        found = _says(how).first(text)
        if found is not None:
            name = " ".join(found["name"].split())
            # "My moms place" is mom's.
            is_lone_s = how == "whose" and name.endswith("s") and "'" not in name
            return f"{name[:-1]}'s" if is_lone_s and _says("one").whole(name) is None else name
    return None
