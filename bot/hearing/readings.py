"""What the clauses of a message may be: the best cut of it, each clause with its likeliest acts."""

from __future__ import annotations

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from typing import Final

from bot.hearing import clauses
from bot.hearing.features import tokens_of
from bot.hearing.guards import Manner, manner
from bot.hearing.heard import Scene
from bot.hearing.normal import Normal
from bot.hearing.ranker import Ranker
from bot.hearing.values import Span, abstracted

#: What a further act costs: it must be that much surer than one act for all.
FURTHER: Final = 0.9
#: A clause with a training line's form is that line's act at least so surely.
KNOWN: Final = 0.9
#: Acts that say something was done: no question, plan, condition or other person's is one.
REPORTS: Final = frozenset(
    {
        "report_applied",
        "report_gap",
        "report_too_much",
        "report_watered",
        "report_rain",
        "report_seeded",
        "report_weeds",
        "report_soil",
        "report_service",
        "change_record",
    }
)
#: Of these a plan or a condition makes something else.
DEEDS: Final = frozenset({"report_applied", "report_watered", "report_seeded", "report_service"})
#: Manners, and what of a report's likelihood they leave.
DAMPING: Final = {"question": 0.25, "condition": 0.4, "plan": 0.6, "denied": 0.6}
#: What is left of a message's acts beside others: said in passing.
PASSING: Final = frozenset({"other", "unknown", "greet", "thanks", "help", "cancel"})

Ranked = list[tuple[str, float]]


@dataclass(frozen=True)
class Reading:
    """A clause: where it stands, how it is said, and its acts with their likelihood."""

    start: int
    end: int
    text: str
    manner: Manner
    ranked: Ranked
    is_known: bool

    @property
    def act(self) -> str:
        """The likeliest act."""
        return self.ranked[0][0]

    @property
    def score(self) -> float:
        """Its likelihood."""
        return self.ranked[0][1]


@dataclass
class Reader:
    """Reads the stretches of one message, each once."""

    normal: Normal
    spans: Sequence[Span]
    scene: Scene
    ranker: Ranker
    _read: dict[tuple[int, int], Reading] = field(default_factory=dict)

    def whole(self) -> Reading:
        """Return the message read as one clause."""
        return self.stretch(0, len(self.normal.text))

    def best(self) -> list[Reading]:
        """Return the clauses of the likeliest cut; neighbours of one act are one clause."""
        pieces = clauses.cut(self.normal, self.spans)
        found = max(self._cuts(pieces), key=self._worth) if len(pieces) > 1 else [self.whole()]
        return self._joined(found)

    def stretch(self, start: int, end: int) -> Reading:
        """Return a stretch, read."""
        if (start, end) not in self._read:
            self._read[start, end] = self._ranked(start, end)
        return self._read[start, end]

    def _cuts(self, pieces: list[clauses.Stretch]) -> Iterator[list[Reading]]:
        inner = range(1, len(pieces))
        for count in range(min(len(pieces), 4)):
            for places in itertools.combinations(inner, count):
                ends = [*places, len(pieces)]
                starts = [0, *places]
                yield [
                    self.stretch(pieces[first][0], pieces[last - 1][1])
                    for first, last in zip(starts, ends, strict=True)
                ]

    def _worth(self, found: list[Reading]) -> float:
        told = [each for each in found if each.act not in PASSING] or found
        acts = {each.act for each in told}
        odds = sum(math.log(max(each.score, 1e-6)) for each in found)
        passing = len(found) - len(told)
        return odds - FURTHER * (len(acts) - 1) - FURTHER * passing - 0.2 * (len(found) - 1)

    def _joined(self, found: list[Reading]) -> list[Reading]:
        told = [each for each in found if each.act not in PASSING] or [
            max(found, key=lambda e: e.score)
        ]
        joined: list[Reading] = []
        for each in told:
            if joined and joined[-1].act == each.act:
                together = self.stretch(joined[-1].start, each.end)
                same = [(act, p) for act, p in together.ranked if act == each.act]
                best = max(joined[-1].score, each.score, same[0][1] if same else 0.0)
                others = [(act, p) for act, p in each.ranked if act != each.act]
                joined[-1] = Reading(
                    joined[-1].start,
                    each.end,
                    together.text,
                    together.manner,
                    [(each.act, best), *others],
                    together.is_known,
                )
            else:
                joined.append(each)
        return joined

    def _ranked(self, start: int, end: int) -> Reading:
        text = abstracted(self.normal.text, self.spans, start, end)
        piece = self.normal.text[start:end]
        said = manner(piece, self.normal.language, has_mark="?" in piece)
        moment = self.scene.moment
        pending = self.scene.pending.kind if self.scene.pending else ""
        ranked = self.ranker.ranked(text, said, self.normal.language, moment, pending)
        known = self.ranker.form(text, moment, pending)
        if known is not None and tokens_of(text):
            ranked = _raised(ranked, known)
        return Reading(start, end, text, said, _damped(ranked, said), known is not None)


def _raised(ranked: Ranked, known: str) -> Ranked:
    own = next((share for act, share in ranked if act == known), 0.0)
    if own >= KNOWN:
        return ranked
    left = (1.0 - KNOWN) / max(1.0 - own, 1e-9)
    return sorted(
        ((act, KNOWN if act == known else share * left) for act, share in ranked),
        key=lambda each: -each[1],
    )


def _damped(ranked: Ranked, said: Manner) -> Ranked:
    """Return likelihoods with reports held back where a clause is no statement of a fact."""
    left = 1.0
    if said.is_question:
        left *= DAMPING["question"]
    if said.is_condition:
        left *= DAMPING["condition"]
    deed = left
    if said.is_plan and not said.is_past:
        deed *= DAMPING["plan"]
    if said.is_denied:
        deed *= DAMPING["denied"]
    if deed == 1.0:
        return ranked
    held = [
        (act, share * (deed if act in DEEDS else left if act in REPORTS else 1.0))
        for act, share in ranked
    ]
    total = sum(share for _, share in held)
    return sorted(((act, share / total) for act, share in held), key=lambda each: -each[1])
