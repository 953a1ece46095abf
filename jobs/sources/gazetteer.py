"""Places by US postal code or town name, without any network (the `zipcodes` package)."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Any, Final

import zipcodes

#: Postal abbreviations (US Postal Service, Publication 28, appendix B), states and the District.
STATES: Final = {
    "alabama": "AL",
    "alaska": "AK",
    "arizona": "AZ",
    "arkansas": "AR",
    "california": "CA",
    "colorado": "CO",
    "connecticut": "CT",
    "delaware": "DE",
    "district of columbia": "DC",
    "florida": "FL",
    "georgia": "GA",
    "hawaii": "HI",
    "idaho": "ID",
    "illinois": "IL",
    "indiana": "IN",
    "iowa": "IA",
    "kansas": "KS",
    "kentucky": "KY",
    "louisiana": "LA",
    "maine": "ME",
    "maryland": "MD",
    "massachusetts": "MA",
    "michigan": "MI",
    "minnesota": "MN",
    "mississippi": "MS",
    "missouri": "MO",
    "montana": "MT",
    "nebraska": "NE",
    "nevada": "NV",
    "new hampshire": "NH",
    "new jersey": "NJ",
    "new mexico": "NM",
    "new york": "NY",
    "north carolina": "NC",
    "north dakota": "ND",
    "ohio": "OH",
    "oklahoma": "OK",
    "oregon": "OR",
    "pennsylvania": "PA",
    "rhode island": "RI",
    "south carolina": "SC",
    "south dakota": "SD",
    "tennessee": "TN",
    "texas": "TX",
    "utah": "UT",
    "vermont": "VT",
    "virginia": "VA",
    "washington": "WA",
    "west virginia": "WV",
    "wisconsin": "WI",
    "wyoming": "WY",
}
_CODES: Final = frozenset(STATES.values())

#: Words before a place that are none of it.
LEAD_IN: Final = re.compile(
    r"^(?:(?:i'?m|i am|we'?re|we are|it'?s|(?:i|we) live"
    r"|(?:my|the|our) (?:lawn|yard|house|place)(?:'s| is)|vivo|vivimos|estoy|estamos|queda)\s+)?"
    r"(?:(?:just\s+)?(?:in|near|at|around|outside(?:\s+of)?|(?:north|south|east|west)\s+of)"
    r"|en|cerca de|al\s+(?:norte|sur|este|oeste)\s+de)\s+",
    re.IGNORECASE,
)
#: Words behind a place that are none of it.
_TAIL: Final = re.compile(r"\s+(?:area|metro(?:\s+area)?)$", re.IGNORECASE)

#: Postal areas of one name in one state farther apart than this are different towns [degrees].
_ONE_TOWN_DEGREES: Final = 0.6


@dataclass(frozen=True, slots=True)
class NamedPlace:
    """A town or postal area: its name as people write it, and the middle of it in degrees."""

    name: str
    state: str
    county: str
    lat: float
    lon: float

    @property
    def label(self) -> str:
        """Town and state, with the county where the state has two of that name."""
        county = f" ({self.county})" if self.county else ""
        return f"{self.name}, {self.state}{county}"


def find_places(text: str) -> tuple[NamedPlace, ...]:
    """Return the US places a text names: a postal code, a town, or a town with its state.

    Several where the name is ambiguous, one a state (or a county, where a state has two towns of
    the name), in the order of the states; none where the text names no place we know.
    """
    said = _TAIL.sub("", LEAD_IN.sub("", text.strip()).strip(" .!"))
    code = re.fullmatch(r"(?:zip\s*(?:code)?\s*)?(\d{5})(?:-\d{4})?", said, re.IGNORECASE)
    if code is not None:
        return _of_code(code[1])
    town, state = _split(said)
    if state is None and state_alone(said) is not None:
        return ()
    if not re.fullmatch(r"[A-Za-z][A-Za-z .'’-]{1,40}", town):
        return ()
    return tuple(place for place in _towns_called(town) if state in (None, place.state))


def state_alone(text: str) -> str | None:
    """Return the state that a text names and nothing more, where it has no town of that name.

    "Nebraska" is no town in Indiana; "New York" is one in New York.
    """
    said = LEAD_IN.sub("", text.strip()).strip(" .!")
    code = STATES.get(said.casefold())
    is_town = any(place.state == code for place in _towns_called(said)) if code else True
    return None if is_town else said.title()


def places_in(text: str) -> tuple[NamedPlace, ...]:
    """Return the US places a sentence names: a postal code, or a town with its state, anywhere.

    The whole text may be a town alone; inside a sentence a town needs its state, for there are
    towns called Home and Best.
    """
    whole = find_places(text)
    if whole:
        return whole
    towns = _towns_in(text)
    # The code of an address stands at its end; a house may have five figures as well.
    for code in reversed(re.findall(r"(?<!\d)(\d{5})(?:-\d{4})?(?!\d)", text)):
        area = _of_code(code)
        if area and (not towns or area[0].state in {each.state for each in towns}):
            return area
    return towns


def names_town(text: str) -> bool:
    """Tell whether a sentence plainly names a town with its state: "I am in Knoxville TN".

    What is a small word as well is none: "is it ok", "tell me".
    """
    small = text.casefold()
    states = {code for state, code in STATES.items() if re.search(rf"\b{state}\b", small)}
    states |= set() if text.isupper() else set(re.findall(r"\b[A-Z]{2}\b", text))
    return bool(states & _CODES) and any(each.state in states for each in places_in(text))


@lru_cache(maxsize=1024)
def nearest_place(lat: float, lon: float) -> NamedPlace | None:
    """Return the postal area whose middle is nearest, or None where none is within 20 miles."""
    # The package looks through all of them itself: as rows of ours they would fill 150 MB.
    rows: list[dict[str, Any]] = zipcodes.filter_by_coordinates(  # type: ignore[no-untyped-call]
        lat, lon, radius_in_miles=_LOOKED_AROUND_MILES
    )
    found = [
        (_away(row, lat, lon), number)
        for number, row in enumerate(rows)
        if row["state"] in _CODES and row["zip_code_type"] == "STANDARD"
    ]
    away, at = min(found, default=(math.inf, 0))
    if away > _NEAR_DEGREES**2:
        return None
    row = rows[at]
    return NamedPlace(row["city"], row["state"], "", float(row["lat"]), float(row["long"]))


def _away(row: dict[str, Any], lat: float, lon: float) -> float:
    """Return the square of how far a postal area's middle is [degrees of latitude]."""
    north = float(row["lat"]) - lat
    east = (float(row["long"]) - lon) * math.cos(math.radians(lat))
    return north * north + east * east


def _towns_in(text: str) -> tuple[NamedPlace, ...]:
    words = re.findall(r"[A-Za-z][A-Za-z.'’-]*", text)
    for length in range(min(_LONGEST_TOWN, len(words)), 1, -1):
        for start in range(len(words) - length + 1):
            # A town may end its sentence: "from Bowling Green, Kentucky."
            window = " ".join(words[start : start + length]).rstrip(".")
            found = find_places(window) if _split(window)[1] is not None else ()
            if found:
                return found
    return ()


#: Words of a town with its state.
_LONGEST_TOWN: Final = 5
#: Twenty miles, in degrees of latitude.
_NEAR_DEGREES: Final = 0.29
#: A little more than that, whatever the shape of the earth.
_LOOKED_AROUND_MILES: Final = 22


def _split(said: str) -> tuple[str, str | None]:
    """Return town and state, however the state is written; the whole is the town without one."""
    for state, code in sorted(STATES.items(), key=lambda pair: -len(pair[0])):
        match = re.fullmatch(rf"(.+?)[,\s]+{state}", said, re.IGNORECASE)
        if match is not None:
            return match[1].rstrip(", "), code
    match = re.fullmatch(r"(.+?)[,\s]+([A-Za-z]{2})", said)
    if match is not None and match[2].upper() in _CODES:
        return match[1].rstrip(", "), match[2].upper()
    return said, None


def _of_code(code: str) -> tuple[NamedPlace, ...]:
    rows = zipcodes.matching(code)  # type: ignore[no-untyped-call]
    return tuple(
        NamedPlace(row["city"], row["state"], "", float(row["lat"]), float(row["long"]))
        for row in rows[:1]
        if row["state"] in _CODES
    )


def _towns_called(name: str) -> list[NamedPlace]:
    """Return the towns of a name, one entry a state (or county), in the order of the states."""
    by_state: dict[str, list[dict[str, Any]]] = {}
    for row in _areas().get(_key(name), ()):
        by_state.setdefault(row["state"], []).append(row)
    wanted = _key(name)
    return [
        place
        for state, rows in sorted(by_state.items())
        for place in _places(state, _called(rows[0], wanted), rows)
    ]


@cache
def _areas() -> dict[str, list[dict[str, Any]]]:
    """Return every postal area by the keys of its towns' names."""
    areas: dict[str, list[dict[str, Any]]] = {}
    rows: list[dict[str, Any]] = zipcodes.list_all()  # type: ignore[no-untyped-call]
    for row in rows:
        if row["state"] not in _CODES or row["zip_code_type"] == "MILITARY":
            continue
        for key in {_key(name) for name in (row["city"], *row["acceptable_cities"])}:
            areas.setdefault(key, []).append(row)
    return areas


def _called(row: dict[str, Any], wanted: str) -> str:
    names: tuple[str, ...] = (row["city"], *row["acceptable_cities"])
    return next(name for name in names if _key(name) == wanted)


def _places(state: str, name: str, rows: list[dict[str, Any]]) -> list[NamedPlace]:
    spread = max(_spread([float(row[axis]) for row in rows]) for axis in ("lat", "long"))
    if spread <= _ONE_TOWN_DEGREES:
        return [_middle(state, name, "", rows)]
    by_county: dict[str, list[dict[str, Any]]] = {}
    for row in rows:
        by_county.setdefault(row["county"], []).append(row)
    if len(by_county) > 1:
        # Boxes at a post office lie in no county.
        by_county.pop("", None)
    found = [_middle(state, name, county, each) for county, each in sorted(by_county.items())]
    # A box filed under a county far off lies in the town all the same.
    is_one = (
        max(_spread([p.lat for p in found]), _spread([p.lon for p in found])) <= _ONE_TOWN_DEGREES
    )
    return [_middle(state, name, "", rows)] if is_one else found


def _spread(values: list[float]) -> float:
    return max(values) - min(values)


def _middle(state: str, name: str, county: str, rows: list[dict[str, Any]]) -> NamedPlace:
    return NamedPlace(
        name=name,
        state=state,
        county=county,
        lat=round(sum(float(row["lat"]) for row in rows) / len(rows), 4),
        lon=round(sum(float(row["long"]) for row in rows) / len(rows), 4),
    )


def _key(name: str) -> str:
    plain = re.sub(r"\bd['’]", "d ", name.casefold())
    if not plain.isalpha():
        plain = " ".join(re.sub(r"[^a-z]+", " ", re.sub("['’]", "", plain)).split())
    return f"saint {plain[3:]}" if plain.startswith("st ") else plain
