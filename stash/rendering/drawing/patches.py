"""Where each colour of a laid-out design lies, in stitches and rows as they are seen.

It is the layout's own counts, turned into rectangles: nothing is worked out anew.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby

from stash.requirements.design.layout import Layout, Part, Row
from stash.requirements.design.shapes import Shape

#: What is worn as a tube is seen from the front: half of each round.
TUBES = frozenset(
    {Shape.SIDEWAYS_HAT, Shape.ROUND_HAT, Shape.FLAT_HAT, Shape.HEADBAND, Shape.COWL,
     Shape.MITTEN, Shape.SOCK}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Patch:
    """A rectangle of one role: where it begins from the left and the bottom, and how large it is.

    Across and up are stitches and rows; where rows run up the design, rows and stitches. `mixed`:
    a share of its stitches is in another role instead.
    """

    role: str
    x: float
    y: float
    wide: float
    tall: float
    mixed: tuple[str, float] | None = None


def patches(shape: Shape, layout: Layout) -> list[Patch]:
    """The body of a design as it lies in front of one, the front of a tube only.

    Rows that are narrower than the widest are centred, and reach to both sides: what lies beyond
    them is outside the outline.
    """
    shown = 0.5 if shape in TUBES else 1.0
    part = layout.body
    if layout.sideways:
        seen = max(1, round(len(part.rows) * shown))
        lying = _lying(part.rows[:seen], 1.0, part.widest)
        return [Patch(one.role, one.y, one.x, one.tall, one.wide, one.mixed) for one in lying]
    return _lying(upwards(part, layout), shown, part.widest)


def upwards(part: Part, layout: Layout) -> Sequence[Row]:
    """The rows of a part from the bottom up, however it is worked."""
    return part.rows[::-1] if layout.from_top else part.rows


def rings(layout: Layout) -> list[tuple[str, int]]:
    """The rounds of a design about a centre from the centre out: role and how many alike."""
    alike = groupby(layout.body.rows, lambda row: max(row.counts, key=lambda run: run[1])[0])
    return [(role, len([*run])) for role, run in alike]


_Run = tuple[str, float, float, tuple[str, float] | None]


def _lying(rows: Sequence[Row], shown: float, widest: int) -> list[Patch]:
    room = widest * shown
    found: list[Patch] = []
    y = 0
    for runs, alike in groupby(tuple(_placed(row, shown, room)) for row in rows):
        tall = sum(1 for _ in alike)
        found += [
            Patch(role, start, y, end - start, tall, mixed) for role, start, end, mixed in runs
        ]
        y += tall
    return found


def _placed(row: Row, shown: float, room: float) -> Iterator[_Run]:
    """The runs of a row that are seen, centred, the outer ones as far as the widest row goes."""
    if row.carried and len(row.counts) == 2:
        (other, few), (there, _) = row.counts
        yield there, 0.0, room, (other, few / row.stitches)
        return
    seen = row.stitches * shown
    before = (room - seen) / 2
    start = 0.0
    for role, count in row.counts:
        end = min(start + count, seen)
        if end > start:
            left = 0.0 if start == 0 else before + start
            yield role, left, room if end >= seen else before + end, None
        start = end
