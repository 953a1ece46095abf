"""Rounds over many yards on a phone: the morning list, ticking off, and what is left tonight."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.paging import LINES
from bot.turn import LONGEST_ACTION
from storage import applications, wishes, yards
from storage.yards import NewZone
from tests.talk.harness import PRODUCT, Talker, labels_of, lived_from, text_of

_THERE = ZoneInfo("America/Chicago")
#: Shortly before the windows of the made-up yards open.
START = datetime(2026, 3, 30, 14, tzinfo=UTC)


def crew_of(talker: Talker, count: int) -> None:
    """Give a talker as many yards in all, near one another, each with a zone and the product."""
    talker.say("/start")
    talker.session.location(39.18, -96.57)
    talker.say("front 60x40")
    talker.say(PRODUCT)
    now = talker.session.now
    with talker.db.writing() as work:
        first = yards.yard(work, 1)
        assert first is not None
        for number in range(2, count + 1):
            yard = yards.add(
                work,
                chat_id=first.chat_id,
                person_id=1,
                name=f"Alder Court {number}",
                lat=39.18,
                lon=-96.57,
                timezone=first.timezone,
                lead_days=first.lead_days,
                split_days=56,
                rounds=2,
                now=now,
            )
            zone = NewZone("lawn", "100 m²", "100 m²", "", 100.0)
            yards.keep_zones(work, yard.id, [zone], person_id=1, now=now)
            yards.change(work, yard.id, product_id=first.product_id)


@lived_from(START)
def thirty(talker: Talker) -> None:
    crew_of(talker, 30)
    talker.wait("P2D")


@lived_from(START)
def ten(talker: Talker) -> None:
    crew_of(talker, 10)
    talker.wait("P2D")


def test_thirty_yards_fit_a_phone_page_by_page(thirty: Talker) -> None:
    said = thirty.say("/today")
    text = text_of(said)
    assert "6 of 6 yards still to do today, 0 done" in text
    assert "Page 1 of 5." in text
    assert len(text.splitlines()) <= LINES
    assert len(text) < 1600
    assert all(len(row) <= 3 for row in said[0].reply.buttons)
    assert all(
        len(button.action.encode()) <= LONGEST_ACTION
        for row in said[0].reply.buttons
        for button in row
    )
    seen = set()
    for _ in range(5):
        seen |= {line.split(". ")[0] for line in text.splitlines() if line[0].isdigit()}
        if "More" in labels_of(said):
            said = thirty.session.tap("More")
            assert said[0].reply.replaces
            text = text_of(said)
    assert seen >= {str(number) for number in range(1, 31)}


def test_ticking_off_edits_the_list_in_place_and_records_who_and_when(ten: Talker) -> None:
    said = ten.say("/today")
    first = next(label for label in labels_of(said) if label.startswith("Done: "))
    load = _load(text_of(said))
    ten.wait("PT50M")
    ticked = ten.session.tap(first)
    assert ticked[0].reply.replaces
    text = text_of(ticked)
    assert "5 of 6 yards still to do today, 1 done" in text
    assert "1. Yard 1: done " in text
    assert _load(text) < load
    with ten.db.reading() as work:
        done = applications.of_yard(work, 1)
    assert [each.person_id for each in done] == [1]
    # It began at what was said last, the list, and ended with the tick; both are told, to be put
    # right in words.
    assert done[0].details["ended"] == f"{ten.session.now.astimezone(_THERE):%H:%M}"
    assert ten.session.now - done[0].applied_at == timedelta(minutes=50)
    assert "record 1 started 9:15" in text
    assert "start 6:05" in ten.ask("record 1 started 6:05")
    assert "6:05 am" in ten.ask("records")
    ten.take_back()
    assert "Undone" in ten.take_back()
    assert "6 of 6 yards still to do today, 0 done" in ten.ask("/today")


def test_what_is_left_tonight(ten: Talker) -> None:
    said = ten.say("/today")
    for label in [label for label in labels_of(said) if label.startswith("Done: ")][:6]:
        ten.session.tap(label)
    text = ten.ask("what is left tonight?")
    assert "Nothing left to do today." in text
    assert "First tomorrow: Alder Court" in text
    assert "all done (6)" in ten.ask("round")


def test_amounts_are_summed_for_loading(ten: Talker) -> None:
    # 2,400 sq ft and five times 100 m² at 3.2 lb per 1,000 sq ft; 1 m² is 10.7639 sq ft.
    assert _load(ten.ask("/today")) == pytest.approx(3.2 * (2.4 + 5 * 1.07639), abs=0.01)


def test_more_yards_a_day_are_taken_on_when_asked(ten: Talker) -> None:
    assert "10 yards a day" in ten.ask("10 yards a day")
    assert "10 of 10 yards still to do today" in ten.ask("/today")


def test_a_small_crew_with_many_yards_begins_before_the_windows_open(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 3, 16, 14, tzinfo=UTC))
    crew_of(talker, 30)
    talker.wait("P1D")
    text = talker.ask("/today")
    assert "At 6 yards a day, start by " in text
    assert "to finish all 30 in time" in text
    talker.say("1 yard a day")
    text = talker.ask("/today")
    assert "1 of 1 yard still to do today" in text
    assert "Otherwise the last yards are late" in text


def test_nothing_due_is_said(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 2, 10, 14, tzinfo=UTC))
    crew_of(talker, 2)
    assert "nothing to do" in talker.ask("/today")
    assert "2 yards with nothing due." in talker.ask("/today")


def test_a_yard_nobody_wants_to_hear_of_this_season_is_not_on_the_list(ten: Talker) -> None:
    assert "Yard 1:" in ten.ask("/today")
    with ten.db.writing() as work:
        wishes.mute(work, 1, "summer_annuals", 2026, person_id=1, now=ten.session.now)
    assert "Yard 1:" not in ten.ask("/today")


def test_what_is_down_already_is_not_loaded_again(tmp_path) -> None:
    talker = Talker(tmp_path, start=START)
    talker.settle_in()
    talker.wait("P2D")
    # 2,400, 400 and 12 m x 9 m less 3 m x 4 m, at 3.2 lb per 1,000 sq ft.
    assert _load(talker.ask("/today")) == pytest.approx(3.2 * (2.8 + 96 * 0.0107639), abs=0.01)
    talker.say("applied strip")
    assert _load(talker.ask("/today")) == pytest.approx(3.2 * (2.4 + 96 * 0.0107639), abs=0.01)


def _load(text: str) -> float:
    line = next(line for line in text.splitlines() if line.startswith("Load for today"))
    return float(line.split(": ")[1].split(" lb")[0].replace(",", ""))
