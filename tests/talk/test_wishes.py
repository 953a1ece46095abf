"""Wishes kept in conversation: quiet hours, an hour asked for, snooze, mute, several yards."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from jobs.messenger import Letter, TryLater
from storage import wishes
from tests.made_yard import alerts_of
from tests.talk.harness import PRODUCT, Talker, labels_of, text_of

DAY = timedelta(days=1)

#: Shortly before the window opens at the made-up yard.
LATE = datetime(2026, 3, 28, 14, tzinfo=UTC)


# -- what is true now


def test_a_missed_alert_is_replaced_by_what_is_true_now(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE - 14 * DAY)
    talker.settle_in()
    send = talker.messenger.send
    talker.messenger.send = _down  # type: ignore[method-assign]
    while not _is_open(talker):
        talker.wait("P1D")
    talker.wait("P1D")
    talker.messenger.send = send  # type: ignore[method-assign]
    heard = talker.wait("P1D")
    assert [said.alert for said in heard] == ["window_open"]
    # With today's figures, not those of the morning it was written.
    assert "Apply and water in by" in heard[0].reply.text
    with talker.db.reading() as work:
        states = {alert.kind: alert.state for alert in alerts_of(work, 1)}
    assert states == {"soil_warming": "withdrawn", "window_open": "sent"}


def _down(_letter: Letter) -> None:
    raise TryLater("out of reach", timedelta(hours=8))


def _is_open(talker: Talker) -> bool:
    return "window open, apply now" in talker.ask("/yard")


# -- in the conversation


def test_quiet_hours_and_an_hour_asked_for_move_the_morning_message(tmp_path) -> None:
    for name, wish, hour in (("a", "quiet 18 to 10", 10), ("b", "wake me at 6", 7)):
        (tmp_path / name).mkdir()
        talker = Talker(tmp_path / name, start=LATE - 14 * DAY)
        talker.settle_in()
        talker.say(wish)
        warming = talker.until_alert("soil_warming")
        # Yesterday is known from 7 on: an earlier hour waits for it.
        assert warming.at.astimezone(ZoneInfo("America/Chicago")).hour == hour


@pytest.mark.parametrize(
    ("place", "zone", "start"),
    [
        ((34.08, 74.8), "Asia/Kolkata", datetime(2026, 2, 14, tzinfo=UTC)),
        ((-34.93, 138.6), "Australia/Adelaide", datetime(2026, 8, 14, tzinfo=UTC)),
        ((-45.87, 170.5), "Pacific/Auckland", datetime(2026, 10, 16, tzinfo=UTC)),
        ((52.3, 21.0), "Europe/Warsaw", datetime(2026, 5, 8, tzinfo=UTC)),
        ((47.56, -52.71), "America/St_Johns", datetime(2026, 5, 2, tzinfo=UTC)),
    ],
)
def test_messages_come_in_the_yards_own_morning(tmp_path, place, zone, start) -> None:
    talker = Talker(tmp_path, start=start)
    talker.say("/start")
    talker.session.location(*place)
    talker.say("front 60x40")
    heard = talker.wait("P16D")
    assert "window_open" in [said.alert for said in heard]
    for said in heard:
        wall = said.at.astimezone(ZoneInfo(zone))
        # The first look is made at once; what it finds at night waits for the end of it.
        assert (wall.hour, wall.minute) == (
            (7, 0) if said is heard[0] and wall.hour == 7 else (8, 0)
        )


def test_later_is_asked_about_and_kept(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    opened = talker.until_alert("window_open")
    assert labels_of([opened])[-2:] == ["Later", "Not this season"]
    said = talker.session.tap("Later")
    assert "The deadline is" in text_of(said)
    assert "I'll remind you" in text_of(talker.session.tap("In 3 days"))
    heard = talker.wait("P5D")
    assert [each.alert for each in heard if each.alert == "window_open"] == ["window_open"]
    again = next(each for each in heard if each.alert == "window_open")
    assert again.at - opened.at >= 3 * DAY


def test_what_was_put_off_is_not_said_once_it_is_done(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    talker.until_alert("window_open")
    talker.say("snooze 3 days")
    talker.say("applied")
    assert "window_open" not in [said.alert for said in talker.wait("P6D")]


def test_a_snooze_past_the_last_good_day_is_advised_against(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    talker.until_alert("window_open")
    assert "Pick a sooner day" in talker.ask("snooze 40 days")
    assert "Up to 60 days" in talker.ask("snooze 90 days")


def test_until_it_is_warmer_waits_for_the_soil_or_the_last_call(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    opened = talker.until_alert("window_open")
    assert "when the soil reaches 55 °F" in talker.ask("snooze until warmer")
    heard = []
    while not heard:
        heard = [said for said in talker.wait("P1D") if said.alert in ("window_open", "act_now")]
    assert heard[0].at > opened.at
    assert len(heard) == 1
    degrees = int(talker.ask("/soil").split("at 2 in is ")[1].split(" ")[0])
    assert degrees >= 55 or heard[0].alert == "act_now"


def test_not_this_season_is_kept_for_the_year_and_water_is_told_all_the_same(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    talker.until_alert("window_open")
    assert "no more about crabgrass this season" in talker.tap("Not this season")
    assert [said.alert for said in talker.wait("P10D")] == []
    talker.say("applied")
    this_year = [said.alert for said in talker.wait("P20D")]
    assert set(this_year) <= {"water_in", "watered_in"}
    assert this_year
    with talker.db.reading() as work:
        assert ("summer_annuals", 2026) in wishes.muted(work, 1)
        assert ("summer_annuals", 2027) not in wishes.muted(work, 1)


def test_the_late_summer_round_is_silenced_by_itself(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 7, 1, 14, tzinfo=UTC))
    talker.settle_in()
    talker.say("late summer round")
    talker.until_alert("window_open")
    assert "no more about annual bluegrass this year" in talker.tap("Not this season")
    with talker.db.reading() as work:
        assert ("winter_annuals", 2026) in wishes.muted(work, 1)
        assert ("summer_annuals", 2026) not in wishes.muted(work, 1)
    assert [said.alert for said in talker.wait("P30D")] == []
    assert "again" in talker.ask("this season after all")
    talker.take_back()
    with talker.db.reading() as work:
        assert ("winter_annuals", 2026) in wishes.muted(work, 1)


@pytest.mark.parametrize(
    ("words", "target"),
    [
        ("not this season", "summer_annuals"),
        ("no more messages about annual bluegrass this year", "winter_annuals"),
        ("skip this fall", "winter_annuals"),
        ("nothing", None),
        ("skip crabgrass this year", "summer_annuals"),
        ("no more potatoes this year", None),
    ],
)
def test_which_target_is_silenced_is_said(tmp_path, words: str, target: str | None) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    talker.say(words)
    with talker.db.reading() as work:
        both = ("summer_annuals", "winter_annuals")
        muted = [each for each in both if (each, 2026) in wishes.muted(work, 1)]
    assert muted == ([] if target is None else [target])


def test_wishes_can_be_taken_back(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    before = talker.ask("wishes")
    for wish in ("free Sat mornings", "clay soil", "quiet 22 to 6", "watering days Tue"):
        talker.say(wish)
        assert talker.ask("wishes") != before
        talker.take_back()
        assert talker.ask("wishes") == before
    talker.say("not this season")
    talker.take_back()
    assert "window_open" in [said.alert for said in talker.wait("P10D")]


def test_yards_of_one_person_come_in_one_message_with_what_to_load(tmp_path) -> None:
    talker = Talker(tmp_path, start=LATE)
    talker.settle_in()
    for lat in (39.19, 39.20):
        talker.session.location(lat, -96.57)
        talker.tap("New yard")
        talker.say("front 60x40")
        talker.say(PRODUCT)
    opened = talker.until_alert("window_open", days=90)
    text = opened.reply.text
    assert text.startswith(("3 yards have news.", "2 yards have news."))
    assert "Window open, apply and water in: " in text
    assert "Load for these yards: " in text
    assert "Today's route" in labels_of([opened])


def test_a_reminder_of_a_season_given_up_says_how_to_take_it_up_again(tmp_path) -> None:
    talker = Talker(tmp_path, start=datetime(2026, 2, 15, 14, tzinfo=UTC))
    talker.settle_in()
    talker.ask("not this year")
    assert "this season after all" in talker.ask("remind me saturday")
    assert "this season after all" not in talker.ask("actually do remind me")
