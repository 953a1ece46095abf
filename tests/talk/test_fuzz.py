"""Whatever is said, tapped or sent: an answer, nothing raised, and nobody else kept waiting.

The long run is ``deploy/check fuzz``.
"""

from __future__ import annotations

import itertools
import random
import time
from collections.abc import Iterator

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.hearing import emergency
from bot.turn import Turn
from tests import fuzzing
from tests.talk.harness import START, Talker

numbers = itertools.count()
usual = settings(max_examples=60, suppress_health_check=list(HealthCheck), deadline=None)


@pytest.fixture(scope="module")
def talker(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Talker]:
    """Yield somebody with a yard, everything loaded that is loaded once."""
    one = Talker(tmp_path_factory.mktemp("fuzz"))
    one.settle_in()
    fuzzing.warm_up(one.machine.conversation)
    yield one
    one.db.close()


def see(talker: Talker, is_group: bool = False, **content: object) -> None:
    key = f"fuzz:{next(numbers)}"
    chat = "-1" if is_group else "1"
    turn = Turn(key, "terminal", chat, "1", START, is_group=is_group, **content)  # type: ignore[arg-type]
    stumble, _ = fuzzing.see(talker.machine.conversation, turn)
    # How long it takes is for the worst texts below; here others may be at work beside.
    assert stumble is None or stumble.how.startswith("took"), stumble


@usual
@given(st.text(st.characters(exclude_categories=()), min_size=1, max_size=300))
def test_any_text_is_answered(talker: Talker, text: str) -> None:
    see(talker, text=text)


@usual
@given(st.randoms(use_true_random=False), st.booleans())
def test_any_text_like_ours_is_answered(
    talker: Talker, draw: random.Random, is_group: bool
) -> None:
    see(talker, is_group, text=fuzzing.text(draw))


@usual
@given(st.randoms(use_true_random=False), st.booleans())
def test_any_tap_is_answered(talker: Talker, draw: random.Random, is_group: bool) -> None:
    see(talker, is_group, tap=fuzzing.tap(draw))


@usual
@given(st.floats(-90, 90), st.floats(-180, 180))
def test_any_place_is_answered(talker: Talker, lat: float, lon: float) -> None:
    see(talker, place=(lat, lon))


#: Texts that once kept a processor busy for up to a second, at the length that is read.
WORST = (
    *(", ", ")", "²", "٣", "½", "°F", "60x40 ", "one ", "one-", "uno y ", "a-", "1/", "'"),
    *("applied yesterday. what about the soil? ", "front lawn and back ", "z 2x2, ", "x"),
    *("and ", ": ", "? ", "\n", "3 lb per 1000 sq ft ", "is ", "the front is fescue, "),
    *("front 60x40 minus house 30x20 and ", "5 lb wait no "),
)


@pytest.mark.parametrize("piece", WORST)
def test_no_text_takes_over_a_quarter_of_a_second_of_a_processor(
    talker: Talker, piece: str
) -> None:
    text = (piece * fuzzing.LONGEST)[:2000]
    took_s = []
    for _ in range(3):
        turn = Turn(f"worst:{next(numbers)}", "terminal", "9", "9", START, text=text)
        stumble, took = fuzzing.see(talker.machine.conversation, turn)
        took_s.append(took)
        if took <= fuzzing.MOST_S:
            break
    assert min(took_s) <= fuzzing.MOST_S, stumble


def test_whether_a_text_speaks_of_an_emergency_is_told_at_once_however_long_it_is() -> None:
    for piece in WORST:
        text = (piece * fuzzing.LONGEST)[: fuzzing.LONGEST]
        began_s = time.process_time()
        emergency.speaks_of_one(text)
        assert time.process_time() - began_s < fuzzing.MOST_S, piece


def test_the_longest_text_is_refused_at_once(talker: Talker) -> None:
    turn = Turn("longest", "terminal", "9", "9", START, text="front 60x40, " * 315)
    stumble, took_s = fuzzing.see(talker.machine.conversation, turn)
    assert stumble is None
    assert took_s < 0.1
