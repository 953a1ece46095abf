"""Two sources as one: the second is asked where the first fails, and their soils are compared."""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta

import numpy as np

from jobs.agronomy.series import DailySeries
from jobs.sources.base import Cell, CellRequest, CellWeather, Source, SourceTrouble

#: Soils further apart than this on the same days are told apart to people [°C].
DISAGREEMENT_C = 3.0
#: Days in common looked at, the newest; fewer than the least are no comparison.
_MOST_IN_COMMON = 5
_FEWEST_IN_COMMON = 2
#: A cell that wants more than this much history waits for the first source.
_LONG_HISTORY = timedelta(days=60)
#: Days kept of each answer, and answers kept, for comparing.
_KEPT_DAYS = timedelta(days=10)
_KEPT = 5_000


class FallbackSource:
    """The first source, and the second where the first gives trouble.

    What comes from either is stored under the first one's name: it is one history. A cell that
    still wants its years of history is not served by the second source, because what it lacks
    would never be asked for again.

    Whatever was answered is compared with the other source's last answer about the same days;
    ``disagrees_by_c`` tells of more than `DISAGREEMENT_C`.

    Parameters
    ----------
    first, second
        The sources.
    compares
        Whether the second is asked also where the first answers, once a day and cell, to compare.
    """

    can_move_clock = False

    def __init__(self, first: Source, second: Source, *, compares: bool = False) -> None:
        self._first = first
        self._second = second
        self._compares = compares
        self._said: OrderedDict[tuple[str, Cell], tuple[date, DailySeries]] = OrderedDict()
        self.name = first.name
        self.cheap_days = first.cheap_days
        self.is_invented = first.is_invented or second.is_invented
        self.credit = " ".join(c for c in (first.credit, second.credit) if c) or None

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Return weather, or the first source's trouble where the second has trouble too."""
        answers = dict(self._first.fetch(requests, now))
        today = now.date()
        failed = [
            request
            for request in requests
            if isinstance(answers[request.cell], SourceTrouble)
            and today - request.since <= _LONG_HISTORY
        ]
        compared = [
            request
            for request in requests
            if self._compares
            and isinstance(answers[request.cell], CellWeather)
            and self._said_on(self._second, request.cell) != today
        ]
        others = self._second.fetch([*failed, *compared], now) if failed or compared else {}
        for cell, other in others.items():
            if isinstance(other, CellWeather):
                self._note(self._second, cell, other, today)
        for cell, answer in answers.items():
            if isinstance(answer, CellWeather):
                self._note(self._first, cell, answer, today)
                answers[cell] = self._told_apart(cell, answer, self._second)
        for request in failed:
            other = others[request.cell]
            if isinstance(other, CellWeather):
                answers[request.cell] = self._told_apart(request.cell, other, self._first)
        return answers

    def _said_on(self, source: Source, cell: Cell) -> date | None:
        said = self._said.get((source.name, cell))
        return said[0] if said else None

    def _note(self, source: Source, cell: Cell, weather: CellWeather, today: date) -> None:
        self._said[source.name, cell] = (today, _lately(weather))
        self._said.move_to_end((source.name, cell))
        while len(self._said) > _KEPT:
            self._said.popitem(last=False)

    def _told_apart(self, cell: Cell, weather: CellWeather, other: Source) -> CellWeather:
        said = self._said.get((other.name, cell))
        gap_c = None if said is None else difference_c(_lately(weather), said[1])
        if gap_c is None or abs(gap_c) <= DISAGREEMENT_C:
            return weather
        return replace(weather, disagrees_by_c=round(gap_c, 1))


def difference_c(one: DailySeries, other: DailySeries) -> float | None:
    """Return how much warmer the one soil is on the newest days in common, or None without any."""
    first = max(one.first_day, other.first_day)
    last = min(one.last_day, other.last_day)
    if first > last:
        return None
    gaps = one.on(first, last).soil5_c - other.on(first, last).soil5_c
    gaps = gaps[~np.isnan(gaps)][-_MOST_IN_COMMON:]
    return float(np.mean(gaps)) if len(gaps) >= _FEWEST_IN_COMMON else None


def _lately(weather: CellWeather) -> DailySeries:
    """Return the newest known days and the forecast's first ones, for comparing."""
    known = weather.known
    days = known.between(known.last_day - _KEPT_DAYS, known.last_day)
    if weather.forecast is None:
        return days
    ahead = weather.forecast.until(weather.forecast.first_day + timedelta(days=2))
    return days.overlaid(ahead)
