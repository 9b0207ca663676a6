"""A length of yarn or of fabric, in whole micrometres."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

#: An inch is 25.4 mm and a yard 0.9144 m, both exactly (NIST SP 811, B.8).
INCH_UM = 25_400
YARD_UM = 914_400


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """A length of yarn or of fabric, held in whole micrometres."""

    um: int

    def __add__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return Length(self.um + other.um)

    def __sub__(self, other: Length) -> Length:
        if not isinstance(other, Length):
            return NotImplemented
        return Length(self.um - other.um)

    def __neg__(self) -> Length:
        return Length(-self.um)

    def __mul__(self, count: int) -> Length:
        if not isinstance(count, int):
            return NotImplemented
        return Length(self.um * count)

    def __bool__(self) -> bool:
        return self.um != 0

    def __str__(self) -> str:
        return f"{self.um / 1_000_000:.1f}".removesuffix(".0") + " m"

    @property
    def m(self) -> float:
        """Metres, for estimates and for showing."""
        return self.um / 1_000_000

    @property
    def yd(self) -> float:
        """Yards, for showing."""
        return self.um / YARD_UM


NO_LENGTH = Length(0)


def metres(count: Fraction | int) -> Length:
    """So many metres, to the nearest micrometre."""
    return Length(round(Fraction(count) * 1_000_000))


def yards(count: Fraction | int) -> Length:
    """So many yards, to the nearest micrometre."""
    return Length(round(Fraction(count) * YARD_UM))


def inches(count: Fraction | int) -> Length:
    """So many inches, to the nearest micrometre."""
    return Length(round(Fraction(count) * INCH_UM))
