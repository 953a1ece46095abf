"""What is down already, held to the label: its rate, its maxima, its times; others' by assumption.

Whatever is found is no reason to leave it off the record.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from jobs.agronomy.amounts import Amount, LabelLimitExceeded, check_amount, rate_of
from jobs.agronomy.assumed import Assumed, assumed
from jobs.agronomy.label_times import TooManyApplications, TooSoon, check_times
from jobs.agronomy.labelled_product import Product, total_ai_kg_ha
from jobs.agronomy.ledger import UseUnknown, check_label
from jobs.agronomy.rates import Rate, WeightAgainstVolume
from jobs.agronomy.strengths import StrengthUnknown
from jobs.standing import Standing
from jobs.uses.parts import Piece, met_before
from jobs.uses.reported import Doubt


def achieved(
    amount: Amount | None, area_m2: float, product: Product | None
) -> tuple[Rate | None, LabelLimitExceeded | None]:
    """Return the rate an amount comes to, and the single application's maximum it exceeds."""
    if amount is None or product is None or product.rate is None:
        return None, None
    try:
        return check_amount(amount, area_m2, product), None
    except LabelLimitExceeded as over:
        return rate_of(amount, area_m2, product.rate.unit), over


def by_label(
    standing: Standing, pieces: Sequence[Piece], rate: Rate | None, product: Product, on: date
) -> tuple[LabelLimitExceeded | None, Doubt | None]:
    """Return the maximum that what is down already and this come to more than, and a doubt.

    It is down: whatever is found is no reason to leave it off the record.
    """
    over: LabelLimitExceeded | None = None
    doubt: Doubt | None = None
    for piece in pieces:
        history = met_before(standing, piece)
        try:
            if rate is not None:
                check_label(history, product, rate, on)
        except LabelLimitExceeded as found:
            over = over or found
        except UseUnknown as unknown:
            doubt = doubt or unknown
        except (StrengthUnknown, WeightAgainstVolume):
            pass
        try:
            check_times(history, product, on)
        except (TooSoon, TooManyApplications) as found:
            doubt = doubt or found
    return over, doubt


def taken_for(theirs: Product, own: Product | None, amount: Amount | None) -> Assumed | None:
    """Return what somebody else's treatment counts as where its amount tells nothing."""
    if amount is not None and theirs.rate is not None:
        try:
            total_ai_kg_ha(theirs.rate, theirs)
        except StrengthUnknown:
            return assumed(theirs, own)
        return None
    return assumed(theirs, own)
