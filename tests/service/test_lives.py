"""Two hundred random lives: nothing printed passes the label on any piece of ground."""

from __future__ import annotations

from hypothesis import HealthCheck, settings

from tests.random_lives import Life

TestLives = Life.TestCase
TestLives.settings = settings(
    max_examples=200,
    stateful_step_count=14,
    derandomize=True,
    deadline=None,
    suppress_health_check=list(HealthCheck),
)
