"""The outbox on a real database file: claimed once, noted before and after, never told twice."""

import itertools
import threading
from datetime import UTC, datetime, timedelta

import pytest

from jobs import tidy
from jobs.deliver import deliver_due, next_due_at
from jobs.messenger import ChatMoved, Letter, MayHaveArrived, NobodyThere, TryLater
from jobs.schedule import Job, advance
from storage import alerts, chats, models, outbox, yards
from storage.database import Database, NaiveInstant
from storage.outbox_state import state, troubled
from tests.made_once import database_at
from tests.made_yard import alerts_of
from tests.service.messenger_standin import Post

T0 = datetime(2026, 3, 20, 14, tzinfo=UTC)
MINUTE = timedelta(minutes=1)


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "outbox.sqlite3")
    yield base
    base.close()


def put(db: Database, *kinds: str, due_at: datetime = T0) -> None:
    with db.writing() as work:
        chat = chats.chat_at(work, "test", "7", title="", units="us", now=T0)
        person = chats.person_at(work, "test", "7", name="", now=T0)
        mine = yards.of_chat(work, chat.id)
        yard = (
            mine[0]
            if mine
            else yards.add(
                work,
                chat_id=chat.id,
                person_id=person.id,
                name="Yard 1",
                lat=39.0,
                lon=-96.0,
                timezone="America/Chicago",
                lead_days=21,
                split_days=56,
                rounds=2,
                now=T0,
            )
        )
        for kind in kinds:
            alerts.add(
                work,
                chat_id=chat.id,
                yard_id=yard.id,
                target="summer_annuals",
                year=2026,
                kind=kind,
                episode_key=f"1:summer_annuals:2026:{kind}",
                facts={},
                due_at=due_at,
                now=T0,
            )


def states(db: Database) -> dict[str, str]:
    with db.reading() as work:
        return {alert.kind: alert.state for alert in alerts_of(work, 1)}


def attempts(db: Database) -> list[tuple[int, str | None]]:
    with db.reading() as work:
        rows = work.query(models.AlertAttempt).order_by(models.AlertAttempt.id)
        return [(row.number, row.outcome) for row in rows]


def test_what_is_due_is_sent_once(db: Database) -> None:
    put(db, "window_open", "act_now")
    post = Post()
    assert deliver_due(db, post, T0, owner="a") == 2
    assert deliver_due(db, post, T0 + MINUTE, owner="a") == 0
    assert [letter.kind for letter in post.sent] == ["window_open", "act_now"]


def test_an_episode_is_put_into_the_outbox_once(db: Database) -> None:
    put(db, "window_open")
    put(db, "window_open")
    post = Post()
    deliver_due(db, post, T0, owner="a")
    assert len(post.sent) == 1


def test_nothing_leaves_before_its_time(db: Database) -> None:
    put(db, "window_open", due_at=T0 + MINUTE)
    post = Post()
    deliver_due(db, post, T0, owner="a")
    assert post.sent == []


def test_told_to_wait_it_waits_and_is_sent_then(db: Database) -> None:
    put(db, "window_open")
    post = Post(TryLater("slow down", timedelta(minutes=5)))
    deliver_due(db, post, T0, owner="a")
    deliver_due(db, post, T0 + 4 * MINUTE, owner="a")
    assert post.sent == []
    deliver_due(db, post, T0 + 5 * MINUTE, owner="a")
    assert len(post.sent) == 1
    assert attempts(db) == [(1, "later"), (2, "sent")]


def test_what_may_have_arrived_is_repeated_once_and_says_so(db: Database) -> None:
    put(db, "window_open")
    post = Post(MayHaveArrived("no answer"))
    deliver_due(db, post, T0, owner="a")
    deliver_due(db, post, T0 + MINUTE, owner="a")
    assert post.sent == []
    deliver_due(db, post, T0 + 2 * MINUTE, owner="a")
    deliver_due(db, post, T0 + timedelta(days=1), owner="a")
    assert [letter.is_repeat for letter in post.sent] == [True]
    assert states(db) == {"window_open": "sent"}
    assert attempts(db) == [(1, "uncertain"), (2, "sent")]


def test_a_repeat_that_may_have_arrived_too_is_left_at_that_and_listed(
    db: Database, caplog
) -> None:
    put(db, "window_open")
    post = Post(MayHaveArrived("no answer"), MayHaveArrived("again none"))
    deliver_due(db, post, T0, owner="a")
    for days in range(1, 5):
        deliver_due(db, post, T0 + timedelta(hours=days), owner="a")
    assert post.sent == []
    assert states(db) == {"window_open": "uncertain"}
    assert "and its repeat may not have arrived: again none" in caplog.text
    with db.reading() as work:
        listed = [(alert.kind, why) for alert, why in troubled(work, T0 - MINUTE, 9)]
        assert listed == [("window_open", "again none")]
        assert state(work, T0).doubts == 1


def test_a_repeat_goes_on_waiting_while_it_surely_cannot_leave(db: Database) -> None:
    put(db, "window_open")
    slow = [TryLater("no line", timedelta(minutes=5)) for _ in range(20)]
    post = Post(MayHaveArrived("no answer"), *slow)
    for minutes in range(0, 600, 10):
        deliver_due(db, post, T0 + minutes * MINUTE, owner="a")
    assert [letter.is_repeat for letter in post.sent] == [True]


def test_pauses_grow_while_it_surely_cannot_leave(db: Database) -> None:
    put(db, "window_open")
    tried = []

    class Closed:
        def send(self, letter: Letter) -> None:
            tried.append(letter.at)
            raise TryLater("no line", timedelta(0))

    for seconds in range(0, 7200, 5):
        deliver_due(db, Closed(), T0 + timedelta(seconds=seconds), owner="a")
    pauses = [(b - a).total_seconds() for a, b in itertools.pairwise(tried)]
    assert pauses[:6] == [10, 20, 40, 80, 160, 320]
    assert max(pauses) == 900
    assert states(db) == {"window_open": "due"}


def test_what_cannot_be_sent_for_a_week_by_our_own_mistake_is_a_dead_letter(
    db: Database, caplog
) -> None:
    put(db, "window_open")
    post = Post(*[ValueError("refused as wrong")] * 99)
    for hours in range(24 * 10):
        deliver_due(db, post, T0 + timedelta(hours=hours), owner="a")
    assert states(db) == {"window_open": "dead"}
    assert "cannot be sent" in caplog.text


def test_a_chat_that_is_gone_falls_silent_and_keeps_its_data(db: Database) -> None:
    put(db, "window_open", "act_now")
    deliver_due(db, Post(NobodyThere("blocked")), T0, owner="a")
    assert states(db) == {"window_open": "dead", "act_now": "dead"}
    with db.reading() as work:
        assert not chats.chat(work, 1).is_active
        assert yards.yard(work, 1) is not None


def test_a_moved_chat_gets_its_letter_at_the_new_address(db: Database) -> None:
    put(db, "window_open")
    post = Post(ChatMoved("99"))
    deliver_due(db, post, T0, owner="a")
    assert [letter.address for letter in post.sent] == ["99"]


def crash(db: Database, *, is_called: bool) -> None:
    """Claim what is due, and die before the call or after it began."""
    with db.writing() as work:
        ids = [alert.id for alert in outbox.due(work, T0, 9)]
        assert outbox.claim(work, [ids], owner="crashed", now=T0) == set(ids)
        if is_called:
            assert outbox.call(work, ids, owner="crashed", now=T0) == set(ids)


def test_a_crash_between_claim_and_call_loses_nothing_and_repeats_nothing(db: Database) -> None:
    put(db, "window_open")
    crash(db, is_called=False)
    post = Post()
    deliver_due(db, post, T0 + MINUTE, owner="b")
    assert states(db) == {"window_open": "sending"}
    deliver_due(db, post, T0 + outbox.LEASE + MINUTE, owner="b")
    assert states(db) == {"window_open": "sent"}
    assert [letter.is_repeat for letter in post.sent] == [False]


def test_a_crash_between_call_and_outcome_is_repeated_once_and_says_so(db: Database) -> None:
    put(db, "window_open")
    crash(db, is_called=True)
    post = Post()
    deliver_due(db, post, T0 + outbox.LEASE + MINUTE, owner="b")
    assert states(db) == {"window_open": "due"}
    assert post.sent == []
    deliver_due(db, post, T0 + outbox.LEASE + 3 * MINUTE, owner="b")
    assert [letter.is_repeat for letter in post.sent] == [True]
    assert attempts(db) == [(1, "uncertain"), (2, "sent")]


def test_a_clock_that_hops_over_a_lost_lease_goes_on(db: Database) -> None:
    put(db, "window_open")
    crash(db, is_called=True)
    job = Job(
        "deliver",
        MINUTE,
        lambda now: deliver_due(db, Post(), now, owner="b"),
        lambda: next_due_at(db),
    )
    reached = []
    advance([job], T0, T0 + timedelta(days=1), reached.append)
    assert states(db) == {"window_open": "sent"}
    assert reached[-1] == T0 + timedelta(days=1)


def test_the_urgent_goes_before_what_is_good_to_know(db: Database) -> None:
    put(db, "season_over", "soil_warming", due_at=T0 - timedelta(hours=2))
    put(db, "window_open", due_at=T0 - MINUTE)
    put(db, "act_now")
    with db.reading() as work:
        found = [alert.kind for alert in outbox.due(work, T0, 3)]
    assert found == ["act_now", "window_open", "season_over"]


def test_an_error_of_ours_puts_one_alert_off_and_not_the_others(db: Database, caplog) -> None:
    put(db, "window_open", "act_now")
    post = Post(ValueError("no such sentence"))
    assert deliver_due(db, post, T0, owner="a") == 1
    assert "could not be put into words" in caplog.text
    assert states(db) == {"window_open": "due", "act_now": "sent"}


def test_rivals_never_send_the_same_alert(db: Database) -> None:
    kinds = [f"kind_{number}" for number in range(40)]
    put(db, *kinds)
    posts = [Post(), Post()]
    threads = [
        threading.Thread(target=deliver_due, args=(db, post, T0), kwargs={"owner": str(number)})
        for number, post in enumerate(posts)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    sent = [letter.kind for post in posts for letter in post.sent]
    assert sorted(sent) == sorted(kinds)


def test_what_was_told_goes_after_as_long_as_answers_and_what_waits_stays(db: Database) -> None:
    put(db, "window_open")
    deliver_due(db, Post(), T0, owner="w")
    put(db, "act_now", due_at=T0 + timedelta(days=500))
    due = tidy.next_due_at(db)
    assert due is not None
    assert tidy.tidy(db, T0 + tidy.KEPT_FOR) == 0
    assert tidy.tidy(db, due) == 1
    assert (states(db), attempts(db)) == ({"act_now": "due"}, [])
    assert tidy.next_due_at(db) is None


def test_a_naive_instant_is_refused(db: Database) -> None:
    with pytest.raises(Exception, match="no time zone") as caught:
        put(db, "window_open", due_at=datetime(2026, 3, 20))  # noqa: DTZ001
    assert isinstance(caught.value.__cause__ or caught.value, NaiveInstant)
