"""Money as a plain number in the currency's own unit, for scripts and sheets."""

from __future__ import annotations

from stash.measures.money import Money, decimals


def as_number(amount: Money, currency: str) -> float:
    """`28.0` for 2800 coins of a hundredth; the nearest number there is to the very amount."""
    return float(amount.coins / 10 ** decimals(currency))
