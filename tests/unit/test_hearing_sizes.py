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
        ("two strips, 4x20 and 5x30", "both_pieces"),
        ("another 20x30", "many"),
        ("the driveway cuts thru it, 12 ft wide, 45 long", "hard_surface"),
        ("the patio's actually 16x20", "hard_surface"),
        ("80 by 120 lot, house takes up a third of it", "no_size"),
    ],
)
def test_what_has_no_one_meaning_is_unread(said: str, reason: str) -> None:
    (unread,) = read_zones(said, "ft").questions
    assert unread.reason == f"reading.{reason}"


@pytest.mark.parametrize("said", ["thats wrong its 18 by 90", "not acres, 3000 sq ft"])
def test_what_puts_a_size_right_is_no_name(said: str) -> None:
    (zone,) = read_zones(said, "ft").zones
    assert (zone.name, zone.is_again) == (None, True)


def test_two_widths_are_no_sides_of_a_rectangle() -> None:
    read = read_zones("front 60 feet across the front and 40 feet across the back", "ft")
    assert {str(item.reason) for item in read.questions} == {"reading.lone_length"}
    assert not read.zones


def test_beside_metric_sizes_bare_numbers_are_metres() -> None:
    _, back = read_zones("front 12 m x 9, back 10x8", "ft").zones
    assert back.area_m2 == pytest.approx(80)


def test_beside_feet_bare_numbers_are_feet_where_metres_are_usual() -> None:
    read = read_zones("front 50 foot by 30 foot, back 60x45 minus the patio thats 12 by 20", "m")
    assert [zone.area_m2 / SQ_FT for zone in read.zones] == pytest.approx([1500, 2460])
    assert read_zones("front 60x40 minus 10 x 12 ft", "m").questions


def test_beside_paces_bare_numbers_are_paces() -> None:
    read = read_zones("front 18 steps by 12 steps, back 20 by 16", "ft", pace_m=0.9144)
    assert [zone.area_m2 / SQ_FT for zone in read.zones] == pytest.approx([1944, 2880])


def test_where_no_unit_goes_without_saying_it_is_asked() -> None:
    (unread,) = read_zones("front 20x10", "").questions
    assert isinstance(unread, Unread)
    assert unread.reason == "reading.which_unit"


def test_what_is_cut_out_belongs_to_its_zone_and_what_has_a_name_is_another() -> None:
    said = "front is 55 by 40, back 70 x 45 with a 12 by 15 patio cut out, plus the strip 4 x 60"
    zones = read_zones(said, "ft").zones
    areas = [(zone.name, round(zone.area_m2 / 0.09290304)) for zone in zones]
    assert areas == [("front", 2200), ("back", 2970), ("strip", 240)]


@pytest.mark.parametrize(
    ("said", "zones"),
    [
        (
            "it's a front and a back. front is maybe 50 by 30, the back 60x45 with a 12x10 shed",
            {"front": 1500, "back": 2580},
        ),
        (
            "front's 30 by 40, the back's more like 50 by 60 but there's a pool that's 16 by 32",
            {"front": 1200, "back": 2488},
        ),
        (
            "the lawn is 120 by 65 but the house takes up 40 by 30 of that",
            {"lawn": 6600},
        ),
        (
            "frente 40x30 pies y atrás 50x60, con una alberca de 15x30",
            {"frente": 1200, "atrás": 2550},
        ),
        ("about 2500 sq ft in the front and 4000 in the back", {"front": 2500, "back": 4000}),
        ("front and back are both 40 by 30", {"front": 1200, "back": 1200}),
        ("frnt 60x40 bk 50x30", {"frnt": 2400, "bk": 1500}),
        (
            "front 45 by 70, the back 80 wide and maybe 60 deep but theres a shed 10x12 back there",
            {"front": 3150, "back": 4680},
        ),
        ("there's a side yard too, skinny one, 8x55", {"side yard": 440}),
        ("front 40x60, nothing fancy, the back, id guess 50 by 30", {"front": 2400, "back": 1500}),
        ("back is 60x50, take out the pool, its 16x32", {"back": 2488}),
        ("back 60x50 and the pool in there is 16 by 32", {"back": 2488}),
        ("back is l shaped, one part 40x30 and the other 20x15", {"back": 1500}),
        ("back triangle 40x30 ft", {"back": 600}),
        ("the front goes about 70 feet along the street and 35 back to the house", {"front": 2450}),
        (
            "front is 40 one way and about 30 the other way, back 60x50",
            {"front": 1200, "back": 3000},
        ),
        ("back's L shaped, the long part is 60 by 30 and theres a 20x25 bit too", {"back": 2300}),
        ("third of an acre lot. house is around 1600, driveway 24 by 40", {"lot": 11960}),
        ("add the easement behind the fence, 12 by 90", {"easement behind the fence": 1080}),
        ("hers is way smaller, front 30x20", {"front": 600}),
        ("on the left there's a strip 4x60", {"strip": 240}),
        ("front 40'x25' / back 45'x60' / left 6'x50'", {"front": 1000, "back": 2700, "left": 300}),
        ("enfrente son unos 60 pies por 40 mas o menos", {"enfrente": 2400}),
        ("atras 80 por 50 pies, pero ahi esta el cuartito de 10 por 12", {"atras": 3880}),
        ("also 3 little strips by the drive, each 3 by 12", {"little strips by the drive": 108}),
        ("both sides are like 6 feet wide and run 40 feet", {"sides": 480}),
        ("the county says lot is 0.3 acres, house 1450 sq ft, garage 440", {"lot": 11178}),
        ("the back is fenced, that part's about 5000 sq ft", {"back": 5000}),
        ("atrás 60x40 más 20x15 pies", {"atrás": 2700}),
        ("atrás trapecio 60, 20, 40 pies de fondo", {"atrás": 1600}),
        ("60x40 front 50x30 back", {"front": 2400, "back": 1500}),
        (
            "The backyard's 60 feet long and 35 feet wide. Front is 25 by 40.",
            {"backyard": 2100, "Front": 1000},
        ),
        ("the side strip should be 5x60 not 5x80", {"side strip": 300}),
        ("front 30x50 not counting the flower beds", {"front": 1500}),
        ("lawn is 3,200 sq ft in front and 4,400 in back", {"front": 3200, "back": 4400}),
        ("i paced it off and the front is 20 by 12", {"front": 240}),
        ("front 1200 sq ft, side's tiny maybe 300", {"front": 1200, "side": 300}),
        ("the front is a triangle, 40 across the bottom and 30 high", {"front": 600}),
        ("a strip between the sidewalk and the street thats 4 by 60", {"strip": 240}),
        ("let's see, St. Mary 60x40", {"St. Mary": 2400}),
        (
            "lot is a quarter acre, house takes up like 1800 sq ft and driveway 600",
            {"lot": 10890 - 1800 - 600},
        ),
        ("my lot is 100x120, the house is 40 by 50, driveway 20x40", {"lot": 9200}),
        ("back 60x40, the patio takes up 12x10", {"back": 2280}),
        (
            "the grass out front, 45 by 30, and the back one which comes to about 2000 sq ft",
            {"front": 1350, "back": 2000},
        ),
    ],
)
def test_sizes_told_in_sentences_are_a_list(said: str, zones: dict[str, float]) -> None:
    read = read_zones(said, "ft")
    assert not read.questions
    sq_ft = {zone.name: zone.area_m2 / SQ_FT for zone in read.zones}
    assert sq_ft == pytest.approx(zones, rel=1e-6)


def test_metres_said_once_hold_for_the_whole_list_in_spanish() -> None:
    read = read_zones("enfrente 12 por 9 metros y atrás 15 por 10", "ft")
    assert [round(zone.area_m2) for zone in read.zones] == [108, 150]


def test_a_part_without_a_size_is_still_asked_for() -> None:
    read = read_zones("The back I don't know yet. Front is 25 by 40.", "ft")
    assert [zone.name for zone in read.zones] == ["Front"]
    assert [question.reason for question in read.questions] == ["reading.no_size"]


def test_a_third_is_written_as_one() -> None:
    [zone] = read_zones("back 1/3 acre", "ft").zones
    assert zone.echo == "1/3 acre"


def test_what_only_sums_up_is_no_zone_of_its_own_unasked() -> None:
    [asked] = read_zones("so about 8000 sq ft of grass", "ft").questions
    assert asked.reason == "reading.total"
