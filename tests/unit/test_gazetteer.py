import pytest

from jobs.sources.gazetteer import find_places, nearest_place, of_state, places_in


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


@pytest.mark.parametrize(
    ("text", "label"),
    [
        # Postal codes of the US Postal Service, by way of the package's table.
        ("Topeka, Kansas, USA", "Topeka, KS"),
        ("66204-1234", "Overland Park, KS"),
        ("my zip is 66204", "Overland Park, KS"),
        ("1420 Maple St, Lawrence, KS 66044", "Lawrence, KS"),
        # A house may have five figures: 12345 is a postal code in New York.
        ("12345 W 119th St, Overland Park KS 66213", "Overland Park, KS"),
        ("12345 W 119th St, Overland Park KS", "Overland Park, KS"),
        ("vivo en topeka kansas", "Topeka, KS"),
        ("coeur d'alene, idaho", "Coeur D Alene, ID"),
    ],
)
def test_places_are_read_as_people_write_them(text: str, label: str) -> None:
    assert [each.label for each in places_in(text)] == [label]


def test_a_state_tells_towns_of_one_name_apart() -> None:
    towns = places_in("Topeka")
    assert len(towns) > 1
    for said in ("ks", "Kansas", "in kansas"):
        assert [each.label for each in of_state(towns, said)] == ["Topeka, KS"]
    assert of_state(towns, "the first one") == ()


def test_the_nearest_town_of_a_shared_place_is_named() -> None:
    near = nearest_place(39.18, -96.57)
    assert near is not None
    assert near.label == "Manhattan, KS"
    assert nearest_place(51.5, 0.0) is None
