import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Polygon

from bot.pictures.outlines import outline
from jobs.agronomy.shapes import (
    AverageRadius,
    Circle,
    Corners,
    Difference,
    Ellipse,
    GivenArea,
    ImpossibleShape,
    ModifiedOffsets,
    Offsets,
    PartCircle,
    Rectangle,
    Square,
    Strip,
    Sum,
    Trapezoid,
    Traverse,
    Triangle,
    TriangleOfSides,
)

length = st.floats(0.2, 300.0)
width = st.floats(0.0, 60.0)


def made(kind, *parts):
    """Shapes of a kind, without those that cannot exist."""

    def make(values):
        try:
            return kind(*values)
        except ImpossibleShape:
            return None

    return st.tuples(*parts).map(make).filter(lambda shape: shape is not None)


def walked(radii):
    """A figure without crossing sides: corners at growing angles around one point."""
    count = len(radii)
    turns = [2 * math.pi * i / count for i in range(count)]
    return tuple(
        (r * math.sin(t) + 40, r * math.cos(t) - 7) for r, t in zip(radii, turns, strict=True)
    )


ring = st.lists(st.floats(1.0, 50.0), min_size=3, max_size=12).map(tuple)
simple = st.one_of(
    made(Rectangle, length, length),
    made(Strip, length, length),
    made(Square, length),
    made(Triangle, length, length),
    made(TriangleOfSides, length, length, length),
    made(Circle, length),
    made(PartCircle, length, st.floats(0.02, 1.0)),
    made(Ellipse, length, length),
    made(Trapezoid, length, length, length),
    made(GivenArea, st.floats(0.1, 1e5)),
    made(Offsets, length, st.lists(width, min_size=2, max_size=9).map(tuple)),
    made(
        Offsets,
        length,
        st.lists(width, min_size=3, max_size=9).filter(lambda w: len(w) % 2).map(tuple),
        st.just("simpson"),
    ),
    st.lists(st.tuples(st.floats(0, 9), st.floats(0, 9)), min_size=1, max_size=8).flatmap(
        lambda gaps: made(
            ModifiedOffsets,
            st.just(len(gaps) * 3.0),
            st.floats(5, 40),
            st.just(3.0),
            st.just(tuple(left for left, _ in gaps)),
            st.just(tuple(right for _, right in gaps)),
        )
    ),
    made(AverageRadius, ring, st.sampled_from(["mean", "rms"])),
    made(Corners, ring.map(walked)),
)
#: Traverses: triangles walked round, so that they close.
traverse = st.tuples(length, length).map(
    lambda ab: Traverse(
        (ab[0], ab[1], math.hypot(*ab)),
        (90.0, 0.0, 180.0 + math.degrees(math.atan2(*ab))),
    )
)
piece = st.one_of(simple, traverse)
composed = st.one_of(
    made(Sum, st.lists(piece, min_size=1, max_size=4).map(tuple)),
    made(Difference, piece, st.lists(piece, min_size=1, max_size=3).map(tuple)),
    made(
        Difference,
        made(Sum, st.lists(simple, min_size=2, max_size=3).map(tuple)),
        made(Difference, piece, st.tuples(piece)).map(lambda hole: (hole,)),
    ),
)


@given(piece)
def test_an_outline_covers_exactly_the_area_of_its_shape(shape):
    found = outline(shape)
    assert found.ground.is_valid
    assert found.ground.area == pytest.approx(shape.area_m2, rel=1e-6)


@given(composed)
def test_sums_and_differences_cover_exactly_their_area(shape):
    found = outline(shape)
    assert found.ground.area == pytest.approx(shape.area_m2, rel=1e-5, abs=1e-6)
    for cut in found.cutouts:
        # What is cut out is no longer ground, though an island inside a bed may be.
        assert found.ground.intersection(cut).area <= 1e-5 * found.ground.area + 1e-6


def test_corners_keep_their_place_and_others_have_none():
    square = Corners(((10.0, 20.0), (30.0, 20.0), (30.0, 50.0), (10.0, 50.0)))
    assert outline(square).is_placed
    assert outline(square).ground.equals(Polygon(square.points_m))
    assert not outline(Rectangle(3, 4)).is_placed
    traversed = outline(Traverse((20, 15, 20, 15), (0, 90, 180, 270)))
    assert traversed.is_north_up
    assert not traversed.is_placed


def test_a_walked_bed_is_cut_out_where_it_lies():
    yard = Corners(((0.0, 0.0), (40.0, 0.0), (40.0, 30.0), (0.0, 30.0)))
    bed = Corners(((30.0, 20.0), (36.0, 20.0), (36.0, 26.0), (30.0, 26.0)))
    found = outline(Difference(yard, (bed,)))
    assert found.are_cutouts_placed
    assert found.cutouts[0].equals(Polygon(bed.points_m))
    assert not outline(Difference(yard, (Rectangle(6, 6),))).are_cutouts_placed


def test_a_house_keeps_its_form_where_it_fits():
    found = outline(Difference(Rectangle(30, 20), (Rectangle(12, 9), Circle(2))))
    left, bottom, right, top = found.cutouts[0].bounds
    assert sorted([right - left, top - bottom]) == pytest.approx([9, 12])


def test_a_drive_longer_than_its_lawn_is_cut_as_a_slab_of_its_area():
    found = outline(Difference(Rectangle(20, 20), (Strip(60, 2),)))
    assert found.ground.area == pytest.approx(400 - 120)
    assert not found.are_cutouts_placed


def test_walked_pieces_that_overlap_are_laid_side_by_side():
    one = Corners(((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)))
    other = Corners(((5.0, 0.0), (15.0, 0.0), (15.0, 10.0), (5.0, 10.0)))
    found = outline(Sum((one, other)))
    assert not found.is_placed
    assert found.ground.area == pytest.approx(200.0)


def test_only_a_given_area_is_drawn_as_area_only():
    assert outline(GivenArea(100.0)).is_area_only
    assert outline(Difference(GivenArea(100.0), (Square(2),))).is_area_only
    assert not outline(Square(10)).is_area_only


def test_simpson_edges_are_the_parabolas_the_rule_integrates():
    # Simpson's rule is exact for x (8 - x): 256/3 (any calculus text).
    shape = Offsets(2.0, (0.0, 12.0, 16.0, 12.0, 0.0), "simpson")
    found = outline(shape).ground
    assert found.area == pytest.approx(256 / 3, rel=1e-6)
    for x, y in found.exterior.coords:
        assert y == pytest.approx(0.0, abs=1e-9) or y == pytest.approx(
            x * (8 - x), rel=5e-3, abs=5e-2
        )
