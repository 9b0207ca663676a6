"""Bands: stretches of a second colour, placed up the height of a piece; the rest is A."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from fractions import Fraction
from itertools import groupby

from stash.errors import Refusal
from stash.measures.length import Length

#: The main colour: whatever the bands leave.
MAIN = "A"


class Place(StrEnum):
    """Where a band sits when no distance is given."""

    TOP = "top"
    MIDDLE = "middle"
    BOTTOM = "bottom"


@dataclass(frozen=True, slots=True)
class Stitches:
    """An extent counted in stitches, for a piece whose rows run up it."""

    count: int


@dataclass(frozen=True, slots=True)
class Rows:
    """An extent counted in rows or rounds, for a piece whose rows run across it."""

    count: int


Extent = Length | Stitches | Rows


@dataclass(frozen=True, slots=True)
class Band:
    """So much of one role, at the top, middle or bottom or at a distance from the bottom."""

    role: str
    extent: Extent
    place: Place | Length = Place.BOTTOM

    def __str__(self) -> str:
        place = self.place if isinstance(self.place, Place) else f"{self.place.m * 100:g} cm up"
        return f"{self.role} {_extent_words(self.extent)} {place}"


@dataclass(frozen=True, slots=True)
class Grid:
    """The height of a piece as whole cells: stitches if its rows run up it, else rows.

    `unit` is the kind of count that fits; None where there is no gauge, so that only lengths do.
    """

    cells: int
    cell_um: Fraction
    unit: type[Stitches] | type[Rows] | None

    def count(self, extent: Extent) -> int:
        """An extent in cells: a length to the nearest whole one, but never to none."""
        if isinstance(extent, Length):
            return max(1, round(extent.um / self.cell_um))
        if self.unit is None or not isinstance(extent, self.unit):
            raise Refusal(f"{_extent_words(extent)} of a band cannot be placed here: {self._way()}")
        return extent.count

    def _way(self) -> str:
        return {
            Stitches: "the rows run up this piece, so give a length or stitches, as in 'B 3 sts'",
            Rows: "the rows run across this piece, so give a length or rows, as in 'B 4 rows'",
            None: "with no gauge there are no stitches or rows; give a length, as in 'B 2cm', "
            "or the gauge",
        }[self.unit]


@dataclass(frozen=True, slots=True)
class Stretch:
    """So many cells of one role."""

    role: str
    cells: int


def stretches(bands: Sequence[Band], grid: Grid) -> tuple[Stretch, ...]:
    """The whole height from the bottom up, band by band, with A between and around them."""
    roles = [MAIN] * grid.cells
    for band in bands:
        start, count = _placed(band, grid)
        if set(roles[start : start + count]) != {MAIN}:
            raise Refusal(
                f"band {band} lies over another band: give it a distance from the bottom, "
                f"as in '{band.role} 2cm 5cm'"
            )
        roles[start : start + count] = [band.role] * count
    if MAIN not in roles:
        raise Refusal("the bands leave nothing for A: leave out the band of the main colour")
    return tuple(Stretch(role, sum(1 for _ in run)) for role, run in groupby(roles))


def _placed(band: Band, grid: Grid) -> tuple[int, int]:
    """The first cell of a band and how many it takes."""
    if band.role == MAIN:
        raise Refusal("A is whatever the bands leave: give bands to B, C or D")
    count = grid.count(band.extent)
    spare = grid.cells - count
    start = _start(band.place, spare, grid)
    if not 0 <= start <= spare:
        high = float(grid.cells * grid.cell_um) / 10_000
        raise Refusal(f"band {band} does not fit: the piece is {high:.1f} cm high")
    return start, count


def _start(place: Place | Length, spare: int, grid: Grid) -> int:
    if isinstance(place, Length):
        return round(place.um / grid.cell_um)
    return {Place.BOTTOM: 0, Place.MIDDLE: spare // 2, Place.TOP: spare}[place]


def _extent_words(extent: Extent) -> str:
    match extent:
        case Stitches(count):
            return f"{count} sts"
        case Rows(count):
            return f"{count} rows"
        case Length():
            return f"{extent.m * 100:g} cm"
