"""Undo in words: what was just said goes at once; what is older is asked first; and back again."""

import re
from pathlib import Path

import pytest

from bot.saying.checking import sentences
from storage import applications, products, seasons
from tests.made_yard import alerts_of
from tests.talk.harness import PLACE, Talker, labels_of, text_of
from tests.talk.test_crews import joined

ROOT = Path(__file__).parents[2]


@pytest.fixture
def settled(tmp_path) -> Talker:
    talker = Talker(tmp_path)
    talker.settle_in()
    return talker


def shelf(talker: Talker) -> float | None:
    with talker.db.reading() as work:
        return products.product(work, 1).shelf_si


def count_done(talker: Talker) -> int:
    with talker.db.reading() as work:
        return len(applications.of_yard(work, 1))


def test_what_was_just_said_goes_at_once_and_is_put_back_by_its_button(settled: Talker) -> None:
    settled.say("strip 5 by 90 ft")
    settled.tap("Keep")
    said = settled.say("/undo")
    assert "Undone: the size of strip. Yard 1 has" in text_of(said)
    assert labels_of(said) == ["Redo it"]
    assert "strip: 5 ft x 80 ft" in settled.ask("/zones")
    said = text_of(settled.session.tap("redo:" + _number(said)))
    assert "Redone: the size of strip" in said
    assert "strip: 5 ft x 90 ft" in settled.ask("/zones")


def _number(said) -> str:
    (action,) = [button.action for row in said[0].reply.buttons for button in row]
    return action.split(":")[1]


@pytest.mark.parametrize("between", ["/soil", "purple elephants dance", "yard 7"])
def test_what_is_older_than_the_last_turn_is_asked_first(settled: Talker, between: str) -> None:
    settled.say("strip 5 by 90 ft")
    settled.tap("Keep")
    settled.say(between)
    said = settled.say("/undo")
    assert "not the last thing you said: the size of strip, today" in text_of(said)
    assert labels_of(said) == ["Undo it", "Leave it"]
    assert "nothing was changed" in settled.tap("Leave it")
    settled.say("/soil")
    settled.say("/undo")
    assert "Undone: the size of strip" in settled.ask("yes")
    assert "strip: 5 ft x 80 ft" in settled.ask("/zones")


@pytest.mark.parametrize("words", ["redo", "/redo", "put it back"])
def test_redo_puts_back_what_was_taken_back_last(settled: Talker, words: str) -> None:
    settled.say("strip 5 by 90 ft")
    settled.tap("Keep")
    settled.say("/undo")
    assert "Redone: the size of strip" in settled.ask(words)
    assert "strip: 5 ft x 90 ft" in settled.ask("/zones")
    assert "nothing to redo" in settled.ask(words)


def test_redo_after_other_words_is_asked_first(settled: Talker) -> None:
    settled.say("strip 5 by 90 ft")
    settled.tap("Keep")
    settled.say("/undo")
    settled.say("/zones")
    assert "Redo this?" in settled.ask("redo")
    assert "Redone: the size of strip" in settled.tap("Redo it")


def test_each_undo_goes_one_change_further_back_and_each_redo_one_forward(settled: Talker) -> None:
    settled.say("strip 5 by 90 ft")
    settled.tap("Keep")
    settled.say("strip is tall fescue")
    assert "the change to strip" in settled.take_back()
    assert "the size of strip" in settled.take_back()
    assert "Redone: the size of strip" in settled.ask("redo")
    settled.say("redo")
    assert "Redone: the change to strip" in settled.tap("Redo it")


def test_an_application_taken_back_leaves_season_shelf_and_waiting_alerts_as_they_were(
    settled: Talker,
) -> None:
    settled.say("I have 100 lb")
    settled.until_alert("window_open")

    def state():
        with settled.db.reading() as work:
            found = seasons.season(work, 1, "summer_annuals")
            assert found is not None
            waiting = [(each.kind, each.state) for each in alerts_of(work, 1)]
            return found.state, found.since, sorted(found.told), waiting, shelf(settled)

    before = state()
    settled.say("applied")
    assert state() != before
    assert "Yard 1 now: window open" in settled.take_back()
    assert state() == before
    settled.say("redo")
    assert count_done(settled) == 1
    assert shelf(settled) != before[-1]


def test_undo_by_a_button_pressed_twice_says_that_it_is_done(settled: Talker) -> None:
    settled.until_alert("window_open")
    said = settled.say("applied")
    action = next(
        button.action for row in said[-1].reply.buttons for button in row if button.label == "Undo"
    )
    assert "Undone" in text_of(settled.session.tap(action))
    assert "already undone" in text_of(settled.session.tap(action))
    assert count_done(settled) == 0


def test_a_helper_hears_whose_the_newest_change_is(settled: Talker) -> None:
    helper = joined(settled, "confirm")
    settled.until_alert("window_open")
    settled.say("applied")
    said = text_of(helper.say("/undo"))
    assert "nothing of yours to undo. The latest change to Yard 1 is " in said
    assert "the application on" in said


def test_what_another_said_of_it_is_named_before_it_goes(settled: Talker) -> None:
    helper = joined(settled, "confirm")
    settled.until_alert("window_open")
    settled.say("applied")
    helper.say("watered 0.2 in")
    said = settled.say("/undo")
    assert "stays as it is: the watering, today (" in text_of(said)
    assert count_done(settled) == 1
    assert "Undone: the application" in settled.tap("Undo it")
    assert count_done(settled) == 0


def test_who_was_removed_takes_nothing_back_even_after_coming_again(settled: Talker) -> None:
    helper = joined(settled, "confirm")
    settled.until_alert("window_open")
    helper.say("applied")
    remove = next(label for label in labels_of(settled.say("/crew")) if "Remove" in label)
    settled.tap(remove)
    assert "nothing to undo" in text_of(helper.say("/undo"))
    assert count_done(settled) == 1


def test_several_changes_of_one_turn_go_together(settled: Talker) -> None:
    settled.say("strip 5 by 90 ft, ditch 10 by 10 ft")
    settled.tap("Keep")
    assert "Undone: the size of strip, ditch" in settled.take_back()
    assert "ditch" not in settled.ask("/zones")


def test_units_are_taken_back_like_anything_else(settled: Talker) -> None:
    settled.say("metric")
    assert "Undone: the units" in settled.take_back()
    assert "ft" in settled.ask("/zones")


def test_a_yard_taken_back_is_put_back_whole(settled: Talker) -> None:
    settled.say("new yard at 38.9,-96.5")
    said = settled.take_back()
    assert "Undone: the yard Yard 2" in said
    assert "I no longer watch Yard 2" in said
    assert "Redone: the yard Yard 2" in settled.tap("Redo it")
    assert "Yard 2" in settled.ask("yards")


def test_whatever_is_noted_has_its_words_and_nothing_else_has() -> None:
    # By a helper of their own.
    noted = {f"record.{each}" for each in ("edit", "redate", "amount", "area", "zones")}
    noted |= {f"zones.{verb}" for verb in ("keep", "remove", "rename", "split", "merge")}
    for room in ("jobs", "bot"):
        for path in (ROOT / room).rglob("*.py"):
            noted |= set(re.findall(r'journal\.note\([^"]*?"([a-z]+\.[a-z]+)"', path.read_text()))
    noted |= {f"machine.{kind}" for kind in ("spreader", "sprayer")}
    noted -= {"crew.join", "crew.end"}  # shares are for people to say anew
    words = {key.removeprefix("undo.what_") for key in sentences("en") if "undo.what_" in key}
    assert words == {each.replace(".", "_") for each in noted}


def test_a_sentence_that_may_mean_one_size_takes_back_none_unasked(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 40x25, back 60x45, side strip 6x50")
    talker.say("Keep")
    asked = talker.ask("wait no the first one was just a guess, delete that one")
    assert "Undo all of this: the size of front, back, side strip?" in asked
    assert "side strip" in talker.ask("/zones")


@pytest.mark.parametrize(
    "said", ["nope scratch that, didnt do the strip", "borra eso, no hice el strip"]
)
def test_a_zone_that_got_nothing_is_taken_out_of_the_record_and_the_rest_stands(
    settled: Talker, said: str
) -> None:
    settled.say("i have 30 lb left")
    settled.say("just finished all of it")
    left, before = shelf(settled), names_done(settled)
    found = settled.say(said)
    assert names_done(settled) == before - {"strip"} or labels_of(found) == ["Take strip out"]
    settled.say("yes")
    assert names_done(settled) == before - {"strip"}
    # 400 sq ft at 3.2 lb per 1,000 were only planned: they are on the shelf again.
    assert shelf(settled) - left == pytest.approx(0.4 * 3.2 * 0.45359237, rel=1e-6)
    settled.say("/undo")
    settled.say("yes")
    assert (names_done(settled), shelf(settled)) == (before, pytest.approx(left))


def names_done(talker: Talker) -> set[str]:
    with talker.db.reading() as work:
        return {s.zone_name for done in applications.of_yard(work, 1) for s in done.shares}


def test_an_amount_that_was_said_went_on_the_zones_that_are_left(settled: Talker) -> None:
    settled.say("all done, took 8 lb")
    assert labels_of(settled.say("actually i skipped the strip")) == ["Take strip out"]
    assert "8 lb" in text_of(settled.say("yes"))
    assert "strip" not in names_done(settled)
