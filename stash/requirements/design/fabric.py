"""Fabric: the rows of one repeat, each a stitch and where the hook goes in."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from enum import StrEnum
from fractions import Fraction
from itertools import groupby

from stash.requirements.design.gauge import Gauge
from stash.requirements.design.stitches import (
    BACK_LOOP_EXTRA,
    STITCHES,
    Craft,
    Mixed,
    Stitch,
    carried_m,
)


class Loop(StrEnum):
    """Which loops of the row below a crochet stitch goes into."""

    BOTH = "both"
    BACK = "back"
    FRONT = "front"


#: How a loop is written behind a stitch; both loops are the rule and not written.
LOOP_MARKS = {Loop.BOTH: "", Loop.BACK: " blo", Loop.FRONT: " flo"}


@dataclass(frozen=True, slots=True)
class FabricRow:
    """One row of a fabric. The loop shapes the gauge, not the yarn in a stitch at that gauge.

    `tall`: how tall the row is against the mean row of its fabric, which knows it. `more`: times
    so much yarn, where its gauge was concluded from plain fabric.
    """

    stitch: Stitch
    loop: Loop = Loop.BOTH
    tall: Fraction = field(default=Fraction(1), compare=False)
    more: float = field(default=1.0, compare=False)

    def __str__(self) -> str:
        return self.stitch.name + LOOP_MARKS[self.loop]

    @property
    def extra(self) -> float:
        """What it takes more per area than plain, for when only plain gauge is known."""
        ribbing = self.loop is Loop.BACK and self.stitch == STITCHES["sc"]
        return BACK_LOOP_EXTRA if ribbing else self.stitch.extra

    def yarn_m(self, gauge: Gauge, diameter_m: float) -> float:
        """Metres in one stitch of this row at the fabric's gauge, all that is carried included."""
        carried = carried_m(self.stitch.craft, gauge) if self.stitch.carrying else 0.0
        return self.worked_m(gauge, diameter_m) + carried

    def worked_m(self, gauge: Gauge, diameter_m: float) -> float:
        """The same without what is carried."""
        own = gauge if self.tall == 1 else replace(gauge, rows=gauge.rows / self.tall)
        return self.more * self.stitch.yarn_m(own, diameter_m)


@dataclass(frozen=True, slots=True)
class Fabric:
    """The rows of one repeat, first to last, all of one craft.

    A low row takes its share of a repeat's height and a tall one its own, as usual heights go.
    """

    rows: tuple[FabricRow, ...]

    def __post_init__(self) -> None:
        if len({row.stitch.craft for row in self.rows}) != 1:
            raise ValueError("mixed fabric")
        mean = self.rows_to_width
        told = (replace(row, tall=mean / row.stitch.rows_to_width) for row in self.rows)
        object.__setattr__(self, "rows", tuple(told))

    def __str__(self) -> str:
        if self.craft is Craft.KNIT:
            return str(self.rows[0])
        runs = ((row, sum(1 for _ in run)) for row, run in groupby(self.rows))
        return ", ".join(str(row) if _by_itself(row, n) else f"{n} {row}" for row, n in runs)

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

    def by_plain_gauge(self) -> Fabric:
        """The same fabric, each row taking as much more as it does over plain of the same area."""
        return Fabric(tuple(replace(row, more=1 + row.extra) for row in self.rows))

    def row(self, index: int) -> FabricRow:
        """The row of the repeat that the design's row of this index works."""
        return self.rows[index % len(self.rows)]


def _by_itself(row: FabricRow, count: int) -> bool:
    """A single row of several stitches needs no count before its brackets."""
    return count == 1 and isinstance(row.stitch, Mixed)


PLAIN = Fabric((FabricRow(STITCHES["stockinette"]),))
