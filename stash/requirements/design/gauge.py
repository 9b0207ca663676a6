"""Gauge: how many stitches and rows go over a stretch of fabric."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stash.measures.length import Length, inches

FOUR_INCHES = inches(4)


@dataclass(frozen=True, slots=True)
class Gauge:
    """Stitches and rows as counted over a stretch of relaxed fabric, both above nothing.

    Rows are the mean over the repeat: in a fabric of tall and low rows, count whole repeats.
    `plain`: counted in stockinette or single crochet, whatever the fabric is.
    """

    stitches: Fraction
    rows: Fraction
    over: Length = FOUR_INCHES
    plain: bool = False

    def __post_init__(self) -> None:
        if self.stitches <= 0 or self.rows <= 0 or self.over.um <= 0:
            raise ValueError("empty gauge")

    @property
    def stitch_um(self) -> Fraction:
        """How wide one stitch is, exactly, in micrometres."""
        return self.over.um / self.stitches

    @property
    def row_um(self) -> Fraction:
        """How tall one row is, exactly, in micrometres."""
        return self.over.um / self.rows

    @property
    def stitch_m(self) -> float:
        """How wide one stitch is, in metres, for the model."""
        return float(self.stitch_um) / 1_000_000

    @property
    def row_m(self) -> float:
        """How tall one row is, in metres, for the model."""
        return float(self.row_um) / 1_000_000
