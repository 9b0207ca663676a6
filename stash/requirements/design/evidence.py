"""What has been measured of a design: swatches and finished items."""

from __future__ import annotations

from dataclasses import dataclass

from stash.measures.length import Length
from stash.measures.mass import Mass

GRAM = Mass(1000)


@dataclass(frozen=True, slots=True)
class Swatch:
    """A weighed swatch of the design's own fabric; `step` is the smallest step of the scale."""

    mass: Mass
    wide: Length
    tall: Length
    step: Mass = GRAM

    def __post_init__(self) -> None:
        if min(self.mass.mg, self.wide.um, self.tall.um) <= 0:
            raise ValueError("empty swatch")


@dataclass(frozen=True, slots=True)
class OwnItem:
    """What one finished item of the design took, in metres over all strands.

    `by_role` where the colours were told apart; else only `total_m`, which is split by the shares
    of the next source. `scale_m` is what the scale's step leaves open (one standard deviation),
    `pair_spread` the relative spread of the metres per gram, where that was only assumed.
    `yarns` are the metres in 100 g of what it was weighed in, by role; "" is all of it together.
    """

    by_role: tuple[tuple[str, float], ...] = ()
    total_m: float | None = None
    scale_m: float = 0.0
    pair_spread: float = 0.0
    yarns: tuple[tuple[str, float], ...] = ()

    def m_per_100g(self, role: str) -> float | None:
        """Metres in 100 g of the yarn that a role was weighed in, where that is known."""
        known = dict(self.yarns)
        return known.get(role, known.get(""))
