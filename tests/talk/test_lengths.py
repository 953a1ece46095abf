"""How long what we say may be, over a season in each language, and what is never said alone."""

import re
import statistics
from pathlib import Path

import pytest

from tests.talk.season_in_words import LINES, Season, lived

#: Characters, of what a phone shows without scrolling; words of the one message that must not wait.
MEDIAN_REPLY, LONGEST_ALERT, AMOUNTS_OF_THREE_ZONES, WORDS_OF_WINDOW = 120, 350, 300, 45
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
    assert max(text.count("\n") for text in [*alerts, *season.replies]) < 12


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
