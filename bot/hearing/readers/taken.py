"""Which letters of a text stand for something already."""

from __future__ import annotations


class Taken:
    """Stretches of a text that were taken, none over another: the first that comes has it.

    Looking costs what the stretch is long, however many were taken before: of a text of figures
    alone there are hundreds.
    """

    def __init__(self, text: str) -> None:
        self._letters = bytearray(len(text))

    def take(self, start: int, end: int) -> bool:
        """Take a stretch if all of it is free; tell whether it was."""
        if self._letters.find(1, start, end) >= 0:
            return False
        self._letters[start:end] = b"\x01" * (end - start)
        return True
