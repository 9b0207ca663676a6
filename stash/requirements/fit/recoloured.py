"""The same design in the same size with a part of it in another colour, so that one colour lasts.

As few rows as will do are given away: the calculator says that one less would not. Where the rows
run up a design, stitches of every row are given away instead.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from stash.errors import Refusal
from stash.measures.length import Length
from stash.requirements.design.bands import MAIN, Band, Grid, Place, Rows, Stitches, Stretch, placed
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import TOPS
from stash.requirements.fit.fit_to_yarn import Changed, Have, grid_of, lacking
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.design_context import DesignContext


@dataclass(frozen=True, slots=True)
class Recoloured:
    """The design as it would be made, with so many rows or stitches of a role.

    They begin `above` its bottom; of whole rows that run up it, so far along its girth or width.
    """

    changed: Changed
    role: str
    extent: Rows | Stitches
    above: Length
    upright: bool


def with_top(known: DesignContext, role: str, have: Have) -> Recoloured | None:
    """The design with its top in another of its colours, as far down as the main one asks for.

    Down to the middle at most; a top in that colour already grows. None where that is not enough,
    or the shape has no top to speak of.
    """
    grid = _rows_of(known.design)
    if grid is None or known.design.shape not in TOPS:
        return None
    top = _top_in(known.design, role, grid)
    begun = placed(top, grid)[1] if top else 0
    others = tuple(band for band in known.design.bands if band is not top)
    below = max((sum(placed(band, grid)) for band in others if not band.upright), default=0)

    def topped(count: int) -> Design:
        band = Band(role, _extent(begun + count, grid), Place.TOP)
        return replace(known.design, bands=(*others, band))

    most = min(grid.cells // 2, grid.cells - below) - begun
    found = _least(known, {MAIN: have[MAIN]}, topped, most)
    if found is None:
        return None
    cells = begun + found[0]
    return _told(found[1], Band(role, _extent(cells, grid), Place.TOP), grid)


def with_stripe(known: DesignContext, short: str, role: str, have: Have) -> Recoloured | None:
    """The design with a stripe of a new colour in place of one that is short.

    It begins a third up the main colour's longest stretch, or takes the upper rows of the widest
    band of another one; where the rows run up the design it is whole rows. Half of that at most,
    since more would be another design (our choice). None where that is not enough.
    """
    room = _room(known.design, short)
    if room is None:
        return None

    def striped(count: int) -> Design:
        return replace(known.design, bands=(*room.kept(count), room.stripe(role, count)))

    found = _least(known, {short: have[short]}, striped, room.cells // 2)
    return found and _told(found[1], room.stripe(role, found[0]), room.grid)


@dataclass(frozen=True, slots=True)
class _Room:
    """Rows in which a stripe can lie: between the bands, or those of a band itself."""

    grid: Grid
    start: int
    cells: int
    bands: tuple[Band, ...]
    narrowed: Band | None = None
    upright: bool = False

    def stripe(self, role: str, count: int) -> Band:
        """A stripe of so many; one that is wider holds all rows of a narrower one."""
        start = self.start + (self.cells - count if self.narrowed else self.cells // 3)
        return Band(role, _extent(count, self.grid), _up(start, self.grid), self.upright)

    def kept(self, count: int) -> tuple[Band, ...]:
        """The bands beside such a stripe."""
        if self.narrowed is None:
            return self.bands
        below, place = _extent(self.cells - count, self.grid), _up(self.start, self.grid)
        return (*self.bands, replace(self.narrowed, extent=below, place=place))


def _room(design: Design, short: str) -> _Room | None:
    """Where a stripe saves most of a colour that is short; None where no rows are known."""
    rows = by_rows(design)
    if rows is None:
        return None
    upright, body = rows.layout.sideways, rows.layout.body
    grid = grid_of(design, upright)
    if upright:
        runs = body.upright or (Stretch("", grid.cells),)
        return _longest(runs, "", _Room(grid, 0, 0, design.bands, upright=True))
    if short == MAIN:
        return _longest(body.stretches, MAIN, _Room(grid, 0, 0, design.bands))
    return _in_band(design, short, grid)


def _longest(runs: Sequence[Stretch], role: str, room: _Room) -> _Room | None:
    """The longest stretch of a role by itself, the first of equal ones."""
    starts = accumulate((one.cells for one in runs), initial=0)
    own = [(one.cells, -at) for one, at in zip(runs, starts, strict=False) if _is(one, role)]
    if not own:
        return None
    cells, start = max(own)
    return replace(room, start=-start, cells=cells)


def _is(stretch: Stretch, role: str) -> bool:
    return stretch.role == role and stretch.mixed is None


def _in_band(design: Design, role: str, grid: Grid) -> _Room | None:
    """The widest band of a role that goes all the way round, the first of equal ones."""
    own = [band for band in design.bands if band.role == role and _solid(band)]
    if not own:
        return None
    widest = max(own, key=lambda band: placed(band, grid)[1])
    others = tuple(band for band in design.bands if band is not widest)
    return _Room(grid, *placed(widest, grid), others, widest)


def _top_in(design: Design, role: str, grid: Grid) -> Band | None:
    """The band of a role that ends at the top, if there is one."""
    own = (band for band in design.bands if band.role == role and _solid(band))
    return next((band for band in own if sum(placed(band, grid)) == grid.cells), None)


def _solid(band: Band) -> bool:
    return not band.upright and band.share is None


def _rows_of(design: Design) -> Grid | None:
    """The height of a design in rows or stitches; None where they are not known."""
    return grid_of(design, upright=False) if by_rows(design) else None


def _extent(count: int, grid: Grid) -> Rows | Stitches:
    assert grid.unit is not None
    return grid.unit(count)


def _up(cells: int, grid: Grid) -> Length:
    return Length(round(cells * grid.cell_um))


def _told(changed: Changed, band: Band, grid: Grid) -> Recoloured:
    start, count = placed(band, grid)
    return Recoloured(changed, band.role, _extent(count, grid), _up(start, grid), band.upright)


def _least(
    known: DesignContext, have: Have, at: Callable[[int], Design], most: int
) -> tuple[int, Changed] | None:
    """The fewest rows to give away, looked for by halving; None where even the most will not do.

    The more are given away, the less the colour that is short takes, but for the ends of a stripe:
    of an odd count one more tail may be left than of an even one, so the next two below are tried.
    """
    fits: dict[int, Changed] = {}

    def tried(count: int) -> bool:
        try:
            changed = Changed(at(count), known.need(at(count)))
        except Refusal:
            return False
        if not lacking(changed.need, have):
            fits[count] = changed
        return count in fits

    if most < 1 or not tried(most):
        return None
    low, high = 0, most
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if tried(middle) else (middle, high)
    while nearer := next((n for n in (high - 1, high - 2) if n > 0 and tried(n)), 0):
        high = nearer
    return high, fits[high]
