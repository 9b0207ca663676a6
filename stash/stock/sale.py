"""What became of a finished item, and its coming back: facts beside the state it is in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.measures.money import Money


class SaleKind(StrEnum):
    """Gone to a buyer, given away or lost; or back from any of that."""

    SOLD = "sold"
    RETURNED = "returned"
    GIVEN = "given"
    LOST = "lost"


@dataclass(frozen=True, slots=True)
class Sale:
    """What happened on one day: the price and the fee that were paid, or given back by *returned*.

    The fee is what the place of sale kept of the price.
    """

    entry: int
    on: date
    item: int
    kind: SaleKind
    price: Money
    fee: Money


def away(facts: Sequence[Sale]) -> Sale | None:
    """What one item went by, of its facts in order; None while it is hers."""
    last = facts[-1] if facts else None
    return None if last is None or last.kind is SaleKind.RETURNED else last


def sold(facts: Sequence[Sale]) -> Sale | None:
    """The sale that was not taken back, of one item's facts in order; None where there is none."""
    last = away(facts)
    return last if last is not None and last.kind is SaleKind.SOLD else None
