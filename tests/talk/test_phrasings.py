import time
from datetime import UTC, datetime

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.hearing.readers.dates import find_when
from bot.hearing.readers.measurements import (
    read_depth,
    read_duration,
    read_pace,
    read_temperature_reading,
)
from bot.hearing.readers.places import read_place
from bot.hearing.readers.product_lines import read_product
from bot.hearing.readers.quantities import RateRead, read_amount, read_rate
from bot.hearing.readers.reading import Unread
from bot.hearing.readers.sizes import ZoneRead, read_zones
from tests.talk.phrasings import ASKED, RATES, SIZES

SQ_FT = 0.09290304


def test_there_are_four_hundred_phrasings_or_more():
    texts = {(text, unit) for text, unit, _ in SIZES} | {(text, "") for text, _ in RATES}
    assert len(texts) == len(SIZES) + len(RATES)
    assert len(texts) >= 400


@pytest.mark.parametrize(("text", "unit", "expected"), SIZES)
def test_a_size_reads_right_or_is_asked_back(text, unit, expected):
    items = read_zones(text, unit).items
    assert len(items) == len(expected), items
    for item, wanted in zip(items, expected, strict=True):
        if wanted == ASKED:
            assert not isinstance(item, ZoneRead), item
            assert item.said in text or item.said
            assert item.sentence()
        else:
            assert isinstance(item, ZoneRead), item
            name, sq_ft = wanted
            assert item.name == name
            assert item.area_m2 == pytest.approx(sq_ft * SQ_FT, rel=1e-9)


@pytest.mark.parametrize(
    ("text", "unit"), [(t, u) for t, u, wanted in SIZES if ASKED not in wanted]
)
def test_our_own_writing_of_a_size_reads_the_same(text, unit):
    for zone in read_zones(text, unit).zones:
        (again,) = read_zones(zone.echo, unit).items
        assert isinstance(again, ZoneRead), again
        assert again.area_m2 == pytest.approx(zone.area_m2, rel=1e-9)
        assert again.echo == zone.echo


@pytest.mark.parametrize(("text", "expected"), RATES)
def test_a_rate_reads_right_or_is_asked_back(text, expected):
    read = read_rate(text)
    if expected == ASKED:
        assert not isinstance(read, RateRead), read
        assert read.said == text
        assert read.sentence()
    else:
        assert isinstance(read, RateRead), read
        value, unit = expected
        assert read.rate.unit == unit
        assert read.rate.value == pytest.approx(value, rel=1e-12)


def test_a_line_is_read_within_five_milliseconds():
    read_zones("warm up 1x1, 3 m", "ft")
    started = time.process_time()
    for text, unit, _ in SIZES:
        read_zones(text, unit)
    assert (time.process_time() - started) / len(SIZES) < 0.005


PIECES = st.sampled_from(
    [text for text, _, _ in SIZES]
    + [text for text, _ in RATES]
    + ["x", " ", ",", ".", "-", "minus", "(", ")", "'", '"', "½", "e3", "∞", "0", "9" * 400, "1/0"]
    + ["²", "⁵", "①", "٣", "\u200b", "\x00", "\n", "§0", "\ue0001", "\ue001\ue001", "{said}", "%s"]
    + [
        "65 WDG",
        "per",
        "max",
        "line 70 ft",
        "N 45 E",
        "traverse",
        "corners (0,0)",
        "31 Feb",
        "25:99",
    ]
)
TYPED = st.one_of(st.text(max_size=40), st.lists(PIECES, max_size=6).map("".join))
NAMES = ["prodiamine", "dithiopyr"]
NOW = datetime(2026, 4, 10, 14, 30, tzinfo=UTC)


@settings(max_examples=150, deadline=None)
@given(TYPED)
def test_nothing_typed_breaks_a_reader(text):
    read = read_zones(text, "ft")
    assert all(question.sentence() for question in read.questions)
    product = read_product(text, NAMES)
    assert all(question.sentence() for question in product.questions)
    others = (read_rate(text), read_amount(text), read_pace(text), read_place(text))
    others += (find_when(text, NOW), read_depth(text), read_duration(text))
    others += (read_temperature_reading(text, "F"),)
    assert all(each.sentence() for each in others if isinstance(each, Unread))


@settings(max_examples=150, deadline=None)
@given(TYPED)
def test_our_own_writing_of_whatever_was_taken_reads_the_same(text):
    for zone in read_zones(text, "ft").zones:
        (again,) = read_zones(zone.echo, "ft").items
        area = again.area_m2 if isinstance(again, ZoneRead) else again.zone.area_m2
        assert area == pytest.approx(zone.area_m2, rel=1e-8)


def test_a_text_of_ten_thousand_characters_is_refused_whole():
    (asked,) = read_zones("front 60x40, " * 800, "ft").items
    assert asked.sentence()
    assert read_product("prodiamine " * 1000, NAMES).questions[0].sentence()


@pytest.mark.parametrize(
    ("text", "metres"),
    [
        ("my pace is 30 in", 0.762),
        ("pace 2.5 ft", 0.762),
        ("10 paces = 25 ft", 0.762),
        ("ten paces are 7.5 m", 0.75),
        ("pace 2 ft 6 in", 0.762),
        ("one pace is 75 cm", 0.75),
    ],
)
def test_the_length_of_a_pace_is_read(text, metres):
    assert read_pace(text) == pytest.approx(metres)
    (zone,) = read_zones("60 paces by 40 paces", "ft", metres).zones
    assert zone.area_m2 == pytest.approx(2400 * metres**2)


@pytest.mark.parametrize("text", ["my pace is 30", "my pace is 3 m", "1/0 paces 3 ft"])
def test_a_pace_nobody_walks_is_asked_about(text):
    asked = read_pace(text)
    assert isinstance(asked, Unread)
    assert asked.sentence()


def test_a_closing_error_is_told_with_the_size():
    (zone,) = read_zones("traverse 60 ft E, 40 ft N, 61 ft W, 40 ft S", "ft").zones
    (note,) = zone.notes
    assert "1 ft in 201 ft (0.5%)" in note.sentence()


def test_the_rule_for_offsets_is_told_with_the_size():
    text = "offsets 0, 18, 26, 31, 29, 20, 0 every 12 ft"
    assert "trapezoid" in read_zones(text, "ft").zones[0].notes[0].sentence()
    assert "Simpson" in read_zones(f"simpson {text}", "ft").zones[0].notes[0].sentence()


def test_a_list_cut_short_by_a_slip_is_asked_about():
    for text in (
        "radii 30, 30, 30, 30, 3o, 30, 30, 30",
        "corners (0,0) (20,0) (20,10) ( ,10) m",
        "offsets 0, 18, 26, 0 every 12 ft, x20",
    ):
        assert read_zones(text, "ft").zones == ()


def test_a_spacing_of_nothing_is_asked_about():
    assert read_zones("offsets 0, 18, 0 at 0 ft line 20 ft", "ft").zones == ()
