"""Lists of yards, as a table or as lines, read row by row."""

import pytest

from bot.hearing.readers.yard_lists import cut, find_line, find_list, read_yards

HEADED = """Name,Customer,Address,City,State,ZIP,Zones,Grass
Birch,A. Cobb,12 Birch St,Wahoo,NE,,"front 60x40, back 30x20",tall fescue
Walnut,,,,,68506,lawn 0.25 acre,moss
"""


def rows_of(text: str, unit: str = "ft"):
    grid = find_list(text)
    assert grid is not None
    return read_yards(grid, unit, "lawn").rows


def test_a_table_with_headings_gives_each_cell_to_its_field() -> None:
    birch, walnut = rows_of(HEADED)
    assert (birch.name, birch.customer, birch.address) == ("Birch", "A. Cobb", "12 Birch St")
    assert (birch.place, birch.grass) == ("Wahoo, NE", "tall_fescue")
    # 60 x 40 + 30 x 20 = 3,000 sq ft; a foot is 0.3048 m (international foot).
    assert sum(zone.area_m2 for zone in birch.zones) == pytest.approx(3000 * 0.3048**2)
    assert walnut.place == "68506"
    # An acre is 43,560 sq ft (international acre).
    assert walnut.zones[0].area_m2 == pytest.approx(0.25 * 43_560 * 0.3048**2)
    assert [(each.column, each.said) for each in walnut.unread] == [("grass", "moss")]


def test_headings_may_be_spanish_or_stand_under_a_title() -> None:
    text = "Mis clientes\nnombre;ciudad;superficie (m2)\nRoble;Salina, KS;250"
    (oak,) = rows_of(text, "m")
    assert (oak.name, oak.place) == ("Roble", "Salina, KS")
    assert oak.zones[0].area_m2 == pytest.approx(250)


def test_grass_has_its_name_in_any_language() -> None:
    oak, elm = rows_of(
        "Roble 2, Hale, Wahoo NE, 60x40, festuca alta\nOlmo 4, Cobb, Wahoo NE, 60x40"
    )
    assert (oak.customer, oak.grass, oak.unread) == ("Hale", "tall_fescue", ())
    assert elm.grass is None


def test_a_column_may_stand_for_each_part() -> None:
    grid = find_list("name\ttown\tfront\tback\tphone\nElm\tWahoo NE\t60x40\t\t555")
    read = read_yards(grid, "ft", "lawn")
    assert [zone.name for zone in read.rows[0].zones] == ["front"]
    assert read.strangers == ("back", "phone")


def test_sizes_between_commas_may_end_a_line_cut_at_commas() -> None:
    (elm,) = rows_of("name,town,zones\nElm,Wahoo NE,front 60x40, back 30x20")
    assert [zone.name for zone in elm.zones] == ["front", "back"]


def test_lines_without_headings_are_yards_where_they_hold_a_name_and_a_place() -> None:
    birch, walnut, elm = rows_of(
        "Birch St 12, Wahoo NE, front 60x40, back 30x20\n"
        "Walnut 66, Cobb, 68506, strip 5 by 80 ft\n"
        "Elm 4, 40.81, -96.70, tall fescue, lawn 5200 sq ft"
    )
    assert (birch.name, birch.place, len(birch.zones)) == ("Birch St 12", "Wahoo NE", 2)
    assert (walnut.name, walnut.customer, walnut.place) == ("Walnut 66", "Cobb", "68506")
    assert (elm.point, elm.grass) == ((40.81, -96.70), "tall_fescue")


@pytest.mark.parametrize(
    "text",
    [
        "front 60x40\nback 30x20",
        "front 60x40, back 30 by 20\nstrip 5 by 80 ft",
        "put it down\nwatered half an inch",
        "prodiamine 0.38% granule, 3.2 lb per 1000\nmax 6.4 lb per 1000 a year",
        "Wahoo NE\nLincoln NE",
        "did the front, 7 lb",
        "",
    ],
)
def test_sizes_reports_labels_and_bare_places_are_no_list(text: str) -> None:
    assert find_list(text) is None


def test_one_yard_given_whole_has_name_place_and_size() -> None:
    assert find_line("Birch St 12, Wahoo NE, front 60x40") is not None
    assert find_line("front 60x40, back 30x20, 68506") is None
    assert find_line("Birch St 12, Wahoo NE") is None


def test_a_table_is_cut_at_what_most_lines_hold() -> None:
    assert cut(["a;b", "c;d,e"]) == (("a", "b"), ("c", "d,e"))
    assert cut(['a,"b, c"']) == (("a", "b, c"),)
