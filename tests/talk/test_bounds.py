"""What comes in is bounded: long texts are refused whole, answers come in pages, no tap raises."""

import itertools

import pytest

from bot.paging import A_PAGE, pages_of
from bot.talk.routing import LONGEST_TEXT
from bot.talk.taps import _TAPS
from bot.turn import Turn
from jobs.uses.bounds import MOST_ZONES
from storage import yards
from tests.talk.harness import PLACE, START, ZONES, Talker

numbers = itertools.count()


def tap(talker, action):
    turn = Turn(f"tap:{next(numbers)}", "terminal", "1", "1", START, tap=action)
    return talker.machine.conversation.handle(turn)


def test_a_text_too_long_is_refused_whole_and_kindly(talker: Talker) -> None:
    talker.session.location(*PLACE)
    long = "front 20x15, " * 200
    (said,) = [message.reply for message in talker.session.say(long)]
    assert f"up to {LONGEST_TEXT} characters" in said.text
    assert "I took none of it" in said.text
    assert "front" not in talker.say("/zones")


def test_a_text_of_nothing_but_figures_is_refused_whole(talker: Talker) -> None:
    talker.session.location(*PLACE)
    (said,) = [message.reply for message in talker.session.say("z 1x1," + "½" * 300)]
    assert "400 numbers" in said.text
    assert "z: " not in talker.ask("/zones")


def test_in_a_text_too_long_an_emergency_is_heard_all_the_same(talker: Talker) -> None:
    replies = talker.session.say("my dog ate it. " + "please help " * 300)
    assert "1-800-222-1222" in replies[0].reply.text


SUBJECTS = sorted(
    {f"{subject}:{verb}" for subject, verb in _TAPS} | {"undo", "round:page", "round:tick"}
)
ENDS = ("", ":0", ":1:²", ":1:9", ":99999999999999999999")
ODD = ("more:1:0:1", "more:9:9:9", "round:page:0", "undo:²", "undo:99999999999", "yard:at:²")
LATER = ("", "\ud800", "\x00", "'; DROP TABLE yard; --", "soil:1\n", "x" * 64)


@pytest.mark.parametrize("has_yard", [False, True])
def test_no_tap_raises_however_old_or_forged(talker: Talker, caplog, has_yard: bool) -> None:
    if has_yard:
        talker.session.location(*PLACE)
        talker.session.say(ZONES)
    for action in (*ODD, *LATER[1:], *(f"{of}{end}" for of in SUBJECTS for end in ENDS)):
        replies = tap(talker, action)
        assert replies, action
        assert "failed" not in caplog.text, action
        assert "Something went wrong" not in replies[0].text, action


def test_a_long_answer_comes_in_pages_and_all_of_it_is_there(talker: Talker, monkeypatch) -> None:
    monkeypatch.setattr("bot.paging.LINES", 100)
    whole = talker.session.say("/help")[-1].reply.text
    monkeypatch.setattr("bot.paging.A_PAGE", 300)
    shown = talker.session.say("/help")[-1].reply
    texts, actions = [shown.text], []
    while more := [b for row in shown.buttons for b in row if b.action.startswith("more:")]:
        assert more[0].label.startswith(f"More ({len(texts)} of ")
        actions.append(more[0].action)
        (shown,) = tap(talker, more[0].action)
        texts.append(shown.text)
    assert max(map(len, texts)) <= 300
    assert " ".join(texts).split() == whole.split()
    # Nobody else is shown a page of it.
    turn = Turn("other", "terminal", "2", "2", START, tap=actions[0])
    (reply,) = talker.machine.conversation.handle(turn)
    assert reply.text != texts[1]


def test_pages_end_at_lines_and_nothing_is_lost() -> None:
    lines = [f"{n} " + "word " * (n % 90) for n in range(300)]
    pages = pages_of("\n".join(lines))
    assert max(map(len, pages)) <= A_PAGE
    assert [w for p in pages for w in p.split()] == [w for line in lines for w in line.split()]
    assert pages_of("x" * (A_PAGE + 1)) == ["x" * A_PAGE, "x"]


def test_more_lines_than_a_phone_shows_are_shared_out_over_pages() -> None:
    def lines(count: int) -> str:
        return "\n".join(f"line {number}" for number in range(count))

    assert [len(page.splitlines()) for page in pages_of(lines(40))] == [10, 10, 10, 10]
    assert [len(page.splitlines()) for page in pages_of(lines(13))] == [7, 6]
    assert len(pages_of(lines(12))) == 1


def test_a_name_is_forty_characters_at_most(talker: Talker) -> None:
    talker.session.location(*PLACE)
    assert "x" * 40 in talker.ask(f"{'x' * 40} 20x15")
    for said in (f"{'y' * 41} 20x15", f"rename {'x' * 40} to {'y' * 41}", f"call it {'y' * 41}"):
        assert "yyy" not in talker.ask(said).replace(said, "")
        assert "yyy" not in talker.ask("/zones") + talker.ask("/yard")


def test_marks_that_turn_the_writing_and_controls_are_no_part_of_a_name(talker: Talker) -> None:
    talker.session.location(*PLACE)
    talker.say("fro\u202ent 20x15, ba\u2066ck 20x30, si\x00de 10x10")
    text = talker.ask("/zones")
    assert "front: " in text
    assert "back: " in text
    assert "side: " in text


def test_a_yard_has_sixty_zones_at_most_and_more_are_refused_whole(talker: Talker) -> None:
    talker.session.location(*PLACE)
    sizes = [f"z{number} 9x9" for number in range(MOST_ZONES)]
    talker.say(", ".join(sizes[:40]))
    assert "60 zones" in talker.ask(", ".join(f"y{number} 9x9" for number in range(21)))
    assert "y1" not in talker.ask("/zones")
    assert "60 zones" not in talker.ask(", ".join(sizes))


def test_new_places_of_a_person_are_counted_by_the_day(
    talker: Talker, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("jobs.uses.bounds.PLACES_A_DAY", 3)
    talker.session.location(*PLACE)
    for number in (1, 2):
        talker.session.location(40 + number / 100, -97.0)
        talker.tap("Move Yard 1")
    talker.session.location(45.0, -97.0)
    assert "tomorrow" in talker.tap("Move Yard 1")
    talker.session.location(45.0, -97.0)
    assert "tomorrow" in talker.tap("New yard")
    # Beside a yard of one's own a place costs nothing.
    talker.session.location(40.02, -97.0)
    assert "tomorrow" not in talker.tap("New yard")
    talker.wait("P1DT1H")
    talker.session.location(45.0, -97.0)
    assert "Move" not in talker.tap("New yard")


def test_a_chat_has_so_many_yards_at_most(talker: Talker, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("jobs.uses.bounds.MOST_YARDS", 2)
    talker.session.location(*PLACE)
    for number in (1, 2):
        talker.session.location(40 + number, -97.0)
        answer = talker.tap("New yard")
    assert "2 yards" in answer
    with talker.db.reading() as work:
        assert len(yards.of_chat(work, 1)) == 2
