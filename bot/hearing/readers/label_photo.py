"""Figures of a product's label among the words that a text reader saw on its photo.

The words come as Tesseract's tab-separated output (its manual, "TSV renderer"): a row a box, level
5 for words, with the confidence in percent, -1 where there is no word. What is read is a proposal:
a rate is never one, since a dose is not taken from a photo.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import groupby
from typing import Final

from bot.hearing.phrases import phrases
from bot.hearing.readers.lexing import LARGEST, NUMBER, figures, known_value
from bot.hearing.readers.units_said import unit_of
from jobs.agronomy.ingredients import ingredients

#: Words less sure than this say nothing [%] (common practice, no source).
LEAST_CONFIDENCE: Final = 80.0
#: What bags and jugs may be: percent, pounds or kilograms, square feet.
_PERCENTS: Final = (0.01, 90.0)
_WEIGHTS: Final = (0.5, 110.0)
_AREAS_SQ_FT: Final = (500.0, 200_000.0)
_ANY: Final = (0.0, LARGEST)
_LEVEL_OF_WORDS: Final = "5"

_PERCENT: Final = re.compile(rf"(?P<number>{NUMBER})\s*%")
_says: Final = partial(phrases, "label_photo")


@dataclass(frozen=True, slots=True)
class SeenWord:
    """A word on a photo: its line, and how sure the reader is of it [%]."""

    line: tuple[str, ...]
    text: str
    confidence: float


@dataclass(frozen=True, slots=True)
class SeenFigure:
    """A figure of a label: ``ingredient`` ``strength`` ``weight`` ``covers`` ``maximum``.

    `value` is as on the label, `unit` what it is of; of an ingredient its name, of a maximum the
    amount and ``year``, ``season`` or ``application``: ``lb per year``.
    """

    kind: str
    value: float
    unit: str

    @property
    def said(self) -> str:
        """How a person would type it, so that it goes the way of typed words."""
        number = figures(self.value)
        match self.kind:
            case "ingredient":
                return self.unit
            case "strength":
                return number
            case "weight":
                return f"{number} {self.unit} bag"
            case "covers":
                return f"covers {number} {self.unit}"
        amount, _, period = self.unit.partition(" per ")
        return f"max {number} {amount} per 1000 sq ft per {period}"


def words_of(tsv: str) -> list[SeenWord]:
    """Return the words of a text reader's rows; rows of another form are none."""
    head, *rows = [line.split("\t") for line in tsv.splitlines() if line] or [[]]
    at = {name: number for number, name in enumerate(head)}
    wanted = ("level", "page_num", "block_num", "par_num", "line_num", "conf", "text")
    if not all(name in at for name in wanted):
        return []
    words = []
    for row in rows:
        if len(row) < len(head) or row[at["level"]] != _LEVEL_OF_WORDS:
            continue
        try:
            confidence = float(row[at["conf"]])
        except ValueError:
            continue
        line = tuple(row[at[name]] for name in wanted[1:5])
        if row[at["text"]].strip() and confidence >= 0:
            words.append(SeenWord(line, row[at["text"]].strip(), confidence))
    return words


def sure_figures(words: Sequence[SeenWord]) -> tuple[SeenFigure, ...]:
    """Return the figures that were surely read, one a kind.

    Where two of a kind differ, neither is: a label for several bags, or a misreading.
    """
    sure: dict[str, set[SeenFigure]] = {}
    for figure, confidence in _seen(words):
        if confidence >= LEAST_CONFIDENCE:
            sure.setdefault(figure.kind, set()).add(figure)
    kept = tuple(
        next(iter(found))
        for kind in ("ingredient", "strength", "weight", "covers", "maximum")
        if len(found := sure.get(kind, set())) == 1
    )
    # A percentage is of the ingredient beside it.
    if not any(each.kind == "ingredient" for each in kept):
        kept = tuple(each for each in kept if each.kind != "strength")
    return kept


def _seen(words: Sequence[SeenWord]) -> Iterator[tuple[SeenFigure, float]]:
    """Yield every figure, with the confidence of its least sure word."""
    lines = [list(line) for _, line in groupby(words, key=lambda word: word.line)]
    for number, line in enumerate(lines):
        text = _Text(line)
        for item in ingredients().values():
            name = re.search(rf"\b{re.escape(item.names[0])}\b", text.said, re.IGNORECASE)
            if name is None:
                continue
            yield SeenFigure("ingredient", 0.0, item.names[0]), text.confidence(*name.span())
            percent = _PERCENT.search(text.said, name.end())
            value = None if percent is None else _within(percent["number"], _PERCENTS)
            if percent is not None and value is not None:
                yield SeenFigure("strength", value, "%"), text.confidence(*percent.span())
        # Sentences run over the ends of lines.
        both = _Text([*line, *(lines[number + 1] if number + 1 < len(lines) else ())])
        for figure, start, stop in _of_bag(both.said):
            if start < len(text.said):
                yield figure, both.confidence(start, stop)


def _of_bag(said: str) -> Iterator[tuple[SeenFigure, int, int]]:
    """Yield what a bag weighs, covers, and is allowed at most."""
    for name, kind, bounds in (
        ("net_weight", "weight", _WEIGHTS),
        ("covers", "covers", _AREAS_SQ_FT),
        ("maximum", "maximum", _ANY),
    ):
        for found in _says(name).every(said):
            value = _within(found["number"], bounds)
            unit = "sq ft" if name == "covers" else unit_of(found["unit"], ("lb", "oz", "kg"))
            if value is not None and unit is not None:
                period = found["period"].lower()
                unit = f"{unit} per {period}" if period else unit
                yield SeenFigure(kind, value, unit), found.start, found.end


class _Text:
    """Words joined to a line, and how sure each stretch of it is."""

    def __init__(self, words: Sequence[SeenWord]) -> None:
        self.said = " ".join(word.text for word in words)
        self._spans: list[tuple[int, int, float]] = []
        at = 0
        for word in words:
            self._spans.append((at, at + len(word.text), word.confidence))
            at += len(word.text) + 1

    def confidence(self, start: int, stop: int) -> float:
        """Return the confidence of the least sure word in a stretch [%]."""
        return min(each for low, high, each in self._spans if low < stop and start < high)


def _within(number: str, bounds: tuple[float, float]) -> float | None:
    """Return the value of a figure where bags and jugs may have it."""
    value = known_value(number)
    return value if value is not None and bounds[0] <= value <= bounds[1] else None
