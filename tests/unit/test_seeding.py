from __future__ import annotations

from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from jobs.agronomy.ingredients import ingredients
from jobs.agronomy.seeding import (
    Treated,
    collides,
    earliest_seeding,
    may_go_on_at_seeding,
)
from jobs.agronomy.units import to_si

LB_ACRE = to_si(1.0, "lb/acre")
SPRING = date(2025, 4, 1)


def dithiopyr(day: date = SPRING, label_days: int | None = None) -> Treated:
    return Treated(day, "dithiopyr", 0.5 * LB_ACRE, "granule", label_days)


def prodiamine(lb_acre: float, day: date = SPRING) -> Treated:
    return Treated(day, "prodiamine", lb_acre * LB_ACRE, "granule")


@pytest.mark.parametrize(
    ("treated", "months"),
    [
        # Section 2.3 of our reference sheet (from memory / common practice): 4 months dithiopyr,
        # 6 prodiamine, 12 at its top rate, 4 for others.
        (dithiopyr(), 4),
        (prodiamine(0.65), 6),
        (prodiamine(0.75), 6),
        (prodiamine(1.5), 12),
        (Treated(SPRING, "pendimethalin", 1.5 * LB_ACRE, "spray"), 4),
        (Treated(SPRING, "something_else", 1.0, "spray"), 4),
    ],
)
def test_long_defaults_where_the_label_is_silent(treated: Treated, months: int) -> None:
    answer = earliest_seeding([treated], "tall_fescue")
    assert answer.earliest is not None
    assert (answer.earliest - SPRING).days == pytest.approx(months * 30.44, abs=1)
    assert answer.waits[0].basis == "default"


def test_the_labels_interval_wins_even_where_it_is_shorter() -> None:
    answer = earliest_seeding([dithiopyr(label_days=90)], "kentucky_bluegrass")
    assert answer.earliest == SPRING + timedelta(days=90)
    assert answer.waits[0].basis == "label"


def test_a_label_shorter_than_a_published_trial_is_warned_about() -> None:
    # Keeley & Zhou 2005, Weed Technol. 19(1) (published): 6 weeks broadcast, 11 weeks slit after
    # 0.56 kg/ha of dithiopyr.
    treated = dithiopyr(label_days=60)
    broadcast = earliest_seeding([treated], "kentucky_bluegrass", "broadcast").waits[0]
    slit = earliest_seeding([treated], "kentucky_bluegrass", "slit").waits[0]
    assert not broadcast.is_shorter_than_a_trial
    assert slit.is_shorter_than_a_trial
    assert max(trial.weeks for trial in slit.trials) == 11


@pytest.mark.parametrize(("form", "weeks"), [("spray", {2.0}), ("granule", {8.0, 12.0})])
def test_a_granule_holds_seed_back_longer_than_a_spray_in_trials(
    form: str, weeks: set[float]
) -> None:
    # Johnson & Bundschuh 1993, Weed Technol. (published): tall fescue, 2 weeks after the liquid,
    # 8-12 after the granule.
    treated = Treated(SPRING, "dithiopyr", 0.56, form)  # type: ignore[arg-type]
    [wait] = earliest_seeding([treated], "tall_fescue").waits
    assert {trial.weeks for trial in wait.trials} == weeks


@given(
    st.sampled_from([key for key, item in ingredients().items() if item.kind == "pre"]),
    st.sampled_from(["tall_fescue", "kentucky_bluegrass", "creeping_bentgrass", "bermudagrass"]),
    st.sampled_from(["broadcast", "slit"]),
    st.sampled_from(["granule", "spray"]),
)
def test_a_default_is_never_shorter_than_any_published_trial(
    key: str, species: str, method: str, form: str
) -> None:
    treated = Treated(SPRING, key, 0.5, form)  # type: ignore[arg-type]
    [wait] = earliest_seeding([treated], species, method).waits  # type: ignore[arg-type]
    assert wait.basis == "at_seeding" or not wait.is_shorter_than_a_trial


def test_a_split_counts_from_its_last_half_and_by_its_sum() -> None:
    second = SPRING + timedelta(days=56)
    answer = earliest_seeding([prodiamine(0.375), prodiamine(0.375, second)], "tall_fescue")
    assert answer.earliest == second + timedelta(days=183)
    # Two halves of a top rate wait as long as the whole.
    answer = earliest_seeding([prodiamine(0.65), prodiamine(0.65, second)], "tall_fescue")
    assert answer.earliest == second + timedelta(days=365)
    assert answer.waits[0].treated.day == second


def test_an_unknown_rate_waits_the_longest() -> None:
    treated = Treated(SPRING, "prodiamine", None, "granule")
    answer = earliest_seeding([treated], "tall_fescue")
    assert answer.earliest == SPRING + timedelta(days=365)


@pytest.mark.parametrize(
    ("ingredient", "species", "may"),
    [
        # Purdue 2011 (published): siduron at seeding of cool-season grasses and zoysia.
        ("siduron", "kentucky_bluegrass", True),
        ("siduron", "zoysiagrass", True),
        ("siduron", "bermudagrass", False),
        # Delaware Extension 2008 (published): mesotrione at seeding; fine fescue is harmed.
        ("mesotrione", "tall_fescue", True),
        ("mesotrione", "fine_fescue", False),
        ("prodiamine", "tall_fescue", False),
    ],
)
def test_ingredients_that_may_go_on_with_the_seed(ingredient: str, species: str, may: bool) -> None:
    assert may_go_on_at_seeding(ingredient, species) is may
    treated = Treated(SPRING, ingredient, 0.2, "spray")
    answer = earliest_seeding([treated], species)
    assert answer.allows(SPRING) is may


def test_nothing_put_down_holds_nothing_back() -> None:
    answer = earliest_seeding([], "tall_fescue")
    assert answer.earliest is None
    assert answer.allows(SPRING)


def test_the_pool_lawn_in_september_after_a_spring_and_an_early_summer_half() -> None:
    halves = [dithiopyr(date(2025, 3, 28)), dithiopyr(date(2025, 5, 23))]
    answer = earliest_seeding(halves, "tall_fescue")
    assert not answer.allows(date(2025, 9, 5))
    assert answer.earliest == date(2025, 9, 22)


def test_plans_that_collide_are_seen_beforehand() -> None:
    seeding_day = date(2025, 9, 5)
    assert collides(dithiopyr(date(2025, 8, 20)), seeding_day, "tall_fescue")
    assert collides(dithiopyr(date(2025, 9, 20)), seeding_day, "tall_fescue")
    assert not collides(dithiopyr(date(2025, 4, 1)), seeding_day, "tall_fescue")
    siduron = Treated(date(2025, 9, 6), "siduron", 5.0, "spray")
    assert not collides(siduron, seeding_day, "tall_fescue")
