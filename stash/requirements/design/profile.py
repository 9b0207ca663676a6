"""Profile: how wide a part of a design is at each height, and so how many stitches a row has."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from stash.measures.length import Length
from stash.measures.rounding import nearest
from stash.requirements.design.gauge import Gauge

_HALF = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class Slope:
    """How a part widens in a straight line, away from one of its edges, up to its full width.

    `edge`: its width at that edge, as a share of the full one. `rate`: how much wider it gets for
    each unit of height; None where the line runs over the whole height.
    """

    edge: Fraction = Fraction(0)
    rate: Fraction | None = None

    def stitches(self, widest: int, rows: int, away: Fraction, gauge: Gauge) -> Fraction:
        """The stitches so many rows away from the edge, in a part of so many rows in all."""
        if self.rate is None:
            return widest * (self.edge + (1 - self.edge) * away / rows)
        return widest * self.edge + away * self.rate * gauge.row_um / gauge.stitch_um


@dataclass(frozen=True, slots=True)
class Profile:
    """One part of a design as geometry: `width` along its longest row, `height` across its rows.

    It `opens` from the bottom and `closes` towards the top; without a slope it is as wide as ever
    right there. A panel and a tube have none, a hat closes, a triangle opens, a circle opens by
    2 pi: its width is then the way round it, its height the way from its centre to its edge.
    """

    name: str
    width: Length
    height: Length
    opens: Slope | None = None
    closes: Slope | None = None

    def stitches(self, rows: int, gauge: Gauge) -> tuple[int, ...]:
        """Each row's stitches from the bottom up, taken at its middle: to the nearest, never none.

        A slope that does not depend on the size makes a larger part never take less; so does one
        that runs over the whole height, as it is reckoned in whole rows.
        """
        return _stitches(self, rows, gauge)

    def row(self, index: int, rows: int, widest: int, gauge: Gauge) -> int:
        """The stitches of one row."""
        allowed = [Fraction(widest)]
        if self.opens:
            allowed.append(self.opens.stitches(widest, rows, index + _HALF, gauge))
        if self.closes:
            allowed.append(self.closes.stitches(widest, rows, rows - index - _HALF, gauge))
        return max(1, nearest(min(allowed)))


@lru_cache(maxsize=256)
def _stitches(profile: Profile, rows: int, gauge: Gauge) -> tuple[int, ...]:
    """Kept, as a design whose bands alone are moved has the same rows each time."""
    widest = max(1, nearest(profile.width.um / gauge.stitch_um))
    return tuple(profile.row(index, rows, widest, gauge) for index in range(rows))
