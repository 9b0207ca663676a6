"""Money in the smallest coin of the file's one currency."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.measures.rounding import shared_out


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
