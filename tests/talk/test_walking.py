"""Corners walked with the phone, paces, the sketch and the person's own photo."""

import json
import math
from pathlib import Path

import numpy as np
import pytest
from pyproj import Transformer
from shapely.geometry import Polygon

from jobs.agronomy.walked import area_error_m2, geodesic_area_m2, metres_from
from storage import chats, yards
from tests.talk.harness import PLACE, Talker, labels_of, text_of

LAT, LON = PLACE


def at(east_m: float, north_m: float) -> tuple[float, float]:
    """Return a place near the yard, by a plane good to a few millimetres here."""
    metres_a_degree = 111_132.95 - 559.85 * math.cos(2 * math.radians(LAT))
    radius_m = 6_378_137.0 / math.sqrt(1 - 0.00669438 * math.sin(math.radians(LAT)) ** 2)
    east_a_degree = math.radians(1) * radius_m * math.cos(math.radians(LAT))
    return LAT + north_m / metres_a_degree, LON + east_m / east_a_degree


SQUARE = [at(10, 10), at(40, 10), at(40, 40), at(10, 40)]


def walk(talker: Talker, name: str, places) -> str:
    talker.say(f"walk {name}")
    for place in places:
        talker.session.location(*place)
    return talker.ask("done")


def zone(talker: Talker, name: str):
    with talker.db.reading() as work:
        return next(zone for zone in yards.zones(work, 1) if zone.name == name)


def test_walked_corners_make_a_zone_in_metres_from_the_yards_point(settled: Talker) -> None:
    text = walk(settled, "back", SQUARE)
    assert "walked, 4 corners" in text
    settled.tap("Keep")
    kept = zone(settled, "back")
    assert kept.area_m2 == pytest.approx(900, rel=2e-3)
    points = json.loads(kept.shape)["points_m"]
    assert np.array(points) == pytest.approx(
        np.array([[10, 10], [40, 10], [40, 40], [10, 40]]), abs=0.05
    )


def test_the_likely_error_is_told_and_a_tape_for_small_lawns(settled: Talker) -> None:
    large = walk(settled, "back", SQUARE)
    assert "Likely off by about" in large
    assert "a tape is better" not in large
    small = walk(settled, "patch", [at(0, 0), at(10, 0), at(10, 10), at(0, 10)])
    assert "Under 2,000 sq ft a tape is better" in small


def test_geodesic_area_agrees_with_a_projected_one() -> None:
    # Outside: the same corners through PROJ's UTM zone 14 and shapely's planar area. The scale of
    # UTM there is between 0.9996 and 1.0004 (by its definition).
    to_utm = Transformer.from_crs("EPSG:4326", "EPSG:32614", always_xy=True)
    corners = [*SQUARE[:3], at(22, 55), SQUARE[3]]
    planar = Polygon([to_utm.transform(lon, lat) for lat, lon in corners]).area
    assert geodesic_area_m2(corners) == pytest.approx(planar, rel=1e-3)


def test_a_published_polygon_on_the_ellipsoid() -> None:
    # GeographicLib's Planimeter example, Antarctica: 13,376,856,682,207 m² (from memory of its
    # manual page, WGS 84).
    text = (
        "-72.9 -74; -71.9 -102; -74.9 -102; -74.3 -131; -77.5 -163; -77.4 163; -71.7 172; "
        "-65.9 140; -65.7 113; -66.6 88; -66.9 59; -69.8 25; -70.0 -4; -71.0 -14; -77.3 -33; "
        "-77.9 -46; -74.7 -61"
    )
    places = [tuple(float(number) for number in pair.split()) for pair in text.split(";")]
    assert geodesic_area_m2(places) == pytest.approx(13_376_856_682_207, rel=1e-9)


def test_the_error_is_that_of_corners_shaken_by_chance() -> None:
    points = metres_from(PLACE, SQUARE)
    rng = np.random.default_rng(7)
    areas = []
    for _ in range(4000):
        shaken = np.array(points) + rng.normal(0, 1.0, (4, 2))
        x, y = shaken[:, 0], shaken[:, 1]
        areas.append(abs(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1))) / 2)
    assert area_error_m2(points, 1.0) == pytest.approx(float(np.std(areas)), rel=0.05)


def test_a_way_round_that_crosses_itself_is_refused_with_the_sides(settled: Talker) -> None:
    settled.say("walk back")
    for place in (SQUARE[0], SQUARE[2], SQUARE[1], SQUARE[3]):
        settled.session.location(*place)
    said = settled.say("done")
    assert "cross (1 and 3)" in text_of(said)
    assert "Drop the last" in labels_of(said)
    settled.tap("Drop the last")
    assert "walked, 3 corners" in settled.tap("Done")


def test_two_corners_are_too_few(settled: Talker) -> None:
    assert "three corners or more" in walk(settled, "back", SQUARE[:2])


def test_a_place_miles_away_is_no_corner(settled: Talker) -> None:
    settled.say("walk back")
    assert "skipped it" in text_of(settled.session.location(41.0, -96.0))
    with settled.db.reading() as work:
        assert len(yards.of_chat(work, 1)) == 1


def test_the_same_spot_twice_is_one_corner(settled: Talker) -> None:
    settled.say("walk back")
    settled.session.location(*SQUARE[0])
    assert "same spot" in text_of(settled.session.location(*SQUARE[0]))


def test_stopping_keeps_nothing_and_a_place_is_a_place_again(settled: Talker) -> None:
    settled.say("walk back")
    settled.session.location(*SQUARE[0])
    assert "Nothing was saved" in settled.tap("Stop")
    assert "new yard" in text_of(settled.session.location(*SQUARE[1]))


def test_walking_survives_a_restart(settled: Talker) -> None:
    settled.say("walk back")
    for place in SQUARE[:3]:
        settled.session.location(*place)
    from bot.terminal import Session

    settled.session = Session(settled.machine, settled.messenger, settled.clock, 1)
    settled.session.location(*SQUARE[3])
    assert "walked, 4 corners" in settled.ask("done")


def test_a_button_begins_a_walk_under_a_free_name(settled: Talker) -> None:
    assert "Walk a zone" in labels_of(settled.say("/zones"))
    assert "Walking zone 1" in settled.tap("Walk a zone")
    for place in SQUARE:
        settled.session.location(*place)
    assert "zone 1: walked, 4 corners" in settled.tap("Done")


def test_undo_takes_a_walked_zone_back(settled: Talker) -> None:
    walk(settled, "strip", SQUARE)
    settled.tap("Keep")
    settled.take_back()
    assert zone(settled, "strip").area_m2 == pytest.approx(400 * 0.3048**2)


# --- paces ----------------------------------------------------------------------------------------


def test_the_pace_is_asked_once_for_a_person(settled: Talker) -> None:
    assert "How long is your pace" in settled.ask("front 20 x 15 paces")
    text = settled.ask("30 in")
    # 20 x 15 paces of 2.5 ft is 50 x 37.5 ft, 1,875 sq ft (computed).
    assert "front: 20 paces x 15 paces = 1,875 sq ft" in text
    assert "side: 10 paces x 4 paces = 250 sq ft" in settled.ask("side 10 x 4 paces")
    with settled.db.reading() as work:
        assert chats.person(work, 1).pace_m == pytest.approx(30 * 0.0254)


def test_a_pace_nobody_walks_is_asked_again(settled: Talker) -> None:
    settled.say("front 20 x 15 paces")
    assert "is outside that" in settled.ask("30 ft")
    assert "front" not in {each.name for each in _zones(settled)}
    assert "1,875 sq ft" in settled.ask("my pace is 30 in")


def test_what_was_asked_of_paces_does_not_hold_up_other_zones(settled: Talker) -> None:
    text = settled.ask("front 20 x 15 paces, side 30x20 ft")
    assert "side: 30 ft x 20 ft" in text
    assert "How long is your pace" in text
    assert "front: 20 paces" in settled.ask("10 paces are 25 ft")


def _zones(talker: Talker):
    with talker.db.reading() as work:
        return yards.zones(work, 1)


# --- the sketch and the photo ---------------------------------------------------------------------


def test_the_sketch_is_a_picture_with_the_same_in_words(tmp_path: Path) -> None:
    talker = Talker(tmp_path, draws=True)
    talker.settle_in()
    said = talker.say("sketch")
    assert said[0].reply.picture is not None
    assert Path(said[0].reply.picture).read_bytes().startswith(b"\x89PNG")
    text = text_of(said)
    assert "pool lawn, 2,400 sq ft, 3.8 lb per pass" in text
    assert "the spot is a guess" in text


def test_a_yard_with_walked_corners_is_drawn_as_a_map(settled: Talker) -> None:
    walk(settled, "back", SQUARE)
    assert "north up, from walked corners" in settled.ask("/sketch")


def test_the_sketch_names_no_amount_the_label_stops(settled: Talker) -> None:
    settled.say("not for home lawns")
    assert "lb" not in settled.ask("sketch")


def test_a_photo_is_kept_with_the_yard_and_shown_on_request(
    settled: Talker, tmp_path: Path
) -> None:
    assert "No photo saved" in settled.ask("my photo")
    photo = tmp_path / "paper.jpg"
    photo.write_bytes(b"\xff\xd8 a made-up photo")
    assert "Saved your photo with Yard 1" in text_of(settled.session.photo(str(photo)))
    photo.unlink()  # the yard's own copy stays
    shown = settled.say("my photo")
    assert shown[0].reply.picture is not None
    assert Path(shown[0].reply.picture).read_bytes() == b"\xff\xd8 a made-up photo"
    assert "My photo" in labels_of(settled.say("sketch"))
    settled.take_back()
    assert "No photo saved" in settled.ask("my photo")
