"""The season that `deploy/try` plays where there is no terminal."""

import pytest

from bot import cli, subcommands, tour
from bot.saying.catalogue import say
from bot.terminal import Session, TerminalMessenger
from bot.wiring import MovedClock, assemble
from jobs.sources.simulated import SimulatedSource
from tests import readme_season
from tests.made_once import database_at

STOPS = (
    "register",
    "measure",
    "product",
    "soil_warming",
    "window_open",
    "amounts",
    "applied",
    "watered_in",
    "second_half_due",
)


class LosingMessenger(TerminalMessenger):
    """Loses every letter of one kind."""

    lost = "soil_warming"

    def send(self, letter):
        if letter.kind != self.lost:
            super().send(letter)


def play(tmp_path, source, messenger):
    base = database_at(tmp_path / "tour.sqlite3")
    try:
        clock = MovedClock(base, "simulated", tour.BEGINS_AT, stands_still=True)
        machine = assemble(base, source, messenger, owner="tour")
        said = []
        tour.Tour(Session(machine, messenger, clock, 1), base, 1, said.append).play()
        return said
    finally:
        base.close()


@pytest.fixture(scope="module")
def told():
    return readme_season.played()


def test_the_tour_reaches_every_stop_and_says_so(told):
    places = [
        told.index(say(f"tour.{stop}", number=number, count=len(STOPS)))
        for number, stop in enumerate(STOPS, start=1)
    ]
    assert places == sorted(places)
    assert told.strip().splitlines()[-1].startswith(f"All {len(STOPS)} stops reached")
    # The crew is invented, and the tour says so before anything else.
    assert "made up" in " ".join(told.partition("\n\n")[0].split())


def test_the_tour_goes_through_in_other_weather_too(tmp_path):
    said = play(tmp_path, SimulatedSource(3), TerminalMessenger())
    assert said[-1].strip().startswith("All")


@pytest.mark.parametrize("kind", ["window_open", "second_half_due"])
def test_a_stop_that_was_not_told_is_not_reached(tmp_path, kind):
    messenger = LosingMessenger()
    messenger.lost = kind
    with pytest.raises(tour.StopMissed, match=kind):
        play(tmp_path, SimulatedSource(0), messenger)


def test_a_missed_stop_ends_the_command_with_1(monkeypatch, capsys):
    monkeypatch.setattr(subcommands, "TerminalMessenger", LosingMessenger)
    assert cli.main(["tour"]) == 1
    assert "soil_warming" in capsys.readouterr().err


def test_the_season_in_the_readme_is_the_one_played(told):
    assert readme_season.shown() == readme_season.excerpt(told), "python -m tests.readme_season"
