from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st
from sqlalchemy import func, select

from jobs.kept_budget import KeptBudget
from jobs.sources.base import QuotaSpent
from jobs.sources.budget import CallBudget, Limit
from storage import models
from tests.made_once import database_at

NOON = datetime(2026, 3, 1, 12, tzinfo=UTC)
MINUTE, HOUR, DAY = timedelta(minutes=1), timedelta(hours=1), timedelta(days=1)


def after(seconds):
    return NOON + timedelta(seconds=seconds)


def test_calls_come_back_when_their_window_has_passed():
    budget = CallBudget([Limit(10, MINUTE)])
    budget.spend(4, after(0))
    budget.spend(5.5, after(20))
    assert budget.left(after(20)) == pytest.approx(0.5)
    assert budget.left(after(59)) == pytest.approx(0.5)
    assert budget.left(after(60)) == pytest.approx(4.5)
    assert budget.left(after(80)) == 10


def test_what_does_not_fit_is_refused_with_the_wait_and_costs_nothing():
    budget = CallBudget([Limit(10, MINUTE)])
    budget.spend(4, after(0))
    budget.spend(5, after(20))
    with pytest.raises(QuotaSpent) as told:
        budget.spend(3, after(30))
    assert told.value.retry_after_s == 30
    assert budget.left(after(30)) == 1
    assert budget.wait_s(3, after(30)) == 30
    assert budget.wait_s(6, after(30)) == 50
    budget.spend(3, after(60))


def test_the_tightest_window_decides():
    budget = CallBudget([Limit(10, MINUTE), Limit(12, HOUR)])
    budget.spend(10, after(0))
    assert budget.left(after(70)) == 2
    assert budget.wait_s(5, after(70)) == 3600 - 70


def test_a_cost_larger_than_a_limit_never_fits():
    budget = CallBudget([Limit(10, MINUTE)])
    assert budget.wait_s(11, NOON) == float("inf")
    with pytest.raises(QuotaSpent) as told:
        budget.spend(11, NOON)
    assert told.value.retry_after_s is None


def test_told_to_wait_nothing_is_spent_before():
    budget = CallBudget([Limit(10, MINUTE)])
    budget.shut(after(300))
    budget.shut(after(100))
    assert budget.left(after(299)) == 0
    assert budget.wait_s(1, after(200)) == 100
    with pytest.raises(QuotaSpent):
        budget.spend(1, after(299))
    budget.spend(1, after(300))


@pytest.mark.parametrize("cost", [0, -1, float("nan")])
def test_a_call_costs_something(cost):
    with pytest.raises(ValueError, match="costs something"):
        CallBudget([Limit(10, MINUTE)]).spend(cost, NOON)


steps = st.lists(st.tuples(st.floats(0, 4000), st.floats(0.1, 40)), min_size=1, max_size=60)


@given(steps)
def test_no_span_of_time_ever_holds_more_than_its_limit(steps):
    limits = [Limit(50, MINUTE), Limit(120, HOUR), Limit(300, DAY)]
    budget = CallBudget(limits)
    now, made = NOON, []
    for pause_s, cost in steps:
        now += timedelta(seconds=pause_s)
        left = budget.left(now)
        try:
            budget.spend(cost, now)
        except QuotaSpent as told:
            assert cost > left - 1e-6
            again = now + timedelta(seconds=told.retry_after_s)
            assert budget.wait_s(cost, again) < 1e-3
        else:
            assert cost <= left + 1e-6
            made.append((now, cost))
    for limit in limits:
        for end, _ in made:
            within = sum(cost for at, cost in made if end - limit.within < at <= end)
            assert within <= limit.calls + 1e-6


def test_a_clock_set_back_frees_nothing():
    budget = CallBudget([Limit(10, MINUTE)])
    budget.spend(6, after(0))
    budget.spend(4, after(-3600))
    assert budget.left(after(-3600)) == 0
    assert budget.left(after(60)) == 10


@pytest.fixture
def db(tmp_path):
    base = database_at(tmp_path / "calls.sqlite3")
    yield base
    base.close()


def test_what_is_spent_outlives_a_restart_and_is_shared_by_all_programs(db):
    limits = [Limit(10, MINUTE), Limit(12, HOUR)]
    one, other = KeptBudget(db, "weather", limits), KeptBudget(db, "weather", limits)
    one.spend(6, after(0))
    other.spend(3, after(20))
    again = KeptBudget(db, "weather", limits)
    assert again.left(after(20)) == pytest.approx(1)
    with pytest.raises(QuotaSpent) as told:
        again.spend(2, after(30))
    assert told.value.retry_after_s == 30
    assert KeptBudget(db, "maps", limits).left(after(30)) == 10
    # The hour's window is the tighter one by now.
    assert one.left(after(90)) == pytest.approx(3)
    assert one.wait_s(5, after(90)) == 3600 - 90


def test_told_to_wait_every_program_waits(db):
    one, other = (KeptBudget(db, "weather", [Limit(10, MINUTE)]) for _ in range(2))
    one.shut(after(300))
    other.shut(after(100))
    assert other.left(after(299)) == 0
    assert other.left(after(300)) == 10


def test_what_no_window_holds_any_more_is_forgotten(db):
    budget = KeptBudget(db, "weather", [Limit(10, MINUTE)])
    for minute in range(5):
        budget.spend(1, after(70 * minute))
    with db.reading() as work:
        assert work.scalar(select(func.count()).select_from(models.CallMade)) == 1


def test_what_can_wait_leaves_the_rest_of_every_limit():
    budget = CallBudget([Limit(10, MINUTE), Limit(20, HOUR)])
    budget.spend(6, after(0))
    assert budget.left(after(1), 0.8) == pytest.approx(2)
    budget.spend(2, after(2))
    assert budget.left(after(3), 0.8) == 0
    assert budget.left(after(3)) == pytest.approx(2)
