"""A small picture of a design: which role lies where, to scale, as a grid of letters."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass, replace
from itertools import dropwhile, groupby
from math import hypot

from stash.requirements.design.axis import Axis, Stripe, axis_of, even_axis
from stash.requirements.design.bands import MAIN
from stash.requirements.design.layout import Layout, Row
from stash.requirements.design.shapes import Shape

#: What lies outside the design.
OUTSIDE = " "
#: The most it takes of a terminal; a character is about twice as tall as it is wide.
_COLUMNS, _LINES, _TALL = 44, 12, 2.0
#: The least lines in which a design is still seen.
LEAST_LINES = 4
#: Of what is too narrow for a line, every so many characters show.
_DOTTED = 2
#: What is so many times as long as it is wide lies on its side.
_LYING = 3.0
#: Each character is looked at in so many places across and up; more, until no narrow band is
#: stepped over.
_LOOKS = ((3, 3), (3, 60), (60, 3))
#: What is worn as a tube is seen from the front: half of it.
_TUBES = frozenset(
    {Shape.SIDEWAYS_HAT, Shape.ROUND_HAT, Shape.FLAT_HAT, Shape.HEADBAND, Shape.COWL,
     Shape.MITTEN, Shape.SOCK}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Picture:
    """Lines of role letters, the top line first.

    `half`: only the front of a tube is shown. `lying`: what is long lies on its side, its bottom
    at the left. `fewer`: there are more stripes than are drawn.
    """

    lines: tuple[str, ...]
    half: bool
    lying: bool = False
    fewer: bool = False

    @property
    def roles(self) -> tuple[str, ...]:
        """The roles that are seen, A first."""
        return tuple(sorted(set("".join(self.lines)) - {OUTSIDE}))


def picture(shape: Shape, layout: Layout, most_lines: int = _LINES) -> Picture:
    """The body of a design to scale, each character the role that most of it is in.

    Stripes get whole characters by their width, equal ones equally many; one narrower than half a
    character is dotted. A role too narrow to be seen that way is shown where most of it lies. It is
    no taller than `most_lines`, at most 12.
    """
    half = shape in _TUBES
    wide_m, tall_m = layout.size.across.m / (2 if half else 1), layout.size.up.m
    lying = tall_m > _LYING * wide_m
    if lying:
        wide_m, tall_m = tall_m, wide_m
    column_m = max(wide_m / _COLUMNS, tall_m / min(_LINES, most_lines) / _TALL)
    columns = max(1, round(wide_m / column_m))
    lines = max(1, round(tall_m / column_m / _TALL))
    cells = (lines, columns) if lying else (columns, lines)
    across, up = _axes_to_scale(layout, 0.5 if half else 1.0, cells)
    columns, lines = len(across.spans), len(up.spans)
    sight = _sight(shape, layout, (across, up))
    if lying:
        columns, lines, sight = lines, columns, _turned(sight)
    looked = _looked(sight, (columns, lines), layout)
    drawn = [[_most(cell) for cell in line] for line in looked]
    for axis, on_its_lines in ((across, lying), (up, not lying)):
        _dot(drawn, axis, on_its_lines)
    _show_every_role(drawn, looked, layout.body.roles)
    fewer = across.fewer or up.fewer
    shown = dropwhile(lambda line: set(line) == {OUTSIDE}, drawn)
    return Picture(tuple("".join(line) for line in shown), half, lying, fewer)


_Sight = Callable[[float, float], str]
_Looked = list[list[Counter[str]]]


def _turned(sight: _Sight) -> _Sight:
    return lambda x, y: sight(1 - y, x)


def _looked(sight: _Sight, size: tuple[int, int], layout: Layout) -> _Looked:
    """What is seen in each character, closely enough that every role is."""
    looked: _Looked = []
    for looks in _LOOKS:
        looked = _looked_at(sight, size, looks)
        if layout.body.roles <= {role for line in looked for cell in line for role in cell}:
            break
    return looked


def _looked_at(sight: _Sight, size: tuple[int, int], looks: tuple[int, int]) -> _Looked:
    """What is seen in each character, the top line first."""
    columns, lines = size
    across, up = ([(step + 0.5) / count for step in range(count)] for count in looks)
    return [
        [
            Counter(
                sight((column + x) / columns, 1 - (line + y) / lines) for x in across for y in up
            )
            for column in range(columns)
        ]
        for line in range(lines)
    ]


def _most(cell: Counter[str]) -> str:
    return max(sorted(cell), key=lambda role: cell[role])


def _show_every_role(drawn: list[list[str]], looked: _Looked, roles: set[str]) -> None:
    """A role that is nowhere the most is dotted in, so that it does not look wider than it is."""
    seen = {role for line in drawn for role in line}
    for role in sorted(roles - seen):
        places = [
            (x, y, cell[role])
            for y, line in enumerate(looked)
            for x, cell in enumerate(line)
            if cell[role]
        ]
        most = max((share for _, _, share in places), default=0)
        where = [(x, y) for x, y, share in places if share == most]
        for x, y in [place for place in where if sum(place) % _DOTTED == 0] or where:
            drawn[y][x] = role


def _dot(drawn: list[list[str]], axis: Axis, on_lines: bool) -> None:
    """Let what lies before or behind a stripe show through one that is too narrow."""
    narrow = dict(axis.sparse)
    for at, every in narrow.items():
        beside = next((x for x in (at - 1, at + 1) if 0 <= x < len(axis.spans)), at)
        if on_lines:
            line, other = drawn[-1 - at], drawn[-1 - beside]
            for x in range(len(line)):
                if x % every and OUTSIDE not in (line[x], other[x]):
                    line[x] = other[x]
        else:
            for y, line in enumerate(drawn):
                if y % every and OUTSIDE not in (line[at], line[beside]):
                    line[at] = line[beside]


def _axes_to_scale(layout: Layout, shown: float, cells: tuple[int, int]) -> tuple[Axis, Axis]:
    """The same, both ways smaller where stripes come out true in fewer characters."""
    axes = _axes(layout, shown, cells)
    smaller = min(len(axis.spans) / count for axis, count in zip(axes, cells, strict=True))
    if smaller == 1:
        return axes
    across, up = (max(1, round(count * smaller)) for count in cells)
    return _axes(layout, shown, (across, up))


def _axes(layout: Layout, shown: float, cells: tuple[int, int]) -> tuple[Axis, Axis]:
    """How rows and stitches lie across the picture and up it, in so many characters each."""
    across, up = cells
    rows, widest = layout.body.rows, layout.body.widest
    stripes = [Stripe(len([*rows]), alike) for alike, rows in groupby(_in_order(layout), _colours)]
    if layout.centred:
        return even_axis(1, across), even_axis(1, up)
    if not layout.sideways:
        return even_axis(1, across), axis_of(stripes, up)
    along = [Stripe(count, role) for role, count in rows[0].counts]
    same = all(row.counts == rows[0].counts for row in rows)
    stitches = axis_of(along, up) if same else even_axis(widest, up)
    return axis_of(_first(stripes, shown * len(rows)), across), stitches


def _in_order(layout: Layout) -> Sequence[Row]:
    """The rows from the bottom up, or from the left."""
    return layout.body.rows[::-1] if layout.from_top else layout.body.rows


def _colours(row: Row) -> Hashable:
    """What rows of one stripe have in common."""
    return tuple(role for role, _ in row.counts), bool(row.carried)


def _first(stripes: Sequence[Stripe], most: float) -> list[Stripe]:
    """The stripes of the first so many rows."""
    room = max(1, round(most))
    found: list[Stripe] = []
    for stripe in stripes:
        if room <= 0:
            break
        found.append(replace(stripe, count=min(stripe.count, room)))
        room -= stripe.count
    return found


def _sight(shape: Shape, layout: Layout, axes: tuple[Axis, Axis]) -> _Sight:
    """What lies at a place, both ways from 0 to 1, from the left and from the bottom."""
    rows = _in_order(layout)
    widest = layout.body.widest
    shown = 0.5 if shape in _TUBES else 1.0
    across, up = axes

    def centred(x: float, y: float) -> str:
        far = _square if shape is Shape.SQUARE else hypot
        out = far(2 * x - 1, 2 * y - 1)
        return OUTSIDE if out >= 1 else _at(rows[int(out * len(rows))], 0.0)

    def sideways(x: float, y: float) -> str:
        return _at(rows[int(across.at(x))], up.at(y) / widest)

    def upright(x: float, y: float) -> str:
        row = rows[int(up.at(y))]
        along = (x - 0.5) * widest / row.stitches + 0.5
        return OUTSIDE if not 0 <= along < 1 else _at(row, along * shown)

    if layout.centred:
        return centred
    return sideways if layout.sideways else upright


def _square(x: float, y: float) -> float:
    return max(abs(x), abs(y))


def _at(row: Row, along: float) -> str:
    """The role of the stitch so far along a row; mixed colours take turns."""
    stitch = int(along * row.stitches)
    if row.carried and len(row.counts) == 2:
        (mixed, few), (there, _) = row.counts
        turn = stitch * few // row.stitches != (stitch + 1) * few // row.stitches
        return mixed if turn else there
    for role, count in row.counts:
        stitch -= count
        if stitch < 0:
            return role
    return MAIN
