"""Bands and stripes: where the colours of a design lie; what they leave is A.

They run level, up the height of a design, or upright, along its girth or width. A band may be
mixed: a share of its stitches in its colour, the rest in the colour that is there, each carried
along behind (stranded knitting) or inside (tapestry crochet) the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
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
    """An extent counted in stitches, for a design whose rows run up it."""

    count: int


@dataclass(frozen=True, slots=True)
class Rows:
    """An extent counted in rows or rounds, for a design whose rows run across it."""

    count: int


class Ends(StrEnum):
    """What becomes of a colour's yarn between two of its stripes."""

    CARRIED = "carried"
    CUT = "cut"


Extent = Length | Stitches | Rows | Fraction  # a fraction is a share of the whole


@dataclass(frozen=True, slots=True)
class Band:
    """So much of one role, at the top, middle or bottom or at a distance from the bottom.

    `upright` turns it: at the left, middle or right, or at a distance from the left. `share` is
    the share of its stitches in the role's colour, where it is mixed with the colour that is there.
    """

    role: str
    extent: Extent
    place: Place | Length = Place.BOTTOM
    upright: bool = False
    share: Fraction | None = None

    def __str__(self) -> str:
        mixed = f"{_percent(self.share)} of " if self.share is not None else ""
        turned = " upright" if self.upright else ""
        return f"{self.role} {mixed}{extent_words(self.extent)}{turned} {self._place_words}"

    @property
    def _place_words(self) -> str:
        if isinstance(self.place, Length):
            return f"{self.place.m * 100:g} cm {'in' if self.upright else 'up'}"
        return _UPRIGHT_WORDS[self.place] if self.upright else self.place.value


_UPRIGHT_WORDS = {Place.BOTTOM: "left", Place.MIDDLE: "middle", Place.TOP: "right"}


@dataclass(frozen=True, slots=True)
class Stripes:
    """Runs of colour that repeat from one end to the other, or between two distances from it."""

    runs: tuple[tuple[str, Extent], ...]
    start: Length | None = None
    end: Length | None = None
    upright: bool = False

    def __str__(self) -> str:
        runs = ", ".join(f"{role} {extent_words(extent)}" for role, extent in self.runs)
        turned = " upright" if self.upright else ""
        if self.start is None or self.end is None:
            return runs + turned
        return f"{runs}{turned} from {self.start.m * 100:g} cm to {self.end.m * 100:g} cm"


@dataclass(frozen=True, slots=True)
class Grid:
    """The height of a design as whole cells: stitches if its rows run up it, else rows.

    `unit` is the kind of count that fits; None where there is no gauge, so that only lengths do.
    """

    cells: int
    cell_um: Fraction
    unit: type[Stitches] | type[Rows] | None

    def count(self, extent: Extent) -> int:
        """An extent in cells: a length to the nearest whole one, but never to none."""
        if isinstance(extent, Length):
            return max(1, round(extent.um / self.cell_um))
        if isinstance(extent, Fraction):
            return max(1, round(extent * self.cells))
        if self.unit is None or not isinstance(extent, self.unit):
            raise Refusal("extent_cannot_be_placed", extent=extent, counted_in=self.unit)
        return extent.count

    @property
    def um(self) -> Fraction:
        """How long all cells are together, exactly, in micrometres."""
        return self.cells * self.cell_um


@dataclass(frozen=True, slots=True)
class Stretch:
    """So many cells of one role; where it is mixed, a share of them is of another one."""

    role: str
    cells: int
    mixed: tuple[str, Fraction] | None = None


def stretches(
    bands: Sequence[Band], grid: Grid, stripes: Sequence[Stripes] = ()
) -> tuple[Stretch, ...]:
    """The whole height from the bottom up: A, stripes over it, and bands over both."""
    cells = _painted(bands, stripes, grid)
    if MAIN not in {role for role, _ in cells}:
        raise Refusal("colours_leave_nothing", main=MAIN)
    return _runs(cells)


def upright_stretches(
    bands: Sequence[Band], grid: Grid, stripes: Sequence[Stripes] = ()
) -> tuple[Stretch, ...]:
    """The whole girth or width from the left: what lies upright over the rest, else no role."""
    return _runs(
        [("" if role == MAIN else role, mixed) for role, mixed in _painted(bands, stripes, grid)]
    )


_Cell = tuple[str, tuple[str, Fraction] | None]


def _runs(cells: Sequence[_Cell]) -> tuple[Stretch, ...]:
    return tuple(Stretch(key[0], sum(1 for _ in run), key[1]) for key, run in groupby(cells))


def _painted(bands: Sequence[Band], stripes: Sequence[Stripes], grid: Grid) -> list[_Cell]:
    cells: list[_Cell] = [(MAIN, None)] * grid.cells
    for one in stripes:
        for at, role in _striped(one, grid):
            cells[at] = (role, None)
    taken: set[int] = set()
    for band in bands:
        start, count = placed(band, grid)
        here = range(start, start + count)
        if not taken.isdisjoint(here):
            raise Refusal("band_over_another", band=band)
        taken.update(here)
        for at in here:
            cells[at] = _over(band, cells[at])
    return cells


def _over(band: Band, cell: _Cell) -> _Cell:
    if band.share is None:
        return band.role, None
    if band.upright:
        raise Refusal("mixed_band_upright", band=band)
    if band.role == cell[0]:
        raise Refusal("band_mixed_with_itself", band=band)
    return cell[0], (band.role, band.share)


def _striped(stripes: Stripes, grid: Grid) -> Iterator[tuple[int, str]]:
    """Each cell within the stripes and its role; the last run may be cut short by the end."""
    first = 0 if stripes.start is None else round(stripes.start.um / grid.cell_um)
    last = grid.cells if stripes.end is None else round(stripes.end.um / grid.cell_um)
    if not 0 <= first < last <= grid.cells:
        raise Refusal("stripes_do_not_fit", stripes=stripes, room_um=grid.um)
    repeat = [role for role, extent in stripes.runs for _ in range(grid.count(extent))]
    for at in range(first, last):
        yield at, repeat[(at - first) % len(repeat)]


def placed(band: Band, grid: Grid) -> tuple[int, int]:
    """The first cell of a band and how many it takes; refused where it does not fit."""
    if band.role == MAIN:
        raise Refusal("band_of_main_colour", main=MAIN)
    count = grid.count(band.extent)
    spare = grid.cells - count
    start = _start(band.place, spare, grid)
    if not 0 <= start <= spare:
        raise Refusal("band_does_not_fit", band=band, room_um=grid.um)
    return start, count


def _start(place: Place | Length, spare: int, grid: Grid) -> int:
    if isinstance(place, Length):
        return round(place.um / grid.cell_um)
    return {Place.BOTTOM: 0, Place.MIDDLE: spare // 2, Place.TOP: spare}[place]


def extent_words(extent: Extent) -> str:
    """How far it reaches, as to type it: `5 sts`, `4 rows`, `2 cm`, `20%`."""
    match extent:
        case Stitches(count):
            return f"{count} sts"
        case Rows(count):
            return f"{count} rows"
        case Length():
            return f"{extent.m * 100:g} cm"
        case _:
            return _percent(extent)


def _percent(share: Fraction) -> str:
    return f"{float(100 * share):g}%"
