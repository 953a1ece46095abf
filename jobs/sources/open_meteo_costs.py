"""What Open-Meteo gives away, and what a request counts as."""

from __future__ import annotations

from datetime import timedelta

from jobs.sources.budget import Limit

#: What the service gives away (under 600 a minute, 5,000 an hour, 10,000 a day, 300,000 a month),
#: less 2 % for calls that we count otherwise than they do.
FREE_LIMITS = (
    Limit(588, timedelta(minutes=1)),
    Limit(4_900, timedelta(hours=1)),
    Limit(9_800, timedelta(days=1)),
    Limit(294_000, timedelta(days=31)),
)


def cost(places: int, variables: int, days: int) -> float:
    """Return what a request counts as in calls.

    Each place is a call; over 10 variables or a week of days cost in proportion. The service's
    two published examples (15 variables 1.5, four weeks 3.0) lie on these lines.
    """
    return places * max(1.0, variables / 10) * max(1.0, days * 3.0 / 28)
