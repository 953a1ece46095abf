"""Turns as nobody means them, for whoever wants to see the machine stumble.

Texts are put together from what people say, from words and signs of the grammars, from whatever
Unicode has and from halves of it; taps from the table of buttons with numbers of every size;
places anywhere and nowhere. Every draw depends on the seed alone.
"""

from __future__ import annotations

import gc
import itertools
import logging
import random
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from functools import cache
from typing import Any, Final

from bot.conversation import Conversation
from bot.hearing.templates import act_lines
from bot.saying.catalogue import say
from bot.talk.commands import COMMANDS
from bot.talk.taps import _TAPS
from bot.turn import Reply, Turn

#: Most characters the platform lets anybody send (core.telegram.org/bots/api, "sendMessage").
LONGEST: Final = 4096
#: No turn takes more of a processor [s].
MOST_S: Final = 0.25

_PIECES: Final = (
    *("front", "back", "pool lawn", "zone 1", "yard 1", "L-shape", "circle", "triangle", "minus"),
    *("60x40", "5 by 80 ft", "12 m x 9 m", "1/2", "3'6\"", "20×15", "1e9", "-3", "0", "9" * 11),
    *("lb", "oz", "per 1000 sq ft", "kg/ha", "gal", "%", "°F", "c", "acre", "in", "mm", "wide"),
    *("prodiamine", "0.38%", "granule", "max", "a year", "dithiopyr", "$38", "bags", "yesterday"),
    *("today", "march 3", "2026-02-30", "31/04", "at 7", "every", "not", "and", "or", "?", "!"),
    *(",", ";", ":", "(", ")", "[", "]", "{", "}", "#", "\n", "\t", "/", "\\", "%s", "{0}", "=1+1"),
    *("'; DROP TABLE yard; --", "<b>", "&amp;", "\u202e", "\u200f", "\x00", "\x1b[31m", "\ufeff"),
    *("²", "½", "①", "٣", "१२", "𝟙", "İ", "ß", "ﬁ", "e\u0301" * 20, "👩\u200d🌾", "🌱" * 9),
    # Halves of one character.
    *("\ud83c", "\udf31"),
)
_WORDS: Final = ("sure", "page", "tick", "one", "all", "round", "cost")
_NUMBERS: Final = (
    "0",
    "1",
    "2",
    "7",
    "-1",
    "²",
    "00",
    "999999",
    "2147483647",
    "99999999999",
    "x",
    "",
)


@cache
def _said() -> tuple[str, ...]:
    lines = (line.said for lang in ("en", "es") for line in act_lines(lang) if not line.is_further)
    return tuple(dict.fromkeys(lines))


def text(draw: random.Random) -> str:
    """Return any text the platform would let through."""
    kind = draw.randrange(9)
    if kind == 0:
        found = draw.choice(_said())
    elif kind == 1:
        found = _mutated(draw, draw.choice(_said()))
    elif kind == 2:
        found = f"/{draw.choice(COMMANDS).word} {_mutated(draw, draw.choice(_said()))}"
    elif kind == 3:
        found = " ".join(draw.choices(_PIECES, k=draw.randrange(1, 40)))
    elif kind == 4:
        found = "".join(draw.choices(_PIECES, k=draw.randrange(1, 400)))
    elif kind == 5:
        found = draw.choice(_PIECES) * draw.randrange(1, LONGEST)
    elif kind == 6:
        found = ", ".join(draw.choices(_said(), k=draw.randrange(1, 60)))
    elif kind == 7:
        signs = draw.choice((0x7F, 0x2FF, 0xFFFF, 0x10FFFF))
        found = "".join(chr(draw.randrange(signs)) for _ in range(draw.randrange(1, 200)))
    else:
        piece = f"{draw.choice(_PIECES)}{draw.choice(_PIECES)} "
        found = piece * draw.randrange(1, LONGEST // len(piece) + 1)
    limit = draw.choice((60, 400, 2000, 2000, LONGEST))
    return found[:limit] or "x"


def _mutated(draw: random.Random, said: str) -> str:
    for _ in range(draw.randrange(1, 5)):
        at = draw.randrange(len(said) + 1)
        cut = at + draw.randrange(4)
        said = said[:at] + draw.choice(_PIECES) + said[cut:]
    return said


def tap(draw: random.Random) -> str:
    """Return any action, most of them of a kind that is ours."""
    if draw.randrange(8) == 0:
        return text(draw)[: draw.randrange(1, 80)]
    subject, verb = draw.choice([*_TAPS, ("undo", ""), ("redo", ""), ("round", ""), ("more", "")])
    parts = [subject, *([verb] if verb else [])]
    parts += draw.choices((*_NUMBERS, *_WORDS), k=3)
    return ":".join(parts[: draw.randrange(2, 6)])


def place(draw: random.Random) -> tuple[float, float]:
    """Return a place, mostly one that is."""
    odd = draw.choice((90.0, -90.0, 180.0, 0.0, 1e-9))
    if draw.randrange(4) == 0:
        return odd if abs(odd) <= 90 else 89.9, draw.choice((180.0, -180.0, 0.0))
    return draw.uniform(-60, 60), draw.uniform(-180, 180)


def turns(seed: int, now: datetime, chats: int = 5) -> Iterator[Turn]:
    """Yield turns of a few people without end."""
    draw = random.Random(seed)
    for number in itertools.count():
        who = str(draw.randrange(chats))
        content: dict[str, Any] = {}
        kind = draw.randrange(20)
        if kind == 0:
            content["place"] = place(draw)
        elif kind < 8:
            content["tap"] = tap(draw)
        else:
            content["text"] = text(draw)
        is_group = draw.randrange(10) == 0
        now += timedelta(seconds=draw.randrange(120))
        yield Turn(
            f"fuzz:{seed}:{number}",
            "terminal",
            f"-{who}" if is_group else who,
            who,
            now,
            person_name=draw.choice(("Ada", "", "\u202eadA", "\ud800")),
            is_group=is_group,
            runs_chat=not is_group or draw.randrange(2) == 0,
            **content,
        )


def warm_up(conversation: Conversation) -> None:
    """Have loaded what is loaded once a process: tables, weights, grammars, towns."""
    now = datetime(2026, 2, 1, tzinfo=UTC)
    said = (
        "/start",
        "39.18, -96.57",
        "front 60x40",
        "Wahoo NE",
        "hola",
        "/export",
        "/buy",
        "x y z",
    )
    for number, each in enumerate((*said, "prodiamine 0.38% granule 3 lb per 1000", "/sketch")):
        conversation.answer(Turn(f"warm:{number}", "terminal", "warm", "warm", now, text=each))
    # As the programs do: what is loaded stays, and is not looked through for garbage in a turn.
    gc.collect()
    gc.freeze()


@dataclass(frozen=True, slots=True)
class Stumble:
    """A turn that was answered badly: how, and what it was."""

    how: str
    turn: Turn


def see(conversation: Conversation, turn: Turn) -> tuple[Stumble | None, float]:
    """Answer a turn; return what is wrong with that, and how long it took of a processor [s]."""
    began_s = time.thread_time()
    with _errors_logged() as errors:
        try:
            replies = conversation.answer(turn)
        except Exception as trouble:
            return Stumble(f"raised {trouble!r}", turn), 0.0
    took_s = time.thread_time() - began_s
    how = f"went wrong on our side: {errors[0]}" if errors else _wrong(replies)
    if how is None and took_s > MOST_S:
        how = f"took {1000 * took_s:.0f} ms"
    return (None if how is None else Stumble(how, turn)), took_s


@contextmanager
def _errors_logged() -> Iterator[list[str]]:
    """Yield what is logged as an error meanwhile: an apology may stand behind first aid."""
    found: list[str] = []
    handler = logging.Handler(logging.ERROR)
    handler.emit = lambda record: found.append(record.getMessage())  # type: ignore[method-assign]
    logging.getLogger().addHandler(handler)
    yield found
    logging.getLogger().removeHandler(handler)


def _wrong(replies: list[Reply]) -> str | None:
    if not replies:
        return "no answer"
    for reply in replies:
        if reply.text == say("help.busy"):
            return "went wrong on our side: busy"
        if not reply.text.strip() and reply.drawing is None and reply.file is None:
            return "an empty message"
        if len(reply.text.encode("utf-16-le")) // 2 > LONGEST:
            return f"a message of {len(reply.text)} characters"
        if any(not button.label.strip() for row in reply.buttons for button in row):
            return "a button without words"
    return None
