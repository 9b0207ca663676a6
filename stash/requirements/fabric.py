"""Fabric: the rows of one repeat, each a stitch and where the hook goes in."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import groupby

from stash.requirements.stitches import STITCHES, Craft, Stitch


class Loop(StrEnum):
    """Which loops of the row below a crochet stitch goes into."""

    BOTH = "both"
    BACK = "back"
    FRONT = "front"


#: How a loop is written behind a stitch; both loops are the rule and not written.
LOOP_MARKS = {Loop.BOTH: "", Loop.BACK: " blo", Loop.FRONT: " flo"}


@dataclass(frozen=True, slots=True)
class FabricRow:
    """One row of a fabric. The loop shapes the gauge, not the yarn in a stitch at that gauge."""

    stitch: Stitch
    loop: Loop = Loop.BOTH

    def __str__(self) -> str:
        return self.stitch.name + LOOP_MARKS[self.loop]


@dataclass(frozen=True, slots=True)
class Fabric:
    """The rows of one repeat, first to last, all of one craft."""

    rows: tuple[FabricRow, ...]

    def __post_init__(self) -> None:
        if len({row.stitch.craft for row in self.rows}) != 1:
            raise ValueError("a fabric has at least one row and is knitted or crocheted throughout")

    def __str__(self) -> str:
        if self.craft is Craft.KNIT:
            return str(self.rows[0])
        runs = ((row, sum(1 for _ in run)) for row, run in groupby(self.rows))
        return ", ".join(f"{count} {row}" for row, count in runs)

    @property
    def craft(self) -> Craft:
        """Knitted or crocheted."""
        return self.rows[0].stitch.craft

    @property
    def stitches(self) -> tuple[Stitch, ...]:
        """The stitch of each row of the repeat."""
        return tuple(row.stitch for row in self.rows)

    @property
    def rows_to_width(self) -> Fraction:
        """How many rows, on average over the repeat, make up the width of one stitch."""
        return len(self.rows) / sum((1 / s.rows_to_width for s in self.stitches), Fraction(0))

    def row(self, index: int) -> FabricRow:
        """The row of the repeat that the piece's row of this index works."""
        return self.rows[index % len(self.rows)]


PLAIN = Fabric((FabricRow(STITCHES["stockinette"]),))
