"""A piece on its board: to scale with a ruler, and a handle at each edge of its bands.

What a script needs to move a band by whole rows stands on the board: where each edge between two
rows is drawn, what it is called, how it is typed, and how what lies between two is drawn.
"""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from stash.measures.length import Length
from stash.rendering import figures
from stash.rendering.band_edges import Ruled
from stash.rendering.drawing import handles, outlines
from stash.rendering.drawing.handles import (
    KNOB,
    ROOM_BELOW,
    Placed,
    Way,
    level_way,
    text,
    upright_way,
)
from stash.rendering.drawing.outlines import Scale, scale_of
from stash.rendering.drawing.patches import TUBES
from stash.rendering.drawing.piece import Laid, PieceShown, piece, size_px
from stash.rendering.drawing.svg import element, number
from stash.rendering.drawing.yarn_look import YarnLook
from stash.rendering.figures import as_size, edge, screen
from stash.requirements.design.shapes import Shape

#: Room for the ruler and for handles beside the piece, above and below it, in pixels.
_RULER, _HANDLES, _ABOVE, _BELOW = 44.0, KNOB + 94, 26.0, 62.0
#: The edge around a piece, and the least a band is in which its letter stands, in pixels.
_EDGE, _LETTER = 1.0, 20.0


@dataclass(frozen=True, slots=True)
class BoardShown:
    """How a board is shown: its scale, its title, and the band that is chosen (from 1)."""

    px_per_cm: float
    title: str
    chosen: int = 0
    again: str = "board"


@dataclass(frozen=True, slots=True)
class Board:
    """The drawing, and whether all handles are seen at once: else those of one band at a time."""

    drawn: str
    crowded: bool


def board(
    laid: Laid, looks: Mapping[str, YarnLook], bands: Sequence[Ruled], shown: BoardShown
) -> Board:
    """The piece with all of it as SVG; `bands` are its level ones, then its upright ones."""
    scale = scale_of(*laid, shown.px_per_cm)
    drawn = piece(
        laid, looks, PieceShown(shown.px_per_cm, title=shown.title, again=shown.again, open_=True)
    )
    width, height = size_px(laid, shown.px_per_cm, open_=True)
    placed = Placed(laid, scale, (_RULER + _EDGE, _ABOVE + _EDGE), width - 2 * _EDGE)
    level, upright = bands
    ways = [level_way(placed, level), upright_way(placed, upright)]
    below = ROOM_BELOW if upright.bands or laid[0] is Shape.SOCK else 0.0
    room = (_RULER + width + _HANDLES, _ABOVE + height + below + _BELOW)
    sliders, crowded = handles.handles(ways, shown.chosen, _ABOVE, _ABOVE + height, room[0])
    inside = [
        _ruler(laid, scale, shown.px_per_cm),
        element("g", drawn, transform=f"translate({number(_RULER)} {number(_ABOVE)})", id="piece"),
        _across(placed, _ABOVE + height + below + 16),
        element("g", *_letters(placed, ways), class_="letters", aria_hidden="true"),
        *sliders,
    ]
    whole = element(
        "svg",
        *inside,
        width=room[0],
        height=room[1],
        viewBox=f"0 0 {number(room[0])} {number(room[1])}",
        class_="drawn board crowded" if crowded else "drawn board",
        id="board",
        data_ways=json.dumps({way.name: way.for_scripts for way in ways if way.ruled.bands}),
    )
    return Board(whole, crowded)


def _ruler(laid: Laid, scale: Scale, px_per_cm: float) -> str:
    """Centimetres or inches from where rows are counted, the larger steps with their number.

    Up from the lower edge, or from the middle of rounds; down from the top of a sock.
    """
    shape, layout = laid
    inches = screen().units.size == "in"
    step = px_per_cm * (2.54 if inches else 1.0)
    small = next(one for one in (1, 2, 5, 10, 20, 50, 100) if one * step >= 6 or one == 100)
    large = small * (4 if inches and small == 1 else 5)
    top, tall = _ABOVE + _EDGE, scale.height
    if shape is Shape.SOCK:
        tall = outlines.foot_of(layout, scale).size[1]
    elif layout.centred:
        tall = scale.height / 2
    elif shape is Shape.COWL:
        top += outlines.sag(scale)
    down = shape is Shape.SOCK
    ticks, words = f"M{number(_RULER - 12)} {number(top)}v{number(tall)}", []
    for at in range(0, int((tall + 0.5) / step) + 1, small):
        y = top + at * step if down else top + tall - at * step
        long = at % large == 0
        ticks += f"M{number(_RULER - 12)} {number(y)}h-{10 if long else 5}"
        if long:
            words.append(text(f"{at}", (_RULER - 26, y + 4.5), "end"))
    line = element("path", d=ticks, class_="tick-line", fill="none", stroke="currentColor")
    low = top + tall + 18 if down else max(top - 16, 11)
    unit = text("in" if inches else "cm", (0, low))
    return element("g", line, unit, *words, class_="ruler", aria_hidden="true")


def _across(placed: Placed, y: float) -> str:
    """How wide it is as it lies, under it; of a pair one of the two."""
    shape, layout = placed.laid
    left = placed.corner[0]
    right = left + (placed.scale.width if shape is Shape.MITTEN else placed.wide)
    ends_at = f"M{number(left)} {number(y - 5)}v10m0-5H{number(right)}m0-5v10"
    line = element("path", d=ends_at, class_="tick-line", fill="none", stroke="currentColor")
    middle = (left + right) / 2
    words = text(_wide_words(placed), (middle, y + 20), "middle")
    counted = f"{layout.body.widest} stitches by {len(layout.body.rows)} rows"
    counts = text(counted, (middle, y + 38), "middle", "counts")
    return element("g", line, words, counts, class_="ruler")


def _wide_words(placed: Placed) -> str:
    shape, layout = placed.laid
    size = layout.size
    if shape is Shape.SOCK:
        long = Length(round(placed.wide / placed.scale.row_px * layout.gauge.row_um))
        return f"{edge(long)} long, {edge(size.across)} around"
    if shape in TUBES:
        half = Length(as_size(size.across).um // 2)
        return f"{edge(half)} across, {figures.size(size.across)} around"
    return f"{figures.size(size.across)} by {figures.size(size.up)}"


def _letters(placed: Placed, ways: Sequence[Way]) -> Iterator[str]:
    """The letter of each colour on the piece, where none is on another or beside the piece."""
    level, upright = ways
    (shape, layout), scale, (left, top) = placed.laid, placed.scale, placed.corner
    lies = [(upright.at[one.start], upright.at[one.end]) for one in upright.ruled.bands]
    for band, (begins, ends) in zip(upright.ruled.bands, lies, strict=True):
        if ends - begins >= _LETTER:
            yield _letter(band.role, ((begins + ends) / 2, top + scale.height * 0.66))
    for role, starts, ends in _runs(level.ruled):
        on_foot = starts >= level.below
        last = ends if on_foot or ends < level.below else level.below - 1
        middle = (level.at[starts] + level.at[last]) / 2
        if abs(level.at[starts] - level.at[last]) < _LETTER:
            continue
        if on_foot:
            foot = outlines.foot_of(layout, scale)
            yield _letter(role, (middle, top + foot.leg + 0.62 * foot.wide))
            continue
        narrow = shape is not Shape.SOCK and middle < top + scale.height * 0.3
        for share in (0.5,) if level.leads else (0.4, 0.6, 0.8) if narrow else (0.2, 0.4, 0.6, 0.8):
            x = left + scale.width * share
            if all(x < begins - 12 or x > ends + 12 for begins, ends in lies):
                bow = outlines.sag(scale) * (1 - (2 * share - 1) ** 2)
                yield _letter(role, (x, middle + (bow if shape is Shape.COWL else 0.0)))
                break


def _letter(role: str, at: tuple[float, float]) -> str:
    disc = element("circle", cx=at[0], cy=at[1], r=10, class_="letter-disc")
    return element("g", disc, text(role, (at[0], at[1] + 5), "middle", "letter"))


def _runs(ruled: Ruled) -> list[tuple[str, int, int]]:
    """Each band, and what is left between them in the main colour."""
    bands = [(band.role, band.start, band.end) for band in ruled.bands]
    ends = [0, *(end for _, _, end in bands)]
    starts = [*(start for _, start, _ in bands), ruled.grid.cells]
    return bands + [
        ("A", end, start) for end, start in zip(ends, starts, strict=True) if start > end
    ]
