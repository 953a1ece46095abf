"""A budget of calls to a service: so many a minute, hour, day and month, never exceeded.

Windows slide: at no moment do the calls of the last minute (hour, ...) exceed its limit, wherever
the service draws its own lines. Calls may cost fractions. Time enters as an argument.
"""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime, timedelta
from typing import Protocol

from jobs.sources.base import QuotaSpent

#: Amounts below this are rounding, not calls.
_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class Limit:
    """So many calls within any span of that length."""

    calls: float
    within: timedelta


@dataclass(slots=True)
class _Window:
    limit: Limit
    spent: float = 0.0
    calls: deque[tuple[datetime, float]] = field(default_factory=deque)

    def forget(self, now: datetime) -> None:
        while self.calls and self.calls[0][0] <= now - self.limit.within:
            self.spent -= self.calls.popleft()[1]
        if not self.calls:
            # Sums of fractions drift; an empty window is empty.
            self.spent = 0.0

    def note(self, cost: float, now: datetime) -> None:
        if self.calls and self.calls[-1][0] >= now:
            # One entry an instant; a clock set back counts as standing still.
            at, before = self.calls.pop()
            self.calls.append((at, before + cost))
        else:
            self.calls.append((now, cost))
        self.spent += cost

    def spent_at(self, now: datetime) -> float:
        """Return what of it still counts at ``now``."""
        counted = self.spent
        for at, calls in self.calls:
            if at > now - self.limit.within:
                return counted
            counted -= calls
        return 0.0

    def wait(self, cost: float, now: datetime) -> timedelta:
        """Return how long until the cost fits; it must be within the limit."""
        too_much = self.spent + cost - self.limit.calls
        for at, calls in self.calls:
            if too_much <= _SLACK:
                break
            too_much -= calls
            free_at = at + self.limit.within
            if too_much <= _SLACK:
                return max(timedelta(0), free_at - now)
        return timedelta(0)


class Budget(Protocol):
    """What may still be spent on a service."""

    def left(self, now: datetime, share: float = 1.0) -> float:
        """Return how many calls may be made, of a share of every limit."""
        ...

    def wait_s(self, cost: float, now: datetime) -> float:
        """Return for how many seconds a cost must wait; infinity where it never fits."""
        ...

    def spend(self, cost: float, now: datetime) -> None:
        """Take a cost from the budget, or raise `QuotaSpent`."""
        ...

    def shut(self, until: datetime) -> None:
        """Spend nothing before that instant."""
        ...


class CallBudget:
    """What may still be spent on a service by this process alone.

    Parameters
    ----------
    limits
        All of them hold.
    spent
        What was spent before.
    """

    def __init__(
        self, limits: Sequence[Limit], spent: Iterable[tuple[datetime, float]] = ()
    ) -> None:
        self._windows = [_Window(limit) for limit in limits]
        for at, cost in spent:
            for window in self._windows:
                window.note(cost, at)
        self._shut_until: datetime | None = None
        self._lock = threading.Lock()

    def left(self, now: datetime, share: float = 1.0) -> float:
        """Return how many calls may be made at ``now``, of a share of every limit."""
        with self._lock:
            if self._shut_until is not None and now < self._shut_until:
                return 0.0
            left = min(share * w.limit.calls - w.spent_at(now) for w in self._windows)
            return max(0.0, left)

    def wait_s(self, cost: float, now: datetime) -> float:
        """Return for how many seconds a cost must wait; infinity where it never fits."""
        with self._lock:
            return self._wait_s(cost, now)

    def spend(self, cost: float, now: datetime) -> None:
        """Take a cost from the budget before the call is made.

        Raises
        ------
        QuotaSpent
            When it does not fit; nothing is taken.
        ValueError
            For a cost that is not positive.
        """
        if not cost > 0:
            raise ValueError(f"a call costs something, not {cost}")
        with self._lock:
            wait_s = self._wait_s(cost, now)
            if wait_s > 0:
                known_wait_s = None if wait_s == float("inf") else wait_s
                raise QuotaSpent("our own budget of calls is spent for now", known_wait_s)
            for window in self._windows:
                window.forget(now)
                window.note(cost, now)

    def shut(self, until: datetime) -> None:
        """Spend nothing before that instant: the service told us to wait."""
        with self._lock:
            if self._shut_until is None or until > self._shut_until:
                self._shut_until = until

    def _wait_s(self, cost: float, now: datetime) -> float:
        if any(cost > window.limit.calls + _SLACK for window in self._windows):
            return float("inf")
        waits = [window.wait(cost, now) for window in self._windows]
        if self._shut_until is not None:
            waits.append(self._shut_until - now)
        return max(0.0, max(wait.total_seconds() for wait in waits))
