"""Money in the smallest coin of the file's one currency."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.measures.rounding import shared_out

#: Currencies whose smallest coin is not a hundredth (ISO 4217, minor units; from memory).
_DECIMALS = {
    "BHD": 3, "CLP": 0, "ISK": 0, "JOD": 3, "JPY": 0, "KRW": 0, "KWD": 3, "OMR": 3, "TND": 3,
    "VND": 0,
}  # fmt: skip


def decimals(currency: str) -> int:
    """How many digits stand after the point in a currency; two where none is known."""
    return _DECIMALS.get(currency, 2)


@dataclass(frozen=True, slots=True, order=True)
class Money:
    """An amount in whole smallest coins; the currency is the file's. Nothing is a gift."""

    coins: int

    def __add__(self, other: Money) -> Money:
        if not isinstance(other, Money):
            return NotImplemented
        return Money(self.coins + other.coins)

    def __sub__(self, other: Money) -> Money:
        if not isinstance(other, Money):
            return NotImplemented
        return Money(self.coins - other.coins)

    def __mul__(self, count: int) -> Money:
        if not isinstance(count, int):
            return NotImplemented
        return Money(self.coins * count)

    def shared(self, weights: Sequence[int]) -> list[Money]:
        """This amount over several takers by weight, to the last coin, by largest remainder."""
        return [Money(part) for part in shared_out(self.coins, weights)]
