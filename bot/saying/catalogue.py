"""Every sentence people see, by key, in the language spoken just now.

A catalogue is a folder of Project Fluent files, ``catalogues/<language>/*.ftl``. A key is the stem
of a file and a name (``zones.kept``); in the file the message is called ``zones-kept``. Sentences
are whole, with typed parameters that the catalogue formats (see `forms`): a caller passes values.

What a language lacks is said in English. Files are read when the first of their messages is
needed.
"""

from __future__ import annotations

import logging
import threading
from collections.abc import Mapping
from decimal import Decimal
from functools import cache
from importlib import resources
from typing import Final

from fluent.runtime import FluentBundle, FluentResource
from fluent.runtime.types import FluentType, fluent_number
from fluent.syntax import ast

from bot.saying.voice import voice

log = logging.getLogger(__name__)

#: The language every message is written in first.
FIRST: Final = "en"
#: Where the catalogues are.
FOLDER = resources.files(__package__) / "catalogues"
#: Whose dates, numbers and plurals a language's messages have: US usage.
_LOCALES: Final = {"en": "en-US", "es": "es-US"}


class MissingSentence(KeyError):
    """Raised for a key that no catalogue holds."""


class MissingPlaceholder(KeyError):
    """Raised where a sentence names a parameter that was not given, or cannot show it."""


def say(key: str, **params: object) -> str:
    """Return the sentence of a key with its parameters, in the language spoken now.

    Raises
    ------
    MissingSentence
        If English has no such key.
    MissingPlaceholder
        If the English sentence names a parameter that was not given, or cannot show it.
    """
    lang = voice().language
    if lang != FIRST and lang in languages():
        try:
            return _book(lang).sentence(key, params)
        except MissingSentence:
            pass
        except MissingPlaceholder as fault:
            log.warning("said in English: %s", fault)
    return _book(FIRST).sentence(key, params)


def has(key: str) -> bool:
    """Tell whether there is a sentence for a key."""
    return _book(FIRST).has(key)


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there is a catalogue for."""
    return tuple(sorted(entry.name for entry in FOLDER.iterdir() if entry.is_dir()))


@cache
def stems(lang: str) -> tuple[str, ...]:
    """Return the names of a language's files: what the keys in them begin with."""
    names = sorted(entry.name for entry in (FOLDER / lang).iterdir())
    return tuple(name.removesuffix(".ftl") for name in names if name.endswith(".ftl"))


def resource(lang: str, stem: str) -> ast.Resource:
    """Return a file of a language as it is written."""
    return FluentResource((FOLDER / lang / f"{stem}.ftl").read_text(encoding="utf-8"))


def forget() -> None:
    """Read the catalogues anew from now on."""
    for kept in (languages, stems, _book):
        kept.cache_clear()


class _Book:
    """A language's messages."""

    def __init__(self, lang: str) -> None:
        self.lang = lang
        self._bundle = FluentBundle([_LOCALES.get(lang, lang)], use_isolating=False)
        self._unread = set(stems(lang))
        self._reading = threading.Lock()

    def has(self, key: str) -> bool:
        stem = key.partition(".")[0]
        if stem in self._unread:
            with self._reading:
                if stem in self._unread:
                    self._bundle.add_resource(resource(self.lang, stem))
                    self._unread.discard(stem)
        return self._bundle.has_message(_id(key))

    def sentence(self, key: str, params: Mapping[str, object]) -> str:
        pattern = self._bundle.get_message(_id(key)).value if self.has(key) else None
        if pattern is None:
            raise MissingSentence(f"{self.lang}: {key}")
        given = {name: _value(value) for name, value in params.items()}
        long = {}
        for name, value in given.items():
            if isinstance(value, str) and len(value) > _LONG:
                long[f"\ue000{name}\ue001"] = value
                given[name] = f"\ue000{name}\ue001"
        text, errors = self._bundle.format_pattern(pattern, given)
        if errors:
            raise MissingPlaceholder(f"{self.lang}: {key}: {errors[0]}") from errors[0]
        said = str(text)
        for mark, words in long.items():
            said = said.replace(mark, words)
        return said


#: Fluent refuses parameters of 2,500 letters; longer ones than this are put in afterwards.
_LONG: Final = 2000


def _value(value: object) -> object:
    """Return a parameter as Fluent takes it: numbers are grouped only where a message asks."""
    if isinstance(value, FluentType):
        return value
    if isinstance(value, int | float | Decimal):
        return fluent_number(value, useGrouping=False, maximumFractionDigits=12)
    return str(value)


def _id(key: str) -> str:
    return key.replace(".", "-")


@cache
def _book(lang: str) -> _Book:
    return _Book(lang)
