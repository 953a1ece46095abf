from datetime import UTC, date, datetime, timedelta

import numpy as np
import pytest

from jobs.agronomy.series import DailySeries
from jobs.sources.base import Cell, CellRequest, CellWeather, SourceUnreachable
from jobs.sources.fallback import FallbackSource, difference_c

NOW = datetime(2026, 4, 2, 14, tzinfo=UTC)
HERE = Cell(3910, -9660)
CST = timedelta(hours=-6)


def days(soil_c, first=date(2026, 3, 28), count=5):
    return DailySeries(first, *(np.full(count, float(soil_c)) for _ in range(5)))


class Scripted:
    """A source that answers with one soil temperature, or with trouble."""

    is_invented = False
    can_move_clock = False
    cheap_days = None

    def __init__(self, name, soil_c, credit=None):
        self.name, self.soil_c, self.credit = name, soil_c, credit
        self.asked = []

    def fetch(self, requests, now):
        self.asked.append([request.cell for request in requests])
        if self.soil_c is None:
            return {request.cell: SourceUnreachable("gone") for request in requests}
        weather = CellWeather(days(self.soil_c), None, None, now, place=self.name)
        return {request.cell: weather for request in requests}


def ask(since=date(2026, 3, 25)):
    return CellRequest(HERE, CST, since)


def fetched(source, now=NOW, **kwargs):
    return source.fetch([ask(**kwargs)], now)[HERE]


def test_the_second_is_asked_only_where_the_first_fails():
    first, second = Scripted("one", 10.0, "Credit."), Scripted("two", 11.0)
    source = FallbackSource(first, second)
    assert fetched(source).place == "one"
    assert second.asked == []
    first.soil_c = None
    assert fetched(source).place == "two"
    assert second.asked == [[HERE]]
    assert (source.name, source.credit) == ("one", "Credit.")


def test_where_both_fail_the_first_ones_trouble_is_told():
    first, second = Scripted("one", None), Scripted("two", None)
    answer = fetched(FallbackSource(first, second))
    assert isinstance(answer, SourceUnreachable)


def test_a_cell_that_wants_years_waits_for_the_first_source():
    first, second = Scripted("one", None), Scripted("two", 11.0)
    answer = fetched(FallbackSource(first, second), since=date(2016, 1, 1))
    assert isinstance(answer, SourceUnreachable)
    assert second.asked == []


@pytest.mark.parametrize(("second_c", "told"), [(12.9, None), (13.5, 3.5), (6.0, -4.0)])
def test_sources_that_disagree_by_over_three_degrees_are_told_apart(second_c, told):
    first, second = Scripted("one", 10.0), Scripted("two", second_c)
    source = FallbackSource(first, second)
    assert fetched(source).disagrees_by_c is None
    first.soil_c = None
    assert fetched(source).disagrees_by_c == told
    first.soil_c = 10.0
    back = fetched(source)
    assert back.place == "one"
    assert back.disagrees_by_c == (None if told is None else -told)


def test_comparing_asks_the_second_once_a_day():
    first, second = Scripted("one", 10.0), Scripted("two", 15.0)
    source = FallbackSource(first, second, compares=True)
    assert fetched(source).disagrees_by_c == -5.0
    assert fetched(source, now=NOW + timedelta(hours=5)).disagrees_by_c == -5.0
    assert len(second.asked) == 1
    fetched(source, now=NOW + timedelta(days=1))
    assert len(second.asked) == 2


def test_days_apart_or_too_few_are_no_comparison():
    assert difference_c(days(10), days(20, first=date(2026, 5, 1))) is None
    assert difference_c(days(10), days(20, first=date(2026, 4, 1))) is None
    assert difference_c(days(10), days(20, first=date(2026, 3, 30))) == -10
