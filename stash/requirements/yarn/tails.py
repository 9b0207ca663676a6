"""Tails, where a colour is begun, carried on or cut, and what they take; seam and gathering.

Each block of a colour has two tails. A colour that comes back soon is carried along the edge
instead, which takes more than the rows it passes, but no tails.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.requirements.design.bands import Ends, Stretch
from stash.requirements.design.design import Design
from stash.requirements.design.layout import Layout, Part
from stash.requirements.design.shapes import SEAM_TAKES, Crown

#: One tail in metres, 6-8 in, left at each end of a stretch of colour; a join is two of them
#: (common practice, no source).
TAIL_M = 0.2
JOIN_M = 2 * TAIL_M
#: Carried along the edge, yarn takes about so many times the height it passes (our own estimate).
CARRIED_TAKES = 1.2
#: So far a colour is usually carried rather than cut: an inch (common practice, no source).
CARRIED_M = 0.0254

#: Metres going to a role; a sum over many of them is what the role takes.
Share = tuple[str, float]


def finishing(design: Design, layout: Layout) -> Iterator[Share]:
    """What a design takes beyond its fabric, for one strand: tails, seam, gathering."""
    for part in layout.parts:
        for role, length_m in _tails(part, layout, design.ends):
            yield role, length_m * layout.made
    yield from _seam(design, layout)
    if design.closing is Crown.GATHERED:
        # The thread goes twice round the top, in the colour that is there.
        yield layout.stretches[-1].role, 2 * layout.size.across.m + 2 * TAIL_M


def _seam(design: Design, layout: Layout) -> Iterator[Share]:
    """It runs up the design, sewn in the colours that are there."""
    length_m = SEAM_TAKES[design.seaming] * layout.size.up.m
    edge = layout.body.upright[0].role if layout.body.upright else ""
    cells = sum(stretch.cells for stretch in layout.stretches)
    for stretch in layout.stretches:
        yield edge or stretch.role, length_m * stretch.cells / cells


@dataclass(frozen=True, slots=True)
class _Block:
    """One colour of a run of rows, from stitch to stitch."""

    role: str
    start: int
    end: int

    def goes_on_from(self, others: Sequence[_Block]) -> bool:
        """Whether the run before has it here already."""
        return any(
            one.role == self.role and one.start < self.end and self.start < one.end
            for one in others
        )


def carried_and_cut(design: Design, layout: Layout) -> tuple[int, int]:
    """How often a colour of the design comes back and is carried to, and how often it is cut."""
    found = [carried for _, _, carried in _colour_starts(layout.body, layout, design.ends)]
    return found.count(True), found.count(False)


def _tails(part: Part, layout: Layout, ends: Ends | None) -> Iterator[Share]:
    for role, gap_m, carried in _colour_starts(part, layout, ends):
        yield role, CARRIED_TAKES * gap_m if carried else 2 * TAIL_M


def _colour_starts(
    part: Part, layout: Layout, ends: Ends | None
) -> Iterator[tuple[str, float, bool | None]]:
    """Each time a colour comes in: how far it was away, and whether it is carried.

    None the first time, when there is nothing to carry.
    """
    before: list[_Block] = []
    last: dict[str, int] = {}
    at = 0
    for rows, blocks in _runs(part, layout.sideways):
        for block in blocks:
            if block.goes_on_from(before):
                continue
            gap_m = (at - last.get(block.role, at)) * layout.gauge.row_m
            yield block.role, gap_m, _carried(gap_m, ends) if block.role in last else None
        at += rows
        last.update((block.role, at) for block in blocks)
        before = blocks


def _carried(gap_m: float, ends: Ends | None) -> bool:
    return gap_m <= CARRIED_M if ends is None else ends is Ends.CARRIED


#: Where nothing lies upright, what is level shows.
_SEEN_THROUGH = Stretch("", 1)


def _runs(part: Part, sideways: bool) -> Iterator[tuple[int, list[_Block]]]:
    """Rows with the same colours in the same places: how many, and their blocks."""
    upright = part.upright or (_SEEN_THROUGH,)
    if sideways:
        for over in upright:
            rows = over.cells if part.upright else len(part.rows)
            yield rows, _blocks([(level, over, level.cells) for level in part.stretches])
        return
    for level in part.stretches:
        yield level.cells, _blocks([(level, over, over.cells) for over in upright])


def _blocks(places: Sequence[tuple[Stretch, Stretch, int]]) -> list[_Block]:
    """The colours side by side in a row, and a mixed-in colour over all of its stretch.

    A place is what is level there, what lies upright over it, and how wide it is.
    """
    found, at = [], 0
    for level, over, cells in places:
        here = (over.role, "") if over.role else (level.role, level.mixed[0] if level.mixed else "")
        found += [(role, at, at + cells) for role in here if role]
        at += cells
    found.sort()
    merged: list[_Block] = []
    for role, start, end in found:
        if merged and merged[-1].role == role and merged[-1].end == start:
            merged[-1] = _Block(role, merged[-1].start, end)
        else:
            merged.append(_Block(role, start, end))
    return merged
