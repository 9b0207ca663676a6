"""The edges of bands as an editor shows them and types them: in her units, in whole rows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from stash.measures.length import INCH_UM, Length
from stash.rendering.figures import edge, screen
from stash.requirements.design.bands import Grid, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.edges import Lying, band_grid, lying
from stash.requirements.design.layout import Layout


@dataclass(frozen=True, slots=True)
class EdgeShown:
    """One edge of a band: at which cell from its end, how far it may move, and in words.

    `mixed`: how the extent of its band begins, as typed, where it is mixed.
    """

    band: int
    role: str
    side: str
    at: int
    low: int
    high: int
    where: str
    row: str
    other: int
    mixed: str = ""

    @property
    def name(self) -> str:
        """What it is: `C ends`."""
        return f"{self.role} {self.side}"

    @property
    def words(self) -> str:
        """Where it is: `C ends at 14.9 cm, row 19`."""
        return f"{self.name} at {self.where}, {self.row}"


@dataclass(frozen=True)
class Ruled:
    """The height of a design by its cells, and the level bands in it from the bottom up.

    `upright`: its width from the left and the upright bands instead.
    """

    grid: Grid
    bands: tuple[Lying, ...]
    from_top: bool
    upright: bool = False

    @property
    def one(self) -> str:
        """What a cell is called."""
        return "stitch" if self.grid.unit is Stitches else "row"

    @property
    def places(self) -> tuple[str, ...]:
        """How far each edge between two cells is from the bottom or the left, in her units."""
        return _places(self.grid, screen().units.size)

    @property
    def typed(self) -> tuple[str, ...]:
        """The same so finely that it is read back as this very cell."""
        return _typed(self.grid, screen().units.size, self.upright)

    def row(self, cell: int) -> str:
        """A cell by its number as it is worked."""
        return f"{self.one} {self.grid.cells - cell if self.from_top else cell + 1}"

    @cached_property
    def edges(self) -> list[EdgeShown]:
        """Both edges of each band, from the bottom up or the left on."""
        places = self.places
        return [
            edge_shown
            for band in self.bands
            for edge_shown in (
                EdgeShown(
                    band.at + 1, band.role, "begins", band.start, band.low, band.end - 1,
                    places[band.start], self.row(band.start), band.end, _mixed(band),
                ),
                EdgeShown(
                    band.at + 1, band.role, "ends", band.end, band.start + 1, band.high,
                    places[band.end], self.row(band.end - 1), band.start, _mixed(band),
                ),
            )
        ]  # fmt: skip

    def moved(self, one: EdgeShown, at: int) -> tuple[str, str] | None:
        """How much and where to type for its band with this edge elsewhere; None: not so far."""
        if not one.low <= at <= one.high:
            return None
        start, end = (at, one.other) if one.side == "begins" else (one.other, at)
        turned = " upright" if self.upright else ""
        return f"{one.mixed}{extent_typed(end - start, self.one)}{turned}", self.typed[start]


def _mixed(band: Lying) -> str:
    return "" if band.share is None else f"{float(100 * band.share):g}% of "


@lru_cache(maxsize=64)
def _places(grid: Grid, unit: str) -> tuple[str, ...]:
    """Kept, as they are the same wherever bands are moved; so is what follows."""
    return tuple(edge(_up(grid, at)) for at in range(grid.cells + 1))


@lru_cache(maxsize=64)
def _typed(grid: Grid, unit: str, upright: bool) -> tuple[str, ...]:
    um = INCH_UM if unit == "in" else 10_000
    far = [_up(grid, at).um / um for at in range(1, grid.cells + 1)]
    if upright:
        return ("left", *(f"{one:.2f} {unit} in" for one in far))
    return ("bottom", *(f"{one:.2f} {unit} up" for one in far))


def _up(grid: Grid, at: int) -> Length:
    return Length(round(at * grid.cell_um))


def extent_typed(count: int, one: str) -> str:
    """So many rows or stitches as to type them."""
    if one == "stitch":
        return f"{count} sts"
    return "1 row" if count == 1 else f"{count} rows"


def ruled(design: Design, layout: Layout) -> Ruled:
    """The level bands of a design that is laid out."""
    return Ruled(band_grid(layout), lying(design, layout), layout.from_top)


def ruled_upright(design: Design, layout: Layout) -> Ruled:
    """Its upright bands; their cells count from the left, however it is worked."""
    grid, bands = band_grid(layout, upright=True), lying(design, layout, upright=True)
    return Ruled(grid, bands, from_top=False, upright=True)


def spaced(wanted: Sequence[float], apart: float, low: float, high: float) -> list[float]:
    """Places as near to those wanted as can be, in their order, none nearer than that to the next.

    All within low and high, as far as there is room.
    """
    found = [*wanted]
    for _ in range(len(found)):
        for at in range(1, len(found)):
            lacks = apart - (found[at] - found[at - 1])
            if lacks > 0:
                found[at - 1] -= lacks / 2
                found[at] += lacks / 2
    if found and found[0] < low:
        found[0] = low
    for at in range(1, len(found)):
        found[at] = max(found[at], found[at - 1] + apart)
    for at in reversed(range(len(found))):
        limit = high if at == len(found) - 1 else found[at + 1] - apart
        found[at] = min(found[at], limit)
    return found
