"""Samples of answers, bent and broken at random, for parsers that must not break with them."""

from __future__ import annotations

import copy
import json
from typing import Any

from hypothesis import strategies as st

_LEAVES = st.one_of(
    st.none(),
    st.booleans(),
    st.integers(-(10**30), 10**30),
    st.floats(),
    st.text(max_size=8),
    st.just([]),
    st.just({}),
    st.just(10**400),
    st.sampled_from(["P", "PT0H", "2022-02-03T21:00:00+00:00/P999D", "9999-12-31T23:59:59Z/PT9H"]),
)


def _paths(told: Any, here: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    out = [here]
    if isinstance(told, dict):
        for key, value in told.items():
            out += _paths(value, (*here, key))
    elif isinstance(told, list):
        # The first and the last of a long list stand for all.
        for index in {0, 1, len(told) - 1} & set(range(len(told))):
            out += _paths(told[index], (*here, index))
    return out


@st.composite
def mutated(draw: st.DrawFn, sample: Any) -> bytes:
    """Return a sample as JSON with up to four places changed, or its bytes damaged."""
    told = copy.deepcopy(sample)
    for _ in range(draw(st.integers(0, 4))):
        path = draw(st.sampled_from(_paths(told)))
        if not path:
            told = draw(_LEAVES)
            continue
        parent = told
        for key in path[:-1]:
            parent = parent[key]
        match draw(st.sampled_from(["replace", "remove", "repeat", "wrap"])):
            case "replace":
                parent[path[-1]] = draw(_LEAVES)
            case "remove":
                del parent[path[-1]]
            case "repeat" if isinstance(parent, list):
                parent.extend(copy.deepcopy(parent))
            case _:
                parent[path[-1]] = [parent[path[-1]]]
    body = json.dumps(told).encode()
    match draw(st.sampled_from(["whole", "whole", "whole", "cut", "bytes"])):
        case "cut":
            body = body[: draw(st.integers(0, len(body)))]
        case "bytes":
            at = draw(st.integers(0, len(body)))
            body = body[:at] + draw(st.binary(max_size=6)) + body[at + 3 :]
    return body
