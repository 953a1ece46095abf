"""Wishes as people write them: hours, days, quiet, cans and what a label says."""

from __future__ import annotations

import pytest

from bot.hearing.readers.times import read_time_of_day
from bot.hearing.readers.wish_words import (
    QuietHours,
    read_cans,
    read_free_hours,
    read_label_terms,
    read_quiet_hours,
    read_weekdays,
)

# -- in words


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("9 pm", 21 * 60),
        ("21", 21 * 60),
        ("6:30", 390),
        ("12 am", 0),
        ("noon", 720),
        ("midnight", 0),
        ("25", None),
        ("13 pm", None),
        ("soon", None),
    ],
)
def test_times_of_day(said, read) -> None:
    assert read_time_of_day(said) == read


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("Saturday and Sunday mornings", dict.fromkeys((5, 6), (360, 720))),
        ("weekdays after 5 pm", dict.fromkeys(range(5), (1020, 1440))),
        ("weekends", dict.fromkeys((5, 6), (0, 1440))),
        ("Sat 8 to 12", {5: (480, 720)}),
        ("Mon to Wed before 10 am", dict.fromkeys(range(3), (0, 600))),
        ("mornings", dict.fromkeys(range(7), (360, 720))),
        ("fri 1 to 5 pm", {4: (780, 1020)}),
        (
            "weekdays after 5 pm and saturday mornings",
            {**dict.fromkeys(range(5), (1020, 1440)), 5: (360, 720)},
        ),
        ("any time", "any"),
        ("range chickens", None),
    ],
)
def test_free_hours(said, read) -> None:
    assert read_free_hours(said) == read


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("quiet 21 to 7", QuietHours(1260, 420)),
        ("quiet hours 9 pm to 6:30 am", QuietHours(1260, 390)),
        ("quiet 9 to 7", QuietHours(1260, 420)),
        ("no quiet hours", QuietHours(0, 0)),
        ("quiet please", None),
    ],
)
def test_quiet_hours(said, read) -> None:
    assert read_quiet_hours(said) == read


def test_weekdays_by_span() -> None:
    assert read_weekdays("Fri to Mon") == {4, 5, 6, 0}
    assert read_weekdays("tue, thu and sat") == {1, 3, 5}
    assert read_weekdays("whenever") == frozenset()


def test_cans_of_a_catch_test() -> None:
    depths, minutes = read_cans("0.3 in in 20 min") or ([], 0.0)
    assert depths == [pytest.approx(0.3 * 0.0254)]
    assert minutes == 20
    depths, minutes = read_cans("8, 10 and 9 mm in half an hour") or ([], 0.0)
    assert depths == [pytest.approx(0.008), pytest.approx(0.010), pytest.approx(0.009)]
    assert minutes == 30
    assert read_cans("all night") is None


def test_what_a_label_says_on_the_day() -> None:
    terms = read_label_terms("water in 0.25 in within 24 hours, wind under 8 mph, wet leaves")
    assert terms is not None
    assert terms["water_in_mm"] == pytest.approx(6.35)
    assert terms["water_in_hours"] == 24
    # 1 mph is 0.44704 m/s by definition.
    assert terms["wind_high_m_s"] == pytest.approx(8 * 0.44704)
    assert terms["leaves"] == "wet"
    assert read_label_terms("no rain for 6 hours") == {"dry_hours_after": 6}
    assert read_label_terms("is in the shed") is None
