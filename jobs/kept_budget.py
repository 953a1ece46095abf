"""A budget of calls that is kept: it outlives a restart, and several programs share it."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime

from jobs.sources.budget import CallBudget, Limit
from storage import calls as calls_made
from storage.database import Database, Work


class KeptBudget:
    """What may still be spent on a service by all programs on a database together.

    Parameters
    ----------
    db
        Where it is kept.
    service
        Its name.
    limits
        All of them hold.
    """

    def __init__(self, db: Database, service: str, limits: Sequence[Limit]) -> None:
        self._db = db
        self._service = service
        self._limits = limits
        self._longest = max(limit.within for limit in limits)

    def left(self, now: datetime, share: float = 1.0) -> float:
        """Return how many calls may be made at ``now``, of a share of every limit."""
        return self._as_kept(now).left(now, share)

    def wait_s(self, cost: float, now: datetime) -> float:
        """Return for how many seconds a cost must wait; infinity where it never fits."""
        return self._as_kept(now).wait_s(cost, now)

    def spend(self, cost: float, now: datetime) -> None:
        """Take a cost from the budget before the call is made, as `CallBudget.spend`."""
        with self._db.writing() as work:
            shut_until = calls_made.lock(work, self._service)
            self._filled(work, shut_until, now).spend(cost, now)
            calls_made.note(work, self._service, now, cost, now - self._longest)

    def shut(self, until: datetime) -> None:
        """Spend nothing before that instant: the service told us to wait."""
        with self._db.writing() as work:
            calls_made.shut(work, self._service, until)

    def _as_kept(self, now: datetime) -> CallBudget:
        with self._db.reading() as work:
            return self._filled(work, calls_made.shut_until(work, self._service), now)

    def _filled(self, work: Work, shut_until: datetime | None, now: datetime) -> CallBudget:
        budget = CallBudget(
            self._limits, calls_made.since(work, self._service, now - self._longest)
        )
        if shut_until is not None:
            budget.shut(shut_until)
        return budget
