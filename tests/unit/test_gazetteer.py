import pytest

from jobs.sources.gazetteer import find_places


# Manhattan, Kansas lies at 39.18 N, 96.57 W (US Geological Survey, Geographic Names Information
# System; from memory).
@pytest.mark.parametrize(
    "text", ["66502", "zip 66502", "Manhattan KS", "Manhattan, Kansas", "in manhattan, ks"]
)
def test_a_code_or_a_town_with_its_state_is_one_place(text: str) -> None:
    (place,) = find_places(text)
    assert (place.lat, place.lon) == pytest.approx((39.18, -96.57), abs=0.1)
    assert place.state == "KS"


def test_an_ambiguous_town_is_one_place_a_state() -> None:
    found = find_places("Springfield")
    states = [place.state for place in found]
    assert {"IL", "MO", "MA", "OH"} <= set(states)
    assert states == sorted(states)


def test_two_towns_of_a_name_in_one_state_are_told_apart_by_county() -> None:
    labels = [place.label for place in find_places("Georgetown, PA")]
    assert all(label.startswith("Georgetown, PA") for label in labels)


@pytest.mark.parametrize("text", ["", "00000", "Nowhereville Junction", "front 60x40", "12", "KS"])
def test_what_is_no_place_finds_none(text: str) -> None:
    assert find_places(text) == ()


def test_saint_is_written_either_way() -> None:
    assert find_places("St. Louis MO") == find_places("Saint Louis, Missouri") != ()
