"""The sentences of the language folders: one template a line, spread out into plain lines.

A template holds ``[optional words]``, ``(this|that)`` and ``{slot}``; it may begin with a moment
(``@open``, ``@asked_measure``) in which alone it means its act. Files are read for training and by
tests; what is said is matched by what training made of them.
"""

from __future__ import annotations

import itertools
import math
import random
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Final

from bot.hearing import words
from bot.hearing.acts import ACTS

FOLDER: Final = Path(__file__).parent / "languages"
#: A template with many alternatives is spread out into so many lines to learn from.
MOST: Final = 6
#: A template has so many forms at most.
MOST_FORMS: Final = 400


@dataclass(frozen=True)
class Line:
    """A plain line: what is said, the acts it is, in which language and moment."""

    said: str
    acts: tuple[str, ...]
    language: str
    moment: str = ""
    pending: str = ""
    number: int = 0
    #: Whether it is one of many forms of its template, to be known but not learnt from.
    is_further: bool = False


class BadTemplate(ValueError):
    """Raised for a line that is no template."""


def act_lines(language: str, folder: Path = FOLDER) -> Iterator[Line]:
    """Return the plain lines of every act of a language."""
    yield from lines_in(folder / language, language)


def lines_in(folder: Path, language: str) -> Iterator[Line]:
    """Return the plain lines of a folder that holds ``acts/*.txt`` and perhaps ``mixed.txt``."""
    for file in sorted((folder / "acts").glob("*.txt")):
        if file.stem not in ACTS:
            raise BadTemplate(f"{file.name} names no act")
        for number, template in enumerate(_lines(file)):
            text, moment, pending = _moment(template)
            for at, said in enumerate(spread(text, language, MOST_FORMS)):
                acts = (file.stem,)
                yield Line(said, acts, language, moment, pending, number, at >= MOST)
    mixed = folder / "mixed.txt"
    if mixed.exists():
        for number, line in enumerate(_lines(mixed)):
            names, _, template = line.partition("\t")
            several = tuple(name.strip() for name in names.split("+"))
            text, moment, pending = _moment(template.strip())
            for said in itertools.islice(spread(text, language), 6):
                yield Line(said, several, language, moment, pending, number)


def passing_lines(language: str, folder: Path = FOLDER) -> list[Line]:
    """Return what is said in passing beside anything in a language; it is no act by itself."""
    file = folder / language / "passing.txt"
    return [Line(said, (), language) for said in _lines(file)] if file.exists() else []


def spread(template: str, language: str, most: int = MOST) -> Iterator[str]:
    """Return the plain lines of a template in an order drawn once for all, `most` of them.

    Raises
    ------
    BadTemplate
        If brackets do not match or a slot is unknown.
    """
    parts = _parse(template)
    draw = random.Random(template)
    count = math.prod(len(part) for part in parts)
    if count <= most:
        every = ["".join(each) for each in itertools.product(*parts)]
    else:
        every = ["".join(draw.choice(part) for part in parts) for _ in range(2 * most)]
    drawn = list(dict.fromkeys(every))[:most]
    if count > MOST:
        draw.shuffle(drawn)
    for text in drawn:
        yield " ".join(_filled(text, language, draw).split())


def samples(language: str) -> dict[str, list[str]]:
    """Return what each slot may be filled with."""
    found = words.table(language, "samples")["slots"]
    return {slot: [each.strip() for each in listed.split("|")] for slot, listed in found.items()}


_PIECE: Final = re.compile(r"\[(?P<may>[^\[\]]*)\]|\((?P<either>[^()]*\|[^()]*)\)|(?P<bad>[\[\]])")
_SLOT: Final = re.compile(r"\{(\w+)\}")
_MOMENT: Final = re.compile(r"@(?P<name>\w+)\s+")


def _lines(file: Path) -> Iterator[str]:
    for line in file.read_text("utf-8").splitlines():
        if line.strip() and not line.startswith("#"):
            yield line.strip()


def _moment(template: str) -> tuple[str, str, str]:
    match = _MOMENT.match(template)
    if match is None:
        return template, "", ""
    name, text = match["name"], template[match.end() :]
    if name.startswith("asked_"):
        return text, "", name.removeprefix("asked_")
    return text, name, ""


def _parse(template: str) -> list[list[str]]:
    parts: list[list[str]] = []
    at = 0
    for match in _PIECE.finditer(template):
        if match["bad"]:
            raise BadTemplate(template)
        parts.append([template[at : match.start()]])
        chosen = match["may"] if match["may"] is not None else match["either"]
        alternatives = [each for option in chosen.split("|") for each in [option]]
        parts.append([*alternatives, ""] if match["may"] is not None else alternatives)
        at = match.end()
    parts.append([template[at:]])
    return parts


def _filled(text: str, language: str, draw: random.Random) -> str:
    def value(match: re.Match[str]) -> str:
        known = samples(language)
        if match[1] not in known:
            raise BadTemplate(f"no slot {match[1]}: {text}")
        return draw.choice(known[match[1]])

    return _SLOT.sub(value, text)
