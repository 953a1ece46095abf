import time

import pytest

from bot.language.quantities import RateRead, read_rate
from bot.language.sizes import ZoneRead, read_zones
from tests.talk.phrasings import ASKED, RATES, SIZES

SQ_FT = 0.09290304


def test_there_are_three_hundred_phrasings_or_more():
    texts = {(text, unit) for text, unit, _ in SIZES} | {(text, "") for text, _ in RATES}
    assert len(texts) == len(SIZES) + len(RATES)
    assert len(texts) >= 300


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
    started = time.perf_counter()
    for text, unit, _ in SIZES:
        read_zones(text, unit)
    assert (time.perf_counter() - started) / len(SIZES) < 0.005
