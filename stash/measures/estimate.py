"""A length that is only known with a spread; floats in metres, never booked without rounding."""

from __future__ import annotations

import math
import sys
from dataclasses import dataclass

from stash.measures.length import Length


@dataclass(frozen=True, slots=True)
class Estimate:
    """An expected length of yarn in metres and its spread (one standard deviation)."""

    expected_m: float
    spread_m: float

    def __add__(self, other: Estimate) -> Estimate:
        """The sum of two independent estimates."""
        if not isinstance(other, Estimate):
            return NotImplemented
        return Estimate(
            self.expected_m + other.expected_m, math.hypot(self.spread_m, other.spread_m)
        )

    @property
    def relative(self) -> float:
        """The spread as a fraction of what is expected; 0 for nothing expected."""
        return self.spread_m / self.expected_m if self.expected_m > 0 else 0.0

    def chance_within(self, have_m: float, have_spread_m: float = 0.0) -> float:
        """How likely so much yarn is enough, both taken as normal; 0 or 1 with no spread at all."""
        spread = math.hypot(self.spread_m, have_spread_m)
        if spread == 0:
            return 1.0 if have_m >= self.expected_m else 0.0
        return normal_cdf((have_m - self.expected_m) / spread)


def normal_cdf(z: float) -> float:
    """The share of a normal distribution below z."""
    return 0.5 * math.erfc(-z / math.sqrt(2))


def to_books(length_m: float) -> Length:
    """The one crossing from an estimate to the books: up to the next whole micrometre."""
    um = length_m * 1_000_000
    return Length(math.ceil(um - 4 * sys.float_info.epsilon * um))  # less what a double rounds
