"""The driving order of a day, against all orders there are and a published distance."""

import random
from itertools import permutations

import pytest

from jobs.agronomy.route import distance_m, driving_order, length_m


def test_a_degree_of_latitude_is_sixty_nautical_miles_or_so() -> None:
    # On the mean sphere of the IUGG (6,371.0088 km) a degree is 111.195 km.
    assert distance_m((40, -96), (41, -96)) == pytest.approx(111_195, abs=1)
    assert distance_m((40, -96), (40, -96)) == 0


def test_distance_agrees_with_the_ellipsoid_to_half_a_percent() -> None:
    geod = pytest.importorskip("pyproj").Geod(ellps="WGS84")
    for a, b in (((40.8, -96.7), (41.2, -96.6)), ((33.4, -112.0), (33.6, -111.7))):
        _, _, wanted = geod.inv(a[1], a[0], b[1], b[0])
        assert distance_m(a, b) == pytest.approx(wanted, rel=0.005)


def test_the_nearest_comes_next_from_where_one_starts() -> None:
    stops = [(41.0, -96.0), (40.1, -96.0), (40.5, -96.0)]
    assert driving_order(stops, start=(40.0, -96.0)) == [1, 2, 0]
    assert driving_order(stops) == [0, 2, 1]
    assert driving_order([]) == []


def test_the_way_is_within_a_tenth_of_the_shortest_there_is() -> None:
    rng = random.Random(7)
    for _ in range(20):
        stops = [(40 + rng.random() / 5, -96 + rng.random() / 5) for _ in range(6)]
        start = (40.1, -95.9)
        found = length_m([stops[place] for place in driving_order(stops, start)], start)
        best = min(length_m(each, start) for each in permutations(stops))
        assert found <= 1.1 * best
