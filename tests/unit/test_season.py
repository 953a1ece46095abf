import re
from collections import Counter
from datetime import date, timedelta

from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy import season as machine
from jobs.agronomy.season import (
    ARROWS,
    FALSE_START,
    PLANS,
    Confirmed,
    Facts,
    Kind,
    Plan,
    Season,
    State,
    Target,
    retreat_due_on,
    rounds_done,
    step,
)

PLAN = Plan()
FRONT, BACK = 1, 2
BOTH = frozenset({FRONT, BACK})
MARCH = date(2026, 3, 20)


def waiting(*told: str) -> Season:
    return Season(2026, State.WAITING, date(2026, 1, 1), frozenset(told))


def in_state(state: State, *told: str) -> Season:
    return Season(2026, state, date(2026, 3, 1), frozenset(told))


def facts(days: int | None, *confirmed: Confirmed, zones: frozenset[int] = BOTH) -> Facts:
    return Facts(days_to_go=days, zones=zones, confirmed=confirmed)


def test_waits_while_emergence_is_far_off() -> None:
    assert step(waiting(), facts(60), PLAN, MARCH).season == waiting()


def test_tells_once_that_the_soil_is_warming() -> None:
    first = step(waiting(), facts(38), PLAN, MARCH)
    assert first.alerts == (Kind.SOIL_WARMING,)
    assert step(first.season, facts(37), PLAN, MARCH).alerts == ()


def test_the_window_opens_when_the_median_comes_down_to_the_lead() -> None:
    assert step(waiting(), facts(22), PLAN, MARCH).season.state is State.WAITING
    opened = step(waiting(), facts(21), PLAN, MARCH)
    assert opened.season.state is State.WINDOW_OPEN
    assert opened.season.since == MARCH
    assert opened.alerts == (Kind.WINDOW_OPEN,)


def test_a_window_opened_late_says_it_all_in_one_message() -> None:
    opened = step(waiting(), facts(9), PLAN, MARCH)
    assert opened.alerts == (Kind.WINDOW_OPEN,)
    assert step(opened.season, facts(8), PLAN, MARCH).alerts == ()


def test_last_call_comes_once() -> None:
    first = step(in_state(State.WINDOW_OPEN, Kind.WINDOW_OPEN), facts(12), PLAN, MARCH)
    assert first.alerts == (Kind.ACT_NOW,)
    assert step(first.season, facts(11), PLAN, MARCH).alerts == ()


def test_a_few_cold_days_do_not_close_the_window() -> None:
    opened = in_state(State.WINDOW_OPEN, Kind.WINDOW_OPEN)
    assert step(opened, facts(30), PLAN, MARCH).season.state is State.WINDOW_OPEN


def test_a_false_start_closes_the_window_with_a_word_and_opening_again_is_told() -> None:
    opened = in_state(State.WINDOW_OPEN, Kind.SOIL_WARMING, Kind.WINDOW_OPEN)
    closed = step(opened, facts(33), PLAN, MARCH)
    assert closed.season.state is State.WAITING
    assert (closed.alerts, closed.why) == ((Kind.SOIL_WARMING,), FALSE_START)
    assert step(closed.season, facts(33), PLAN, MARCH).alerts == ()
    again = step(closed.season, facts(20), PLAN, MARCH + timedelta(days=14))
    assert again.season.state is State.WINDOW_OPEN
    assert again.alerts == (Kind.WINDOW_OPEN,)


def test_a_second_false_start_in_a_year_is_not_told() -> None:
    opened = in_state(State.WINDOW_OPEN, Kind.SOIL_WARMING, Kind.WINDOW_OPEN, FALSE_START)
    closed = step(opened, facts(33), PLAN, MARCH)
    assert (closed.season.state, closed.alerts) == (State.WAITING, ())
    again = step(closed.season, facts(20), PLAN, MARCH + timedelta(days=14))
    assert (again.season.state, again.alerts) == (State.WINDOW_OPEN, ())


def test_missing_data_does_not_close_an_open_window() -> None:
    opened = in_state(State.WINDOW_OPEN, Kind.WINDOW_OPEN)
    assert step(opened, facts(None), PLAN, MARCH).season == opened


def test_emergence_closes_the_window_once() -> None:
    missed = step(in_state(State.WINDOW_OPEN), facts(0), PLAN, MARCH)
    assert missed.season.state is State.WAITING
    assert missed.alerts == (Kind.WINDOW_MISSED,)
    assert step(missed.season, facts(-1), PLAN, MARCH).alerts == ()


def test_a_yard_registered_after_emergence_is_not_told_of_a_missed_window() -> None:
    late = step(waiting(), facts(-20), PLAN, date(2026, 6, 1))
    assert late.alerts == ()
    assert late.season.state is State.WAITING
    assert step(late.season, facts(10), PLAN, date(2026, 6, 2)).season.state is State.WAITING


def test_every_zone_confirmed_is_applied() -> None:
    done = Confirmed(MARCH, BOTH)
    assert step(in_state(State.WINDOW_OPEN), facts(15, done), PLAN, MARCH).season.state is (
        State.APPLIED
    )


def test_part_of_the_zones_leaves_the_window_open() -> None:
    done = Confirmed(MARCH, frozenset({FRONT}))
    assert step(in_state(State.WINDOW_OPEN), facts(15, done), PLAN, MARCH).season.state is (
        State.WINDOW_OPEN
    )


def test_zones_left_out_do_not_hold_back_the_second_half_of_the_others() -> None:
    done = Confirmed(MARCH, frozenset({FRONT}))
    missed = step(in_state(State.WINDOW_OPEN), facts(0, done), PLAN, MARCH)
    assert missed.season.state is State.APPLIED
    assert missed.alerts == (Kind.WINDOW_MISSED,)
    due = step(missed.season, facts(-56, done), PLAN, MARCH + timedelta(days=56))
    assert due.season.state is State.RETREAT_DUE


# Two half rates about 8 weeks apart: Warren, Yelverton & Gannon 2008, SWSS Proc. 61:119.
def test_second_half_falls_due_eight_weeks_after_the_first() -> None:
    done = Confirmed(MARCH, BOTH)
    applied = in_state(State.APPLIED)
    day = MARCH + timedelta(days=55)
    assert step(applied, facts(-30, done), PLAN, day).season.state is State.APPLIED
    due = step(applied, facts(-31, done), PLAN, day + timedelta(days=1))
    assert due.season.state is State.RETREAT_DUE
    assert due.alerts == (Kind.SECOND_HALF_DUE,)


def test_the_interval_counts_from_the_last_zone_of_the_first_half() -> None:
    first = Confirmed(MARCH, frozenset({FRONT}))
    rest = Confirmed(MARCH + timedelta(days=4), frozenset({BACK}))
    assert retreat_due_on(facts(0, first, rest), PLAN) == MARCH + timedelta(days=60)


def test_no_second_half_in_a_single_round_or_where_the_label_is_used_up() -> None:
    done, day = Confirmed(MARCH, BOTH), MARCH + timedelta(days=70)
    applied = in_state(State.APPLIED)
    assert step(applied, facts(-40, done), Plan(rounds=1), day).season.state is State.APPLIED
    used_up = Facts(-40, BOTH, (done,), is_retreat_allowed=False)
    assert step(applied, used_up, PLAN, day).season.state is State.APPLIED


def test_the_second_half_confirmed_is_applied_again_and_stays_so() -> None:
    done = Confirmed(MARCH, BOTH)
    again = Confirmed(MARCH + timedelta(days=58), BOTH)
    day = MARCH + timedelta(days=58)
    after = step(in_state(State.RETREAT_DUE), facts(-30, done, again), PLAN, day)
    assert after.season.state is State.APPLIED
    later = step(after.season, facts(-60, done, again), PLAN, day + timedelta(days=60))
    assert later.season.state is State.APPLIED


def test_a_fading_barrier_calls_for_a_retreat() -> None:
    done = Confirmed(MARCH, BOTH)
    fading = Facts(-20, BOTH, (done,), barrier_ends_on=MARCH + timedelta(days=40))
    due = step(in_state(State.APPLIED), fading, Plan(rounds=1), MARCH + timedelta(days=40))
    assert due.season.state is State.RETREAT_DUE
    assert due.alerts == (Kind.BARRIER_FADING,)


def test_taking_back_the_application_reopens_the_window() -> None:
    back = step(in_state(State.APPLIED, Kind.WINDOW_OPEN), facts(15), PLAN, MARCH)
    assert back.season.state is State.WINDOW_OPEN
    assert back.alerts == ()


def test_the_season_ends_and_says_so() -> None:
    done = Confirmed(MARCH, BOTH)
    over = step(in_state(State.RETREAT_DUE), facts(-130, done), PLAN, date(2026, 9, 1))
    assert over.season.state is State.WAITING
    assert over.alerts == (Kind.SEASON_OVER,)
    assert step(over.season, facts(-131, done), PLAN, date(2026, 9, 2)).season == over.season


def test_a_new_year_forgets_what_was_told() -> None:
    old = in_state(State.WAITING, Kind.WINDOW_OPEN, Kind.WINDOW_MISSED)
    new = step(old, facts(None), PLAN, date(2027, 1, 1))
    assert new.season.year == 2027
    assert new.season.told == frozenset()


def test_each_target_has_its_own_plan() -> None:
    assert PLANS[Target.WINTER_ANNUALS].season_ends > PLANS[Target.SUMMER_ANNUALS].season_ends


def test_a_zone_applied_twice_counts_two_rounds_only_when_all_are() -> None:
    both = Confirmed(MARCH, BOTH)
    front = Confirmed(MARCH + timedelta(days=60), frozenset({FRONT}))
    assert rounds_done(facts(0, both, front)) == 1
    assert rounds_done(facts(0)) == 0
    assert rounds_done(facts(0, zones=frozenset())) == 0


def _walk() -> st.SearchStrategy[list[tuple[int | None, frozenset[int], bool]]]:
    day = st.tuples(
        st.one_of(st.none(), st.integers(-200, 120)),
        st.frozensets(st.sampled_from([FRONT, BACK])),
        st.booleans(),
    )
    return st.lists(day, min_size=1, max_size=60)


@given(_walk(), st.integers(1, 20))
def test_any_course_of_facts_keeps_to_the_drawing(walk, stride: int) -> None:
    season, today, confirmed = waiting(), date(2026, 1, 1), []
    told_by_year: Counter[tuple[int, str]] = Counter()
    for days, zones, is_allowed in walk:
        today += timedelta(days=stride)
        if zones:
            confirmed.append(Confirmed(today, zones))
        this_year = tuple(done for done in confirmed if done.on.year == today.year)
        known = Facts(days, BOTH, this_year, is_retreat_allowed=is_allowed)
        result = step(season, known, PLAN, today)
        moved = (season.state, result.season.state)
        is_new_year = today.year > season.year
        assert moved[0] is moved[1] or moved in ARROWS or is_new_year
        per_year = set(result.alerts) - {Kind.SECOND_HALF_DUE, Kind.BARRIER_FADING}
        calls = {Kind.SOIL_WARMING, Kind.WINDOW_OPEN, Kind.ACT_NOW}
        for kind in per_year:
            told_by_year[today.year, kind] += 1
            is_again = kind in calls and FALSE_START in result.season.told
            assert told_by_year[today.year, kind] <= 1 + is_again
        # The same facts again change nothing more than one further arrow, and settle.
        settled = result.season
        for _ in range(4):
            settled = step(settled, known, PLAN, today).season
        assert step(settled, known, PLAN, today).season == settled
        season = result.season


def test_the_drawing_names_every_state_and_every_alert_reason_is_worded() -> None:
    drawing = machine.__doc__ or ""
    for state in State:
        assert state in drawing
    assert len(ARROWS) == 10
    source_states = {pair[0] for pair in ARROWS}
    assert source_states == set(State)
    assert re.search(r"2nd half due, or barrier fading", drawing)
