"""Every sentence people see, by key, in the language spoken just now.

A catalogue is a folder of Project Fluent files, ``catalogues/<language>/*.ftl``. A key is the stem
of a file and a name (``zones.kept``); in the file the message is called ``zones-kept``. Sentences
are whole, with typed parameters that the catalogue formats (see `values`): a caller passes values.

What a language lacks is said in English. Files are read when the first of their messages is
needed.
"""

from __future__ import annotations

import logging
import re
import threading
from collections.abc import Mapping
from dataclasses import replace
from functools import cache
from importlib import resources
from typing import Any, Final

from babel import Locale
from babel.units import format_unit
from fluent.runtime import FluentBundle, FluentResource
from fluent.runtime.types import FluentType, fluent_number
from fluent.syntax import ast

from bot.saying.metric_examples import Metric
from bot.saying.values import Day, Form, ListStyle, Names, ShortDay, Value
from bot.saying.voice import UnitSystem, voice

log = logging.getLogger(__name__)

#: The language every message is written in first.
FIRST: Final = "en"
#: Where the catalogues are.
FOLDER = resources.files(__package__) / "catalogues"
#: Whose dates, numbers and plurals a language's messages have: US usage.
_LOCALES: Final = {"en": "en-US", "es": "es-US"}
#: A message quoted by another, ``{ everyday-sod }``, by the file it stands in.
_QUOTES: Final = re.compile(r"\{ ([a-z]+)-[a-z_]+ \}")


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
            return _book(lang, voice().units).sentence(key, params)
        except MissingSentence:
            pass
        except MissingPlaceholder as fault:
            log.warning("said in English: %s", fault)
    return _book(FIRST, voice().units).sentence(key, params)


def has(key: str) -> bool:
    """Tell whether there is a sentence for a key."""
    return _book(FIRST, "us").has(key)


@cache
def languages() -> tuple[str, ...]:
    """Return the languages there is a catalogue for."""
    return tuple(sorted(entry.name for entry in FOLDER.iterdir() if entry.is_dir()))


def language_for(code: str | None) -> str:
    """Return the language to begin in with whoever reads one (``es-MX``): English if not ours."""
    return hinted(code) or FIRST


def hinted(code: str | None) -> str | None:
    """Return ours among the languages that a platform says somebody reads, None where none is.

    One whose catalogue is not whole is left to those who ask for it.
    """
    lang = (code or "").replace("_", "-").partition("-")[0].lower()
    return lang if lang in languages() and is_whole(lang) else None


@cache
def is_whole(lang: str) -> bool:
    """Tell whether a language has every message that English has."""
    return set(_ids(FIRST)) <= set(_ids(lang))


def _ids(lang: str) -> list[str]:
    begins = re.compile(r"^([a-z][\w-]*) =", re.MULTILINE)
    return [found for stem in stems(lang) for found in begins.findall(written(lang, stem))]


@cache
def stems(lang: str) -> tuple[str, ...]:
    """Return the names of a language's files: what the keys in them begin with."""
    names = sorted(entry.name for entry in (FOLDER / lang).iterdir())
    return tuple(name.removesuffix(".ftl") for name in names if name.endswith(".ftl"))


def written(lang: str, stem: str) -> str:
    """Return a file of a language as it is written."""
    return (FOLDER / lang / f"{stem}.ftl").read_text(encoding="utf-8")


def resource(lang: str, stem: str, units: UnitSystem = "us") -> ast.Resource:
    """Return a file of a language as it is parsed, its examples in somebody's units."""
    parsed = FluentResource(written(lang, stem))
    # Rates and areas are said in the unit of their label, whoever reads them.
    return Metric().visit(parsed) if units == "metric" and stem != "units" else parsed


def forget() -> None:
    """Read the catalogues anew from now on."""
    for kept in (languages, stems, is_whole, _book):
        kept.cache_clear()


def shown(value: Value) -> str:
    """Return a value alone, as a sentence would show it."""
    lang = voice().language
    return value.shown(_book(lang if lang in languages() else FIRST, voice().units))


class _Book:
    """A language's messages; also the form that values are written in."""

    def __init__(self, lang: str, units: UnitSystem) -> None:
        self.lang, self.units = lang, units
        locale = _LOCALES.get(lang, lang)
        self.locale = Locale.parse(locale, sep="-")
        functions: dict[str, Any] = {
            "DAY": self._day,
            "SPAN": self._span,
            "LIST": self._list,
            "NEAR": _near,
            "UNITS": lambda: voice().units,
        }
        self._bundle = FluentBundle([locale], functions, use_isolating=False)
        self._unread = set(stems(lang))
        self._reading = threading.Lock()

    def has(self, key: str) -> bool:
        stem = key.partition(".")[0]
        if stem in self._unread:
            with self._reading:
                self._read(stem)
        return self._bundle.has_message(_id(key))

    def _read(self, stem: str, *, asked: frozenset[str] = frozenset()) -> None:
        """Read a file unless it is read, after those whose messages it quotes."""
        if stem not in self._unread or stem in asked:
            return
        for other in _QUOTES.findall(written(self.lang, stem)):
            self._read(other, asked=asked | {stem})
        self._bundle.add_resource(resource(self.lang, stem, self.units))
        self._unread.discard(stem)

    def say(self, key: str, **params: object) -> str:
        return self.sentence(key, params)

    def sentence(self, key: str, params: Mapping[str, object]) -> str:
        pattern = self._bundle.get_message(_id(key)).value if self.has(key) else None
        if pattern is None:
            raise MissingSentence(f"{self.lang}: {key}")
        given = {name: self._given(value) for name, value in params.items()}
        long = {}
        for name, value in given.items():
            if isinstance(value, str) and len(value) > _LONG:
                long[f"\ue000{name}\ue001"] = value
                given[name] = f"\ue000{name}\ue001"
        text, errors = self._bundle.format_pattern(pattern, given)
        if errors:
            raise MissingPlaceholder(f"{self.lang}: {key}: {errors[0]}") from errors[0]
        said = _ABBREVIATION_ENDS.sub("", str(text))
        for mark, words in long.items():
            said = said.replace(mark, words)
        return said

    def _given(self, value: object) -> object:
        """Return a parameter as Fluent takes it: numbers are grouped only where a message asks."""
        if isinstance(value, Value):
            return _Shown(value, self)
        if isinstance(value, list | tuple):
            return _Shown(Names(value), self)
        if isinstance(value, int | float):
            return fluent_number(value, useGrouping=False, maximumFractionDigits=12)
        return str(value)

    def _day(self, day: object, style: str = "plain") -> str:
        value = _inside(day)
        return value.styled(style, self) if isinstance(value, Day | ShortDay) else self._plain(day)

    def _span(self, number: object, unit: str = "day") -> str:
        if not isinstance(number, int | float):
            raise TypeError(f"{number!r} is no number of {unit}s")
        return format_unit(number, f"duration-{unit}", "long", locale=self.locale)

    def _list(self, names: object, style: ListStyle = "unit") -> str:
        value = _inside(names)
        if isinstance(value, Names):
            return replace(value, style=style).shown(self)
        return self._plain(names)

    def _plain(self, given: object) -> str:
        return str(given.format(self.locale) if isinstance(given, FluentType) else given)


def _near(day: object) -> str:
    value = _inside(day)
    return value.nearness if isinstance(value, Day) else "far"


def _inside(given: object) -> object:
    return given.value if isinstance(given, _Shown) else given


class _Shown(FluentType):
    """A value inside a sentence."""

    def __init__(self, value: Value, form: Form) -> None:
        self.value = value
        self._form = form

    def format(self, locale: object) -> str:
        return self.value.shown(self._form)


#: A sentence that ends with an abbreviation such as "a.m." ends with its point.
_ABBREVIATION_ENDS: Final = re.compile(r"(?<=\b[ap]\.m\.)\.(?!\.)")
#: Fluent refuses parameters of 2,500 letters; longer ones than this are put in afterwards.
_LONG: Final = 2000


def _id(key: str) -> str:
    return key.replace(".", "-")


@cache
def _book(lang: str, units: UnitSystem) -> _Book:
    return _Book(lang, units)
