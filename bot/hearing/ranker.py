"""The ranker: how likely each act is for a clause, by weights learnt from the sentences.

A linear model over hashed features, made by ``python -m bot.hearing.train`` and shipped as one
small file. Beside the weights it holds the abstracted form of every training line, so that a text
that is one of them is known at once.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from pathlib import Path
from typing import Final
from zlib import crc32

import numpy as np
from numpy.typing import NDArray

from bot.hearing.features import features, tokens_of
from bot.hearing.guards import Manner

WEIGHTS: Final = Path(__file__).parent / "languages" / "weights.npz"


@dataclass(frozen=True, eq=False)
class Ranker:
    """Weights by bucket and act, of any bucket by act, and the forms known."""

    acts: tuple[str, ...]
    weights: NDArray[np.int8]
    scale: NDArray[np.float32]
    any: NDArray[np.float32]
    bias: NDArray[np.float32]
    rows: NDArray[np.int32]
    known: dict[int, str]
    pairs: frozenset[tuple[str, str]]
    digest: str

    # Without names and figures most of what people say is the same few sentences.
    @lru_cache(maxsize=512)  # noqa: B019 - there is one ranker
    def ranked(
        self, text: str, manner: Manner, language: str, moment: str, pending: str
    ) -> tuple[tuple[str, float], ...]:
        """Return acts with their probability, the likeliest first."""
        found = features(text, manner, language, moment, pending)
        places = self.rows[np.fromiter(found, dtype=np.int64, count=len(found))]
        values = np.fromiter(found.values(), dtype=np.float32, count=len(found))
        is_kept = places >= 0
        weights = self.weights[places[is_kept]].astype(np.float32)
        kept = values[is_kept]
        logits = (kept @ weights) * self.scale + kept.sum() * self.any + self.bias
        odds = np.exp(logits - logits.max())
        shares = odds / odds.sum()
        order = np.argsort(-shares)
        names = (self.acts[at] for at in order.tolist())
        return tuple(zip(names, shares[order].tolist(), strict=True))

    def form(self, text: str, moment: str, pending: str) -> str | None:
        """Return the act of the training line whose form this text has; None where none has."""
        for key in (f"{moment}|{pending}", f"|{pending}" if pending else "|", "|"):
            act = self.known.get(form_key(text, key))
            if act is not None:
                return act
        return None


def form_key(text: str, moment: str) -> int:
    """Return the key that a form is known by."""
    said = " ".join(tokens_of(text))
    return crc32(f"{moment}|{said}".encode()) | (crc32(said[::-1].encode()) << 32)


@cache
def ranker() -> Ranker:
    """Return the shipped ranker, loaded once."""
    return load(WEIGHTS)


def load(path: Path) -> Ranker:
    """Return the ranker kept in a file."""
    with np.load(path) as kept:
        acts = tuple(str(name) for name in kept["acts"])
        known = {
            int(key): acts[at] for key, at in zip(kept["forms"], kept["form_acts"], strict=True)
        }
        return Ranker(
            acts,
            _weights(kept["counts"], kept["columns"], kept["steps"], len(acts)),
            kept["scale"].astype(np.float32),
            kept["any"],
            kept["bias"].astype(np.float32),
            _rows(kept["gaps"], int(kept["size"])),
            known,
            frozenset((str(first), str(second)) for first, second in kept["pairs"]),
            str(kept["digest"]),
        )


def _rows(gaps: NDArray[np.uint16], size: int) -> NDArray[np.int32]:
    used = np.cumsum(gaps, dtype=np.int64)
    rows = np.full(size, -1, dtype=np.int32)
    rows[used] = np.arange(len(used), dtype=np.int32)
    return rows


def _weights(
    counts: NDArray[np.uint8], columns: NDArray[np.uint8], steps: NDArray[np.int8], acts: int
) -> NDArray[np.int8]:
    """Return the weights of all rows, of which the file holds those that decide something."""
    found = np.zeros((len(counts), acts), dtype=np.int8)
    found[np.repeat(np.arange(len(counts)), counts), columns] = steps
    return found
