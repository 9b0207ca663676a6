"""The pair on the band: what a full skein weighs and measures, and the crossings it allows."""

from __future__ import annotations

from dataclasses import dataclass

from stash.measures.length import Length
from stash.measures.mass import Mass


@dataclass(frozen=True, slots=True)
class PutUp:
    """The mass and length of one full skein; both above nothing."""

    mass: Mass
    length: Length

    def __post_init__(self) -> None:
        if self.mass.mg <= 0 or self.length.um <= 0:
            raise ValueError("empty put-up")

    def __str__(self) -> str:
        return f"{self.mass} / {self.length}"

    def length_of(self, mass: Mass) -> Length:
        """How long so much of this yarn is, to the nearest micrometre."""
        return Length(_nearest(mass.mg * self.length.um, self.mass.mg))

    def mass_of(self, length: Length) -> Mass:
        """What so long a design of this yarn weighs, to the nearest milligram."""
        return Mass(_nearest(length.um * self.mass.mg, self.length.um))

    def mass_covering(self, length: Length) -> Mass:
        """The least whole milligrams that hold at least so much length: for promises."""
        return Mass(-(-length.um * self.mass.mg // self.length.um))

    @property
    def m_per_100g(self) -> float:
        """Metres per 100 g, the trade's measure of fineness."""
        return self.length.um / self.mass.mg / 10

    @property
    def tex(self) -> float:
        """Grams per 1000 m."""
        return self.mass.mg * 1_000_000 / self.length.um


def _nearest(numerator: int, denominator: int) -> int:
    """The quotient to the nearest whole, halves up, in whole numbers all the way."""
    return (2 * numerator + denominator) // (2 * denominator)
