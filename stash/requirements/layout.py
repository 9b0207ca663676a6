"""A piece laid out as rows, each with a whole count of stitches per role."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from stash.errors import Refusal
from stash.measures.length import Length
from stash.requirements.bands import Grid, Rows, Stitches, Stretch, stretches
from stash.requirements.fabric import PLAIN, Fabric, FabricRow
from stash.requirements.gauge import Gauge
from stash.requirements.piece import Piece
from stash.requirements.shapes import CROWN_LOSS, Crown, Size

#: A piece without a gauge is laid out this fine either way, for its areas.
_FINE = 1000

#: More rows than any article has; keeps a slip of the finger from filling the memory.
_MOST_ROWS = 20_000


@dataclass(frozen=True, slots=True)
class Row:
    """One row: what is worked, and how many stitches of each role, in order from the bottom."""

    kind: FabricRow
    counts: tuple[tuple[str, int], ...]

    @property
    def stitches(self) -> int:
        """All stitches of the row."""
        return sum(count for _, count in self.counts)


@dataclass(frozen=True, slots=True)
class Layout:
    """A piece as rows, first to last; `stretches` are its colours from the bottom up."""

    rows: tuple[Row, ...]
    stretches: tuple[Stretch, ...]
    gauge: Gauge
    sideways: bool

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles, A first."""
        return tuple(sorted({stretch.role for stretch in self.stretches}))

    @property
    def size(self) -> Size:
        """The size that whole stitches and rows come to, to the nearest micrometre."""
        along = Length(round(self.rows[0].stitches * self.gauge.stitch_um))
        stacked = Length(round(len(self.rows) * self.gauge.row_um))
        return Size(stacked, along) if self.sideways else Size(along, stacked)

    @property
    def area_m2(self) -> dict[str, float]:
        """How much fabric each role makes, in square metres."""
        stitches: Counter[str] = Counter()
        for row in self.rows:
            for role, count in row.counts:
                stitches[role] += count
        cell = self.gauge.stitch_m * self.gauge.row_m
        return {role: stitches[role] * cell for role in self.roles}


@dataclass(frozen=True, slots=True)
class _Cloth:
    """What a piece is laid out in; `counted` where its cells are real stitches and rows."""

    gauge: Gauge
    fabric: Fabric
    counted: bool = True


def laid_out(piece: Piece, gauge: Gauge, fabric: Fabric) -> Layout:
    """The piece row by row at a gauge: stitches to the nearest, rows up to whole repeats."""
    return _in_rows(piece, _Cloth(gauge, fabric))


def laid_out_finely(piece: Piece) -> Layout:
    """The piece in a thousand steps either way, for areas where no gauge is known.

    Its cells are no stitches, so only bands given as lengths can be placed.
    """
    size = piece.needed_size
    along, stacked = (size.up, size.across) if piece.build.sideways else (size.across, size.up)
    fine = Gauge(Fraction(_FINE * stacked.um, along.um), Fraction(_FINE), stacked)
    return _in_rows(piece, _Cloth(fine, PLAIN, counted=False))


def _in_rows(piece: Piece, cloth: _Cloth) -> Layout:
    return (_sideways if piece.build.sideways else _upright)(piece, piece.needed_size, cloth)


def _sideways(piece: Piece, size: Size, cloth: _Cloth) -> Layout:
    gauge, fabric = cloth.gauge, cloth.fabric
    stitches = max(1, round(size.up.um / gauge.stitch_um))
    rows = _whole_repeats(size.across, cloth)
    grid = Grid(stitches, gauge.stitch_um, Stitches if cloth.counted else None)
    up = stretches(piece.bands, grid)
    counts = tuple((stretch.role, stretch.cells) for stretch in up)
    worked = tuple(Row(fabric.row(index), counts) for index in range(rows))
    return Layout(worked, up, gauge, sideways=True)


def _upright(piece: Piece, size: Size, cloth: _Cloth) -> Layout:
    gauge, fabric = cloth.gauge, cloth.fabric
    stitches = max(1, round(size.across.um / gauge.stitch_um))
    rows = _whole_repeats(size.up, cloth)
    up = stretches(piece.bands, Grid(rows, gauge.row_um, Rows if cloth.counted else None))
    taper = _taper(piece, size, gauge)
    roles = [stretch.role for stretch in up for _ in range(stretch.cells)]
    worked = tuple(
        Row(fabric.row(index), ((role, _closing(stitches, rows - index, taper)),))
        for index, role in enumerate(roles)
    )
    return Layout(worked, up, gauge, sideways=False)


def _whole_repeats(height: Length, cloth: _Cloth) -> int:
    repeat = len(cloth.fabric.rows)
    rows = max(1, ceil(height.um / cloth.gauge.row_um / repeat)) * repeat
    if rows > _MOST_ROWS:
        raise Refusal(f"that makes {rows} rows: look at the size and the gauge again")
    return rows


def _taper(piece: Piece, size: Size, gauge: Gauge) -> Fraction | None:
    """How many stitches each round of the crown is wider than the one above it.

    Decreasing in a straight line over the last 2k x girth of height takes k x girth squared off
    the area. The slope does not depend on the girth, so a wider hat never takes less.
    """
    loss = CROWN_LOSS[piece.closing or Crown.GATHERED]
    if not loss:
        return None
    if 2 * loss * size.across.um > size.up.um:
        least = float(2 * loss * size.across.um) / 10_000
        raise Refusal(
            f"a {piece.closing} crown on this girth takes {least:.1f} cm of height alone: "
            "make it taller, or choose --crown gathered"
        )
    return gauge.row_um / gauge.stitch_um / (2 * loss)


def _closing(stitches: int, rows_left: int, taper: Fraction | None) -> int:
    """The stitches of a round with so many rounds left, itself included."""
    if taper is None:
        return stitches
    return max(1, min(stitches, round((rows_left - Fraction(1, 2)) * taper)))
