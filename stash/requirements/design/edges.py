"""Where the bands of a laid-out design begin and end, in whole rows or stitches."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from stash.requirements.design.bands import Grid, Rows, Stitches, placed
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout


@dataclass(frozen=True, slots=True)
class Lying:
    """A band where it lies: its first cell from the bottom or the left, and the first one past it.

    `at` is its place among the bands of the design. `low` is where the band before ends, `high`
    where the one after begins: so far its edges may move without crossing another's. `share` is of
    a mixed band.
    """

    at: int
    role: str
    start: int
    end: int
    low: int
    high: int
    share: Fraction | None = None


def band_grid(layout: Layout, *, upright: bool = False) -> Grid:
    """The cells in which level bands are placed from the bottom, upright ones from the left.

    Level ones in rows and upright ones in stitches, the other way round where rows run up it.
    """
    if layout.sideways is upright:
        return Grid(len(layout.body.rows), layout.gauge.row_um, Rows)
    return Grid(layout.body.widest, layout.gauge.stitch_um, Stitches)


def lying(design: Design, layout: Layout, *, upright: bool = False) -> tuple[Lying, ...]:
    """The level bands of a design that is laid out from the bottom up, or the upright ones."""
    grid = band_grid(layout, upright=upright)
    found = [
        (*placed(band, grid), at, band.role)
        for at, band in enumerate(design.bands)
        if band.upright is upright
    ]
    found.sort()
    ends = [0, *(start + count for start, count, *_ in found)]
    starts = [*(start for start, *_ in found), grid.cells]
    return tuple(
        Lying(at, role, start, start + count, ends[i], starts[i + 1], design.bands[at].share)
        for i, (start, count, at, role) in enumerate(found)
    )
