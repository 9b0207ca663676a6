"""A weight of yarn, in whole milligrams."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

#: One avoirdupois ounce in milligrams: a sixteenth of a pound of 0.45359237 kg
#: (NIST Handbook 44, appendix C).
OUNCE_MG = Fraction(45_359_237, 1_600)
POUND_MG = 16 * OUNCE_MG


@dataclass(frozen=True, slots=True, order=True)
class Mass:
    """A weight of yarn, held in whole milligrams."""

    mg: int

    def __add__(self, other: Mass) -> Mass:
        if not isinstance(other, Mass):
            return NotImplemented
        return Mass(self.mg + other.mg)

    def __sub__(self, other: Mass) -> Mass:
        if not isinstance(other, Mass):
            return NotImplemented
        return Mass(self.mg - other.mg)

    def __neg__(self) -> Mass:
        return Mass(-self.mg)

    def __abs__(self) -> Mass:
        return Mass(abs(self.mg))

    def __mul__(self, count: int) -> Mass:
        if not isinstance(count, int):
            return NotImplemented
        return Mass(self.mg * count)

    def __bool__(self) -> bool:
        return self.mg != 0

    def __str__(self) -> str:
        return f"{self.mg / 1000:.1f}".removesuffix(".0") + " g"

    @property
    def g(self) -> float:
        """Grams, for estimates and for showing."""
        return self.mg / 1000


NO_MASS = Mass(0)


def grams(count: Fraction | int) -> Mass:
    """So many grams, to the nearest milligram."""
    return Mass(round(Fraction(count) * 1000))


def ounces(count: Fraction | int) -> Mass:
    """So many ounces, to the nearest milligram; the only inexact step on the way in."""
    return Mass(round(Fraction(count) * OUNCE_MG))
