"""What is on the shelf in free speech: ``a bag and a half``, ``picked up three 25 lb bags``."""

from __future__ import annotations

from dataclasses import dataclass
from functools import partial
from typing import Final

from bot.hearing.phrases import Said, phrases, which
from bot.hearing.readers.lexing import UnreadNumber, plain, value_of
from bot.hearing.readers.quantities import Amount, read_amount
from bot.hearing.readers.spoken import with_figures
from bot.hearing.words import bare

_says: Final = partial(phrases, "stock")
#: Shares of a pack that are left.
_SHARES: Final = {
    "half": 1 / 2,
    "two_thirds": 2 / 3,
    "three_quarters": 3 / 4,
    "third": 1 / 3,
    "quarter": 1 / 4,
}
#: Nobody tells of more packs than this.
_MOST_PACKS: Final = 50.0
#: A figure that names no pack counts no more of them.
_MOST_UNNAMED: Final = 12


@dataclass(frozen=True)
class StockSaid:
    """So many packs on the shelf, of a size where one was said; or so many more."""

    packs: float
    size: Amount | None = None
    is_added: bool = False


def read_stock_words(text: str, amount: Amount | None = None) -> StockSaid | None:
    """Return what a sentence tells of the shelf; None where it has to be asked.

    Parameters
    ----------
    text
        As typed.
    amount
        The one amount in it, where there is one.
    """
    said = with_figures(with_figures(bare(plain(text).text), "en"), "es")
    left = _says("none").without(said)
    counts = list(_says("counts").every(left))
    is_added = _says("added").first(left) is not None
    if not counts and left != said and amount is None:
        return StockSaid(0.0)
    if len(counts) > 1 or (counts and _says("taken").first(left)):
        return None
    if counts:
        return _counted(counts[0], amount, is_added=is_added)
    if amount is not None:
        return StockSaid(1.0, amount, is_added)
    alone = list(_says("alone").every(left))
    count = _value(alone[0]["n"]) if len(alone) == 1 and left == said else None
    is_few = count is not None and count in range(1, _MOST_UNNAMED + 1)
    return StockSaid(count or 0.0, None, is_added) if is_few else None


def _counted(said: Said, amount: Amount | None, *, is_added: bool) -> StockSaid | None:
    size = read_amount(f"{said['size']} {said['unit']}") if said["size"] else None
    if amount is not None and size is None:
        # "Found a bag, 20 lb left in it": how much is in it counts.
        return StockSaid(1.0, amount, is_added)
    share = _share(said["share"])
    count = share if said["share"] else _value(said["n"] or "1")
    more = _share(said["half"]) if said["half"] else 0.0
    if count is None or more is None or not 0 < count + more <= _MOST_PACKS:
        return None
    return StockSaid(count + more, size if isinstance(size, Amount) else None, is_added)


def _share(said: str) -> float | None:
    share = which("stock", _SHARES, said)
    return None if share is None else _SHARES[share]


def _value(said: str) -> float | None:
    try:
        value = value_of(said)
    except (UnreadNumber, ValueError):
        return None
    return value if value <= _MOST_PACKS else None
