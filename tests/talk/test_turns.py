"""One turn, one unit of work: keyed, all or nothing, and any process can take the next."""

import threading
from datetime import date, datetime, timedelta
from pathlib import Path

import pytest
from sqlalchemy import select

from bot.turn import Button, Reply, Turn
from storage import applications, chats, models, yards
from tests.talk.harness import PLACE, START, Talker


def turn(key: str, text: str | None = None, **more) -> Turn:
    return Turn(key=key, platform="terminal", chat="1", person="1", at=START, text=text, **more)


def count(talker: Talker, model: type) -> int:
    with talker.db.reading() as work:
        return len(list(work.scalars(select(model))))


def test_a_redelivered_turn_gets_the_same_answer_and_changes_nothing(talker: Talker) -> None:
    handle = talker.machine.conversation.handle
    first = handle(turn("1", place=PLACE))
    assert handle(turn("1", place=PLACE)) == first
    handle(turn("2", "front 60x40"))
    zones = handle(turn("3", "/zones"))
    assert handle(turn("3", "/zones")) == zones
    assert count(talker, models.Yard) == 1
    assert count(talker, models.Zone) == 1
    assert count(talker, models.Journal) == 2


def test_the_same_turn_delivered_twice_at_once_is_done_once(talker: Talker) -> None:
    handle = talker.machine.conversation.handle
    handle(turn("0", "/start"))
    answers: list[list[Reply]] = []
    threads = [
        threading.Thread(target=lambda: answers.append(handle(turn("1", place=PLACE))))
        for _ in range(4)
    ]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert count(talker, models.Yard) == 1
    assert all(answer == answers[0] for answer in answers)


def test_turns_of_many_people_at_once_lose_nothing(talker: Talker) -> None:
    handle = talker.machine.conversation.handle

    def person(number: int) -> None:
        for step, what in enumerate(
            ({"place": PLACE}, {"text": "front 60x40, back 10x10"}, {"text": "keep"})
        ):
            handle(
                Turn(
                    key=f"{number}-{step}",
                    platform="terminal",
                    chat=str(number),
                    person=str(number),
                    at=START,
                    **what,
                )
            )

    threads = [threading.Thread(target=person, args=(number,)) for number in range(8)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert count(talker, models.Yard) == 8
    assert count(talker, models.Zone) == 16


def test_a_turn_that_fails_half_way_leaves_nothing_behind(talker: Talker, monkeypatch) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    from jobs.uses import zones

    def broken(*_args, **_kwargs):
        raise RuntimeError("the pen broke")

    monkeypatch.setattr(zones.journal, "note", broken)
    before = count(talker, models.Turn) + 1
    talker.say("front 60x40")
    text = talker.ask("keep")
    assert "Nothing was changed" in text
    assert "pen" not in text
    spanish = turn("s", "guárdalo", language="es-US")
    assert "no se cambió nada" in talker.machine.conversation.handle(spanish)[0].text
    with talker.db.reading() as work:
        assert yards.zones(work, 1) == []
    assert count(talker, models.Turn) == before


def test_an_unknown_schema_of_the_dialogue_begins_again_kindly(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("/product")
    with talker.db.writing() as work:
        row = work.scalars(select(models.Dialogue)).one()
        row.schema = 99
        row.topic = "a topic of the future"
        row.data = {"odd": True}
    assert "Total" in talker.ask("front 60x40")


def test_another_process_takes_the_next_turn(tmp_path: Path) -> None:
    first = Talker(tmp_path)
    first.say("/start")
    first.session.location(*PLACE)
    first.say("front 60x40")
    first.say("/product")
    first.say("prodiamine")
    first.db.close()
    second = Talker(tmp_path)
    assert "prodiamine" in second.ask("3.2 lb per 1000 sq ft")


def test_replies_come_back_from_storage_as_they_were() -> None:
    reply = Reply("text", ((Button("A", "a:1"), Button("B", "b:2")), (Button("C", "c"),)))
    assert Reply.from_json(reply.to_json()) == reply


def test_buttons_answer_kindly_when_they_are_out_of_date(talker: Talker) -> None:
    talker.settle_in()
    handle = talker.machine.conversation.handle
    for number, action in enumerate(("zones:sure:1", "zones:keep:77", "what:ever", "undo:999")):
        replies = handle(turn(f"old-{number}", tap=action))
        assert replies[0].text
        assert "wrong on my end" not in replies[0].text


def test_yards_of_other_chats_are_out_of_reach(talker: Talker) -> None:
    talker.settle_in()
    handle = talker.machine.conversation.handle
    stranger = Turn(key="s", platform="terminal", chat="9", person="9", at=START, tap="apply:all:1")
    assert "too old" in handle(stranger)[0].text
    with talker.db.reading() as work:
        assert chats.find_chat(work, "terminal", "9") is not None
        assert count(talker, models.Application) == 0


def test_old_turns_are_forgotten_and_what_they_changed_stays(settled: Talker) -> None:
    before = count(settled, models.Turn)
    assert before >= 4
    settled.wait("P410D")
    assert count(settled, models.Turn) == 0
    assert count(settled, models.Zone) == 3


# What was said last night is answered this morning.


def applied_after_outage(talker: Talker, hours: float, words: str = "applied 9 lb") -> datetime:
    """Return when an application counts as done whose report waited so long for its answer."""
    talker.settle_in()
    with talker.db.reading() as work:
        yard = yards.of_chat(work, 1)[0]
    said_at = START - timedelta(hours=hours)
    talker.machine.conversation.handle(turn("late", words, said_at=said_at))
    with talker.db.reading() as work:
        (done,) = applications.of_yard(work, yard.id)
    return done.applied_at


@pytest.mark.parametrize("hours", [0.5, 10, 23.9])
def test_a_report_counts_from_when_it_was_said(talker: Talker, hours: float) -> None:
    assert applied_after_outage(talker, hours) == START - timedelta(hours=hours)


@pytest.mark.parametrize("hours", [-2, 25, 5000])
def test_a_date_that_no_waiting_message_has_is_left_aside(talker: Talker, hours: float) -> None:
    assert applied_after_outage(talker, hours) == START


def test_yesterday_is_the_day_before_it_was_said(talker: Talker) -> None:
    # Said on the evening of the 9th, answered at 8 in the morning of the 10th (yard's time).
    applied_at = applied_after_outage(talker, 11, "applied 9 lb yesterday 5 pm")
    assert applied_at.date() == date(2026, 2, 8)
