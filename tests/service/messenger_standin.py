from jobs.messenger import Letter


class Post:
    """A messenger that keeps what it is given, or fails as it is told."""

    def __init__(self, *troubles: Exception | None) -> None:
        self.troubles = list(troubles)
        self.sent: list[Letter] = []

    def send(self, letter: Letter) -> None:
        trouble = self.troubles.pop(0) if self.troubles else None
        if trouble is not None:
            raise trouble
        self.sent.append(letter)

    def told(self) -> list[int]:
        return [each.alert_id for letter in self.sent for each in (letter, *letter.others)]
