"""Storms of alerts, and one message for several yards: on a real database file."""

from __future__ import annotations

import itertools
import tempfile
from collections import Counter
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from jobs.deliver import deliver_due, next_due_at
from jobs.digests import Manners
from jobs.manners import first_awake, is_quiet
from jobs.messenger import MayHaveArrived, TryLater
from storage import alerts, chats, wishes, yards
from storage import outbox as outboxes
from storage.wishes import ChatWishes
from tests.made_once import database_at
from tests.made_yard import alerts_of
from tests.service.messenger_standin import Post

MANNERS = Manners("simulated")
HOUR, DAY = timedelta(hours=1), timedelta(days=1)

#: Central North America, London, India (half an hour off), Adelaide (half an hour off, south of the
#: equator), Newfoundland (half an hour off, with a clock change) and the Chatham Islands (45 min).
ZONES = (
    "America/Chicago",
    "Europe/London",
    "Asia/Kolkata",
    "Australia/Adelaide",
    "America/St_Johns",
    "Pacific/Chatham",
)


class Outbox:
    """An outbox with one chat and a yard in each of some time zones."""

    def __init__(self, folder: Path, zones: tuple[str, ...], now: datetime) -> None:
        self.db = database_at(folder / "outbox.sqlite3", is_throwaway=True)
        self.yards: list[int] = []
        with self.db.writing() as work:
            self.chat = chats.chat_at(work, "test", "7", title="", units="us", now=now).id
            person = chats.person_at(work, "test", "7", name="", now=now).id
            for number, zone in enumerate(zones):
                yard = yards.add(
                    work,
                    chat_id=self.chat,
                    person_id=person,
                    name=f"Yard {number}",
                    lat=-35.0 if zone in ("Australia/Adelaide", "Pacific/Chatham") else 39.0,
                    lon=10.0 * number,
                    timezone=zone,
                    lead_days=21,
                    split_days=56,
                    rounds=2,
                    now=now,
                )
                self.yards.append(yard.id)

    def wish(self, **wished: int | None) -> ChatWishes:
        said = ChatWishes(self.chat, **wished)  # type: ignore[arg-type]
        with self.db.writing() as work:
            wishes.keep_chat(work, said)
        return said

    def put(self, yard: int, kind: str, key: str, now: datetime) -> bool:
        with self.db.writing() as work:
            return alerts.add(
                work,
                chat_id=self.chat,
                yard_id=self.yards[yard],
                target="summer_annuals",
                year=now.year,
                kind=kind,
                episode_key=key,
                facts={},
                due_at=now,
                now=now,
            )

    def states(self) -> Counter[str]:
        with self.db.reading() as work:
            found = [alert for yard in self.yards for alert in alerts_of(work, yard)]
        return Counter(alert.state for alert in found)


@pytest.fixture
def outbox(tmp_path):
    box = Outbox(tmp_path, ZONES[:2], datetime(2026, 3, 20, 15, tzinfo=UTC))
    yield box
    box.db.close()


NOON = datetime(2026, 3, 20, 15, tzinfo=UTC)


# -- storms


storms = st.lists(
    st.tuples(
        st.integers(0, 34 * 24 * 60),  # minute of the month
        st.integers(0, len(ZONES) - 1),
        st.sampled_from(["seeding_possible", "state", "window_open", "season_over"]),
        st.integers(0, 12),  # few episodes, so that many are put twice
    ),
    min_size=1,
    max_size=60,
)
quiet = st.tuples(
    st.integers(18 * 60, 23 * 60),
    st.integers(5 * 60, 9 * 60),
    st.sampled_from([None, 330, 420, 900]),
)


@pytest.mark.parametrize(
    "start",
    [
        # Both springs forward and the south's autumn; both autumns and the south's spring.
        datetime(2026, 3, 4, tzinfo=UTC),
        datetime(2026, 10, 1, tzinfo=UTC),
    ],
)
@settings(max_examples=8)
@given(storm=storms, when=quiet, cap=st.integers(1, 4), first=st.integers(0, len(ZONES) - 1))
def test_a_month_of_storms_keeps_the_cap_wakes_nobody_and_repeats_nothing(
    start, storm, when, cap, first
) -> None:
    zones = ZONES[first:] + ZONES[:first]
    quiet_from, quiet_until, wake_at = when
    with tempfile.TemporaryDirectory() as folder:
        box = Outbox(Path(folder), zones, start)
        box.wish(quiet_from=quiet_from, quiet_until=quiet_until, wake_at=wake_at, daily_cap=cap)
        post = Post()
        put = 0
        ticks = sorted((start + timedelta(minutes=minute), *rest) for minute, *rest in storm)
        for now, yard, kind, episode in ticks:
            _deliver_until(box, post, now)
            put += box.put(yard, kind, f"{yard}:{kind}:{episode}", now)
        _deliver_until(box, post, start + timedelta(days=120))

        days: Counter[date] = Counter()
        for letter in post.sent:
            days[letter.at.astimezone(ZoneInfo(zones[0])).date()] += 1
            for each in (letter, *letter.others):
                wall = each.at.astimezone(ZoneInfo(each.timezone))
                minute = wall.hour * 60 + wall.minute
                opens = quiet_until
                # An hour asked for counts, be it a little before the end of the quiet hours.
                if wake_at is not None and quiet_until - wake_at <= 240:
                    opens = wake_at
                assert opens <= minute < quiet_from, (wall, when)
        assert max(days.values(), default=0) <= cap
        assert len(post.told()) == len(set(post.told()))
        states = box.states()
        assert sum(states.values()) == put
        assert set(states) <= {"sent", "withdrawn"}
        assert states["sent"] == len(post.told())
        box.db.close()


def _deliver_until(box: Outbox, post: Post, until: datetime) -> None:
    for _ in range(2000):
        due = next_due_at(box.db)
        if due is None or due > until:
            return
        deliver_due(box.db, post, due, owner="a", manners=MANNERS)
    raise AssertionError("the outbox is never done")


@given(
    minutes=st.integers(0, 364 * 24 * 60),
    zone=st.sampled_from(ZONES),
    first=st.integers(0, 1439),
    last=st.integers(0, 1439),
    wake=st.none() | st.integers(0, 1439),
)
def test_the_first_welcome_instant_is_welcome_and_soon(minutes, zone, first, last, wake) -> None:
    at = datetime(2026, 1, 1, tzinfo=UTC) + timedelta(minutes=minutes)
    said = ChatWishes(1, first, last, wake)
    found = first_awake(at, zone, said)
    assert found >= at
    assert found - at <= timedelta(days=2)
    if is_quiet(at, zone, said):
        assert found > at
        assert not is_quiet(found, zone, said) or found == at + HOUR
    else:
        assert found == at


# -- one message


def test_several_yards_due_together_become_one_message(outbox: Outbox) -> None:
    post = Post()
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    assert deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS) == 1
    assert len(post.sent) == 1
    assert [each.yard_name for each in (post.sent[0], *post.sent[0].others)] == ["Yard 0", "Yard 1"]
    assert outbox.states() == {"sent": 2}


def test_two_things_about_one_yard_stay_two_messages(outbox: Outbox) -> None:
    post = Post()
    outbox.put(0, "seeding_possible", "a", NOON)
    outbox.put(0, "state", "b", NOON)
    assert deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS) == 2
    assert [letter.others for letter in post.sent] == [(), ()]


def test_a_message_for_several_yards_told_to_wait_goes_whole_later(outbox: Outbox) -> None:
    post = Post(TryLater("slow down", timedelta(minutes=5)))
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    assert outbox.states() == {"due": 2}
    deliver_due(outbox.db, post, NOON + timedelta(minutes=5), owner="a", manners=MANNERS)
    assert len(post.sent) == 1
    assert outbox.states() == {"sent": 2}


def test_a_yard_muted_while_a_message_waits_is_not_named_in_it(outbox: Outbox) -> None:
    post = Post(TryLater("slow down", timedelta(minutes=5)))
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    with outbox.db.writing() as work:
        yard_id = outbox.yards[1]
        assert wishes.mute(work, yard_id, "summer_annuals", 2026, person_id=1, now=NOON)
    deliver_due(outbox.db, post, NOON + timedelta(minutes=5), owner="a", manners=MANNERS)
    assert [letter.yard_name for letter in post.sent] == ["Yard 0"]
    assert post.sent[0].others == ()
    assert outbox.states() == {"sent": 1, "withdrawn": 1}


def test_a_yard_put_off_while_a_message_waits_is_told_once_and_later(outbox: Outbox) -> None:
    post = Post(TryLater("slow down", timedelta(minutes=5)))
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    with outbox.db.writing() as work:
        wishes.put_off(work, outbox.yards[1], 1, wishes.Snooze(NOON + 2 * DAY))
    _deliver_until(outbox, post, NOON + 10 * DAY)
    told = [[each.yard_name for each in (letter, *letter.others)] for letter in post.sent]
    assert told == [["Yard 0"], ["Yard 1"]]


def test_a_message_for_several_yards_that_may_have_arrived_is_repeated_once_together(
    outbox: Outbox,
) -> None:
    outbox.wish(daily_cap=1)
    post = Post(MayHaveArrived("no answer"))
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    _deliver_until(outbox, post, NOON + DAY)
    # The day's one message was counted when it first left.
    told = [(letter.at - NOON, letter.is_repeat, len(letter.others)) for letter in post.sent]
    assert told == [(timedelta(minutes=2), True, 1)]
    assert outbox.states() == {"sent": 2}


def test_what_may_have_arrived_is_not_repeated_once_it_is_no_longer_true(outbox: Outbox) -> None:
    post = Post(MayHaveArrived("no answer"))
    outbox.put(0, "window_open", "0", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    with outbox.db.writing() as work:
        alerts.drop_waiting(work, outbox.yards[0], "summer_annuals", ["window_open"])
    _deliver_until(outbox, post, NOON + DAY)
    assert post.sent == []
    assert outbox.states() == {"uncertain": 1}


def test_what_may_have_arrived_is_not_repeated_once_it_is_no_longer_useful(outbox: Outbox) -> None:
    post = Post(MayHaveArrived("no answer"))
    outbox.put(0, "water_in", "0", NOON)
    deliver_due(outbox.db, post, NOON, owner="a", manners=MANNERS)
    deliver_due(outbox.db, post, NOON + timedelta(hours=25), owner="a", manners=MANNERS)
    assert post.sent == []
    assert outbox.states() == {"uncertain": 1}


def test_a_crash_with_several_yards_claimed_tells_of_each(outbox: Outbox) -> None:
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", NOON)
    with outbox.db.writing() as work:
        due = outboxes.due_of_chats(work, [outbox.chat], NOON)[outbox.chat]
        ids = [alert.id for alert in due]
        assert len(outboxes.claim(work, [ids], owner="crashed", now=NOON)) == 2
        outboxes.call(work, ids, owner="crashed", now=NOON)
    post = Post()
    _deliver_until(outbox, post, NOON + DAY)
    assert [(letter.is_repeat, len(letter.others)) for letter in post.sent] == [(True, 1)]
    assert outbox.states() == {"sent": 2}


def test_without_manners_each_alert_goes_at_once_as_its_own_letter(outbox: Outbox) -> None:
    post = Post()
    night = datetime(2026, 3, 20, 8, tzinfo=UTC)
    for yard in (0, 1):
        outbox.put(yard, "window_open", f"{yard}", night)
    assert deliver_due(outbox.db, post, night, owner="a") == 2


def test_what_is_over_the_cap_goes_into_the_next_morning(outbox: Outbox) -> None:
    outbox.wish(daily_cap=2)
    post = Post()
    for number in range(5):
        outbox.put(0, "state", f"{number}", NOON)
    _deliver_until(outbox, post, NOON + 10 * DAY)
    days = [letter.at.astimezone(ZoneInfo("America/Chicago")).date() for letter in post.sent]
    assert [len(list(group)) for _, group in itertools.groupby(days)] == [2, 2, 1]


def test_of_many_yards_what_needs_nothing_done_goes_with_what_does(tmp_path: Path) -> None:
    box = Outbox(tmp_path, ("America/Chicago",) * 5, NOON)
    post = Post()
    box.put(0, "soil_warming", "a", NOON)
    box.put(1, "watered_in", "b", NOON)
    assert deliver_due(box.db, post, NOON, owner="a", manners=MANNERS) == 0
    box.put(2, "soil_warming", "c", NOON + DAY)
    # After three days for the other towns all of it goes together.
    _deliver_until(box, post, NOON + 4 * DAY)
    told = [[each.yard_name for each in (letter, *letter.others)] for letter in post.sent]
    assert told == [["Yard 0", "Yard 1", "Yard 2"]]
    box.put(3, "watered_in", "d", NOON + 5 * DAY)
    # The next call of a morning, at 7 there.
    box.put(4, "window_open", "e", NOON + 6 * DAY - 3 * HOUR)
    _deliver_until(box, post, NOON + 30 * DAY)
    told = [{each.yard_name for each in (letter, *letter.others)} for letter in post.sent]
    assert told[1:] == [{"Yard 3", "Yard 4"}]
    box.db.close()
