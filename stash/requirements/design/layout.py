"""A design laid out as parts, each as rows with a whole count of stitches per role."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import accumulate, chain, groupby

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.rounding import nearest
from stash.requirements.design.bands import (
    MAIN,
    Grid,
    Rows,
    Stitches,
    Stretch,
    stretches,
    upright_stretches,
)
from stash.requirements.design.design import Design
from stash.requirements.design.fabric import PLAIN, Fabric, FabricRow
from stash.requirements.design.gauge import Gauge
from stash.requirements.design.parts import centred, profiles
from stash.requirements.design.profile import Profile
from stash.requirements.design.shapes import Size

#: A design without a gauge is laid out this fine either way, for its areas.
_FINE = 1000

#: More rows than any item has; keeps a slip of the finger from filling the memory.
_MOST_ROWS = 50_000


#: So many stitches of each role.
Counts = tuple[tuple[str, int], ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One row: what is worked, and how many stitches of each role, in order from the bottom.

    `carried`: along how many stitches each role goes unworked, where a row has mixed colours.
    """

    kind: FabricRow
    counts: Counts
    carried: Counts = ()

    @property
    def stitches(self) -> int:
        """All stitches of the row."""
        if len(self.counts) == 1:
            return self.counts[0][1]
        return sum(count for _, count in self.counts)


@dataclass(frozen=True)
class Part:
    """One part of a design: its rows first to last as worked, its colours from the bottom up.

    `upright` are the colours that lie over them, from the left; a stretch of no role shows what is
    below. Empty where there are none.
    """

    name: str
    rows: tuple[Row, ...]
    stretches: tuple[Stretch, ...]
    upright: tuple[Stretch, ...] = ()

    @property
    def roles(self) -> set[str]:
        """Every role it has."""
        found = {one.role for one in (*self.stretches, *self.upright)}
        return (found | {one.mixed[0] for one in self.stretches if one.mixed}) - {""}

    @cached_property
    def widest(self) -> int:
        """The stitches of its longest row."""
        return max(row.stitches for row in self.rows)


@dataclass(frozen=True)
class Layout:
    """A design as parts, its body first; so many times over as it is `made`.

    `sideways`: rows run up the design. `centred`: rows are rounds about a centre, which is the
    bottom. `from_top`: worked downwards, so that the first row is the top one.
    """

    parts: tuple[Part, ...]
    gauge: Gauge
    sideways: bool = False
    centred: bool = False
    from_top: bool = False
    made: int = 1

    @property
    def body(self) -> Part:
        """The part whose size the design has and in which its bands are placed."""
        return self.parts[0]

    @property
    def rows(self) -> tuple[Row, ...]:
        """All rows of all parts, in the order they are worked, each item of a pair in turn."""
        return tuple(chain.from_iterable(part.rows for part in self.parts)) * self.made

    @property
    def stretches(self) -> tuple[Stretch, ...]:
        """The colours of the body from the bottom up."""
        return self.body.stretches

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles, A first."""
        return tuple(sorted(set[str]().union(*(part.roles for part in self.parts))))

    @cached_property
    def size(self) -> Size:
        """The size of the body that whole stitches and rows come to, to the nearest micrometre."""
        along = Length(round(self.body.widest * self.gauge.stitch_um))
        stacked = Length(round(len(self.body.rows) * self.gauge.row_um))
        if self.centred:
            return Size(stacked * 2, stacked * 2)
        return Size(stacked, along) if self.sideways else Size(along, stacked)

    @property
    def area_m2(self) -> dict[str, float]:
        """How much fabric each role makes, in square metres."""
        stitches: Counter[str] = Counter()
        for row in chain.from_iterable(part.rows for part in self.parts):
            for role, count in row.counts:
                stitches[role] += count
        cell = self.gauge.stitch_m * self.gauge.row_m * self.made
        return {role: stitches[role] * cell for role in self.roles}


@dataclass(frozen=True, slots=True)
class _Cloth:
    """What a design is laid out in; `counted` where its cells are real stitches and rows."""

    gauge: Gauge
    fabric: Fabric
    counted: bool = True


def laid_out(design: Design, gauge: Gauge, fabric: Fabric) -> Layout:
    """The design row by row at a gauge, stitches and rows to the nearest whole one, at least one.

    The repeat of the fabric may end part-way.
    """
    layout = _in_rows(design, _Cloth(gauge, fabric))
    _refuse_endless(layout.made * sum(len(part.rows) for part in layout.parts))
    return layout


def laid_out_finely(design: Design) -> Layout:
    """The design in a thousand steps either way, for areas where no gauge is known.

    Its cells are no stitches, so only bands given as lengths can be placed.
    """
    body, *_ = profiles(design)
    fine = Gauge(Fraction(_FINE * body.height.um, body.width.um), Fraction(_FINE), body.height)
    return _in_rows(design, _Cloth(fine, PLAIN, counted=False))


def _in_rows(design: Design, cloth: _Cloth) -> Layout:
    body, *others = profiles(design)
    sideways = design.build.sideways
    from_top = design.build.top is not None and design.beginning is design.build.top
    upwards = [
        (_sideways if sideways else _upright)(design, body, cloth),
        *(_plain(profile, cloth) for profile in others),
    ]
    return Layout(
        parts=tuple(_worked(part, cloth.fabric, from_top) for part in upwards),
        gauge=cloth.gauge,
        sideways=sideways,
        centred=centred(design),
        from_top=from_top,
        made=design.made,
    )


@dataclass(frozen=True, slots=True)
class _Upwards:
    """A part before it is worked: what its rows hold from the bottom up."""

    name: str
    rows: tuple[tuple[Counts, Counts], ...]  # worked, carried
    stretches: tuple[Stretch, ...]
    upright: tuple[Stretch, ...] = ()


def _sideways(design: Design, profile: Profile, cloth: _Cloth) -> _Upwards:
    """Rows run up the part, so each holds every level band; upright ones are whole rows."""
    rows = _rows_in(profile.height, cloth)
    (stitches,) = profile.stitches(1, cloth.gauge)
    level, upright = _colours(design, _stitch_grid(stitches, cloth), _row_grid(rows, cloth))
    below = _row([(stretch, stretch.cells) for stretch in level])
    over = [one.role for one in upright for _ in range(one.cells)] or [""] * rows
    made = tuple((((role, stitches),), ()) if role else below for role in over)
    return _Upwards(profile.name, made, level, upright)


def _upright(design: Design, profile: Profile, cloth: _Cloth) -> _Upwards:
    """Rows run across the part, so each level band is whole rows and upright ones cut them."""
    rows = _rows_in(profile.height, cloth)
    stitches = profile.stitches(rows, cloth.gauge)
    grids = _row_grid(rows, cloth), _stitch_grid(max(stitches), cloth)
    level, upright = _colours(design, *grids)
    return _banded(profile.name, stitches, level, upright)


def _colours(
    design: Design, high: Grid, wide: Grid
) -> tuple[tuple[Stretch, ...], tuple[Stretch, ...]]:
    """The design's colours up its height, and those that lie upright over them."""
    level = stretches(
        [band for band in design.bands if not band.upright],
        high,
        [stripes for stripes in design.stripes if not stripes.upright],
    )
    bands = [band for band in design.bands if band.upright]
    stripes = [stripes for stripes in design.stripes if stripes.upright]
    if not bands and not stripes:
        return level, ()
    if centred(design):
        raise Refusal("rounds_have_no_left")
    return level, upright_stretches(bands, wide, stripes)


def _row_grid(rows: int, cloth: _Cloth) -> Grid:
    return Grid(rows, cloth.gauge.row_um, Rows if cloth.counted else None)


def _stitch_grid(stitches: int, cloth: _Cloth) -> Grid:
    return Grid(stitches, cloth.gauge.stitch_um, Stitches if cloth.counted else None)


def _plain(profile: Profile, cloth: _Cloth) -> _Upwards:
    """A part without bands, in the main colour."""
    rows = _rows_in(profile.height, cloth)
    return _banded(profile.name, profile.stitches(rows, cloth.gauge), (Stretch(MAIN, rows),), ())


def _banded(
    name: str, stitches: Sequence[int], up: tuple[Stretch, ...], upright: tuple[Stretch, ...]
) -> _Upwards:
    levels = [stretch for stretch in up for _ in range(stretch.cells)]
    made = tuple(
        _row(_cut(level, count, upright)) for level, count in zip(levels, stitches, strict=True)
    )
    return _Upwards(name, made, up, upright)


def _cut(level: Stretch, stitches: int, upright: Sequence[Stretch]) -> list[tuple[Stretch, int]]:
    """A level row in its runs: upright stretches cut it, narrower where the row is."""
    if not upright:
        return [(level, stitches)]
    widest = sum(one.cells for one in upright)
    edges = [round(Fraction(stitches * at, widest)) for at in accumulate(o.cells for o in upright)]
    runs = zip(upright, [0, *edges], edges, strict=False)
    return [(one if one.role else level, end - start) for one, start, end in runs if end > start]


def _row(runs: Iterable[tuple[Stretch, int]]) -> tuple[Counts, Counts]:
    """What a row holds, its runs in order: worked, and carried where a run is mixed."""
    worked: list[tuple[str, int]] = []
    carried: Counter[str] = Counter()
    for stretch, count in runs:
        other = round(stretch.mixed[1] * count) if stretch.mixed else 0
        if stretch.mixed and other:
            carried[stretch.mixed[0]] += count - other
            carried[stretch.role] += other
            worked.append((stretch.mixed[0], other))
        worked.append((stretch.role, count - other))
    merged = groupby((run for run in worked if run[1]), lambda run: run[0])
    counts = tuple((role, sum(count for _, count in run)) for role, run in merged)
    return counts, tuple(sorted(carried.items()))


def _worked(part: _Upwards, fabric: Fabric, from_top: bool) -> Part:
    """The part in the order it is worked, each row with what the fabric works in it."""
    held = part.rows[::-1] if from_top else part.rows
    rows = tuple(Row(fabric.row(index), *one) for index, one in enumerate(held))
    return Part(part.name, rows, part.stretches, part.upright)


def _rows_in(height: Length, cloth: _Cloth) -> int:
    rows = max(1, nearest(height.um / cloth.gauge.row_um))
    _refuse_endless(rows)
    return rows


def _refuse_endless(rows: int) -> None:
    if rows > _MOST_ROWS:
        raise Refusal("endless_rows", rows=rows)
