"""What a language's catalogue holds, and how far it agrees with the English one.

``python -m bot.saying.checking es`` lists what is missing, left over, not readable, and which
messages do not have the parameters of the English ones.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator, Mapping

from fluent.syntax import ast
from fluent.syntax.visitor import Visitor

from bot.saying.catalogue import FIRST, resource, stems


def sentences(lang: str = FIRST) -> Mapping[str, str]:
    """Return for each key of a language its words; parameters stand as ``{name}``."""
    found = {}
    for key, message in _messages(lang):
        words = _Words()
        words.visit(message)
        found[key] = "".join(words.said)
    return found


def parameters(lang: str = FIRST) -> Mapping[str, frozenset[str]]:
    """Return for each key of a language the names of its parameters."""
    found = {}
    for key, message in _messages(lang):
        words = _Words()
        words.visit(message)
        found[key] = frozenset(words.named)
    return found


def missing(lang: str) -> tuple[str, ...]:
    """Return the keys a language lacks: they are said in English."""
    return tuple(sorted(parameters().keys() - parameters(lang).keys()))


def faults(lang: str) -> Iterator[str]:
    """Yield what is wrong with a language's catalogue, what is missing apart."""
    for stem in stems(lang):
        if stem not in stems(FIRST):
            yield f"{stem}.ftl: no such file in {FIRST}"
        for entry in resource(lang, stem).body:
            if isinstance(entry, ast.Junk):
                yield f"{stem}.ftl: not readable: {(entry.content or '').strip()[:60]}"
            elif isinstance(entry, ast.Message) and not entry.id.name.startswith(f"{stem}-"):
                yield f"{stem}.ftl: {entry.id.name} does not begin with {stem}-"
    ours = parameters()
    for key, named in parameters(lang).items():
        # A language writes days in its own ways.
        if key.startswith("saying.day_"):
            continue
        if key not in ours:
            yield f"{key}: not in {FIRST}"
        elif named != ours[key]:
            yield f"{key}: has {sorted(named)}, {FIRST} has {sorted(ours[key])}"
    seen: set[str] = set()
    for key, _ in _messages(lang):
        if key in seen:
            yield f"{key}: stands there twice"
        seen.add(key)


def main(lang: str) -> int:
    """Print what is wrong and what is missing; return 1 where anything is."""
    found = [*faults(lang), *(f"{key}: missing" for key in missing(lang))]
    sys.stdout.write("".join(f"{line}\n" for line in found))
    sys.stdout.write(f"{lang}: {len(parameters(lang))} messages, {len(found)} to see to\n")
    return 1 if found else 0


def _messages(lang: str) -> Iterator[tuple[str, ast.Message]]:
    for stem in stems(lang):
        for entry in resource(lang, stem).body:
            if isinstance(entry, ast.Message):
                yield entry.id.name.replace("-", "."), entry


class _Words(Visitor):
    def __init__(self) -> None:
        self.said: list[str] = []
        self.named: set[str] = set()

    def visit_TextElement(self, node: ast.TextElement) -> None:  # noqa: N802
        self.said.append(node.value)

    def visit_StringLiteral(self, node: ast.StringLiteral) -> None:  # noqa: N802
        self.said.append(str(node.parse()["value"]))

    def visit_NamedArgument(self, node: ast.NamedArgument) -> None:  # noqa: N802
        """Options of a function are no words."""

    def visit_VariableReference(self, node: ast.VariableReference) -> None:  # noqa: N802
        self.said.append(f"{{{node.id.name}}}")
        self.named.add(node.id.name)


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1]))
