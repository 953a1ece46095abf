"""Every button's words can be typed: they do what the tap does."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from tests.talk.harness import Talker, text_of

#: What is said before the buttons are looked at.
SCREENS = [
    ["/yard"],
    ["/zones"],
    ["/amounts"],
    ["/soil"],
    ["/day"],
    ["/spreader"],
    ["/crew"],
    ["/today"],
    ["rounds"],
    ["grass"],
    ["privacy"],
    ["is it time yet"],
    ["do i need it"],
    *(
        ["español", said]
        for said in [
            "/yard",
            "/zones",
            "/amounts",
            "/soil",
            "/day",
            "/spreader",
            "/crew",
            "/today",
            "plan de aplicaciones",
            "mi césped",
            "qué se guarda",
            "¿ya es hora?",
            "¿lo necesito?",
            "¿qué compro?",
        ]
    ),
]


@pytest.mark.parametrize("said", SCREENS, ids=" ".join)
def test_a_typed_label_answers_as_its_tap_does(settled: Talker, tmp_path: Path, said) -> None:
    for text in said:
        settled.say(text)
    labels = [b.label for row in settled.session._newest.buttons for b in row]
    assert labels
    settled.db.engine.dispose()
    for number, label in enumerate(labels):
        answers = []
        for how in ("tap", "say"):
            folder = tmp_path / f"{number}-{how}"
            folder.mkdir()
            for file in Path(settled.db.engine.url.database).parent.glob("talk.sqlite3*"):
                shutil.copy(file, folder / file.name)
            other = Talker(folder)
            messages = other.session.tap(label) if how == "tap" else other.say(label)
            answers.append(text_of(messages))
            other.db.close()
        assert _but_codes(answers[0]) == _but_codes(answers[1]), label


def test_the_words_of_an_alerts_buttons_can_be_typed(settled: Talker) -> None:
    settled.until_alert("window_open")
    label = settled.session._newest.buttons[0][0].label
    assert "Recorded for Yard 1" in settled.ask(label)


def test_so_can_those_of_an_alert_in_spanish(settled: Talker) -> None:
    settled.say("español")
    settled.until_alert("window_open")
    label = settled.session._newest.buttons[0][0].label
    settled.say(label)
    assert "#1" in settled.ask("registros")


def _but_codes(text: str) -> str:
    """Leave out an invitation's code, which is made anew each time."""
    return " ".join(word for word in text.split() if not word.startswith("join_"))
