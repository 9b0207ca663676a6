"""Where the level bands of a laid-out design begin and end, in whole rows or stitches."""

from __future__ import annotations

from dataclasses import dataclass

from stash.requirements.design.bands import Grid, Rows, Stitches, placed
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout


@dataclass(frozen=True, slots=True)
class Lying:
    """A level band where it lies: its first cell from the bottom, and the first one above it.

    `at` is its place among the bands of the design. `low` is where the band below ends, `high`
    where the one above begins: so far its edges may move without crossing another's.
    """

    at: int
    role: str
    start: int
    end: int
    low: int
    high: int


def level_grid(layout: Layout) -> Grid:
    """The height in which level bands are placed: rows, or stitches of rows that run up it."""
    if layout.sideways:
        return Grid(layout.body.widest, layout.gauge.stitch_um, Stitches)
    return Grid(len(layout.body.rows), layout.gauge.row_um, Rows)


def lying(design: Design, layout: Layout) -> tuple[Lying, ...]:
    """The level bands of a design that is laid out, from the bottom up."""
    grid = level_grid(layout)
    found = [
        (*placed(band, grid), at, band.role)
        for at, band in enumerate(design.bands)
        if not band.upright
    ]
    found.sort()
    ends = [0, *(start + count for start, count, *_ in found)]
    starts = [*(start for start, *_ in found), grid.cells]
    return tuple(
        Lying(at, role, start, start + count, ends[i], starts[i + 1])
        for i, (start, count, at, role) in enumerate(found)
    )
