"""Sizes that are easily read wrong: number words, shapes in words, stray dashes, mixed units."""

import pytest

from bot.hearing.readers.lexing import word_number_value
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.sizes import Doubt, read_zones

SQ_FT = 0.09290304  # exact: (0.3048 m)²


@pytest.mark.parametrize(
    ("said", "value"),
    [
        ("one hundred twenty", 120),
        ("a hundred and five", 105),
        ("three hundred", 300),
        ("sixty-two", 62),
        ("one twenty", 120),
        ("two oh five", 205),
        ("seven", 7),
    ],
)
def test_number_words_have_their_value(said: str, value: int) -> None:
    assert word_number_value(said) == value


@pytest.mark.parametrize(
    ("said", "name", "sq_ft"),
    [
        ("front one hundred twenty by forty", "front", 4800),
        ("back yard one hundred and five by sixty two feet", "back yard", 6510),
        ("front is L shaped 30x20 and 10x15", "front", 750),
        ("front is an L, 30x20 and 10x15", "front", 750),
        ("i mean front 60x40", "front", 2400),
        ("the lawn is 50 by 40, i think", "lawn", 2000),
        ("hola, mi jardín mide 12 por 8 metros al frente", "frente", 1033.3354),
        ("buenas tardes, unos 5000 pies cuadrados de pasto", None, 5000),
        # A half circle 20 ft across: pi 10² / 2 (computed).
        ("bed is a semicircle 20 ft across", "bed", 157.0796),
        ("front 60x40 - house 30x20", "front", 1800),
    ],
)
def test_a_size_in_words_is_read_whole(said: str, name: str, sq_ft: float) -> None:
    read = read_zones(said, "ft")
    assert not read.questions
    (zone,) = read.zones
    assert zone.name == name
    assert zone.area_m2 == pytest.approx(sq_ft * SQ_FT, rel=1e-6)


@pytest.mark.parametrize(
    ("said", "reason"),
    [
        ("front one twenty by forty", "spoken_hundred"),
        ("front 30x20 and 10x15", "both_pieces"),
        ("spot treated 10x10", "no_name"),
        ("test strip 10x20", "no_name"),
        ("60x40", "feet_or_metres"),
        ("enfrente 2500 pies", "lone_area"),
    ],
)
def test_what_may_mean_something_else_is_asked(said: str, reason: str) -> None:
    beside = ", strip 5 by 80 ft, bed 12 m x 9 m" if reason == "feet_or_metres" else ""
    read = read_zones(said + beside, "ft")
    (doubt,) = read.questions
    assert len(read.zones) == 2 * bool(beside)
    assert isinstance(doubt, Doubt)
    assert doubt.reason == f"reading.{reason}"


@pytest.mark.parametrize(
    ("said", "reason"),
    [
        ("front - 60x40 - back 50x30", "dash"),
        ("a fan with radius 30 ft", "shape"),
        ("diamond 20 by 30", "shape"),
    ],
)
def test_what_has_no_one_meaning_is_unread(said: str, reason: str) -> None:
    (unread,) = read_zones(said, "ft").questions
    assert isinstance(unread, Unread)
    assert unread.reason == f"reading.{reason}"


def test_beside_metric_sizes_bare_numbers_are_metres() -> None:
    _, back = read_zones("front 12 m x 9, back 10x8", "ft").zones
    assert back.area_m2 == pytest.approx(80)


def test_where_no_unit_goes_without_saying_it_is_asked() -> None:
    (unread,) = read_zones("front 20x10", "").questions
    assert isinstance(unread, Unread)
    assert unread.reason == "reading.which_unit"


def test_what_is_cut_out_belongs_to_its_zone_and_what_has_a_name_is_another() -> None:
    said = "front is 55 by 40, back 70 x 45 with a 12 by 15 patio cut out, plus the strip 4 x 60"
    zones = read_zones(said, "ft").zones
    areas = [(zone.name, round(zone.area_m2 / 0.09290304)) for zone in zones]
    assert areas == [("front", 2200), ("back", 2970), ("strip", 240)]
