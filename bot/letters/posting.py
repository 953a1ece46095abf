"""What somebody says their state asks for beside an application: reminded of, never checked."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from bot.saying.catalogue import say


def rule_lines(signs: bool, hours: int | None) -> list[str]:
    """Return what is to be done before an application by what their state asks for."""
    lines = [] if hours is None else [say("notices.rule_hours", hours=hours)]
    return [*lines, say("notices.rule_signs")] if signs else lines


def call_lines(facts: Mapping[str, Any]) -> list[str]:
    """Return the same for an alert, from its facts."""
    rule = facts.get("posting")
    if rule is None:
        return []
    words = [] if rule["hours"] is None else [say("notices.rule_words")]
    return [*rule_lines(bool(rule["signs"]), rule["hours"]), *words]
