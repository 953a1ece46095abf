"""Characters and numbers as people type them, before any grammar sees them.

Phones turn quotes and dashes typographic; people write ½, 1,200, 2.4k and "sixty by forty". A
`Traced` text is rewritten to plain characters while it remembers where each came from, so that
names and quoted pieces keep the person's own spelling.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import cache, lru_cache
from importlib import resources
from itertools import takewhile
from typing import Final

from lark import Lark
from text_to_num import text2num

from bot.hearing import words

#: A number: 5 1/2, 5-1/2, 3/4, 1,200.5, 60, .25; with k for thousands.
NUMBER: Final = (
    r"(?:\d+(?:[ ]+|-)\d+/\d+|\d+/\d+|\d{1,3}(?:,\d{3})+(?![\d])(?:\.\d+)?|\d+\.\d+|\.\d+|\d+)"
    r"(?:\s?k(?![^\W\d_]))?"
)

_CHARACTERS: Final = {
    **dict.fromkeys("′’‘´`ʹ", "'"),
    **dict.fromkeys("″”“„ʺ", '"'),
    **dict.fromkeys("×✕✖⨯", "x"),
    **dict.fromkeys("−–—‒‐‑", "-"),
    "⁄": "/",
    "º": "°",
    "\r": "\n",
    "\t": " ",
}
_ONE, _TEEN, _TENS = (
    words.table("en", "numbers", "phrases")[name] for name in ("one", "teen", "tens")
)
_TWO_DIGITS: Final = rf"(?:(?:{_TENS})(?:[ -](?:{_ONE}))?|{_TEEN})"
#: "One twenty" for a hundred and twenty, as sizes are said.
SPOKEN_HUNDRED: Final = (
    rf"\b(?P<hundreds>{_ONE})[ -]"
    rf"(?:(?:oh|o)[ -](?P<ones>{_ONE})|(?P<tens>{_TWO_DIGITS}))\b"
)
_HUNDREDS: Final = (
    rf"(?:(?:an?|{_ONE}|{_TWO_DIGITS})[ -]hundred(?:[ -](?:and[ -])?(?:{_TWO_DIGITS}|{_ONE}))?)"
)
#: "Twenty-four hundred" for two thousand four hundred, as areas are said.
_TEENS_OF_HUNDREDS: Final = re.compile(
    rf"(?P<count>{_TWO_DIGITS}) hundred(?: (?:and )?(?P<more>.+))?"
)
WORD_NUMBER: Final = (
    rf"\b(?:(?:an?|{_ONE}|{_TWO_DIGITS})[ -]thousand"
    rf"(?:,?[ -](?:and[ -])?(?:{_HUNDREDS}|{_TWO_DIGITS}|{_ONE}))?"
    rf"|{_HUNDREDS}"
    rf"|(?:{_ONE})[ -](?:(?:oh|o)[ -](?:{_ONE})|{_TWO_DIGITS})|{_TWO_DIGITS}|{_ONE})\b"
)


#: Numbers above this, or written with more characters, are slips of the finger.
LARGEST: Final = 1e9
LONGEST: Final = 24

#: No message is longer; chat platforms stop at some four thousand characters.
LONGEST_TEXT: Final = 5000


class UnreadNumber(ValueError):
    """Raised for figures that are no plain number, such as 4/0 or 7/3, or far too large a one."""


@dataclass(frozen=True)
class Traced:
    """A text rewritten from what was said, with the place each character came from."""

    said: str
    text: str
    origin: tuple[int, ...]

    def sub(
        self, pattern: re.Pattern[str], replace: str | Callable[[re.Match[str]], str]
    ) -> Traced:
        """Return the text with each match replaced, as `re.sub` would."""
        pieces: list[str] = []
        origin: list[int] = []
        end = 0
        if pattern.search(self.text) is None:
            return self
        for match in pattern.finditer(self.text):
            pieces.append(self.text[end : match.start()])
            origin += self.origin[end : match.start()]
            for new, start, stop in _replaced(match, replace):
                alike = takewhile(
                    lambda pair: pair[0] == pair[1], zip(self.text[start:stop], new, strict=False)
                )
                kept = sum(1 for _ in alike)
                changed = len(new) - kept
                pieces.append(new)
                origin += self.origin[start : start + kept]
                origin += [self.origin[min(start + kept, stop - 1)]] * (changed - 1)
                origin += [self.origin[stop - 1]] * min(changed, 1)
            end = match.end()
        pieces.append(self.text[end:])
        origin += self.origin[end:]
        return Traced(self.said, "".join(pieces), tuple(origin))

    def cut(self, start: int, end: int) -> Traced:
        """Return a stretch of the text."""
        return Traced(self.said, self.text[start:end], self.origin[start:end])

    def strip(self) -> Traced:
        """Return the text without blanks around it."""
        lead = len(self.text) - len(self.text.lstrip())
        return self.cut(lead, max(lead, len(self.text.rstrip())))

    def beside(
        self, taken: Iterable[tuple[int, int]], start: int = 0, end: int | None = None
    ) -> str:
        """Return what the person wrote beside stretches that were taken, in order."""
        kept: list[str] = []
        for first, last in taken:
            kept.append(self.original(start, first))
            start = last
        kept.append(self.original(start, end))
        return " ".join(" ".join(kept).split()).strip(" ,.;")

    def original(self, start: int = 0, end: int | None = None) -> str:
        """Return what the person wrote for a stretch of the text."""
        stop = len(self.text) if end is None else end
        if stop <= start:
            return ""
        first = self.origin[start]
        if self.said[first].lower() != self.text[start].lower():
            # Written otherwise, and shorter: a figure of "three" stands for all of that word.
            least = self.origin[start - 1] + 1 if start else 0
            while first > least and self.said[first - 1].isalpha():
                first -= 1
        return self.said[first : self.origin[stop - 1] + 1]


def _replaced(
    match: re.Match[str], replace: str | Callable[[re.Match[str]], str]
) -> list[tuple[str, int, int]]:
    """Return what stands in for a match, piece by piece, each with the stretch it comes from.

    What moves within a match ("a 12x10 shed" -> "shed 12x10") keeps where it came from.
    """
    if not isinstance(replace, str):
        return [(replace(match), match.start(), match.end())]
    places = [int(each) for each in re.findall(r"\\(\d)", replace)]
    if len(places) < 2:
        return [(match.expand(replace), match.start(), match.end())]
    found: list[tuple[str, int, int]] = []
    start = match.start()
    for piece in re.split(r"(\\\d)", replace):
        if re.fullmatch(r"\\\d", piece):
            start, stop = match.span(int(piece[1]))
            found.append((match[int(piece[1])], start, stop))
            start = stop - 1
        elif piece:
            found.append((piece, start, start + 1))
    return found


@lru_cache(maxsize=256)
def plain(said: str) -> Traced:
    """Return the text in plain characters: straight quotes, x, hyphen, 1/2 for ½.

    Of a text longer than `LONGEST_TEXT` the rest is left out; lists refuse such a text whole.
    """
    text: list[str] = []
    origin: list[int] = []
    said = _LONE_POINT.sub("0.", said)
    for place, character in enumerate(said[:LONGEST_TEXT]):
        new = _CHARACTERS.get(character)
        if new is None:
            new = character if character in "²³°" else _compatible(character)
        text.append(new)
        origin += [place] * len(new)
    traced = Traced(said, "".join(text), tuple(origin))
    for pattern, new in _SHORTER:
        traced = traced.sub(pattern, new)
    return traced


#: ".38" is written 0.38 before all else: what is taken off a text's ends would take its point.
_LONE_POINT: Final = re.compile(r"(?<![\w.])\.(?=\d)")
ENDLESS_DIGITS: Final = re.compile(r"(?<=\d{16})\d+")
#: Two single quotes are inches; endless digits and blanks say no more than some, and would only
#: keep the patterns busy (sixteen digits are still far above `LARGEST`).
_SHORTER: Final = (
    (re.compile(r"(?<!')''(?!')"), '"'),
    (ENDLESS_DIGITS, ""),
    (re.compile(r"(?<=[ ]{3}) +"), ""),
    (re.compile(r"(?<=\n{2})\n+"), ""),
)


def count_figures(said: str) -> int:
    """Return how many runs of digits a text holds."""
    return len(re.findall(r"\d+", plain(said).text))


def number_value(text: str) -> float:
    """Return the value of a text that matches `NUMBER`.

    Raises
    ------
    UnreadNumber
        If a fraction in it is not a proper one; if it is far too large, thousands of thousands
        ("2400k"), or begins with a nought where a point may be missing ("01 ha").
    """
    figures = text.strip().lower()
    factor = 1.0
    if figures.endswith("k"):
        factor, figures = 1000.0, figures[:-1].strip()
    is_doubled = factor > 1.0 and re.match(r"\d{4}|\d+,", figures)
    if len(figures) > LONGEST or is_doubled or re.match(r"0[\d,]", figures):
        raise UnreadNumber(text)
    if "/" in figures:
        whole, _, fraction = figures.replace("-", " ").rpartition(" ")
        upper, lower = (int(part) for part in fraction.split("/"))
        if lower == 0 or upper >= lower:
            raise UnreadNumber(text)
        return factor * ((int(whole) if whole.strip() else 0) + upper / lower)
    value = factor * float(figures.replace(",", ""))
    if value > LARGEST:
        raise UnreadNumber(text)
    return value


def known_value(text: str) -> float | None:
    """Return the value of a text that matches `NUMBER`; None where it has none."""
    try:
        return number_value(text)
    except UnreadNumber:
        return None


def value_of(text: str) -> float:
    """Return the value of a number in figures or words; "a" is one."""
    said = text.strip().lower()
    if said in ("a", "an", "un", "una"):
        return 1.0
    if re.fullmatch(WORD_NUMBER, said):
        return float(word_number_value(said))
    return number_value(said)


def word_number_value(text: str) -> int:
    """Return the value of a text that matches `WORD_NUMBER`."""
    said = " ".join(text.lower().replace("-", " ").split())
    hundred = re.fullmatch(SPOKEN_HUNDRED, said)
    if hundred is not None:
        more = hundred["ones"] or hundred["tens"]
        return 100 * int(text2num(hundred["hundreds"], "en")) + int(text2num(more, "en"))
    teens = _TEENS_OF_HUNDREDS.fullmatch(said)
    if teens is not None:
        more = int(text2num(teens["more"], "en")) if teens["more"] else 0
        return 100 * int(text2num(teens["count"], "en")) + more
    return int(
        text2num(re.sub(r"\ban?(?= (?:hundred|thousand))", "one", said.replace(",", "")), "en")
    )


def figures(value: float) -> str:
    """Return a number as we write it: grouped in threes, no trailing zeros, ten digits kept."""
    if value in (1 / 3, 2 / 3):
        return "1/3" if value < 0.5 else "2/3"
    return f"{value:,.10g}" if abs(value) < 1e10 else f"{value:,.0f}"


@cache
def parser(name: str, start: str = "start") -> Lark:
    """Return the LALR parser of a packaged grammar, built once, on first use."""
    text = (resources.files(__package__) / "grammars" / f"{name}.lark").read_text("utf-8")
    return Lark(
        text.replace("<NUMBER>", NUMBER.replace("/", r"\/")),
        start=start,
        parser="lalr",
        lexer="contextual",
        propagate_positions=False,
    )


def _compatible(character: str) -> str:
    category = unicodedata.category(character)
    if category in {"Cf", "Mn"}:  # zero-width marks; a phone may slip them in anywhere
        return ""
    if category in {"Cc", "Co", "Cs", "Cn"} and character != "\n":
        return " "
    folded = unicodedata.normalize("NFKC", character)
    if category == "No" and "⁄" not in folded:  # a raised or circled digit is no plain one
        return "^"
    if "⁄" in folded:  # vulgar fraction: keep it apart from a whole number before it
        return " " + folded.replace("⁄", "/")
    return " " if folded.isspace() and character != "\n" else folded
