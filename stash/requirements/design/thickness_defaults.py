"""What is usual for a thickness class, where a maker has not measured anything."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from stash.requirements.design.fabric import Fabric
from stash.requirements.design.gauge import FOUR_INCHES, Gauge
from stash.requirements.design.stitches import STITCHES, Craft, Stitch
from stash.trade.thickness import CLASSES

#: What is called plain: the fabric that bands and tables count in.
PLAIN_OF: dict[Craft, Stitch] = {
    Craft.KNIT: STITCHES["stockinette"],
    Craft.CROCHET: STITCHES["sc"],
}


def usual_stitches(craft: Craft, number: int, *, close: bool = False) -> Fraction:
    """Stitches over 4 in that a class usually gives: the middle of the published range.

    Stockinette or single crochet; the table counts lace crochet in double crochet, and gives
    only the upper bound of class 7, which is then taken. `close`: the most of the range.
    """
    cls = CLASSES[number]
    low, high = cls.knit_sts if craft is Craft.KNIT else cls.crochet_sts
    return Fraction(high + (high if low is None or close else low), 2)


def usual_gauge(
    fabric: Fabric, classes: tuple[int, int], strands: int = 1, *, close: bool = False
) -> Gauge:
    """The gauge a class usually gives in this fabric; from one class to another, half way.

    Strands held together widen a stitch by the square root of their number, as tex adds and
    gauge goes with the root of tex.
    """
    low, high = (usual_stitches(fabric.craft, number, close=close) for number in classes)
    single = (low + high) / 2
    stitches = single / Fraction(strands**0.5).limit_denominator(1000)
    return Gauge(stitches, stitches * fabric.rows_to_width)


def in_fabric(fabric: Fabric, counted: Gauge) -> Gauge:
    """The gauge of this fabric: as counted, or concluded from one counted in plain fabric.

    Plain, stockinette or single crochet, gives as many stitches; rows lie as much closer or
    further apart as they usually do.
    """
    if not counted.plain:
        return counted
    closer = fabric.rows_to_width / PLAIN_OF[fabric.craft].rows_to_width
    return replace(counted, rows=counted.rows * closer, plain=False)


def thickness_of_gauge(fabric: Fabric, gauge: Gauge) -> int:
    """The class whose usual stitches come nearest to a gauge: only to guess how thick a yarn is."""
    wanted = FOUR_INCHES.um / gauge.stitch_um
    return min(
        (cls.number for cls in CLASSES),
        key=lambda number: (abs(usual_stitches(fabric.craft, number) - wanted), number),
    )
