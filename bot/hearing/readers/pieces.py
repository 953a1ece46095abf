"""A list of zones cut into its pieces, before any of them is read."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Final

from bot.hearing import words
from bot.hearing.expressions import expression
from bot.hearing.phrases import phrases
from bot.hearing.readers import size_prose, sizes_sense, surveys
from bot.hearing.readers.lexing import NUMBER, Traced
from bot.hearing.readers.size_prose import pattern_of
from bot.hearing.readers.terms import LENGTH, SURVEY_MARK


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
    typed = surveys.lift(size_prose.tidy(text))
    found: list[tuple[Traced, str]] = []
    start, joint = 0, ""
    for match in pattern_of("separator").finditer(typed.text):
        found.append((typed.cut(start, match.start()), joint))
        sides = typed.text[: match.start()][-1:], typed.text[match.end() :][:1]
        is_glued = match.group() == "," and all(side.isdigit() for side in sides)
        joint = "glued" if is_glued else match.group().strip().lower()
        start = match.end()
    found.append((typed.cut(start, len(typed.text)), joint))
    whole = ((piece.strip(), joint) for piece, joint in found)
    stripped = [(piece.cut(0, len(piece.text.rstrip(".!? "))), joint) for piece, joint in whole]
    kept = [(piece, joint) for piece, joint in stripped if _SAYS_SOMETHING.search(piece.text)]
    kept = [each for each in kept if not pattern_of("no_word").fullmatch(each[0].text)] or kept
    return _named(_ells(_listed(_unglued(kept, typed))))


def takes_off(piece: Traced) -> bool:
    """Tell whether a piece subtracts something."""
    return pattern_of("takes_off").search(piece.text) is not None


def is_list(piece: Piece) -> bool:
    """Tell whether a piece is a shape with a list of figures, which a slip may cut short."""
    return SURVEY_MARK in piece.text.text or bool(pattern_of("listing").search(piece.text.text))


_FIGURES: Final = expression(rf"\d|{SURVEY_MARK}")
_BEGINS_A_SIZE: Final = expression(rf"[\d.'\"-]|{SURVEY_MARK}")
#: Words of a name that stands alone; more are a sentence.
_LONGEST_NAME: Final = 2
_SAYS_SOMETHING: Final = expression(rf"\w|{SURVEY_MARK}")
_LONE: Final = expression(rf"^\s*{NUMBER}(?:\s*{LENGTH})?\s*$", re.IGNORECASE)


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
        is_listed = bool(pattern_of("listing").search(run[0][0].text))
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
        is_figure = bool(pattern_of("list_goes_on").match(piece.text.text))
        if before is not None and is_figure and pattern_of("listing").search(before.text.text):
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


def _ells(cut: list[Piece]) -> list[Piece]:
    """Join the two sizes of an L: "front is L shaped, 30x20 and 10x15"."""
    joined: list[Piece] = []
    for piece in cut:
        before = joined[-1] if joined else None
        is_arm = before is not None and pattern_of("ell").search(before.text.text) is not None
        if before is None or not is_arm or not pattern_of("bare_size").match(piece.text.text):
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


def _named(cut: list[Piece]) -> list[Piece]:
    """Give a name that stands alone to the size behind it.

    Where the list begins with a bare size, names stand behind sizes.
    """
    kept = _without_talk(cut)
    if not kept or kept[0].text.text[:1].isdigit():
        return kept
    named: list[Piece] = []
    for piece in kept:
        before = named[-1] if named else None
        if before is None or _has_figures(before) or before.fault or not _has_figures(piece):
            named.append(piece)
        elif piece.is_after_and and bool(_parts_in(before)) == bool(_parts_in(piece)):
            said = f"{before.said} and {piece.said}"
            named[-1] = replace(piece, said=said, fault="names_share_size", is_after_and=False)
        elif _is_nameless(piece):
            said = f"{before.said}, {piece.said}"
            named[-1] = replace(piece, said=said, name=before.said.rstrip(" :=-"))
        else:
            named.append(piece)
    return named


def _without_talk(cut: list[Piece]) -> list[Piece]:
    """Leave out pieces without a figure that only talk of sizes beside them: "a skinny one"."""
    if not any(map(_has_figures, cut)):
        return cut
    sized = set().union(*(_parts_in(each) for each in cut if _has_figures(each)))
    kept: list[Piece] = []
    run: list[Piece] = []
    for piece in cut:
        if not _has_figures(piece):
            run.append(piece)
            continue
        names = [each for each in run if not _is_talk(each, sized)]
        if not names and _is_nameless(piece):
            # "Add the easement behind the fence, 12 by 90" has no other name.
            names = [each for each in run if not _describes(each)][-1:]
        kept += [*names, piece]
        run = []
    return kept + [each for each in run if not _is_talk(each, sized)]


def _is_nameless(piece: Piece) -> bool:
    text = piece.text.text
    words = pattern_of("bare_figures").sub(" ", text)
    return _BEGINS_A_SIZE.match(text) is not None or sizes_sense.name_in(words) is None


def _is_talk(piece: Piece, sized: set[str]) -> bool:
    """Tell whether a piece is no name, nor names a part whose size is told nowhere else."""
    parts = _parts_in(piece)
    if parts:
        return parts <= sized
    name = sizes_sense.name_in(piece.text.text) or ""
    if pattern_of("takes_ground").search(piece.text.text):
        # "The house takes up a third of it" is ground taken off.
        return False
    is_sentence = phrases("sizes", "verb").first(piece.text.text) is not None
    return is_sentence or _describes(piece) or len(name.split()) > _LONGEST_NAME


def _describes(piece: Piece) -> bool:
    """Tell whether a piece says how ground is, and nothing else: "it's pretty narrow"."""
    verb = phrases("sizes", "verb").first(piece.text.text)
    name = sizes_sense.name_in(piece.text.text if verb is None else verb.after)
    said = (piece.text.text.strip(), name or "")
    return name is None or any(phrases("sizes", "talk").whole(each) for each in said)


def _parts_in(piece: Piece) -> set[str]:
    """Return the parts of a lot that a piece names, in our words."""
    found = words.finder("zones").finditer(words.bare(piece.text.text))
    return {words.canon("zones")[" ".join(part.group().split())] for part in found}


def _has_figures(piece: Piece) -> bool:
    return _FIGURES.search(piece.text.text) is not None
