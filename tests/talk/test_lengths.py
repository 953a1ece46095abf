"""How long what we say may be, over a season in each language, and what is never said alone."""

import re
import statistics
from pathlib import Path
from typing import Final

import pytest

from bot.paging import LINES as LINES_OF_A_PAGE
from bot.terminal import Said
from tests.talk.harness import Talker, labels_of
from tests.talk.season_in_words import LINES, Season, lived
from tests.talk.test_many_yards import LABEL, listed, row

#: Characters, of what a phone shows without scrolling; words of the one message that must not wait.
MEDIAN_REPLY, LONGEST_REPLY, LONGEST_ALERT, AMOUNTS_OF_THREE_ZONES, WORDS_OF_WINDOW = (
    120,
    350,
    350,
    300,
    45,
)
#: To the second application, which is the last alert of a spring.
DAYS_AFTER = 60


@pytest.fixture(scope="module", params=sorted(LINES))
def season(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> Season:
    folder: Path = tmp_path_factory.mktemp(request.param)
    return lived(folder, request.param, DAYS_AFTER)


def test_what_is_said_fits_a_phone(season: Season) -> None:
    alerts = [each.reply.text for each in season.alerts]
    calls = [each.reply.text for each in season.alerts if each.alert == "window_open"]
    assert statistics.median(map(len, season.replies)) <= MEDIAN_REPLY
    assert max(map(len, alerts)) <= LONGEST_ALERT
    assert max(map(len, season.amounts)) <= AMOUNTS_OF_THREE_ZONES
    assert len(calls) == 1
    assert len(calls[0].split()) <= WORDS_OF_WINDOW
    assert max(text.count("\n") for text in alerts) < 12
    assert max(map(len, season.replies)) <= LONGEST_REPLY


def test_a_deadline_is_said_with_the_chance_that_weeds_come_first(season: Season) -> None:
    said = [*season.replies, *(each.reply.text for each in season.alerts)]
    lines = [line for text in said for line in text.splitlines()]
    window = re.compile(
        r"(?i)between .* and |aplica(?: en .*)? del .* al |by \w{3} Apr|más tardar el .* abril"
    )
    deadlines = [line for line in lines if window.search(line) and not _is_of_water(line)]
    assert len(deadlines) >= 5
    assert all(re.search(r"1 (year in|año de) [2-5]\b", line) for line in deadlines), deadlines


def _is_of_water(line: str) -> bool:
    return line.startswith(("Now water", "Ahora riega"))


#: Buttons under /yard, and in a row anywhere.
MOST_BUTTONS, MOST_IN_A_ROW = 8, 3
LISTS: Final = (
    *("/zones", "/amounts", "/spreader", "/buy", "/today", "/weeds", "/yards", "/yard", "/help"),
    *("/crew", "why", "rounds", "what is left of my label"),
)
WORDS: Final = ("alder", "birch", "cedar", "dale", "elm", "fern", "gate", "hill", "inn", "jade")
MORE: Final = ("kiln", "lake", "mill", "nook", "oak")


def test_no_list_of_a_large_yard_or_of_many_yards_is_longer_than_a_page(tmp_path: Path) -> None:
    talker = Talker(tmp_path)
    talker.say("/start")
    zones = ", ".join(f"{word} 20x{30 + n}" for n, word in enumerate((*WORDS, *MORE)))
    yards = [row(0, Zones=zones), *map(row, range(1, 14))]
    talker.session.document(listed(tmp_path, *yards))
    talker.tap("Add 14 yards")
    talker.say(LABEL)
    talker.tap("Use it at my other 13 yards too")
    talker.say("yard Birch 0")
    for language in LINES:
        talker.say(f"/language {language}")
        for line in LISTS:
            said = talker.say(line)
            if line == "/yard":
                assert len(labels_of(said)) <= MOST_BUTTONS
            while _fits_pages(said, line) and (more := _more(said)):
                said = talker.session.tap(more)


def _more(said: list[Said]) -> str:
    buttons = (button for each in said for row in each.reply.buttons for button in row)
    return next((each.action for each in buttons if each.action.startswith("more:")), "")


def _fits_pages(said: list[Said], line: str) -> bool:
    for each in said:
        shown = [words for words in each.reply.text.splitlines() if words]
        assert len(shown) <= LINES_OF_A_PAGE, (line, each.reply.text)
        assert all(len(row) <= MOST_IN_A_ROW for row in each.reply.buttons), line
    return True
