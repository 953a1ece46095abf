"""A process killed without a warning at named points: nothing is lost or doubled unmarked.

The long run, at random and on both databases, is ``deploy/check crash``.
"""

from __future__ import annotations

from pathlib import Path

from tests.bench.crash_runs import run


def test_killed_at_named_points_nothing_is_lost_doubled_unmarked_or_half_kept(
    tmp_path: Path,
) -> None:
    url = f"sqlite:///{tmp_path / 'bot.sqlite3'}"
    kills = ["turn kept:1", "turn written:2", "update taken:2", "attempt noted:1", "letters sent:1"]
    assert run(tmp_path, url, kills) == []
