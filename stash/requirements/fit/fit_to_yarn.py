"""How large a design so much yarn makes, and how wide its bands.

Every answer is the calculator's own: what it says is to be set aside for the changed design is no
more than there is, and one stitch or row more would be. `have` is metres by role over all strands;
a role that is not in it is not short.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.rounding import nearest
from stash.requirements.design.bands import Grid, Rows, Stitches
from stash.requirements.design.design import Design
from stash.requirements.design.parts import centred
from stash.requirements.design.shapes import Size
from stash.requirements.yarn.by_rows import by_rows
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need

Have = Mapping[str, float]

#: Nothing larger than so many times the plan is looked for.
_MOST_TIMES = 20
#: Where no gauge is known, sizes go by whole millimetres.
_MILLIMETRE = Fraction(1000)


@dataclass(frozen=True, slots=True)
class Changed:
    """A design as it would be made, and its need.

    `ends` are the roles that would be short at one step more; none where its shape, or another
    band, sets the end. `no_end`: it fits however large, as far as anybody would go.
    """

    design: Design
    need: Need
    ends: tuple[str, ...] = ()
    no_end: bool = False


@dataclass(frozen=True, slots=True)
class Steps:
    """A design in whole steps of a size, each a stitch or a row: one is `cell_um`.

    `side` is a word of its shape's sizes; none is all sides in proportion, counted along the first.
    `planned`: how many steps the plan comes to.
    """

    design: Design
    side: str
    cell_um: Fraction
    planned: int

    def at(self, count: int) -> Design:
        """The design at so many steps; the side is never longer than they are."""
        sides = [*self.design.needed_size.sides]
        along = int(count * self.cell_um / 2) * 2  # even, as a circle is halved
        if not self.side:
            times = Fraction(count, self.planned)
            sides = [Length(int(side.um * times)) for side in sides]
        sides[self._index] = Length(along)
        if len(self.design.build.words) == 1:
            sides = [Length(along)] * 2
        return replace(self.design, size=Size(*sides))

    @property
    def _index(self) -> int:
        return self.design.build.words.index(self.side) if self.side else 0


def steps(design: Design, side: str = "") -> Steps:
    """The whole steps in which a side of a design can grow, or all of them in proportion."""
    words = design.build.words
    if side and side not in words:
        raise Refusal("no_such_side", shape=design.shape, side=side, sides=words)
    index = words.index(side) if side else 0
    cell_um = _cell(design, across=index == 0)
    count = nearest(design.needed_size.sides[index].um / cell_um)
    return Steps(design, side, cell_um, max(1, count))


def _cell(design: Design, *, across: bool) -> Fraction:
    """One step of a side, in micrometres: a stitch or a row, as it is laid out."""
    rows = by_rows(design)
    if rows is None:
        return _MILLIMETRE
    gauge = rows.layout.gauge
    if centred(design):
        return 2 * gauge.row_um
    return gauge.row_um if across is rows.layout.sideways else gauge.stitch_um


def largest(known: DesignContext, have: Have, side: str = "") -> Changed | None:
    """The design as large as the yarn makes it: along one side, or all in proportion.

    Bands stay as they are. None where not even the least that can be made is covered.
    """
    known.need(known.design)  # a plan that cannot be made as it is, is refused as it is
    in_steps = steps(known.design, side)
    tried = _Tried(known, have, in_steps.at)
    return tried.best(in_steps.planned, in_steps.planned * _MOST_TIMES)


def smaller(known: DesignContext, have: Have) -> Changed | None:
    """The design in proportion as small as the yarn asks for; None where it is enough."""
    return largest(known, have) if _short(known, have) else None


def shorter(known: DesignContext, have: Have) -> Changed | None:
    """The design with a shorter body; None where that does not help, or is not needed."""
    words = known.design.build.words
    return largest(known, have, words[1]) if len(words) > 1 and _short(known, have) else None


def _short(known: DesignContext, have: Have) -> tuple[str, ...]:
    return lacking(known.need(known.design), have)


def without_brim(known: DesignContext) -> Changed | None:
    """The design without its fold-up brim, as much lower; None where it has none."""
    design = known.design
    if design.folded is None:
        return None
    size = design.needed_size
    return _changed(
        known, replace(design, brim=None, size=replace(size, up=size.up - design.folded))
    )


def widest_band(known: DesignContext, index: int, have: Have) -> Changed | None:
    """The design with one of its bands as wide as the yarn of its role makes it.

    It grows away from where it is placed, until another band or the end. Only its own role counts:
    the wider it is, the less the others take. None where a single row or stitch is too much.
    """
    band = known.design.bands[index]
    tried = _Tried(
        known, _only(have, band.role), lambda count: _banded(known.design, {index: count})
    )
    planned = _cells(known.design)[index]
    return tried.best(planned, planned * _MOST_TIMES)


def narrower_band(known: DesignContext, role: str, have: Have) -> Changed | None:
    """The design with every band of a role narrower alike, as far as the yarn asks for it.

    None where it is wide enough as planned, or the main colour cannot cover what they leave.
    """
    cells = {i: n for i, n in _cells(known.design).items() if known.design.bands[i].role == role}
    if not cells or role not in _short(known, have):
        return None
    widest = max(cells.values())

    def narrowed(count: int) -> Design:
        return _banded(known.design, {i: max(1, n * count // widest) for i, n in cells.items()})

    found = _Tried(known, _only(have, role), narrowed).best(widest - 1, widest - 1)
    return found if found and not lacking(found.need, have) else None


def band_in_cells(design: Design, index: int) -> tuple[int, str, Length]:
    """How wide a band is: its stitches or rows, which of them, and what they come to.

    Where no gauge is known they are millimetres.
    """
    grid = grid_of(design, design.bands[index].upright)
    count = grid.count(design.bands[index].extent)
    unit = {Stitches: "stitches", Rows: "rows", None: "millimetres"}[grid.unit]
    return count, unit, Length(round(count * grid.cell_um))


def lacking(need: Need, have: Have) -> tuple[str, ...]:
    """The roles whose yarn is less than what is to be set aside."""
    return tuple(
        one.role
        for one in need.roles
        if one.role in have and one.set_aside_m > have[one.role] + 1e-9
    )


@dataclass(frozen=True, slots=True)
class _Tried:
    """A search over whole steps: what takes more at each step is looked for by halving."""

    known: DesignContext
    have: Have
    at: Callable[[int], Design]

    def best(self, planned: int, most: int) -> Changed | None:
        """The most steps that fit, up to a bound; None where there are none."""
        low, high = (planned, planned) if planned and self._fits(planned, planned) else (0, planned)
        while low == high < most:
            high = min(2 * high, most)
            low = high if self._fits(high, planned) else low
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self._fits(middle, planned) else (low, middle)
        return self._answer(low, no_end=low == most > planned)

    def _fits(self, count: int, planned: int) -> bool:
        """Whether so many steps are covered; what is too small to be made does not stop it."""
        need = self._need(count)
        return count < planned if need is None else not lacking(need, self.have)

    def _need(self, count: int) -> Need | None:
        try:
            return self.known.need(self.at(count))
        except Refusal:
            return None

    def _answer(self, count: int, no_end: bool) -> Changed | None:
        need = self._need(count) if count else None
        if need is None:
            return None
        more = None if no_end else self._need(count + 1)
        return Changed(self.at(count), need, lacking(more, self.have) if more else (), no_end)


def _changed(known: DesignContext, design: Design) -> Changed | None:
    try:
        return Changed(design, known.need(design))
    except Refusal:
        return None


def _only(have: Have, role: str) -> dict[str, float]:
    return {role: have[role]} if role in have else {}


def _cells(design: Design) -> dict[int, int]:
    """How many stitches or rows each band of the plan is."""
    grids = {turned: grid_of(design, turned) for turned in {band.upright for band in design.bands}}
    return {i: grids[band.upright].count(band.extent) for i, band in enumerate(design.bands)}


def grid_of(design: Design, upright: bool) -> Grid:
    """The height in which level bands are placed, the girth or width for upright ones."""
    rows = by_rows(design)
    if rows is None:
        side = design.needed_size.across if upright else design.needed_size.up
        return Grid(side.um // int(_MILLIMETRE), _MILLIMETRE, None)
    layout = rows.layout
    if layout.sideways is not upright:
        return Grid(layout.body.widest, layout.gauge.stitch_um, Stitches)
    return Grid(len(layout.body.rows), layout.gauge.row_um, Rows)


def _banded(design: Design, cells: Mapping[int, int]) -> Design:
    """The design with some of its bands as many stitches or rows as given, counted as they were."""
    bands = [*design.bands]
    for index, count in cells.items():
        cell_um = grid_of(design, bands[index].upright).cell_um
        old = bands[index].extent
        counted = isinstance(old, Stitches | Rows)
        extent = type(old)(count) if counted else Length(round(count * cell_um))
        bands[index] = replace(bands[index], extent=extent)
    return replace(design, bands=tuple(bands))
