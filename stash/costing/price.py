"""From what an item costs to what is to be asked for it, and back to what an hour earns."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from stash.measures.mass import Mass
from stash.measures.money import Money
from stash.measures.rounding import shared_out

NO_MONEY = Money(0)
#: The rule of thumb that is shown beside the price worked out (common practice, no source).
TIMES_MATERIALS = 3


@dataclass(frozen=True, slots=True)
class YarnCost:
    """So much of one skein for one role, and its cost; `known` if the price of all of it is.

    `gift` yarn costs nothing; `worth` is what it is counted for all the same.
    """

    skein: int
    role: str
    mass: Mass
    cost: Money
    known: bool
    gift: bool = False
    worth: Money = NO_MONEY


@dataclass(frozen=True, slots=True)
class Terms:
    """What comes on top of the yarn.

    `sundries` are buttons, labels and the like for one item. `overhead` is a share of yarn,
    sundries and work; `fees` a share of the price, which the place of sale keeps.
    """

    sundries: Money = NO_MONEY
    hours: Fraction | None = None
    wage: Money | None = None
    overhead: Fraction = Fraction(0)
    fees: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class Price:
    """A price, and the parts that it is made of to the coin."""

    price: Money
    materials: Money
    work: Money
    overhead: Money
    fees: Money


@dataclass(frozen=True, slots=True)
class Costing:
    """An item's cost. What is not known counts as nothing, so that all is then *at least*."""

    yarn: tuple[YarnCost, ...]
    terms: Terms

    @property
    def yarn_cost(self) -> Money:
        """What the yarn in it was bought for."""
        return sum((line.cost for line in self.yarn), NO_MONEY)

    @property
    def gifts_worth(self) -> Money:
        """What the gifts among it are counted for."""
        return sum((line.worth for line in self.yarn), NO_MONEY)

    @property
    def materials(self) -> Money:
        """Yarn, gifts at what they are counted for, and sundries."""
        return self.yarn_cost + self.gifts_worth + self.terms.sundries

    @property
    def known(self) -> bool:
        """Whether the price of all its yarn is known."""
        return all(line.known for line in self.yarn)

    @property
    def floor(self) -> Price:
        """The price below which money is lost, her hours unpaid."""
        return self.asked(NO_MONEY)

    @property
    def wanted(self) -> Price | None:
        """The price that pays the wage; None without hours or a wage."""
        if self.terms.hours is None or self.terms.wage is None:
            return None
        return self.asked(Money(_nearest(self.terms.hours * self.terms.wage.coins)))

    def asked(self, work: Money) -> Price:
        """The price that pays all and so much for the work, up to the next coin."""
        cost = (self.materials + work).coins
        whole = cost * (1 + self.terms.overhead)
        price = Money(math.ceil(whole / (1 - self.terms.fees)))
        overhead = Money(_nearest(whole) - cost)
        kept = price - self.materials - work - overhead
        return Price(price, self.materials, work, overhead, kept)

    def earns(self, price: Money, fee: Money | None = None) -> Fraction | None:
        """What a price leaves for an hour, in coins; None where the hours are not known.

        `fee` is what was really kept of it, else the usual share. Where the cost is *at least*,
        this is *at most*.
        """
        if not self.terms.hours:
            return None
        left = price.coins - (self.terms.fees * price.coins if fee is None else fee.coins)
        return (left / (1 + self.terms.overhead) - self.materials.coins) / self.terms.hours

    @property
    def three_times(self) -> Money:
        """Three times the materials: the rule of thumb."""
        return self.materials * TIMES_MATERIALS


def gifts_at(lines: Sequence[YarnCost], per_100g: Money) -> tuple[YarnCost, ...]:
    """The same yarn with its gifts counted at so much for 100 g.

    The worth of all gifts together is rounded to the coin once and shared by weight, by largest
    remainder.
    """
    weights = [line.mass.mg if line.gift else 0 for line in lines]
    whole = _nearest(Fraction(sum(weights) * per_100g.coins, 100_000))
    parts = shared_out(whole, weights) if whole and any(weights) else [0] * len(lines)
    return tuple(
        YarnCost(x.skein, x.role, x.mass, x.cost, x.known, x.gift, Money(part))
        for x, part in zip(lines, parts, strict=True)
    )


def _nearest(value: Fraction | int) -> int:
    """To the nearest whole, halves up."""
    return math.floor(value + Fraction(1, 2))
