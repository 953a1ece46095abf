from jobs.agronomy.timing import Pace, pace_of


# An inference, no source: a long-lasting ingredient may go down early at little cost,
# short-lived ones want to be close, dithiopyr stays useful until seedlings have 2-3 leaves.
def test_a_long_lasting_ingredient_opens_the_window_earlier() -> None:
    assert pace_of(["prodiamine"]) == Pace(lead_shift_days=7)


def test_a_short_lived_ingredient_opens_it_later() -> None:
    assert pace_of(["siduron"]).lead_shift_days == -5
    assert pace_of(["pendimethalin"]).lead_shift_days == -5


def test_one_that_works_on_seedlings_stays_useful_longer() -> None:
    assert pace_of(["dithiopyr"]) == Pace(grace_days=14)


def test_an_ingredient_we_do_not_know_moves_nothing() -> None:
    assert pace_of([]) == pace_of(["something new"]) == Pace()
