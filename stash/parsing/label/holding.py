"""The amounts of a line on their way: a full skein, how many, and what is left of opened ones."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stash.errors import Unreadable
from stash.measures.length import Length
from stash.measures.mass import OUNCE_MG, Mass, grams
from stash.parsing.label.span import Amount

#: What yarn is sold in (common practice, no source).
_SOLD_GRAMS = (10, 20, 25, 40, 50, 75, 100, 115, 125, 150, 200, 225, 250, 300, 400, 450, 500, 1000)


_SOLD_OUNCES = (1, 1.75, 2, 3, 3.5, 4, 5, 6, 7, 8, 12, 14, 16)


#: Two figures for one thing may differ by what printers round away.
ALIKE = Fraction(3, 100)


class ShareOfWhat(Unreadable):
    """A share of a skein, of which nobody says what a full one holds."""


class Impossible(Exception):
    """A reading that no skein can have, so it is none."""


@dataclass(slots=True)
class Holding:
    """Amounts of a line on their way: the full skein, how many, and the opened ones."""

    mass: Mass | None = None
    length: Length | None = None
    count: int = 1
    left: Amount | None = None
    parts: tuple[Amount, ...] = ()
    about: bool = False
    counted: bool = False

    def full(self, like: Amount | None = None) -> Amount | None:
        """What a full skein holds, of the kind asked for where one is."""
        if like is None:
            return self.mass if self.mass is not None else self.length
        return self.mass if isinstance(like, Mass) else self.length


def amount_like(like: Amount, size: int) -> Amount:
    """So many milligrams or micrometres, as the amount it is like."""
    return Mass(size) if isinstance(like, Mass) else Length(size)


def times_share(full: Amount, share: Fraction) -> Amount:
    """A share of a full skein, at least the smallest part."""
    return amount_like(full, max(1, round(size_of(full) * share)))


def is_put_up(mass: Mass) -> bool:
    """Whether yarn is sold in that weight, in grams or in ounces, printed a little rounded."""
    sold = [grams(g).mg for g in _SOLD_GRAMS] + [round(oz * OUNCE_MG) for oz in _SOLD_OUNCES]
    return any(abs(mass.mg - each) <= each / 50 for each in sold)


def size_of(amount: Amount) -> int:
    """An amount as whole milligrams or micrometres."""
    return amount.mg if isinstance(amount, Mass) else amount.um


def alike(one: int, other: int) -> bool:
    """Whether two figures differ by no more than printed rounding."""
    return abs(one - other) <= ALIKE * max(one, other)
