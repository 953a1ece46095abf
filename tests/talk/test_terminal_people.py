"""A person at a terminal, typed key by key through prompt_toolkit's own pipe."""

import io
from collections.abc import Iterator
from contextlib import contextmanager

from prompt_toolkit.application import create_app_session
from prompt_toolkit.completion import CompleteEvent
from prompt_toolkit.data_structures import Size
from prompt_toolkit.document import Document
from prompt_toolkit.input import PipeInput, create_pipe_input
from prompt_toolkit.output.vt100 import Vt100_Output

from bot.terminal import Said
from bot.terminal_people import AtPrompt, show, typed
from bot.turn import Button, Reply
from tests.talk.harness import PLACE, Talker, lived

WIDTH = 60


@contextmanager
def terminal() -> Iterator[tuple[PipeInput, io.StringIO]]:
    """Where keys come in and what is drawn."""
    drawn = io.StringIO()
    output = Vt100_Output(drawn, lambda: Size(rows=30, columns=WIDTH), term="dumb")
    with create_pipe_input() as keys, create_app_session(input=keys, output=output):
        yield keys, drawn


@lived
def measured(talker: Talker) -> None:
    talker.say("/start")
    talker.session.location(*PLACE)
    talker.say("front 60x40")


def test_a_button_is_tapped_by_its_number_and_an_alert_leaves_the_line_being_typed(
    measured: Talker, monkeypatch
) -> None:
    told = []

    def come_due() -> list[Said]:
        told.append(True)
        return [Said(measured.session.now, Reply("the soil is warming"), "soil_warming")]

    with terminal() as (keys, drawn):
        prompt = AtPrompt(measured.session, WIDTH)
        monkeypatch.setattr(measured.session, "idle", come_due)
        buffer = prompt._prompt.default_buffer
        typed_so_far = []

        def watch(_buffer) -> None:
            if buffer.text == "/zo" and not told:
                prompt.look()
                typed_so_far.append(buffer.text)
                keys.send_text("nes\r/quit\r")

        buffer.on_text_changed += watch
        # "/start" offers no [Keep]: the read-back's buttons are asked for again first.
        keys.send_text("front 60x40\r#2\r/zo")
        prompt.run()
    text = drawn.getvalue()
    assert typed_so_far == ["/zo"]
    assert "#1 Fix" in text
    assert "#2 Keep" in text
    assert "Saved, 2,400 sq ft in all" in text
    assert "(alert)" in text
    assert "the soil is warming" in text
    assert "Zones of Yard 1" in text
    # The yard's own time, not UTC's 14:00.
    assert "Tue Feb 10 8 am" in text


def test_earlier_lines_are_kept_and_commands_and_buttons_are_completed(measured: Talker) -> None:
    with terminal() as (keys, drawn):
        prompt = AtPrompt(measured.session, WIDTH)
        offered = [
            each.text
            for each in prompt._prompt.completer.get_completions(Document("#"), CompleteEvent())
        ]
        buffer = prompt._prompt.default_buffer

        def enter(_buffer) -> None:
            if buffer.text == "/language":
                keys.send_text("\r/quit\r")

        # A completion comes in its own time.
        buffer.on_text_changed += enter
        keys.send_text("/zones\r/lang\t")
        prompt.run()
        assert prompt._prompt.history.get_strings() == ["/zones", "/language", "/quit"]
    assert offered == ["#1", "#2"]
    assert "Which language?" in drawn.getvalue()


def test_what_is_drawn_is_no_wider_than_the_terminal_and_a_pipe_gets_lines_as_they_are(
    measured: Talker,
) -> None:
    long = "water it in " * 20
    buttons = ((Button("I applied it", "a"), Button("Not this season", "b")),) * 3
    said = [Said(measured.session.now, Reply(long, buttons))]
    plain, wrapped = [], []
    show(measured.session, said, plain.append)
    show(measured.session, said, wrapped.append, WIDTH)
    assert long in plain
    assert max(map(len, wrapped)) <= WIDTH
    assert "[Not this season]" in " ".join(wrapped)


def test_a_number_without_its_mark_is_an_answer(measured: Talker) -> None:
    measured.say("front 60x40")
    assert [each.label for each in measured.session.buttons] == ["Fix", "Keep"]
    assert "Send the zone again" not in typed(measured.session, "1")[0].reply.text
    measured.say("front 60x40")
    assert "Send the zone again" in typed(measured.session, "#1")[0].reply.text
