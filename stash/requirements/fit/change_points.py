"""Where two lots of one colour do not show: parts that lie by themselves, rows that hide a change.

A brim, a band or a thumb lies by itself; a change hides under the fold of a brim, beside another
colour, where a crown begins, and where another part does. A pair hides it in both items alike.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import chain, groupby, pairwise

from stash.measures.note import Note
from stash.requirements.design.bands import Stretch
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout, Row
from stash.requirements.design.shapes import HATS, TOPS
from stash.requirements.yarn.by_rows import ByRows
from stash.requirements.yarn.model import colours_told_apart, in_row

IN_BRIM, IN_BAND = Note("in_brim"), Note("in_band")


@dataclass(frozen=True, slots=True)
class RoleRows:
    """The rows of one item that hold a role, numbered as worked; `made` are all alike."""

    numbers: tuple[int, ...]
    in_one: int
    made: int


@dataclass(frozen=True, slots=True)
class ChangePoint:
    """A place among a role's rows where a change of lot does not show, and what hides it."""

    at: int
    place: Note


@dataclass(frozen=True, slots=True)
class Region:
    """A part of a role that lies by itself: spans of places among its rows.

    Where rows run up the design it is `share` of each; `stitches` from the bottom tell which are in
    the odd lot (1), which in the main one (0).
    """

    place: Note
    rows: tuple[tuple[int, int], ...]
    brim: bool = False
    share: float = 1.0
    stitches: tuple[tuple[int, tuple[int, int]], ...] = ()

    @property
    def first(self) -> tuple[int, int]:
        """The first of its rows and stitches."""
        return self.rows[0][0], min((at[0] for lot, at in self.stitches if lot), default=0)


def role_rows(layout: Layout, takes: Sequence[float]) -> tuple[RoleRows, tuple[float, ...]]:
    """The rows that hold a role, and what each takes of it in all that are made."""
    in_one = sum(len(part.rows) for part in layout.parts)
    holding = [(n, m) for n, m in enumerate(takes[:in_one], start=1) if m > 0]
    rows = RoleRows(tuple(n for n, _ in holding), in_one, layout.made)
    return rows, tuple(m * layout.made for _, m in holding)


def change_points(design: Design, layout: Layout, rows: RoleRows) -> Iterator[ChangePoint]:
    """The places where a change of lot does not show, in the order they are worked."""
    marks = [] if layout.sideways else [*_marks(design, layout)]
    seams = dict(_seams(layout, rows))
    for at in range(1, len(rows.numbers)):
        before, after = rows.numbers[at - 1], rows.numbers[at]
        here = [place for row, place in marks if before <= row < after]
        places = here[:1] or ([seams[at]] if at in seams else [])
        yield from (ChangePoint(at, place) for place in places)


def _marks(design: Design, layout: Layout) -> Iterator[tuple[int, Note]]:
    """After which row the fold of a brim lies, and where the crown begins."""
    rows = len(layout.body.rows)
    if fold := _folded_rows(design, layout):
        yield rows - fold if layout.from_top else fold, Note("under_fold")
    if design.shape in TOPS:
        full = [n for n, row in enumerate(layout.body.rows, 1) if row.stitches == _widest(layout)]
        begins, ends = full[0] - 1, full[-1]
        name = TOPS[design.shape]
        if layout.from_top and begins:
            yield begins, Note("where_part_ends", part=name)
        elif not layout.from_top and ends < rows:
            yield ends, Note("where_part_begins", part=name)


def _widest(layout: Layout) -> int:
    return layout.body.widest


def _folded_rows(design: Design, layout: Layout) -> int:
    return max(1, round(design.folded.um / layout.gauge.row_um)) if design.folded else 0


def _seams(layout: Layout, rows: RoleRows) -> Iterator[tuple[int, Note]]:
    """Where another part or another colour lies between a role's rows, or begins beside it."""
    parts = [name for part in layout.parts for name in [part.name] * len(part.rows)]
    colours = [_colours(row) for row in chain.from_iterable(p.rows for p in layout.parts)]
    for at in range(1, len(rows.numbers)):
        before, after = rows.numbers[at - 1] - 1, rows.numbers[at] - 1
        others = set[str]().union(*colours[before : after + 1])
        others -= colours[before] & colours[after]
        if parts[before] != parts[after]:
            yield at, Note("where_part_begins", part=parts[after])
        elif others:
            yield at, Note("beside_colours", roles=tuple(sorted(others)))


def _colours(row: Row) -> set[str]:
    return {role for role, _ in (*row.counts, *row.carried)}


def regions(design: Design, worked: ByRows, role: str, rows: RoleRows) -> Iterator[Region]:
    """The parts of a role that lie by themselves; a brim that is folded up comes first."""
    if worked.layout.sideways:
        yield from _across_rows(design, worked, role, rows)
        return
    yield from _of_whole_rows(design, worked.layout, rows)


def _of_whole_rows(design: Design, layout: Layout, rows: RoleRows) -> Iterator[Region]:
    body = len(layout.body.rows)
    fold = _folded_rows(design, layout)
    lowest = range(body - fold + 1, body + 1) if layout.from_top else range(1, fold + 1)
    folded = [at for at, number in enumerate(rows.numbers) if number in lowest]
    if folded:
        yield Region(IN_BRIM, ((folded[0], folded[-1] + 1),), brim=True)
    edges = [0, *(at for at, _ in _seams(layout, rows)), len(rows.numbers)]
    for start, stop in pairwise(edges):
        if not folded or (start, stop) != (folded[0], folded[-1] + 1):
            bottom = rows.numbers[stop - 1] == body if layout.from_top else rows.numbers[start] == 1
            brim = design.shape in HATS and bottom and not fold
            yield Region(_place(brim, layout, rows.numbers[start]), ((start, stop),), brim)


def _place(brim: bool, layout: Layout, number: int) -> Note:
    if brim:
        return IN_BRIM
    for part in layout.parts:
        if number <= len(part.rows):
            return IN_BAND if part is layout.body else Note("in_part", part=part.name)
        number -= len(part.rows)
    raise ValueError("no row")


@dataclass(frozen=True, slots=True)
class _Run:
    """Stitches of a role side by side in every row that runs up the design, from `start` on."""

    start: int
    stop: int
    each: float

    @property
    def takes(self) -> float:
        return (self.stop - self.start) * self.each


def _across_rows(design: Design, worked: ByRows, role: str, rows: RoleRows) -> Iterator[Region]:
    layout = worked.layout
    runs = [*_runs(worked, role)]
    whole = math.fsum(run.takes for run in runs)
    level = tuple(_level(layout, rows))
    if not whole or not level:
        return
    fold = round(design.folded.um / layout.gauge.stitch_um) if design.folded else 0
    cuts = [(0, max(1, fold), True)] if fold else []
    cuts += [(run.start, run.stop, not fold and run.start == 0) for run in runs if len(runs) > 1]
    for bottom, top, brim in dict.fromkeys(cuts):
        odd = [run for run in (_within(run, bottom, top) for run in runs) if run.takes > 0]
        left = [part for run in runs for part in _beside(run, bottom, top)]
        if odd and left:
            stitches = tuple(
                (lot, (run.start + 1, run.stop)) for lot, each in ((1, odd), (0, left))
                for run in each
            )  # fmt: skip
            share = math.fsum(run.takes for run in odd) / whole
            yield Region(IN_BRIM if brim else IN_BAND, level, brim, share, stitches)


def _within(run: _Run, bottom: int, top: int) -> _Run:
    start, stop = max(run.start, bottom), min(run.stop, top)
    return _Run(start, max(start, stop), run.each)


def _beside(run: _Run, bottom: int, top: int) -> Iterator[_Run]:
    parts = (_within(run, 0, bottom), _within(run, top, run.stop))
    yield from (part for part in parts if part.takes > 0)


def _runs(worked: ByRows, role: str) -> Iterator[_Run]:
    """The role's stitches in a level row, stretch by stretch, and what one of them takes."""
    at = 0
    for stretch in worked.layout.stretches:
        each = _each(worked, stretch, role)
        if each:
            yield _Run(at, at + stretch.cells, each)
        at += stretch.cells


def _each(worked: ByRows, stretch: Stretch, role: str) -> float:
    """What one stitch of a stretch takes of a role on the average, worked and carried."""
    other, share = stretch.mixed or ("", 0)
    own = float(share) if role == other else 1 - float(share) if role == stretch.role else 0.0
    if role not in (other, stretch.role):
        return 0.0
    layout, kind = worked.layout, worked.layout.body.rows[0].kind
    apart = colours_told_apart(layout)
    one = (((role, 1),), ()), ((), ((role, 1),))
    each = [
        math.fsum(m for _, m in in_row(Row(kind, *counts), layout.gauge, worked.diameter_m, apart))
        for counts in one
    ]
    return own * each[0] + (1 - own) * each[1]


def _level(layout: Layout, rows: RoleRows) -> Iterator[tuple[int, int]]:
    """The role's rows that hold the level colours, not one that lies upright over all of them."""
    over = [one.role for one in layout.body.upright for _ in range(one.cells)]
    over = over or [""] * rows.in_one
    for level, run in groupby(enumerate(rows.numbers), lambda one: not over[one[1] - 1]):
        found = [at for at, _ in run]
        if level:
            yield found[0], found[-1] + 1
