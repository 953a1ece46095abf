"""Parts of zones in words: which zone, how much of it, and whether that had it or lacks it."""

import pytest

from bot.hearing.readers.zone_names import find_names
from bot.hearing.readers.zone_parts import PartSaid, find_parts

ZONES = ("front", "back", "side strip")
SQ_FT = 0.09290304  # exact: (0.3048 m)²


@pytest.mark.parametrize(
    ("said", "part"),
    [
        ("half of the back is done", PartSaid("back", 0.5)),
        ("the front half way", PartSaid("front", 0.5)),
        ("covered two thirds of the front, then it was empty", PartSaid("front", 2 / 3)),
        ("3/4 of the strip", PartSaid("side strip", 0.75)),
        ("about 20% of the back got nothing", PartSaid("back", 0.2, is_left=True)),
        ("ran out with a third of the back left", PartSaid("back", 1 / 3, is_left=True)),
        ("everything but half of the back", PartSaid("back", 0.5, is_left=True)),
        ("the other half of the back", PartSaid("back", is_rest=True)),
        ("most of the front", PartSaid("front")),
        ("half", PartSaid(None, 0.5)),
        ("hice la mitad del back", PartSaid("back", 0.5)),
    ],
)
def test_a_part_is_of_its_zone(said: str, part: PartSaid) -> None:
    assert find_parts(ZONES, said) == (part,)


@pytest.mark.parametrize("said", ["100 sq ft of the front", "a 10x10 patch of the front"])
def test_a_part_may_be_an_area(said: str) -> None:
    (part,) = find_parts(ZONES, said)
    assert part.zone == "front"
    assert part.area_m2 == pytest.approx(100 * SQ_FT)


@pytest.mark.parametrize(
    "said",
    [
        "put half the bag on the back",
        "half an inch on the front",
        "the second half is down",
        "prodiamine 0.38% on the front",
        "3 lb per 1,000 sq ft on the front",
    ],
)
def test_half_of_something_else_is_no_part(said: str) -> None:
    assert find_parts(ZONES, said) == ()


@pytest.mark.parametrize(
    ("said", "zones"),
    [
        ("everything except the back", ("front", "side strip")),
        ("the whole yard apart from the front and the strip", ("back",)),
        ("all", ()),
    ],
)
def test_what_is_excepted_is_not_named(said: str, zones: tuple[str, ...]) -> None:
    named, is_all, _ = find_names(ZONES, said)
    assert named == zones
    assert is_all is (not zones)
