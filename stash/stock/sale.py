"""A sale of an item, and its coming back: facts beside the state it is in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from stash.measures.money import Money


class SaleKind(StrEnum):
    """Gone to a buyer, or back from one."""

    SOLD = "sold"
    RETURNED = "returned"


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


def sold(facts: Sequence[Sale]) -> Sale | None:
    """The sale that was not taken back, of one item's facts in order; None while it is hers."""
    last = facts[-1] if facts else None
    return last if last is not None and last.kind is SaleKind.SOLD else None
