"""Who may do what: generated from the tables of acts, commands and taps, over every role.

Roles are those of a share, somebody whose share was ended, a stranger, and of a group an admin and
a member. What is shown is looked at as well as what is changed.
"""

from __future__ import annotations

import itertools
import re
import shutil
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, Final, get_args

import pytest
from sqlalchemy import event

from bot.dialogue import topics
from bot.hearing.acts import ACTS, FOR_ADMINS, Needs
from bot.hearing.heard import ActHeard, Heard
from bot.hearing.templates import act_lines
from bot.talk import routing
from bot.talk.commands import COMMANDS
from bot.talk.table import BEFOREHAND, HANDLERS
from bot.talk.taps import _OTHERS, _TAPS, act_of
from bot.turn import Reply, Turn
from tests.talk.harness import PRODUCT, Talker, text_of
from tests.talk.test_crews import MAY_NOT, invited, joined

#: Rights, from none to the owner's own; a role allows its own and those before it.
RIGHTS: Final = get_args(Needs)
#: Acts by which somebody leaves: they would end the walk over the others.
LEAVING: Final = frozenset({"erase", "remove_yard"})
#: Kept of whoever says something, whatever it is, and what follows from the time that passes.
OF_TALKING: Final = frozenset({"turn", "dialogue", "chat", "person", "unread_text", "journal"}) | {
    "calendar_entry"
}
WRITES: Final = re.compile(r'(?:INSERT INTO|UPDATE|DELETE FROM) "?(\w+)')
#: What stands in the yards of others, and must not be shown to who has no share in them.
SECRETS: Final = ("Hidden hollow", "orchard strip", "pool lawn", "3,833 sq ft")
GROUP: Final = "-100"
START: Final = datetime(2026, 3, 30, 14, tzinfo=UTC)

numbers = itertools.count()


@pytest.fixture(scope="module")
def begun(tmp_path_factory) -> Path:
    """Return a database in which somebody has a yard, its window open; made once."""
    folder = tmp_path_factory.mktemp("rights")
    talker = Talker(folder, start=START)
    talker.settle_in()
    talker.wait("P2D")
    talker.db.close()
    return folder / "talk.sqlite3"


@pytest.fixture
def owner(begun: Path, tmp_path: Path) -> Talker:
    shutil.copy(begun, tmp_path)
    return Talker(tmp_path, start=START + timedelta(days=2))


def with_another_yard(talker: Talker) -> None:
    """Give the owner one more yard, and turn back to the first."""
    talker.session.location(40.5, -97.0)
    talker.tap("New yard")
    talker.say("call it Hidden hollow")
    talker.say("orchard strip 20x20 ft")
    talker.say(PRODUCT)
    assert "Hidden hollow" in talker.ask("/yard")
    tapped(talker, "yard:go:1", person="1", chat="1")


def tapped(talker: Talker, action: str, *, person: str, chat: str | None = None, **more: Any):
    """Return the text of what a tap brings, whoever makes it and wherever the button came from."""
    chat = person if chat is None else chat
    key, platform = f"rights:{next(numbers)}", "terminal"
    turn = Turn(key, platform, chat, person, talker.session.now, tap=action, **more)
    return shown(talker.machine.conversation.handle(turn))


def told(talker: Talker, text: str, *, person: str, chat: str, **more: Any) -> str:
    key, platform = f"rights:{next(numbers)}", "terminal"
    turn = Turn(key, platform, chat, person, talker.session.now, text=text, **more)
    return shown(talker.machine.conversation.handle(turn))


def shown(replies: list[Reply]) -> str:
    """Return everything that replies show: words and buttons."""
    labels = [button.label for r in replies for row in r.buttons for button in row]
    return "\n".join([*(reply.text for reply in replies), *labels])


class Changes:
    """What is written into a database from now on, but for what talking itself leaves."""

    def __init__(self, talker: Talker) -> None:
        self.made: list[str] = []
        event.listen(talker.db.engine, "before_cursor_execute", self._note)

    def _note(self, _connection, _cursor, statement: str, *_: object) -> None:
        found = WRITES.match(statement)
        if found is not None and found[1] not in OF_TALKING:
            self.made.append(statement)


def test_every_act_has_a_row_a_handler_and_a_right() -> None:
    assert set(HANDLERS) == set(ACTS)
    assert {act.needs for act in ACTS.values()} <= set(RIGHTS)
    assert set(BEFOREHAND) == {name for name, act in ACTS.items() if act.is_for_anywhere}
    assert set(ACTS) >= FOR_ADMINS
    # Only what concerns the person alone changes something without a right.
    assert {act.name for act in ACTS.values() if act.changes and act.needs == "none"} == {
        "give_place",
        "add_yard",
        "join",
        "set_units",
        "set_language",
        "set_quiet",
        "stop_alerts",
        "erase",
        "confirm",
    }


def test_every_command_button_and_question_stands_for_an_act() -> None:
    said = {act for each in COMMANDS for act in (each.act, each.act_with_more) if act}
    asked = {each.act for each in topics.ASKED.values()}
    assert said | asked | {tap.act for tap in _TAPS.values()} | set(_OTHERS.values()) <= set(ACTS)


@pytest.mark.parametrize("role", ["see", "confirm", "change"])
def test_a_share_goes_as_far_as_the_acts_row_says(
    owner: Talker, monkeypatch: pytest.MonkeyPatch, role: str
) -> None:
    helper = joined(owner, role)
    changes = Changes(owner)
    for name, act in ACTS.items():
        if name in LEAVING:
            continue
        heard = Heard((ActHeard(name, said=name),))
        monkeypatch.setattr(routing, "hear", lambda _text, _scene, heard=heard: heard)
        changes.made.clear()
        text = text_of(helper.say("anything at all"))
        if RIGHTS.index(role) >= RIGHTS.index(act.needs):
            assert "wrong on my end" not in text, (name, text)
        else:
            assert MAY_NOT in text, (name, text)
            assert not changes.made, name


def actions(yard_id: int = 1) -> Iterator[tuple[str, str]]:
    """Yield every kind of button of a yard, with the act it stands for."""
    for (subject, verb), tap in _TAPS.items():
        # An empty verb stands for every other one of its subject.
        yield f"{subject}:{verb or 'any'}:{yard_id}:1", tap.act
        yield f"{subject}:{verb or 'any'}:{yard_id}", tap.act


@pytest.mark.parametrize("role", ["see", "confirm", "change"])
def test_a_button_goes_as_far_as_its_act(owner: Talker, role: str) -> None:
    joined(owner, role)
    changes = Changes(owner)
    for action, act in actions():
        assert act_of(action) == act
        if RIGHTS.index(role) >= RIGHTS.index(ACTS[act].needs):
            continue
        assert MAY_NOT in tapped(owner, action, person="2"), action
        assert not changes.made, action


#: Buttons that are about no one yard; with what of the owner's is tried, and by numbers guessed.
OF_NO_YARD: Final = (
    *(f"{verb}:{number}" for verb in ("undo", "redo", "undo:sure") for number in range(1, 12)),
    *(f"more:{turn}:0:{page}" for turn in range(1, 8) for page in (1, 2)),
    *("round:tick:1:0", "round:page:0", "round:left", "yard:at:0", "yard:new", "hear:undo"),
    *("crew:invite:1:change", "crew:remove:1:1", "crew:leave:1", "parting:keep"),
)


@pytest.mark.parametrize("who", ["stranger", "ex-member", "helper"])
def test_what_is_guessed_forged_or_old_shows_and_changes_nothing(owner: Talker, who: str) -> None:
    with_another_yard(owner)
    secrets, yard_id = SECRETS, 1
    if who == "ex-member":
        helper = joined(owner, "change")
        helper.say("applied")
        owner.say("/crew")
        tapped(owner, "crew:remove:1:1", person="1")
    elif who == "helper":
        # Shares the first yard; the second is none of theirs.
        joined(owner, "change")
        secrets, yard_id = SECRETS[:2], 2
    changes = Changes(owner)
    for action in (*(action for action, _ in actions(yard_id)), *OF_NO_YARD):
        if who == "helper" and (action in OF_NO_YARD or ":new" in action):
            continue
        text = tapped(owner, action, person="2")
        assert not [each for each in secrets if each in text], (action, text)
        assert not changes.made, action


LOOKS: Final = [act for act in ACTS.values() if not act.changes and act.name != "unknown"]


def test_who_may_only_see_changes_nothing_by_looking_and_sees_one_yard(owner: Talker) -> None:
    with_another_yard(owner)
    helper = joined(owner, "see")
    helper.say("hello")
    said = dict.fromkeys(act.name for act in LOOKS)
    lines: dict[str, list[str]] = {name: [] for name in said}
    for line in act_lines("en"):
        if line.acts[0] in lines and line.moment != "asked" and not line.is_further:
            lines[line.acts[0]].append(line.said)
    texts = [text for each in lines.values() for text in each[:: max(1, len(each) // 3)][:3]]
    texts += ["/buy all", "/buy all year", "/spreader swath 8 ft", "/spreader cup 6 oz"]
    texts += ["a level cup is 12 oz", "/today", "/export", "/crew", "/yard", "do I need it?"]
    texts += ["switch to Hidden hollow", "how is Hidden hollow doing", "who applied Hidden hollow"]
    changes = Changes(owner)
    for text in texts:
        answer = text_of(helper.say(text))
        assert not [each for each in SECRETS[:2] if each in answer.replace(text, "")], text
        assert not changes.made, text


def test_who_was_removed_takes_nothing_back_in_words(owner: Talker) -> None:
    helper = joined(owner, "confirm")
    helper.say("applied")
    owner.say("/crew")
    tapped(owner, "crew:remove:1:1", person="1")
    changes = Changes(owner)
    for text in ("/undo", "undo that", "/redo", "take it back", "yes"):
        assert "Undone" not in text_of(helper.say(text))
    assert not changes.made


def test_a_question_that_waits_is_answered_by_the_share_as_it_is_now(owner: Talker) -> None:
    helper = joined(owner, "change")
    helper.say("remove all zones")
    lesser = invited(owner, "see")
    assert "You may see" in text_of(helper.say(lesser))
    changes = Changes(owner)
    for text in ("yes", "zones:clear:1"):
        answer = text_of(helper.say(text))
        assert "Removed" not in answer
    assert MAY_NOT in tapped(owner, "zones:clear:1", person="2")
    assert not changes.made


def test_what_a_helper_puts_off_is_put_off_for_them_alone(owner: Talker) -> None:
    helper = joined(owner, "confirm")
    assert "I'll remind you" in text_of(helper.say("later 60 days"))
    text_of(helper.say("quiet 1 pm to 12 pm"))
    text_of(helper.say("at most 1 message a day"))
    heard = []
    for _ in range(30):
        heard += [said.alert for said in owner.wait("P1D") if said.alert]
    assert {"act_now", "window_missed"} & set(heard), heard


# --- in a group -----------------------------------------------------------------------------------


def in_group(talker: Talker, person: str, text: str, *, is_admin: bool) -> str:
    return told(talker, text, person=person, chat=GROUP, is_group=True, runs_chat=is_admin)


@pytest.fixture
def group(owner: Talker) -> Talker:
    in_group(owner, "8", "41.2, -96.1", is_admin=True)
    in_group(owner, "8", "meadow 60x40 ft", is_admin=True)
    return owner


def test_in_a_group_its_admins_alone_silence_it_or_let_its_yards_go(
    group: Talker, monkeypatch: pytest.MonkeyPatch
) -> None:
    changes = Changes(group)
    for name in sorted(FOR_ADMINS):
        heard = Heard((ActHeard(name, said=name),))
        monkeypatch.setattr(routing, "hear", lambda _text, _scene, heard=heard: heard)
        changes.made.clear()
        answer = in_group(group, "9", "anything", is_admin=False)
        assert "Only this group's admins" in answer, name
        assert not changes.made, name
        answer = in_group(group, "8", "anything", is_admin=True)
        assert "Only this group's admins" not in answer, name


def test_of_a_groups_yards_its_admins_alone_give_shares(group: Talker) -> None:
    member: dict[str, Any] = {"person": "9", "chat": GROUP, "is_group": True, "runs_chat": False}
    assert "Invite to" not in in_group(group, "9", "/crew", is_admin=False)
    for action in ("crew:invite:2:change", "crew:remove:2:1", "mute:2", "later:days:2:3"):
        assert "Only this group's admins" in tapped(group, action, **member), action
    # A button from the group is worth nothing elsewhere.
    answer = tapped(group, "crew:invite:2:change", person="9")
    assert "/start" not in answer
    admin = {**member, "person": "8", "runs_chat": True}
    assert "/start join_" in tapped(group, "crew:invite:2:see", **admin)


def test_members_of_a_group_do_its_work(group: Talker) -> None:
    assert "Recorded" in in_group(group, "9", "applied", is_admin=False)
    assert "hedge" in in_group(group, "9", "hedge 10x10 ft", is_admin=False)
