"""What is on the shelf, in short: ``I have 10 lb left``, ``bought 2 bags of 25 lb``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.forms.form import Form
from bot.hearing.forms.product_forms import FactsOfLabel, label_facts
from bot.hearing.heard import Scene, Slots
from bot.hearing.phrases import phrases, which

_says: Final = partial(phrases, "stock")
_SHARES: Final = {
    "half": 1 / 2,
    "two_thirds": 2 / 3,
    "three_quarters": 3 / 4,
    "third": 1 / 3,
    "quarter": 1 / 4,
}


@dataclass(frozen=True)
class StockShare:
    """What is on the shelf as a share of one pack."""

    share: float


def read_stock(text: str, _scene: Scene) -> Slots | None:
    """Read ``I have 10 lb left``, ``bought 2 bags of 25 lb``, ``half a bag left``."""
    found = _says("part_of_pack").whole(text.strip(" .!"))
    share = None if found is None else which("stock", _SHARES, found["share"])
    if share is not None:
        return Slots(read=StockShare(_SHARES[share]))
    facts = label_facts(text)
    if facts is None or (facts.shelf is None and facts.bought is None):
        return None
    return Slots(amount=facts.shelf or facts.bought, read=FactsOfLabel(facts))


FORMS: Final = (Form("set_stock", read_stock),)
