"""What is on the shelf, in short: ``I have 10 lb left``, ``bought 2 bags of 25 lb``."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.forms.product_forms import FactsOfLabel, label_facts
from bot.hearing.heard import Scene, Slots

_PART_OF_PACK: Final = re.compile(
    r"(?:(?:i|we)\s+)?(?:(?:have|got|there'?s|there\s+is)\s+)?(?:still\s+)?(?:about\s+)?"
    r"(?P<share>half|(?:a\s+)?(?:third|quarter)|two[ -]thirds|three[ -]quarters)\s+(?:of\s+)?"
    r"(?:a|the|one|my)?\s*(?:bag|bottle|jug|sack|pail)(?:\s+(?:is\s+)?left)?(?:\s+over)?"
    r"(?:\s+(?:from|of)\s+last\s+(?:year|spring|fall|season))?",
    re.IGNORECASE,
)
_SHARES: Final = (
    ("half", 1 / 2),
    ("two", 2 / 3),
    ("three", 3 / 4),
    ("third", 1 / 3),
    ("quarter", 1 / 4),
)


@dataclass(frozen=True)
class StockShare:
    """What is on the shelf as a share of one pack."""

    share: float


def read_stock(text: str, _scene: Scene) -> Slots | None:
    """Read ``I have 10 lb left``, ``bought 2 bags of 25 lb``, ``half a bag left``."""
    match = _PART_OF_PACK.fullmatch(text.strip(" .!"))
    if match is not None:
        said = match["share"].casefold()
        return Slots(read=StockShare(next(share for word, share in _SHARES if word in said)))
    facts = label_facts(text)
    if facts is None or (facts.shelf is None and facts.bought is None):
        return None
    return Slots(amount=facts.shelf or facts.bought, read=FactsOfLabel(facts))


FORMS: Final = (Form("set_stock", read_stock),)
