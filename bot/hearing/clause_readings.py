"""What the clauses of a message may be: the best cut of it, each clause with its likeliest acts."""

from __future__ import annotations

import itertools
import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from typing import Final

from bot.hearing import clauses
from bot.hearing.features import tokens_of
from bot.hearing.guards import Manner, is_marked, is_only_planned, manner
from bot.hearing.heard import Scene
from bot.hearing.heard_values import Span, abstracted
from bot.hearing.held_back import KIND, Ranked, held_back, is_to_come
from bot.hearing.normal import Normal
from bot.hearing.phrases import phrases
from bot.hearing.ranker import Ranker

#: What a further act costs that never stood beside the other in a sentence. This and the next ones
#: were chosen on 2,008 sentences of ten authors, each heard by what was learnt from others: where
#: any further clause gained 0.15, and not only plain ones, 79 instead of 65 changes were not meant.
FURTHER: Final = 0.6
#: A clause this sure says its thing plainly.
PLAIN: Final = 0.99
#: What each further thing gains that is said so: two things said are seldom one.
AGAIN: Final = 0.15
#: What is plainly said in passing costs so much.
IN_PASSING: Final = 0.2
#: What is done one after the other, and so often told in one breath, gains so much more.
OFTEN: Final = frozenset({("report_applied", "report_watered"), ("measure", "set_grass")})
IN_ONE_BREATH: Final = 0.4
#: A clause with a training line's form is that line's act at least so surely.
KNOWN: Final = 0.9
#: Beside another act, these say nothing of their own without a figure.
BESIDE: Final = {"report_rain": {"depth", "number"}, "set_sprinkler": {"depth"}}
#: One of several acts is at least so likely.
SURE: Final = 0.65
#: What is left of a message's acts beside others: said in passing.
COURTESIES: Final = frozenset({"other", "greet", "thanks"})
PASSING: Final = frozenset({"other", "unknown", "greet", "thanks", "help", "cancel"})


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
    def is_bare(self) -> bool:
        """Whether it is too little to be one of several acts: not sure, or without its figure."""
        if _ONLY_WHEN.fullmatch(self.text):
            return True
        needed = BESIDE.get(self.act)
        return self.score < SURE or not (needed is None or needed & set(KIND.findall(self.text)))

    @property
    def is_lost(self) -> bool:
        """Whether it asks nobody knows what: beside what is plain, that is answered alone."""
        return self.manner.is_question and self.score < SURE and self.act not in PASSING

    def without(self, act: str) -> Reading:
        """Return the reading with an act ruled out."""
        return replace(self, ranked=[each for each in self.ranked if each[0] != act])

    def share(self, act: str) -> float:
        """Return the likelihood of an act."""
        return dict(self.ranked).get(act, 0.0)

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
        if len(pieces) > 1 and self.whole().is_known and self.whole().score >= PLAIN:
            # What is a sentence of ours for one act is that act: "it was Friday, not Saturday".
            return [self.whole()]
        cuts = self._cuts(pieces)
        found = max(cuts, key=self._worth) if len(pieces) > 1 else [self.whole()]
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
        told = _told(found) or found
        if len(told) > 1 and any(each.is_bare for each in told):
            return -math.inf
        acts = {each.act for each in told}
        lost = [each for each in found if each.is_lost and each not in told]
        odds = sum(math.log(max(each.score, 1e-6)) for each in found if each not in lost)
        passing = sum(
            IN_PASSING if each.act in COURTESIES and each.score >= PLAIN else FURTHER
            for each in found
            if each not in told
        )
        pairs = itertools.combinations(sorted(acts), 2)
        # Two things said plainly are two things, however seldom they stand together.
        is_plain = all(each.score >= PLAIN and each.act != "choose" for each in told)
        strange = 0 if is_plain else sum(pair not in self.ranker.pairs for pair in pairs)
        gain = IN_ONE_BREATH * sum(set(pair) <= acts for pair in OFTEN)
        gain += AGAIN * (len(acts) - 1) if is_plain else 0.0
        return odds + gain - FURTHER * strange - passing - 0.01 * (len(found) - 1)

    def _joined(self, found: list[Reading]) -> list[Reading]:
        told = _told(found) or [max(found, key=lambda e: e.score)]
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
        if start > 0:
            # What joins a clause to the one before it says nothing of its act.
            text = clauses.without_joint(text)
        piece = self.normal.text[start:end]
        said = manner(
            piece, self.normal.language, has_mark=is_marked(self.normal.traced.original(start, end))
        )
        moment = self.scene.moment
        pending = self.scene.asked
        known = self.ranker.form(text, moment, pending)
        left = text if known else phrases("sentences", "before_water").without(text).strip()
        is_dry, text = left != text, left or text
        ranked = list(self.ranker.ranked(text, said, self.normal.language, moment, pending))
        if is_dry:
            # "The dog got on it before I watered" waters nothing.
            ranked = sorted(
                ((act, share * (act != "report_watered")) for act, share in ranked),
                key=lambda each: -each[1],
            )
        if (start, end) != (0, len(self.normal.text)):
            # Emergencies are looked for in the whole, before anything else.
            ranked = [each for each in ranked if each[0] != "emergency"]
        is_planned = is_only_planned(piece, self.normal.language)
        numbers = [s for s in self.spans if s.kind == "number" and start <= s.start < end]
        is_count = bool(numbers) and all(
            # It counts things rather than degrees.
            str(each.value).isdigit() and int(str(each.value)) < _FEWEST_DEGREES
            for each in numbers
        )
        if known is not None and tokens_of(text):
            ranked = _raised(ranked, known)
        return Reading(
            start,
            end,
            text,
            said,
            ranked
            if known
            else held_back(
                ranked,
                said,
                text,
                is_planned=is_planned,
                is_to_come=is_to_come(piece),
                is_count=is_count,
            ),
            known is not None,
        )


def _told(found: list[Reading]) -> list[Reading]:
    """Return the clauses that say something: not in passing, and no riddle beside what is plain."""
    told = [each for each in found if each.act not in PASSING]
    plain = [each for each in told if not each.is_lost]
    return plain if plain and all(each.score >= PLAIN for each in plain) else told


def _raised(ranked: Ranked, known: str) -> Ranked:
    own = next((share for act, share in ranked if act == known), 0.0)
    if own >= KNOWN:
        return ranked
    left = (1.0 - KNOWN) / max(1.0 - own, 1e-9)
    return sorted(
        ((act, KNOWN if act == known else share * left) for act, share in ranked),
        key=lambda each: -each[1],
    )


_FEWEST_DEGREES: Final = 5
#: A day or an hour alone is no act beside another.
_ONLY_WHEN: Final = re.compile(
    r"(?:<day> \w+|<hour>|<days>|and|or|on|by|for|the|y|o|el|la|para|a|en|[\s,.;:!?-])+"
)
