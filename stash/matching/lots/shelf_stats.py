"""What a lot is compared with on its own shelf: how old the oldest yarn is, what a metre costs."""

from __future__ import annotations

import math
from dataclasses import dataclass
from datetime import date

from stash.matching.lots.shelf import Shelf
from stash.stock.holding import HeldLot


@dataclass(frozen=True, slots=True)
class ShelfStats:
    """The shelf about a lot: when its oldest yarn came, today, and the middle price of a metre.

    None where no skein's day, or no price, is known. Prices in smallest coins a metre.
    """

    oldest: date | None = None
    today: date | None = None
    price_m: float | None = None

    def newness(self, came: date | None) -> float:
        """How far a lot came after the oldest yarn: 0 with it, 1 today; 0 where it is not known."""
        if came is None or self.oldest is None or self.today is None or self.oldest == self.today:
            return 0.0
        return (came - self.oldest).days / (self.today - self.oldest).days

    def dearness(self, held: HeldLot) -> float | None:
        """Its price a metre in middle prices of the shelf; None where either is not known."""
        price = price_a_metre(held)
        return None if price is None or not self.price_m else price / self.price_m


#: A shelf of which no day and no price is known.
NO_STATS = ShelfStats()


def stats_of(shelf: Shelf) -> ShelfStats:
    """What each lot is compared with; a gift sets no price, the middle is the upper one of two."""
    days = [s.since for held in shelf.lots for s in held.skeins if s.since is not None]
    prices = sorted(p for held in shelf.lots if (p := price_a_metre(held)))
    return ShelfStats(
        min(days, default=None), shelf.as_of, prices[len(prices) // 2] if prices else None
    )


def came_on(held: HeldLot) -> date | None:
    """The day the lot's oldest skein came; None where none is known."""
    days = [s.since for s in held.skeins if s.since is not None]
    return min(days) if days else None


def price_a_metre(held: HeldLot) -> float | None:
    """What a metre cost, in smallest coins, by the skeins that came whole; None if not known."""
    priced = [
        (s.paid.coins, s.pair.put_up.length.m)
        for s in held.skeins
        if s.paid is not None and s.pair.put_up is not None and not s.arrived_opened
    ]
    return (
        math.fsum(coins for coins, _ in priced) / math.fsum(m for _, m in priced)
        if priced
        else None
    )
