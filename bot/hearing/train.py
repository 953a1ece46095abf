"""Learn the ranker's weights from the sentences: ``python -m bot.hearing.train``.

scikit-learn is needed here alone (the extra ``train``). The result is the same on every run.
"""

from __future__ import annotations

import argparse
import hashlib
import itertools
import random
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from pathlib import Path
from typing import Any, Final

import numpy as np
from numpy.typing import NDArray

from bot.hearing import clauses, near_words, words
from bot.hearing.features import BUCKETS, features
from bot.hearing.guards import Manner, is_marked, manner
from bot.hearing.heard_values import abstracted, find_spans
from bot.hearing.names_heard import Names
from bot.hearing.normal import normal
from bot.hearing.ranker import WEIGHTS, form_key
from bot.hearing.templates import FOLDER, Line, act_lines, passing_lines

#: Names that stand for those of any yard while learning.
NAMES: Final = Names(
    ("front", "back", "side", "ditch strip", "pool lawn", "north slope", "parkway"),
    ("Church", "Miller", "Oak", "Mill House", "Home", "Grandma's"),
)
MOMENTS: Final = ("new", "placed", "ready", "open", "applied", "due")
#: Weights of fewer steps than this decide nothing and are left out.
_LEAST: Final = 7
_MOST_WEIGHT: Final = 127


@dataclass(frozen=True)
class Example:
    """A line as the ranker sees it."""

    line: Line
    text: str
    manner: Manner
    language: str
    moment: str
    pending: str


def example(line: Line) -> Example:
    """Return a line as the ranker sees it."""
    form = normal(line.said, line.language)
    text = abstracted(form.text, find_spans(form, NAMES))
    said = manner(form.text, form.language, has_mark=is_marked(line.said))
    return Example(line, text, said, form.language, line.moment, line.pending)


def examples(lines: Iterable[Line]) -> list[Example]:
    """Return the lines of single acts as the ranker sees them."""
    return [example(line) for line in lines if len(line.acts) == 1]


def clause_examples(lines: Iterable[Line]) -> Iterator[Example]:
    """Yield the clauses of lines that say one thing in each, as the ranker sees them in a message.

    Tried on five authors not learnt from, 64 of 85 messages of several acts are heard whole
    instead of 62, and 6 instead of 9 of 795 single ones are cut in two.
    """
    for line in (each for each in lines if len(each.acts) > 1):
        form = normal(line.said, line.language)
        spans = find_spans(form, NAMES)
        cuts = clauses.cut(form, spans)
        if len(cuts) == len(line.acts):
            for act, (start, end) in zip(line.acts, cuts, strict=True):
                text = clauses.without_joint(abstracted(form.text, spans, start, end))
                is_asked = is_marked(form.traced.original(start, end))
                said = manner(form.text[start:end], form.language, has_mark=is_asked)
                one = replace(line, acts=(act,))
                yield Example(one, text, said, form.language, line.moment, line.pending)


def in_moments(found: Sequence[Example], passing: Sequence[Example] = ()) -> list[Example]:
    """Return examples, and copies of those that hold always: in some moment, beside a remark.

    Without them the few lines with a moment or a pending question would rule it, and a long text
    with something said in passing would look like nothing learnt.
    """
    draw = random.Random(11)
    always = [each for each in found if not each.moment and not each.pending]
    kinds = sorted({each.pending for each in found if each.pending})
    asides = [each for each in always if each.line.acts[0] in _ASIDES]
    passed = {name: [e for e in passing if e.language == name] for name in words.LANGUAGES}
    more: list[Example] = []
    for each in always:
        pending = draw.choice(kinds) if kinds and draw.random() < 0.4 else ""
        more.append(replace(each, moment=draw.choice(MOMENTS), pending=pending))
        if asides and each.line.acts[0] not in _ASIDES and draw.random() < 0.35:
            more.append(_beside(each, draw.choice(asides), ". ", is_first=draw.random() < 0.5))
        own = passed.get(each.language, [])
        if own and draw.random() < _SHARE_PASSING:
            joint = draw.choice(_JOINTS[each.language])
            more.append(_beside(each, draw.choice(own), joint, is_first=draw.random() < 0.6))
    return [*found, *more]


def _beside(each: Example, aside: Example, joint: str, *, is_first: bool) -> Example:
    texts = (aside.text, each.text) if is_first else (each.text, aside.text)
    both = {name: value or getattr(aside.manner, name) for name, value in vars(each.manner).items()}
    return replace(each, text=joint.join(texts), manner=Manner(**both))


#: How many lines are learnt with something said in passing too, and what may join the two.
_SHARE_PASSING: Final = 0.5
_JOINTS: Final = {
    "en": (". ", ", ", ", ", " so ", " and ", " but "),
    "es": (". ", ", ", ", ", " y ", " pero ", " asi que "),
}


#: Acts whose lines are said in passing beside anything.
_ASIDES: Final = frozenset({"other", "greet", "thanks"})


def matrix(found: Sequence[Example]) -> Any:
    """Return the features of examples as a sparse matrix."""
    from scipy.sparse import csr_matrix

    starts, places, values = [0], list[int](), list[float]()
    for each in found:
        row = features(each.text, each.manner, each.language, each.moment, each.pending)
        places += row.keys()
        values += row.values()
        starts.append(len(places))
    shape = (len(found), BUCKETS)
    return csr_matrix((values, places, starts), shape=shape, dtype=np.float32)


@dataclass(frozen=True)
class Learnt:
    """A linear model: the weight of each bucket for each act, of any bucket, and each act's own."""

    acts: list[str]
    weights: NDArray[np.float32]
    any: NDArray[np.float32]
    own: NDArray[np.float32]


def learnt(found: Sequence[Example]) -> Learnt:
    """Return a linear model of examples: margins and counts, added up.

    Margins tell near acts apart; counts (naive Bayes) know what is rare. Learnt from one author and
    tried on another, both together read 2 in 100 more rightly than margins alone, and at one error
    in twenty say so surely of 64 in 100 instead of 58. Weighed as here their sums are logarithms of
    odds, on that other author, without more ado.
    """
    from scipy.sparse import diags
    from sklearn.naive_bayes import MultinomialNB
    from sklearn.svm import LinearSVC

    seen = matrix(found)
    acts = [each.line.acts[0] for each in found]
    number = np.asarray((seen > 0).sum(axis=0)).ravel()
    rarity = np.sqrt(np.log((1 + len(acts)) / (1 + number)) / _COMMON)
    margins = LinearSVC(tol=0.03, random_state=3).fit(seen @ diags(rarity), acts)
    counts = MultinomialNB(alpha=_UNSEEN, fit_prior=False).fit(seen, acts)
    # What a feature never seen with an act says depends on the act alone: it is kept once.
    unseen = -_COUNTS * np.log(counts.feature_count_.sum(axis=1) + _UNSEEN * BUCKETS)
    weights = _MARGINS * margins.coef_.T * rarity[:, None] + _COUNTS * np.log(
        counts.feature_count_.T / _UNSEEN + 1.0
    )
    weights[number == 0] = 0.0
    return Learnt(
        list(margins.classes_),
        weights.astype(np.float32),
        (unseen - unseen.mean()).astype(np.float32),
        (_MARGINS * margins.intercept_).astype(np.float32),
    )


#: How often a feature counts with an act it was never seen with, and a rarity that counts as one;
#: what margins and counts weigh.
_UNSEEN: Final = 0.005
_COMMON: Final = 5.0
_MARGINS: Final = 2.5
_COUNTS: Final = 0.15


#: Words and texts that are an act as they stand: nothing is learnt from them.
_NOT_LEARNT: Final = frozenset(
    {"answers.toml", "columns.toml", "commands.toml", "facts.toml", "whose.toml"}
)


def digest(folder: Path = FOLDER) -> str:
    """Return a digest of all sentences and words that the weights are made of."""
    found = hashlib.sha256()
    words_learnt = [file for file in folder.rglob("words/*.toml") if file.name not in _NOT_LEARNT]
    for file in sorted([*folder.rglob("*.txt"), *words_learnt]):
        found.update(file.relative_to(folder).as_posix().encode() + b"\0" + file.read_bytes())
    return found.hexdigest()


def pairs(lines: Iterable[Line]) -> list[tuple[str, str]]:
    """Return the acts that stand beside one another in a sentence, each pair in order of names."""
    found = {pair for line in lines for pair in itertools.combinations(sorted(set(line.acts)), 2)}
    return sorted(found)


def write(lines: Sequence[Line], path: Path, folder: Path = FOLDER) -> None:
    """Write what is learnt from lines to a file."""
    every = examples(lines)
    found = [each for each in every if not each.line.is_further]
    passing = [example(line) for each in words.LANGUAGES for line in passing_lines(each, folder)]
    model = learnt(in_moments([*found, *clause_examples(lines)], passing))
    unit = np.abs(model.weights).max(axis=0) / _MOST_WEIGHT
    steps = np.round(model.weights / unit).astype(np.int8)
    steps[np.abs(steps) < _LEAST] = 0
    used = np.flatnonzero(steps.any(axis=1))
    forms = _forms(every, model.acts)
    np.savez_compressed(
        path,
        acts=np.array(model.acts, dtype=str),
        gaps=np.diff(used, prepend=0).astype(np.uint16),
        size=np.array(BUCKETS),
        counts=np.count_nonzero(steps[used], axis=1).astype(np.uint8),
        columns=np.nonzero(steps[used])[1].astype(np.uint8),
        steps=steps[used][steps[used] != 0],
        scale=unit.astype(np.float32),
        any=model.any,
        bias=model.own,
        forms=np.array(list(forms), dtype=np.uint64),
        form_acts=np.array(list(forms.values()), dtype=np.uint8),
        pairs=np.array(pairs(lines), dtype=str),
        digest=np.array(digest()),
    )


def _forms(found: Sequence[Example], acts: list[str]) -> dict[int, int]:
    """Return the forms that mean one act and no other."""
    meant: dict[int, set[str]] = {}
    for each in found:
        key = form_key(each.text, f"{each.moment}|{each.pending}")
        meant.setdefault(key, set()).add(each.line.acts[0])
    return {key: acts.index(next(iter(names))) for key, names in meant.items() if len(names) == 1}


def _count_words() -> None:
    """Count the words of English anew, those of listed slips as what they stand for."""
    meant = words.table("en", "spelling")["words"]
    near_words.count(
        " ".join(meant.get(word, word) for word in re.findall(r"[a-z']+", line.said.lower()))
        for line in act_lines("en")
        if not line.is_further
    )


def main(arguments: Sequence[str] | None = None) -> None:
    """Learn and write."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", type=Path, default=WEIGHTS)
    parser.add_argument("--from-folder", type=Path, default=FOLDER)
    chosen = parser.parse_args(arguments)
    if chosen.from_folder == FOLDER:
        _count_words()
    lines = [line for each in words.LANGUAGES for line in act_lines(each, chosen.from_folder)]
    write(lines, chosen.out, chosen.from_folder)
    size = chosen.out.stat().st_size // 1024
    sys.stdout.write(f"{len(lines)} lines, {size} KiB\n")


if __name__ == "__main__":
    main()
