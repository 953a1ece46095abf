"""Weather for a bench: a process of its own answers for any cell, as fast as it can be handed over.

A few places of the invented climate are worked out once; every cell gets one of them, warmer or
colder by a little of its own.
"""

from __future__ import annotations

import multiprocessing
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from datetime import date, datetime
from multiprocessing.connection import Connection
from typing import Final

from jobs.sources.base import Cell, CellRequest, CellWeather, SourceTrouble
from jobs.sources.simulated import SimulatedSource

_PLACES: Final = tuple(Cell(lat_e2, -9650) for lat_e2 in range(3400, 4400, 250))


class StandinSource:
    """The weather of the process at the other end of a line."""

    name = "simulated"
    is_invented = True
    can_move_clock = True
    cheap_days: int | None = None
    credit: str | None = None

    def __init__(self, line: Connection) -> None:
        self._line = line
        self.requests = 0
        self.cells = 0

    def fetch(
        self, requests: Sequence[CellRequest], now: datetime
    ) -> Mapping[Cell, CellWeather | SourceTrouble]:
        """Ask for all cells at once."""
        self.requests += 1
        self.cells += len(requests)
        self._line.send((list(requests), now))
        answers: dict[Cell, CellWeather | SourceTrouble] = self._line.recv()
        return answers


@contextmanager
def standin() -> Iterator[StandinSource]:
    """Run the process, and give its weather as a source."""
    forking = multiprocessing.get_context("fork")
    ours, theirs = forking.Pipe()
    process = forking.Process(target=_serve, args=(theirs, ours), daemon=True)
    process.start()
    theirs.close()
    try:
        yield StandinSource(ours)
    finally:
        ours.close()
        process.join()


def _serve(line: Connection, theirs: Connection) -> None:
    # Held open here, its end would never be seen.
    theirs.close()
    bases: dict[tuple[Cell, date, datetime], CellWeather] = {}
    source = SimulatedSource(0)
    while True:
        try:
            requests, now = line.recv()
        except EOFError:
            return
        answers = {}
        for request in requests:
            number = hash(request.cell)
            place = _PLACES[number % len(_PLACES)]
            key = (place, request.since, now)
            if key not in bases:
                wish = replace(request, cell=place)
                found = source.fetch([wish], now)[place]
                assert isinstance(found, CellWeather)
                bases[key] = found
            answers[request.cell] = _moved(bases[key], (number % 41 - 20) / 20)
        line.send(answers)


def _moved(weather: CellWeather, warmer_c: float) -> CellWeather:
    known = replace(weather.known, soil5_c=weather.known.soil5_c + warmer_c)
    ahead = weather.forecast
    if ahead is not None:
        ahead = replace(ahead, soil5_c=ahead.soil5_c + warmer_c)
    return replace(weather, known=known, forecast=ahead)
