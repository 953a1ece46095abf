"""Crews: invited once, held to a role, and out at once, old buttons included."""

from __future__ import annotations

import re
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

import pytest

from bot.terminal import Session
from bot.turn import Turn
from jobs.sources.base import SourceUnreachable
from jobs.sources.simulated import SimulatedSource
from storage import applications, sightings, wishes, yards
from tests.talk.harness import Talker, labels_of, lived_from, text_of

START = datetime(2026, 3, 30, 14, tzinfo=UTC)
MAY_NOT = "is shared with you to"


@lived_from(START)
def owner(talker: Talker) -> None:
    talker.settle_in()
    talker.wait("P2D")


def another(talker: Talker, user: int = 2) -> Session:
    return Session(talker.machine, talker.messenger, talker.clock, user)


def ask(session: Session, text: str) -> str:
    return text_of(session.say(text))


def invited(talker: Talker, role: str) -> str:
    """Make an invitation and return what its taker types."""
    talker.say("/crew")
    return re.search(r"/start join_\w+", talker.tap(f"Invite to {role}"))[0]  # type: ignore[index]


def joined(talker: Talker, role: str, user: int = 2) -> Session:
    session = another(talker, user)
    assert "is now shared with you" in ask(session, invited(talker, role))
    return session


def test_an_invitation_works_once(owner: Talker) -> None:
    said = invited(owner, "confirm")
    # A deep link carries at most 64 of these characters (the platform's documentation).
    assert re.fullmatch(r"/start [A-Za-z0-9_-]{1,64}", said)
    assert "Yard 1 is now shared with you. You may see and confirm" in ask(another(owner), said)
    assert "is used up" in ask(another(owner, 3), said)
    assert "don't know that invitation" in ask(another(owner, 3), "/start join_abcdefghjkmn")


def test_an_invitation_runs_out(owner: Talker) -> None:
    said = invited(owner, "see")
    owner.wait("P4D")
    assert "has expired" in ask(another(owner), said)


def test_ones_own_invitation_is_not_used_up(owner: Talker) -> None:
    said = invited(owner, "see")
    assert "is already yours" in owner.ask(said)
    assert "is now shared with you" in ask(another(owner), said)


def test_who_may_see_sees_and_changes_nothing(owner: Talker) -> None:
    helper = joined(owner, "see")
    assert "Yard 1: window open" in ask(helper, "/yard")
    for text in ("/soil", "/amounts", "/day", "/zones", "why not Sunday?", "/today"):
        assert MAY_NOT not in ask(helper, text)
    for text in (
        "applied",
        "/applied strip",
        "watered 0.5 in",
        "front 10x10 ft",
        "remove strip",
        "/product",
        "not this season",
        "free Saturday mornings",
        "snooze 3 days",
        "soil 52",
    ):
        assert MAY_NOT in ask(helper, text), text
    for action in ("apply:all:1", "yard:lead:1", "yard:name:1", "mute:1", "water:done:1"):
        helper._actions.add(action)
        assert MAY_NOT in text_of(helper.tap(action)), action
    with owner.db.reading() as work:
        assert applications.of_yard(work, 1) == []


def test_who_may_confirm_confirms_and_it_is_recorded_who_did(owner: Talker) -> None:
    helper = joined(owner, "confirm")
    assert "Recorded for Yard 1" in ask(helper, "applied")
    assert MAY_NOT in ask(helper, "front 10x10 ft")
    with owner.db.reading() as work:
        done = applications.of_yard(work, 1)
    assert [each.person_id for each in done] == [2]
    assert "Last: pool lawn, strip, south bed, today, confirmed by" in owner.ask("/crew")
    assert "1. Yard 1: done" in ask(helper, "/today")
    assert "Undo this?" in ask(helper, "/undo")
    assert "Undone: the application on" in text_of(helper.tap("Undo it"))


def test_a_helper_takes_back_only_their_own(owner: Talker) -> None:
    helper = joined(owner, "confirm")
    owner.say("applied")
    assert "nothing of yours to undo" in ask(helper, "/undo")
    with owner.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def test_who_may_change_changes(owner: Talker) -> None:
    helper = joined(owner, "change")
    assert MAY_NOT not in ask(helper, "side 10x10 ft")
    helper.say("keep")
    assert "side" in owner.ask("/zones")
    # Nobody is silenced for a season by another, and who shares a yard its own people say.
    assert "to see, confirm and change, not for this" in ask(helper, "not this season")
    assert "Leave Yard 1" in labels_of(helper.say("/crew"))
    helper._actions.add("crew:invite:1:see")
    assert MAY_NOT in text_of(helper.tap("crew:invite:1:see"))


def test_removing_takes_effect_at_once_also_for_old_buttons(owner: Talker) -> None:
    helper = joined(owner, "confirm")
    ask(helper, "applied")
    undo = next(action for action in helper._actions if action.startswith("undo:"))
    open_one = invited(owner, "confirm")
    remove = next(label for label in labels_of(owner.say("/crew")) if "Remove" in label)
    assert "no longer has access to Yard 1, starting now" in owner.tap(remove)
    for action in (undo, "soil:1", "apply:all:1", "round:tick:1:0", "crew:leave:1"):
        helper._actions.add(action)
        said = text_of(helper.tap(action))
        assert "too old" in said or "to undo" in said, action
    assert "First I need the location" in ask(helper, "/soil")
    # An invitation somebody still holds would bring them back.
    assert "has expired" in ask(helper, open_one)
    with owner.db.reading() as work:
        assert len(applications.of_yard(work, 1)) == 1


def test_leaving_takes_effect_at_once(owner: Talker) -> None:
    helper = joined(owner, "change")
    ask(helper, "/crew")
    assert "You left Yard 1" in text_of(helper.tap("Leave Yard 1"))
    assert "First I need the location" in ask(helper, "/yard")
    assert "is yours alone" in owner.ask("/crew")


def heard(talker: Talker) -> list[tuple[str, str]]:
    """Return a list that fills with the address and kind of every letter sent from now on."""
    letters: list[tuple[str, str]] = []
    send = talker.messenger.send

    def hear(letter):
        letters.append((letter.address, letter.kind))
        send(letter)

    talker.messenger.send = hear  # type: ignore[method-assign]
    return letters


@pytest.mark.parametrize("who", ["1", "2"])
def test_what_is_put_off_comes_again_to_the_chat_that_put_it_off(tmp_path, who: str) -> None:
    owner = Talker(tmp_path, start=START)
    owner.settle_in()
    helper = joined(owner, "change")
    letters = heard(owner)
    owner.wait("P2D")
    assert sorted(letters) == [("1", "window_open"), ("2", "window_open")]
    letters.clear()
    asked = owner.session if who == "1" else helper
    assert "I'll remind you" in ask(asked, "snooze 3 days")
    owner.wait("P4D")
    assert [letter for letter in letters if letter[1] == "window_open"] == [(who, "window_open")]


def test_who_came_after_the_call_and_puts_it_off_hears_it_then(tmp_path) -> None:
    owner = Talker(tmp_path, start=START)
    owner.settle_in()
    owner.wait("P2D")
    helper = joined(owner, "change")
    letters = heard(owner)
    ask(helper, "snooze 3 days")
    owner.wait("P4D")
    assert [letter for letter in letters if letter[1] == "window_open"] == [("2", "window_open")]


def test_a_call_that_still_waits_for_a_chat_is_not_told_there_twice(tmp_path) -> None:
    owner = Talker(tmp_path, start=START)
    owner.settle_in()
    helper = joined(owner, "change")
    with owner.db.writing() as work:
        wishes.keep_chat(work, replace(wishes.of_chat(work, 2), quiet_until=11 * 60))
    letters = heard(owner)
    while ("1", "window_open") not in letters:
        owner.wait("PT1H")
    assert ("2", "window_open") not in letters
    letters.clear()
    ask(helper, "snooze 3 days")
    owner.wait("P5D")
    assert [letter for letter in letters if letter[1] == "window_open"] == [("2", "window_open")]


class Failing(SimulatedSource):
    """The invented climate, out of reach where a test wants it."""

    is_down = False

    def fetch(self, requests, now):
        if self.is_down:
            return {request.cell: SourceUnreachable("down") for request in requests}
        return super().fetch(requests, now)


def test_all_who_heard_of_old_data_hear_that_it_is_fresh_again(tmp_path) -> None:
    source = Failing(0)
    owner = Talker(tmp_path, start=START, source=source)
    owner.settle_in()
    joined(owner, "confirm")
    owner.wait("P2D")
    letters = heard(owner)
    source.is_down = True
    owner.wait("P5D")
    told = [("1", "data_stale"), ("2", "data_stale")]
    assert sorted(letter for letter in letters if letter[1] == "data_stale") == told
    letters.clear()
    source.is_down = False
    owner.wait("P4D")
    assert sorted(letter for letter in letters if letter[1] == "data_stale") == told


def test_those_who_work_on_a_yard_hear_its_calls_and_those_who_left_do_not(tmp_path) -> None:
    owner = Talker(tmp_path, start=START)
    owner.settle_in()
    joined(owner, "confirm", 2)
    joined(owner, "see", 3)
    left = joined(owner, "confirm", 4)
    ask(left, "/crew")
    left.tap("Leave Yard 1")
    letters = heard(owner)
    owner.wait("P2D")
    assert sorted(letters) == [("1", "window_open"), ("2", "window_open")]


def test_a_yard_shared_stays_one_among_ones_own(owner: Talker) -> None:
    helper = another(owner)
    helper.location(40.0, -96.0)
    ask(helper, "front 10x10 ft")
    ask(helper, invited(owner, "confirm"))
    # Having just joined, that is the one being talked about; one's own is a tap away.
    assert "pool lawn" in ask(helper, "/zones")
    helper.say("/yard")
    helper.tap("More")
    assert "Go to Yard 1" in labels_of(helper.tap("All yards"))


def test_in_a_group_chat_everybody_is_the_crew(owner: Talker) -> None:
    handle = owner.machine.conversation.handle

    def say(person: str, text: str) -> str:
        key = f"{person}:{text}"
        turn = Turn(
            key=key,
            platform="test",
            chat="-100",
            person=person,
            at=owner.session.now,
            person_name=person.title(),
            text=text,
            is_group=True,
        )
        return "\n".join(reply.text for reply in handle(turn))

    say("ann", "39.18, -96.57")
    say("ann", "front 60x40 ft")
    assert "Recorded" in say("ben", "applied")
    assert "confirmed by Ben" in say("ann", "/crew")
    assert "everyone in the group shares its yards" in say("ann", "/crew@bot")


def test_who_may_confirm_says_where_weeds_were_seen_but_sets_no_lead(owner: Talker) -> None:
    owner.say("applied")
    helper = joined(owner, "confirm")
    helper._actions.add("seen:some:1")
    assert "Where?" in text_of(helper.tap("seen:some:1"))
    # The bare name of a zone answers; nothing else of theirs is let through by it.
    assert MAY_NOT in ask(helper, "remove strip")
    said = helper.say("strip")
    assert "crabgrass on strip" in text_of(said)
    assert not [label for label in labels_of(said) if label.startswith("How early")]
    assert "crabgrass on pool lawn" in ask(helper, "crabgrass on the pool lawn")
    # What comes along with it is asked about, and nothing is taken out.
    assert "Which zone is that" in ask(helper, "crabgrass on the pool lawn, remove strip")
    with owner.db.reading() as work:
        assert "strip" in {zone.name for zone in yards.zones(work, 1)}
    helper._actions.add("seen:lead:1:60")
    assert MAY_NOT in text_of(helper.tap("seen:lead:1:60"))
    with owner.db.reading() as work:
        yard = yards.yard(work, 1)
        assert [each.zone_name for each in sightings.of_yard(work, 1)] == ["strip", "pool lawn"]
    assert yard is not None
    assert yard.lead_days != 60


def test_who_may_only_see_says_nothing_of_weeds(owner: Talker) -> None:
    helper = joined(owner, "see")
    assert MAY_NOT in ask(helper, "crabgrass on the strip")
    with owner.db.reading() as work:
        assert sightings.of_yard(work, 1) == []


def test_a_photo_is_kept_only_for_who_may_change(owner: Talker, tmp_path: Path) -> None:
    photo = tmp_path / "paper.jpg"
    photo.write_bytes(b"\xff\xd8 a made-up photo")
    for user, role in ((2, "see"), (3, "confirm")):
        assert MAY_NOT in text_of(joined(owner, role, user).photo(str(photo)))
    assert "No photo saved" in owner.ask("my photo")
    assert "Saved your photo with Yard 1" in text_of(joined(owner, "change", 4).photo(str(photo)))


def test_who_may_only_see_is_not_asked_before_buying(owner: Talker) -> None:
    helper = joined(owner, "see")
    for text in ("/buy", "buy"):
        ask(helper, text)
        with owner.db.reading() as work:
            yard = yards.yard(work, 1)
        assert yard is not None
        assert yard.screening is None
    assert "lb" in ask(helper, "/buy")
    assert "seed" in owner.ask("/buy")


def test_an_invitation_to_all_yards_holds_for_those_to_come_and_ends_in_all_at_once(
    tmp_path: Path,
) -> None:
    talker = Talker(tmp_path, start=START)
    talker.say("Birch St 12, Wahoo NE, front 60x40\nWalnut 66, Wahoo NE, back 30x20")
    talker.say("yes")
    talker.say("/crew")
    said = re.search(r"/start join_\w+", talker.tap("To all 2 yards, to confirm"))
    helper = another(talker)
    assert "2 yards are shared with you now" in ask(helper, said[0])  # type: ignore[index]
    talker.say("new yard Elm 4, Wahoo NE, front 60x40")
    assert "Your yards (3" in ask(helper, "yards")
    label = next(each for each in labels_of(talker.say("/crew")) if each.startswith("Remove"))
    talker.tap(label)
    assert "Your yards" not in ask(helper, "yards")


def test_a_share_in_one_yard_gives_no_product_to_the_others(tmp_path: Path) -> None:
    talker = Talker(tmp_path, start=START)
    talker.say("Birch St 12, Wahoo NE, front 60x40\nWalnut 66, Wahoo NE, back 30x20")
    talker.say("yes")
    talker.say("prodiamine 0.38% granule, 3.2 lb per 1000 sq ft, max 6.4 lb per 1000 a year")
    helper = joined(talker, "change")
    _forged(helper, "product:all:1")
    _forged(helper, "same:grass:1")
    with talker.db.reading() as work:
        assert [yard.product_id for yard in yards.of_chat(work, 1)] == [1, None]
    confirming = joined(talker, "confirm", 3)
    assert MAY_NOT in ask(confirming, "record customer B. Other, wind 5 mph")


def _forged(session: Session, action: str) -> None:
    session._actions.add(action)
    session.tap(action)
