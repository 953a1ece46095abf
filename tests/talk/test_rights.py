"""Who may do what: generated from the table of acts, over every role of a share."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Final, get_args

import pytest
from sqlalchemy import func, select

from bot.hearing.acts import ACTS, Needs
from bot.hearing.heard import ActHeard, Heard
from bot.talk import routing
from bot.talk.commands import COMMANDS
from bot.talk.table import BEFOREHAND, HANDLERS
from bot.talk.taps import _TAPS
from storage import models
from tests.talk.harness import Talker, text_of
from tests.talk.test_crews import MAY_NOT, joined

#: Rights, from none to the owner's own; a role allows its own and those before it.
RIGHTS: Final = get_args(Needs)
#: Acts by which somebody leaves: they would end the walk over the others.
LEAVING: Final = frozenset({"erase", "remove_yard"})


@pytest.fixture
def owner(tmp_path) -> Talker:
    talker = Talker(tmp_path, start=datetime(2026, 3, 30, 14, tzinfo=UTC))
    talker.settle_in()
    talker.wait("P2D")
    return talker


def test_every_act_has_a_row_a_handler_and_a_right() -> None:
    assert set(HANDLERS) == set(ACTS)
    assert {act.needs for act in ACTS.values()} <= set(RIGHTS)
    assert set(BEFOREHAND) == {name for name, act in ACTS.items() if act.is_for_anywhere}


def test_every_command_and_every_button_stands_for_an_act() -> None:
    said = {act for each in COMMANDS for act in (each.act, each.act_with_more) if act}
    assert said | {tap.act for tap in _TAPS.values()} <= set(ACTS)


@pytest.mark.parametrize("role", ["see", "confirm", "change"])
def test_a_share_goes_as_far_as_the_acts_row_says(
    owner: Talker, monkeypatch: pytest.MonkeyPatch, role: str
) -> None:
    helper = joined(owner, role)
    for name, act in ACTS.items():
        if name in LEAVING:
            continue
        heard = Heard((ActHeard(name, said=name),))
        monkeypatch.setattr(routing, "hear", lambda _text, _scene, heard=heard: heard)
        before = changes(owner)
        text = text_of(helper.say("anything at all"))
        is_allowed = RIGHTS.index(role) >= RIGHTS.index(act.needs)
        if is_allowed:
            assert "wrong on my side" not in text, (name, text)
        else:
            assert MAY_NOT in text, (name, text)
            assert changes(owner) == before, name


def changes(talker: Talker) -> int:
    with talker.db.reading() as work:
        return work.scalar(select(func.count()).select_from(models.JournalRow)) or 0
