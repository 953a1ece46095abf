"""A list of zones cut into its pieces, before any of them is read."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.readers import surveys
from bot.hearing.readers.lexing import NUMBER, WORD_NUMBER, Traced, word_number_value
from bot.hearing.readers.terms import LENGTH, LENGTH_WORDS, SURVEY_MARK


@dataclass(frozen=True)
class Piece:
    """One piece of a list.

    Attributes
    ----------
    text : Traced
        The piece in plain characters.
    said : str
        The piece as written.
    name : str or None
        A name that stood in a piece of its own before it.
    fault : str or None
        Why it cannot be taken on its own: part of a reason's key.
    is_after_and : bool
        Whether "and" joins it to the piece before.
    """

    text: Traced
    said: str
    name: str | None = None
    fault: str | None = None
    is_after_and: bool = False


def split(text: Traced) -> list[Piece]:
    """Cut a text into pieces.

    A comma groups thousands exactly where a digit stands before it and three digits, no more,
    behind it; every other comma separates.
    """
    typed = surveys.lift(tidy(text))
    found: list[tuple[Traced, str]] = []
    start, joint = 0, ""
    for match in _SEPARATOR.finditer(typed.text):
        found.append((typed.cut(start, match.start()), joint))
        is_glued = match.group() == "," and _is_between_digits(typed.text, match.start())
        joint = "glued" if is_glued else match.group().strip().lower()
        start = match.end()
    found.append((typed.cut(start, len(typed.text)), joint))
    stripped = [(_without_full_stop(piece.strip()), joint) for piece, joint in found]
    says_something = expression(rf"\w|{SURVEY_MARK}")
    kept = [(piece, joint) for piece, joint in stripped if says_something.search(piece.text)]
    kept = [each for each in kept if not _NO_WORD.fullmatch(each[0].text)] or kept
    return _named(_ells(_listed(_unglued(kept, typed))))


def tidy(text: Traced) -> Traced:
    """Return the text with wordy sizes in figures: "half an acre", "length 60, width 40"."""
    for pattern, new in _TIDY:
        text = text.sub(pattern, new)
    return text


def takes_off(piece: Traced) -> bool:
    """Tell whether a piece subtracts something."""
    return bool(
        re.search(r"\d.*?(?:\bminus\b|\bless\b|\bwithout\b|\s-|-\s)", piece.text, re.IGNORECASE)
    )


def is_list(piece: Piece) -> bool:
    """Tell whether a piece is a shape with a list of figures, which a slip may cut short."""
    return SURVEY_MARK in piece.text.text or bool(_LISTING.search(piece.text.text))


_UNIT: Final = rf"(?:\s*{LENGTH})?"
_AFTER_NUMBER: Final = (
    r"(?=[\s-]*(?:x|by|por)\s+(?:\d|"
    + WORD_NUMBER
    + rf")|[\s-]*(?:(?!in\b|m\b)(?:{LENGTH_WORDS})|acres?|hectares?|sq\b|square|sqft)\b)"
)


def _digits(match: re.Match[str]) -> str:
    return str(word_number_value(match.group()))


def _with_commas(match: re.Match[str]) -> str:
    return match[1] + re.sub(r",?[ ]+", ", ", match[2])


#: A figure of a list written without commas; "18 1/2" would be one figure or two, and is asked.
_BARE: Final = r"\d+(?:\.\d+)?(?!\d|\.\d|/|\s*(?:x|\*|by\b))"
_Tidying = tuple[re.Pattern[str], str | Callable[[re.Match[str]], str]]


def _rule(pattern: str, new: str | Callable[[re.Match[str]], str]) -> _Tidying:
    return expression(pattern, re.IGNORECASE), new


_TIDY: Final[tuple[_Tidying, ...]] = (
    _rule(r"^\s*/?(?:zones?|sizes?)\s*:\s*", ""),
    _rule(r"(?m)^\s*(?:[•*]\s+|\d{1,2}\)\s+|\d{1,2}\.\s+(?=[^\W\d_]))", ""),
    _rule(r"(?m)^\s*-\s+(?=[^\W\d_])", ""),
    # How many there are says nothing that their list does not: "3 areas. front ..."
    _rule(
        rf"^\s*(?:(?:there\s+are|i\s+have|we\s+have|i'?ve\s+got|hay|tengo|son)\s+)?(?:\d|{WORD_NUMBER}|dos|tres|cuatro|cinco)\s+"
        r"(?:areas?|zones?|parts?|sections?|patches|lawns?|zonas?|partes|pedazos)\s*[.:,;–-]+\s*(?=[^\W\d_])",
        "",
    ),
    _rule(r"\b(?:please|thanks|thank you|approx(?:imately)?\.?|about|roughly|around|circa)\s*", ""),
    _rule(r"[\s,]*\b(?:i (?:think|guess|believe)|or so|give or take|more or less)\b", ""),
    _rule(r"\b(?:actually|really|in fact|sorry|oops|correction)\b\s*", ""),
    _rule(r"(?<![\w])~\s*(?=\d)", ""),
    _rule(r"\b(?:an|one|1) acre and a half\b", "1 1/2 acre"),
    _rule(r"\b(?:a\s+|one[ -])?half(?:\s+of)?(?:\s+an?)?[ -]acre\b", "1/2 acre"),
    _rule(r"\b(?:a\s+|one[ -])?quarter(?:\s+of)?(?:\s+an?)?[ -]acre\b", "1/4 acre"),
    _rule(r"\b(?:a\s+|one[ -])third(?:\s+of)?(?:\s+an?)?[ -]acre\b", "1/3 acre"),
    _rule(r"\bthree[ -]quarters?(?:\s+of)?(?:\s+an?)?[ -]acre\b", "3/4 acre"),
    _rule(r"(?<!of )\ban acre\b", "1 acre"),
    _rule(r"(\d) and (?:a half|1/2)\b", r"\1 1/2"),
    _rule(r"(\d) and (?:a quarter|1/4)\b", r"\1 1/4"),
    _rule(r"(\d) and (?:three[ -]quarters|3/4)\b", r"\1 3/4"),
    _rule(r"(?<=\d)\s+thousand\b", "k"),
    _rule(WORD_NUMBER + _AFTER_NUMBER, _digits),
    _rule(r"(?<=\d by )" + WORD_NUMBER + "|(?<=\\d x )" + WORD_NUMBER, _digits),
    _rule(r"(?<=(?:ft|[a-z]t) by )" + WORD_NUMBER, _digits),
    _rule(
        rf"\b(?:length|long)(?:\s+of)?\s*[:=]?\s*({NUMBER}{_UNIT})\s*(?:,|and|&|x|by)?\s*"
        rf"(?:width|wide)(?:\s+of)?\s*[:=]?\s*(?={NUMBER})",
        r"\1 x ",
    ),
    _rule(
        rf"(?<=[\d\w'\"])\s+\(?(?:long|wide|deep|in length|in width)\b\)?\s*(?:,|and|&|x|by)?\s*"
        rf"(?={NUMBER}{_UNIT}(?:\s+\(?(?:long|wide|deep)\b|\s*$|\s*[,;\n]))",
        " x ",
    ),
    _rule(
        rf"\b(base(?:\s+of)?\s*[:=]?\s*{NUMBER}{_UNIT})\s*(?:,|and|&|x|by)?\s*"
        rf"(?:height|high|tall)(?:\s+of)?\s*[:=]?\s*(?={NUMBER})",
        r"\1 x ",
    ),
    _rule(r"(?<=\d)-(?=(?:foot|feet|ft|acres?|yards?|yd|m|met(?:er|re)s?|inch|in)\b)", " "),
    _rule(
        r"(\b(?:triang(?:le|ular)|trapez(?:oid|ium)|offsets?|radii)\b[^\d,;\n]*)"
        rf"({_BARE}(?:,?[ ]+{_BARE}){{2,}})(?!\s*,?\s*\d)",
        _with_commas,
    ),
    # The two sides that run alongside each other, and how far they are apart.
    _rule(
        rf"(?P<name>\btrapez(?:oid|ium)\b[^\d,;\n]*)(?P<a>{NUMBER}{_UNIT})\s+(?:and|y)\s+"
        rf"(?P<b>{NUMBER}{_UNIT})\s*(?:x|\*|by|por)\s*(?P<apart>{NUMBER}{_UNIT})",
        r"\g<name>\g<a>, \g<b>, \g<apart> deep",
    ),
    _rule(r"\bsq\.\s*", "sq "),
    _rule(r"\bpies?\s+cuadrados?\b", "sq ft"),
    _rule(r"\bmetros?\s+cuadrados?\b", "m2"),
    # What only says that ground is spoken of is no name where one stands behind the size.
    _rule(
        r"(?:^|(?<=[,;.]))\s*(?:(?:mi|el|my|the|our)\s+)?(?:jard[ií]n|yarda|patio|c[eé]sped|pasto|terreno|lawn|yard|grass)\s+"
        r"(?:mide|es\s+de|tiene|is|measures)\s+(?=\d[^,;\n]*\s(?:al|en|in|on|at)\s+[a-z])",
        "",
    ),
    _rule(
        r"(?<=[\d\w'\"])\s*,?\s*\(?\b(?:(?:along|on)\s+a\s+)?(?:base)?line(?:\s+of)?\s*[:=]?\s*(?=\d)",
        " line ",
    ),
    # What is left of a zone is one thing, a zone of its own another: "with a 12 by 15 patio cut
    # out, plus the strip 4 x 60".
    _rule(
        rf"\bwith\s+(?:an?\s+|the\s+)?(?:[a-z]+\s+)?({NUMBER}{_UNIT}\s*(?:x|\*|by)\s*{NUMBER}{_UNIT})"
        r"(?:\s+[a-z]+)?\s+(?:cut|taken|carved)\s+out(?:\s+of\s+it)?\b",
        r"minus \1",
    ),
    _rule(
        r",?\s*(?:\band\b\s*)?\bplus\s+(?:(?:there'?s|there\s+is|i\s+have|we\s+have)\s+(?:an?\s+|the\s+)?"
        r"|(?:the|my|our)\s+)(?=[a-z][^\d,;\n]*\d)",
        ", ",
    ),
    # So is what goes by the name of a part of every lot: "plus a side strip 8 x 50".
    _rule(
        r",?\s*(?:\band\b\s*)?\bplus\s+(?:there'?s\s+)?(?:an?\s+|another\s+)?"
        r"(?=(?:[a-z]+\s+)?(?:front|back|side|strip|parkway|curb|ditch|lado|franja|frente)\b"
        r"[^\d,;\n]*\d)",
        ", ",
    ),
    _rule(r",?\s*\n?\s*(?:\band\b\s*)?(?=\b(?:minus|less|without|plus)\b\s.*\d)", " "),
)

_SEPARATOR: Final = expression(
    r"\s*\n\s*|;|(?<!\d),|,(?!\d{3}(?!\d))|\s(?:and|&)\s(?!\s*(?:minus|plus|less|without)\b)"
    r"|\sy\s(?=(?!menos\b|sin\b)[^\W\d_]+\s[^,;\n]*\d|\d[\d.]*\s*(?:x|por)\s*\d)"
    r"|(?<=[\dtmd'\"])\.\s+(?=(?!x\b|by\b|minus\b|plus\b|less\b|without\b)[^\W\d_])",
    re.IGNORECASE,
)
#: What only begins to speak: "oh, and the back ...".
_NO_WORD: Final = expression(
    r"(?:oh+|ok(?:ay)?|hey|hi|hello|so|well|hm+|um+|uh+|and|then|also|bueno|oye|ah|hola|pues"
    r"|buen[oa]s(?:\s+(?:d[ií]as|tardes|noches))?|good\s+(?:morning|afternoon|evening))",
    re.IGNORECASE,
)
_LONE: Final = expression(rf"^\s*{NUMBER}{_UNIT}\s*$", re.IGNORECASE)
_LISTING: Final = expression(
    r"\b(?:triang(?:le|ular)|trapezoid|trapezium|offsets?|radii)\b",
    re.IGNORECASE,
)


def _without_full_stop(piece: Traced) -> Traced:
    return piece.cut(0, len(piece.text.rstrip(".!? ")))


def _is_between_digits(text: str, place: int) -> bool:
    return text[place - 1 : place].isdigit() and text[place + 1 : place + 2].isdigit()


def _unglued(found: list[tuple[Traced, str]], typed: Traced) -> list[Piece]:
    """Keep "12,5 m x 9,2 m" together as one fault: the comma is probably a decimal one."""
    runs: list[list[tuple[Traced, str]]] = []
    for piece, joint in found:
        if joint == "glued" and runs:
            runs[-1].append((piece, joint))
        else:
            runs.append([(piece, joint)])
    cut: list[Piece] = []
    for run in runs:
        is_listed = bool(_LISTING.search(run[0][0].text))
        is_decimal = len(run) > 1 and any(_LONE.match(_last_words(p.text)) for p, _ in run)
        if is_decimal and not is_listed:
            whole = Traced(
                typed.said,
                ",".join(piece.text for piece, _ in run),
                sum(((*piece.origin, piece.origin[-1]) for piece, _ in run), ())[:-1],
            )
            cut.append(Piece(whole, whole.original(), fault="decimal_comma"))
        else:
            cut += [
                Piece(piece, piece.original(), is_after_and=joint in {"and", "&"})
                for piece, joint in run
            ]
    return cut


def _last_words(text: str) -> str:
    """Return the text without a name in front."""
    match = re.search(r"[\d.].*$", text)
    return match.group() if match else text


def _listed(cut: list[Piece]) -> list[Piece]:
    """Join the figures of a list to the shape that asks for one: "triangle 30, 40, 50"."""
    joined: list[Piece] = []
    for piece in cut:
        before = joined[-1] if joined else None
        is_figure = bool(_LIST_GOES_ON.match(piece.text.text))
        if before is not None and is_figure and _LISTING.search(before.text.text):
            gap = Traced(piece.text.said, ", ", (before.text.origin[-1],) * 2)
            text = Traced(
                piece.text.said,
                before.text.text + gap.text + piece.text.text,
                before.text.origin + gap.origin + piece.text.origin,
            )
            joined[-1] = replace(before, text=text, said=text.original())
        else:
            joined.append(piece)
    return joined


_ELL: Final = expression(r"\bl[ -]?shaped?\b|\ban l\b", re.IGNORECASE)
_BARE_SIZE: Final = expression(
    rf"^\s*{NUMBER}{_UNIT}\s*(?:x|\*|by)\s*{NUMBER}{_UNIT}\s*$", re.IGNORECASE
)


def _ells(cut: list[Piece]) -> list[Piece]:
    """Join the two sizes of an L: "front is L shaped, 30x20 and 10x15"."""
    joined: list[Piece] = []
    for piece in cut:
        before = joined[-1] if joined else None
        is_arm = before is not None and _ELL.search(before.text.text) is not None
        if before is None or not is_arm or not _BARE_SIZE.match(piece.text.text):
            joined.append(piece)
            continue
        # The first size belongs to the word, the second is added to it.
        gap = " plus " if _has_figures(before) else " "
        text = Traced(
            piece.text.said,
            before.text.text + gap + piece.text.text,
            before.text.origin + (before.text.origin[-1],) * len(gap) + piece.text.origin,
        )
        joined[-1] = replace(before, text=text, said=text.original())
    return joined


_LIST_GOES_ON: Final = expression(
    rf"^\s*{NUMBER}{_UNIT}(?:\s*(?:deep|high|tall|apart|at|every|spaced)\b.*)?\s*$", re.IGNORECASE
)


def _named(cut: list[Piece]) -> list[Piece]:
    """Give a name that stands alone to the size behind it, where the list begins that way."""
    if not cut or _has_figures(cut[0]):
        return cut
    named: list[Piece] = []
    for piece in cut:
        before = named[-1] if named else None
        if before is None or _has_figures(before) or before.fault or not _has_figures(piece):
            named.append(piece)
        elif piece.is_after_and:
            said = f"{before.said} and {piece.said}"
            named[-1] = replace(piece, said=said, fault="names_share_size", is_after_and=False)
        elif re.match(rf"[\d.'\"-]|{SURVEY_MARK}", piece.text.text):
            said = f"{before.said}, {piece.said}"
            named[-1] = replace(piece, said=said, name=before.said.rstrip(" :=-"))
        else:
            named.append(piece)
    return named


def _has_figures(piece: Piece) -> bool:
    return bool(re.search(rf"\d|{SURVEY_MARK}", piece.text.text))
