import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from jobs.agronomy import shapes
from jobs.agronomy.shape_store import UnknownShape, from_json, to_json
from jobs.agronomy.shapes import ImpossibleShape

FT = 0.3048
SQ_FT = FT**2


def feet(*values):
    return tuple(value * FT for value in values)


def sq_ft(shape):
    return shape.area_m2 / SQ_FT


# University of California ANR, lawn area sheet: 80 x 60 ft lawn, 4,800 sq ft.
# Virginia Turfgrass Council: 50 x 30 ft, 1,500 sq ft; triangle 40 x 80 ft, 1,600 sq ft; circle
# 40 ft across, 1,256 sq ft (with 3.14). The rest: the formulas themselves.
@pytest.mark.parametrize(
    ("shape", "expected"),
    [
        (shapes.Rectangle(*feet(80, 60)), 4800),
        (shapes.Rectangle(*feet(50, 30)), 1500),
        (shapes.Strip(*feet(80, 5)), 400),
        (shapes.Square(*feet(30)), 900),
        (shapes.Triangle(*feet(40, 80)), 1600),
        (shapes.TriangleOfSides(*feet(30, 40, 50)), 600),
        (shapes.Circle(20 * FT), 1256.64),
        (shapes.PartCircle(20 * FT, 0.5), 628.32),
        (shapes.Ellipse(*feet(60, 40)), 1884.96),
        (shapes.Trapezoid(*feet(50, 70, 40)), 2400),
        (shapes.Offsets(10 * FT, feet(0, 22, 30, 34, 36, 32, 24, 0)), 1780),
        (shapes.Offsets(12 * FT, feet(0, 18, 26, 31, 29, 20, 0)), 1488),
        (shapes.Offsets(12 * FT, feet(0, 18, 26, 31, 29, 20, 0), "simpson"), 1544),
        (
            shapes.ModifiedOffsets(
                *feet(120, 80, 20), feet(5, 8, 10, 9, 7, 6), feet(4, 6, 9, 12, 8, 5)
            ),
            7820,
        ),
        (shapes.AverageRadius(feet(*[30] * 12)), 2827.43),
    ],
)
def test_a_shape_covers_what_the_handbooks_say(shape, expected):
    assert sq_ft(shape) == pytest.approx(expected, rel=1e-5)


def test_a_mean_of_squared_radii_is_never_smaller_than_the_square_of_the_mean():
    radii = (24, 28, 30, 33, 36, 31, 27, 29, 30, 32, 28, 32)
    mean = shapes.AverageRadius(radii, "mean")
    assert mean.area_m2 == pytest.approx(math.pi * 30**2)
    assert shapes.AverageRadius(radii, "rms").area_m2 > mean.area_m2


SIDE = st.floats(0.5, 500.0)


@given(st.lists(SIDE, min_size=3, max_size=12))
def test_corners_round_a_point_cover_what_shapely_says(radii):
    step = 2 * math.pi / len(radii)
    points = tuple(
        (radius * math.cos(i * step), radius * math.sin(i * step)) for i, radius in enumerate(radii)
    )
    assert shapes.Corners(points).area_m2 == pytest.approx(Polygon(points).area, rel=1e-9)


@given(SIDE, SIDE, st.floats(0.1, 3.0))
def test_a_triangle_of_sides_covers_what_shapely_says(a, b, angle):
    corner = (b * math.cos(angle), b * math.sin(angle))
    c = math.hypot(corner[0] - a, corner[1])
    expected = Polygon([(0, 0), (a, 0), corner]).area
    assert shapes.TriangleOfSides(a, b, c).area_m2 == pytest.approx(expected, rel=1e-6)


@given(SIDE)
def test_a_circle_covers_what_shapely_says(radius):
    expected = Point(0, 0).buffer(radius, quad_segs=512).area
    assert shapes.Circle(radius).area_m2 == pytest.approx(expected, rel=1e-5)


@given(st.floats(1.0, 50.0), st.lists(st.floats(0.5, 80.0), min_size=2, max_size=15))
def test_offsets_by_the_trapezoid_rule_cover_what_shapely_says(spacing, widths):
    top = [(i * spacing, width) for i, width in enumerate(widths)]
    polygon = Polygon([(0, 0), *top, (spacing * (len(widths) - 1), 0)])
    assert shapes.Offsets(spacing, tuple(widths)).area_m2 == pytest.approx(polygon.area)


def test_simpson_is_exact_for_a_parabola():
    # Simpson's rule is exact up to cubics (any numerical analysis text); here y = x (12 - x).
    widths = tuple(float(x * (12 - x)) for x in range(0, 13, 2))
    assert shapes.Offsets(2.0, widths, "simpson").area_m2 == pytest.approx(12**3 / 6)


def test_a_lawn_less_its_house_covers_what_shapely_says():
    lawn, house = Polygon([(0, 0), (60, 0), (60, 40), (0, 40)]), Polygon.from_bounds(10, 10, 40, 30)
    shape = shapes.Difference(shapes.Rectangle(60, 40), (shapes.Rectangle(30, 20),))
    assert shape.area_m2 == pytest.approx(lawn.difference(house).area)


def test_a_traverse_that_closes_needs_no_adjustment():
    shape = shapes.Traverse((60, 40, 60, 40), (90, 0, 270, 180))
    assert shape.closing_error_m == pytest.approx(0, abs=1e-9)
    assert shape.area_m2 == pytest.approx(2400)


def test_a_closing_error_is_spread_by_the_compass_rule():
    shape = shapes.Traverse((60.0, 40.0, 61.0, 40.0), (90, 0, 270, 180))
    assert shape.closing_error_m == pytest.approx(1.0)
    # Each side takes its share of the gap by length (N. Bowditch's rule): 60/201 of 1 m east.
    assert shape.corners_m[1] == pytest.approx((60 + 60 / 201, 0))
    assert shape.area_m2 == pytest.approx(Polygon(shape.corners_m).area)


@pytest.mark.parametrize(
    ("make", "reason"),
    [
        (lambda: shapes.Rectangle(0, 4), "not_positive"),
        (lambda: shapes.Rectangle(-6, 4), "not_positive"),
        (lambda: shapes.GivenArea(math.inf), "not_positive"),
        (lambda: shapes.GivenArea(math.nan), "not_positive"),
        (lambda: shapes.TriangleOfSides(10, 20, 50), "sides_do_not_close"),
        (lambda: shapes.TriangleOfSides(10, 20, 30), "sides_do_not_close"),
        (lambda: shapes.PartCircle(10, 1.5), "part_of_circle"),
        (lambda: shapes.Offsets(10, (0, 5, 6, 0), "simpson"), "simpson_needs_even_strips"),
        (lambda: shapes.Offsets(10, (5,)), "too_few"),
        (lambda: shapes.Offsets(10, (0, 0, 0)), "empty"),
        (lambda: shapes.ModifiedOffsets(120, 80, 20, (5,), (4,)), "offsets_do_not_cover"),
        (lambda: shapes.ModifiedOffsets(20, 8, 10, (5, 5), (4, 4)), "hole_larger"),
        (lambda: shapes.AverageRadius((3, 4)), "too_few"),
        (lambda: shapes.Corners(((0, 0), (10, 10), (10, 0), (0, 10))), "crosses_itself"),
        (lambda: shapes.Corners(((0, 0), (5, 5))), "too_few"),
        (lambda: shapes.Corners(((0, 0), (5, 5), (10, 10))), "empty"),
        (lambda: shapes.Traverse((60, 40, 60), (90, 0, 270)), "does_not_close"),
        (lambda: shapes.Traverse((60, 40, 60), (90, 0)), "too_few"),
        (lambda: shapes.Sum(()), "empty"),
        (
            lambda: shapes.Difference(shapes.Square(10), (shapes.Rectangle(10, 10),)),
            "hole_larger",
        ),
    ],
)
def test_an_impossible_shape_is_refused_with_its_reason(make, reason):
    with pytest.raises(ImpossibleShape) as refused:
        make()
    assert refused.value.reason == reason


@pytest.mark.parametrize(
    "shape",
    [
        shapes.GivenArea(1 / 3),
        shapes.PartCircle(5.1, 0.25),
        shapes.Offsets(3.0, (0.0, 1.1, 0.0), "simpson"),
        shapes.Corners(((0.0, 0.0), (10.0, 0.0), (10.0, 7.3))),
        shapes.Traverse((60.0, 40.0, 60.0, 40.0), (90.0, 0.0, 270.0, 180.0)),
        shapes.Difference(
            shapes.Sum((shapes.Rectangle(20.0, 10.0), shapes.Triangle(4.0, 3.0))),
            (shapes.Circle(2.0), shapes.TriangleOfSides(3.0, 4.0, 5.0)),
        ),
    ],
)
def test_a_shape_is_kept_and_comes_back_the_same(shape):
    assert from_json(to_json(shape)) == shape


@pytest.mark.parametrize(
    "text", ["", "[]", "{}", '{"kind": "Cube"}', '{"kind": "Rectangle", "length_m": 3}']
)
def test_stored_text_that_is_no_shape_is_refused(text):
    with pytest.raises(UnknownShape):
        from_json(text)


def test_a_stored_shape_that_cannot_be_is_refused():
    with pytest.raises(ImpossibleShape):
        from_json('{"kind": "Rectangle", "length_m": -3, "width_m": 2}')
