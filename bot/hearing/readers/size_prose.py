"""Sizes told in sentences, put into the list that the grammar reads.

"It's just a front and a back. The front's 40 wide and 25 deep, the back 60x45 with a 12x10 shed in
it" is ``front 40 x 25, back 60 x 45 minus shed 12 x 10``. What takes ground off a lawn is never
left standing as a lawn of its own.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Final

from bot.hearing.expressions import expression
from bot.hearing.readers.lexing import NUMBER, WORD_NUMBER, Traced, word_number_value
from bot.hearing.readers.terms import LENGTH

_UNIT: Final = rf"(?:\s*{LENGTH})?"
_SIZE: Final = rf"{NUMBER}{_UNIT}\s*(?:x|\*|by|por)\s*{NUMBER}{_UNIT}"
_AREA: Final = (
    rf"{NUMBER}\s*(?:sq\b|square\b|sqft|sf\b|ft2|m2|acres?\b|pies\s+cuadrados|metros\s+cuadrados)"
)
#: What stands on a lot and is no lawn; a figure behind or before it is ground taken off. (Behind
#: "patio" in Spanish lies the lawn: there only one of cement is none.)
_NO_LAWN: Final = (
    r"(?:(?:flower|garden|veg(?:gie|etable)?|mulch|swimming|play|tool|storage|concrete|gravel|raised)\s+)?"
    r"(?:house|home|garage|carport|drive(?:way)?|patio|deck|porch|shed|barn|pool|hot\s+tub|pond|walk(?:way)?|sidewalk"
    r"|path|terrace|building|beds?|garden|planters?|sandbox|playset|swing\s?set|trampoline|gazebo|slab|pad|court"
    r"|greenhouse|coop|casa|cochera|garaje|entrada|alberca|piscina|cobertizo|bodega|jardineras?|terraza|asador"
    r"|banqueta|patio\s+de\s+cemento|estanque|huerto)"
)
#: Words for parts of a lot, of which people say where a size is.
_PART: Final = (
    r"(?:front|back|side|rear|strip|backyard|frontyard|frente|enfrente|atr[aá]s|lado|franja)"
)


def tidy(text: Traced) -> Traced:
    """Return a text as a list of names and sizes: "half an acre", "length 60, width 40" too."""
    text = _without_talk(text)
    for pattern, new in _TIDY:
        text = text.sub(pattern, new)
    return text


_SENTENCES: Final = expression(
    r"(?<=[\w'\"])(?<!\bst)(?<!\bmt)[.!?]+\s+(?=[^\W\d_])", re.IGNORECASE
)
_FIGURE: Final = expression(rf"\d|{WORD_NUMBER}|\bacre", re.IGNORECASE)
PARTS: Final = expression(rf"\b{_PART}\b", re.IGNORECASE)


def _without_talk(text: Traced) -> Traced:
    """Leave out sentences without a figure, unless they name a part whose size is not told.

    "St. Mary 60x40" is one sentence: what is left out has three words or more.
    """
    ends = [match.end() for match in _SENTENCES.finditer(text.text)]
    pieces = [text.cut(a, b) for a, b in zip([0, *ends], [*ends, len(text.text)], strict=True)]
    told = [piece for piece in pieces if _FIGURE.search(piece.text)]
    if len(pieces) == len(told) or not told:
        return text
    sized = {part.group().lower() for piece in told for part in PARTS.finditer(piece.text)}
    kept = [
        piece
        for piece in pieces
        if piece in told
        or len(piece.text.split()) < 3
        or {part.group().lower() for part in PARTS.finditer(piece.text)} - sized
    ]
    whole = "".join(piece.text for piece in kept)
    return Traced(text.said, whole, sum((piece.origin for piece in kept), ()))


#: What joins to a lawn's size what stands on it.
_BESIDE: Final = (
    r"[\s,.]*\b(?:(?:but|and|pero|y)\s+)?(?:(?:with|has|having|it\s+has|there(?:'?s|\s+is)|con|tiene|hay|(?=the\b[^,;.\d]*\b(?:takes?|covers?)\b))\s*)"
    r"(?:an?|the|my|our|una?|el|la)\s+"
)
_IN_IT: Final = (
    r"(?:\s+(?:in|on|of|out\s+of|from|inside|off)\s+(?:it|that|this|there|the\s+(?:middle|corner|cent(?:er|re)|back\s+corner)|one\s+corner))?"
    r"(?:\s+(?:en\s+medio|adentro|en\s+la\s+esquina))?"
)
_OPERATOR: Final = (
    r"(?:minus|plus|less|with|without|by|x|and|but|in|on|at|then|long|wide|deep|feet|foot|ft|m|por"
    r"|menos|m[aá]s|con|sin|y|of|sq|square)"
)


_AFTER_NUMBER: Final = (
    r"(?=[\s-]*(?:x|by|por)\s+(?:\d|"
    + WORD_NUMBER
    + rf")|[\s-]*(?:(?!in\b|m\b|['\"]){LENGTH}|(?:acres?|hectares?|sq\b|square|sqft)\b))"
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


_ALSO: Final = (
    r"\s*(?:,|;|\band\b|\by\b)\s*(?:and\s+|y\s+|but\s+)?(?:(?:the|my|our|an?|el|la|una?)\s+)?"
)
_TAKES: Final = (
    r"(?:(?:takes?(?:\s+up)?|eats?(?:\s+up)?|covers?|is|are|ocupan?|mide|es(?:\s+de)?"
    r"|about|like|around|maybe|another|unos|como)\s+)*"
)
_WHOLE_AREA: Final = rf"{_AREA}(?:\s+(?:ft|feet|m)\b)?"
_LOT: Final = (
    r"((?:the\s+|my\s+|our\s+|el\s+|mi\s+)?(?:(?:whole|entire)\s+)?"
    rf"(?:lot|property|parcel|terreno|lote|solar)\b[^\d,;]*(?:{_SIZE}|{_WHOLE_AREA})(?:\s+minus[^,;]*?)?)"
)
_MOST_OFF_A_LOT: Final = 4
_HAVING: Final = (
    r"(?:(?:it'?s|i'?ve|we'?ve|i|we|got|have|on|about|like|roughly|maybe|an?|tengo|es|un|de)\s+)*"
)


_A_NAME: Final = r"(?:the\s+|my\s+)?([a-z]+(?:\s(?:yard|lawn|side|strip))?)"
_TWO_NAMES: Final = rf"{_A_NAME}\s+and\s+{_A_NAME}\s+(?:(?:are|is|measure)\s+)?"

#: Something more that is taken off, said behind the first: "minus shed 10x12 and a bed".
_ALSO_OFF: Final = (
    r"(\bminus\s[^,;\n]*?\d[^,;\n]*?)\s*(?:,\s*)?"
    r"\b(?:and|y)\s+(?:(?:an?|the|some|un|una|el|la)\s+)?"
)
_ABOUT: Final = r"(?:(?:that'?s|is|of|de|about|around|like|maybe|como|unos)\s+)*"
_TIDY: Final[tuple[_Tidying, ...]] = (
    _rule(r"(?<=\d)\s*mil\b(?=\s+(?:pies?|metros?|sq|ft|m2)\b)", "k"),
    _rule(r"\bpies?\s+cuadrados?\b", "sq ft"),
    _rule(r"\bmetros?\s+cuadrados?\b", "m2"),
    # What is said of measuring itself.
    _rule(
        r"^\s*(?:(?:so|ok(?:ay)?|well|hey)\s+)*(?:i|we)\s+(?:just\s+|already\s+)?"
        r"(?:paced|(?:re-?)?measured|walked|taped|wheeled|stepped|checked|went\s+out\s+and\s+measured)\b"
        r"[^\d,;.:\n]*?(?:[,;.:-]+\s*|\s+and\s+(?=(?:the\s+|my\s+)?[a-z]+\s))(?=.*\d)",
        "",
    ),
    _rule(
        r"^[^\d,.;:\n]*\s(?:got|have|are|is|sizes?|measurements?|dimensions?|numbers?|goes?|areas?|medidas)\s*:\s*(?=.*\d)",
        "",
    ),
    # "Not counting the driveway": the figure is of the lawn alone.
    _rule(
        r"[\s,]*\(?\b(?:(?:that|which|it|eso|esto)\s+)?(?:does\s?n'?t\s+(?:include|count)|not\s+(?:counting|including|incl\.?)|excluding"
        r"|is\s?n'?t\s+counting|without|sin(?:\s+contar)?|no\s+incluye)\s+[^\d,;.\n]*(?=[,;.\n]|$)",
        "",
    ),
    _rule(
        r"[\s,.]*\b(?:(?:and\s+)?that'?s\s+(?:it|all|everything|the\s+lot)|(?:y\s+)?(?:ya\s+)?es\s+todo)[\s.!]*$",
        "",
    ),
    _rule(
        r"[\s,(]*\b(?:(?:maybe|perhaps|probably)\s+)?(?:a\s+)?(?:little|bit|tad|touch|hair)(?:\s+bit)?"
        r"\s+(?:less|more|over|under|bigger|smaller)\b\)?",
        "",
    ),
    # "5x60, not 5x80": what is denied is no size.
    _rule(
        rf"({_SIZE})[\s,(]*\b(?:not|instead\s+of|rather\s+than|en\s+vez\s+de|no)\s+{_SIZE}\)?",
        r"\1",
    ),
    # "The front's 40x30", "a lawn that's about 40x30".
    _rule(
        rf"\b((?:front|back)(?='?s\s)|(?:{_PART}|yard|lawn)(?='))'?s\s+(?=(?:[a-z]+\s+){{0,2}}{NUMBER})",
        r"\1 is ",
    ),
    _rule(
        rf"\s+(?:that|which|que)(?:'?s|\s+is|\s+are|'?re|\s+mide)\s+(?=(?:[a-z]+\s+){{0,2}}{NUMBER})",
        " ",
    ),
    _rule(
        r"\s+(?:that\s+(?:runs|goes|sits)\s+)?(?:between|entre)\s+(?:the\s+|la\s+|el\s+)?\w+\s+(?:and|y)\s+(?:the\s+|la\s+|el\s+)?\w+(?=\s)",
        "",
    ),
    # Two names for one size, and "each": "front and back are both 40 by 30".
    _rule(
        rf"{_TWO_NAMES}(?:both|each)\s+(?:(?:about|around|roughly)\s+)?({_SIZE})",
        r"\1 \3, \2 \3",
    ),
    _rule(
        rf"{_TWO_NAMES}(?:(?:about|around|roughly)\s+)?({_SIZE})\s+(?:each|apiece)\b",
        r"\1 \3, \2 \3",
    ),
    _rule(
        rf"(triang\w+)[\s,:]+(?:about\s+)?({NUMBER}{_UNIT})\s+(?:across|along|wide|at)\b(?:\s+(?:the\s+)?(?:bottom|base|front|street|wide\s+end))?"
        rf"\s*(?:,|and|&|by|x)?\s*({NUMBER}{_UNIT})\s*(?:high|tall|deep|long|up|to\s+the\s+\w+)\b",
        r"\1 base \2 x \3",
    ),
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
    # What only says that ground is spoken of is no name where one stands behind the size.
    _rule(
        r"(?:^|(?<=[,;.]))\s*(?:(?:mi|el|my|the|our)\s+)?(?:jard[ií]n|yarda|patio|c[eé]sped|pasto|terreno|lawn|yard|grass)\s+"
        r"(?:mide|es\s+de|tiene|is|measures)\s+(?=\d[\d,]*[^,;\n]*\s(?:al|en|in|on|at)\s+[a-z])",
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
    # What stands on a lawn is taken off it: "60x45 with a 12x10 shed in it", "but there's a 20x20
    # patio", "con una alberca de 15x30", "the house takes up 40 by 30 of that".
    _rule(
        rf"((?:{_SIZE}|{_AREA})[^,;.\n\d]{{0,20}}?){_BESIDE}({_SIZE})\s+(?:[a-z]+\s+)?({_NO_LAWN})\b{_IN_IT}",
        r"\1 minus \3 \2",
    ),
    _rule(
        rf"((?:{_SIZE}|{_AREA})[^,;.\n\d]{{0,20}}?){_BESIDE}(?:[a-z]+\s+)?({_NO_LAWN})(?:\s+(?:and|y)\s+(?:the\s+)?{_NO_LAWN})*\s+"
        rf"(?:(?:that'?s|thats|which\s+is|is|of|de|que\s+mide|about|around|like|maybe|taking\s+up|takes?(?:\s+up)?"
        rf"|covers?|covering)\s+)*({_SIZE}|{_AREA}(?:\s+(?:ft|feet|m)\b)?){_IN_IT}",
        r"\1 minus \2 \3",
    ),
    # And so is what stands there too: "a shed 10x12 and a garden bed like 4 by 16".
    *(
        _rule(rf"{_ALSO_OFF}({_NO_LAWN})\s+{_ABOUT}({_SIZE}|{_WHOLE_AREA})", r"\1 minus \2 \3"),
        _rule(rf"{_ALSO_OFF}{_ABOUT}({_SIZE})\s+({_NO_LAWN})\b", r"\1 minus \3 \2"),
    )
    * 2,
    # The house on a lot is none of its lawn: "the lot is a quarter acre, house 1800 sq ft, driveway
    # 600". Of a lawn it may be beside, which is asked, unless it takes ground up.
    # "Half acre lot, house is 1600" names it behind its size.
    _rule(rf"^{_HAVING}({_SIZE}|{_WHOLE_AREA})\s+(lot|property|parcel|terreno|lote)\b", r"\2 \1"),
    *(
        _rule(rf"^{_LOT}{_ALSO}({_NO_LAWN})\s+{_TAKES}({_SIZE}|{_WHOLE_AREA})", r"\1 minus \3 \2"),
        _rule(
            rf"^(?=[^,;]*\b(?:sq|acres?)\b){_LOT}{_ALSO}({_NO_LAWN})\s+{_TAKES}({NUMBER})(?=\s*(?:,|;|$|and\b))",
            r"\1 minus \3 sq ft \2",
        ),
    )
    * _MOST_OFF_A_LOT,
    _rule(
        rf"^([^\d,;]*(?:{_SIZE}|{_WHOLE_AREA})){_ALSO}({_NO_LAWN})\s+"
        rf"(?:takes?(?:\s+up)?|eats?(?:\s+up)?|covers?|ocupan?)\s+(?:about|like|around|maybe|unos|como)?\s*({_SIZE}|{_WHOLE_AREA})",
        r"\1 minus \3 \2",
    ),
    # Sizes with nothing between: "front 60x40 back 50x30", "60x40 front 50x30 back".
    _rule(
        rf"(?<=[a-z]\s)({_SIZE})\s+(?=(?:the\s+)?(?!{_OPERATOR}\b)[a-z]+(?:\s+(?!{_OPERATOR}\b)[a-z]+)?\s+{_SIZE})",
        r"\1, ",
    ),
    _rule(
        rf"^((?:the\s+)?{_SIZE}\s+(?!{_OPERATOR}\b)[a-z]+(?:\s+(?:yard|lawn))?)\s+(?={_SIZE}\s+[a-z])",
        r"\1, ",
    ),
)
