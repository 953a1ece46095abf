"""What a place is called by whoever says where it is: "my mom's place in Salina"."""

from __future__ import annotations

from functools import partial
from typing import Final

from bot.hearing.phrases import phrases

_says: Final = partial(phrases, "place")


def name_of_place(text: str) -> str | None:
    """Return what a place is called in a text that tells where it is; None where it is not."""
    _, called = without_name(text)
    for how in () if called else ("whose", "what"):
        found = _says(how).first(text)
        if found is not None:
            name = " ".join(found["name"].split())
            # "My moms place" is mom's.
            is_lone_s = how == "whose" and name.endswith("s") and "'" not in name
            return f"{name[:-1]}'s" if is_lone_s and _says("one").whole(name) is None else name
    return called


def without_name(text: str) -> tuple[str, str | None]:
    """Return where a place is, and the name said behind it: "76710, call it Oak"."""
    found = _says("called").at_end(text.rstrip(" ."))
    return (text, None) if found is None else (found.before.rstrip(" ,;"), found["name"].strip())
