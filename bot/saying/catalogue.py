"""Every sentence people see, by key and language.

A catalogue is a folder of TOML files, ``catalogues/<language>/*.toml``; the stem of the file is
the first part of the key (``kept`` in ``zones.toml`` is ``zones.kept``), tables add further parts.
Sentences are whole, with named placeholders.
"""

from __future__ import annotations

import tomllib
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import resources
from string import Formatter


class MissingSentence(KeyError):
    """Raised for a key that the language's catalogue does not hold."""


class MissingPlaceholder(KeyError):
    """Raised where a sentence names a placeholder that was not given."""


def say(key: str, lang: str = "en", **params: object) -> str:
    """Return the sentence of ``key`` with its placeholders filled.

    Raises
    ------
    MissingSentence
        If the language has no such key.
    MissingPlaceholder
        If the sentence names a placeholder that was not given.
    """
    try:
        sentence = sentences(lang)[key]
    except KeyError:
        raise MissingSentence(f"{lang}: {key}") from None
    try:
        return sentence.format_map(params)
    except KeyError as missing:
        raise MissingPlaceholder(f"{lang}: {key} needs {missing}") from None


def has(key: str, lang: str = "en") -> bool:
    """Tell whether the language has a sentence for ``key``."""
    return key in sentences(lang)


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there is a catalogue for."""
    folder = resources.files(__package__) / "catalogues"
    return tuple(sorted(entry.name for entry in folder.iterdir() if entry.is_dir()))


@cache
def sentences(lang: str) -> Mapping[str, str]:
    """Return all sentences of a language by key.

    Raises
    ------
    MissingSentence
        If there is no catalogue of that language.
    """
    if lang not in languages():
        raise MissingSentence(lang)
    merged: dict[str, str] = {}
    folder = resources.files(__package__) / "catalogues" / lang
    for entry in sorted(folder.iterdir(), key=lambda found: found.name):
        if entry.name.endswith(".toml"):
            table = tomllib.loads(entry.read_text(encoding="utf-8"))
            merged.update(_flat(entry.name.removesuffix(".toml"), table))
    return merged


def placeholders(sentence: str) -> frozenset[str]:
    """Return the names of the placeholders in a sentence."""
    return frozenset(name for _, name, _, _ in Formatter().parse(sentence) if name)


def _flat(prefix: str, table: Mapping[str, object]) -> Iterator[tuple[str, str]]:
    for name, value in table.items():
        if isinstance(value, Mapping):
            yield from _flat(f"{prefix}.{name}", value)
        elif isinstance(value, str):
            yield f"{prefix}.{name}", value
        else:
            raise TypeError(f"{prefix}.{name} is no sentence")
