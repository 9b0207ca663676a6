"""A piece on its board: to scale with a ruler, and a handle at each edge of its bands.

A handle is a slider that says where it is. What a script needs to move one by whole rows stands on
the board: how high each edge between two rows is drawn, what it is called, how it is typed.
"""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stash.measures.length import Length
from stash.rendering import figures
from stash.rendering.band_edges import EdgeShown, Ruled, spaced
from stash.rendering.drawing import outlines
from stash.rendering.drawing.outlines import scale_of
from stash.rendering.drawing.patches import TUBES
from stash.rendering.drawing.piece import Laid, PieceShown, piece, size_px
from stash.rendering.drawing.svg import element, number, text_of
from stash.rendering.drawing.yarn_look import YarnLook
from stash.rendering.figures import as_size, edge, screen
from stash.requirements.design.shapes import Shape

#: Room for the ruler, between piece and handles, for the handles, above and below, in pixels.
_RULER, _LEADER, _HANDLES, _ABOVE, _BELOW = 44.0, 26.0, 112.0, 14.0, 62.0
#: Half of a handle, how far apart two are at least, and where its knob is from its words.
_KNOB, _APART, _WORDS_AT = (18.0, 12.0), 36.0, 24.0


@dataclass(frozen=True, slots=True)
class BoardShown:
    """How a board is shown: its scale, its title, and the band that is chosen (from 1)."""

    px_per_cm: float
    title: str
    chosen: int = 0
    again: str = "board"


def has_handles(laid: Laid) -> bool:
    """Whether its bands lie level one above the other as it is drawn."""
    shape, layout = laid
    return shape is not Shape.SOCK and not layout.centred


def shows_all_handles(laid: Laid) -> bool:
    """Whether every edge of its bands is seen: of a folded scarf only its front layer is."""
    shape, layout = laid
    return has_handles(laid) and not outlines.is_folded(shape, scale_of(shape, layout, 1.0))


def board(laid: Laid, looks: Mapping[str, YarnLook], bands: Ruled, shown: BoardShown) -> str:
    """The piece with all of it as SVG."""
    drawn = piece(laid, looks, PieceShown(shown.px_per_cm, title=shown.title, again=shown.again))
    width, height = size_px(laid, shown.px_per_cm)
    heights = _heights(laid, bands, shown.px_per_cm)
    right = _RULER + width
    inside = [
        _ruler(heights[0], shown.px_per_cm, _ABOVE),
        element("g", drawn, transform=f"translate({number(_RULER)} {number(_ABOVE)})", id="piece"),
        _across(laid, (_RULER, right), _ABOVE + height + 16),
    ]
    if has_handles(laid):
        seen = [one for one in bands.edges if heights[one.at] >= _ABOVE - 1]
        inside += _letters(bands, heights, width)
        inside += _handles(seen, heights, (right, _ABOVE + height), shown.chosen)
    room = (right + _LEADER + _HANDLES, _ABOVE + height + _BELOW)
    return element(
        "svg",
        *inside,
        width=room[0],
        height=room[1],
        viewBox=f"0 0 {number(room[0])} {number(room[1])}",
        class_="drawn board",
        id="board",
        data_rows=json.dumps([round(one, 1) for one in heights]),
        data_says=json.dumps(bands.places),
        data_typed=json.dumps(bands.typed),
        data_one=bands.one,
        data_off=f"{_ABOVE + 1:g}",
        data_tall=f"{float(bands.grid.um) / 10_000:.2f}",
        data_down="yes" if bands.from_top else "",
    )


def _heights(laid: Laid, bands: Ruled, px_per_cm: float) -> list[float]:
    """Where on the board each edge between two cells is drawn, from the bottom up."""
    shape, layout = laid
    scale = scale_of(shape, layout, px_per_cm)
    low = _ABOVE + 1.0 + scale.height
    if shape is Shape.COWL:
        low += outlines.sag(scale)
    elif outlines.is_folded(shape, scale):
        low = _ABOVE + 1.0 + outlines.layer_step(scale) + outlines.folded_height(scale)
    unit = scale.stitch_px if layout.sideways else scale.row_px
    return [low - at * unit for at in range(bands.grid.cells + 1)]


def _ruler(low: float, px_per_cm: float, top: float) -> str:
    """Centimetres or inches up from the lower edge, the larger steps with their number."""
    inches = screen().units.size == "in"
    step = px_per_cm * (2.54 if inches else 1.0)
    small = next(one for one in (1, 2, 5, 10, 20, 50) if one * step >= 6)
    large = small * (4 if inches and small == 1 else 5)
    ticks, words = f"M{number(_RULER - 12)} {number(top)}V{number(low)}", []
    at = 0
    while low - at * step >= top - 0.5:
        y = low - at * step
        long = at % large == 0
        ticks += f"M{number(_RULER - 12)} {number(y)}h-{10 if long else 5}"
        if long:
            words.append(_text(f"{at}", (_RULER - 26, y + 4.5), "end"))
        at += small
    line = element("path", d=ticks, class_="tick-line", fill="none", stroke="currentColor")
    unit = _text("in" if inches else "cm", (0, max(top - 2, 11)))
    return element("g", line, unit, *words, class_="ruler", aria_hidden="true")


def _text(words: str, at: tuple[float, float], anchor: str = "start", name: str = "") -> str:
    said = text_of(words)
    return element(
        "text", said, x=at[0], y=at[1], text_anchor=anchor, class_=name, fill="currentColor"
    )


def _across(laid: Laid, ends: tuple[float, float], y: float) -> str:
    """How wide it is as it lies, under it."""
    _, layout = laid
    left, right = ends
    ends_at = f"M{number(left)} {number(y - 5)}v10m0-5H{number(right)}m0-5v10"
    line = element("path", d=ends_at, class_="tick-line", fill="none", stroke="currentColor")
    middle = (left + right) / 2
    words = _text(_wide_words(laid), (middle, y + 20), "middle")
    counted = f"{layout.body.widest} stitches by {len(layout.body.rows)} rows"
    counts = _text(counted, (middle, y + 38), "middle", "counts")
    return element("g", line, words, counts, class_="ruler")


def _wide_words(laid: Laid) -> str:
    shape, layout = laid
    size = layout.size
    if shape in TUBES:
        half = Length(as_size(size.across).um // 2)
        return f"{edge(half)} across, {figures.size(size.across)} around"
    return f"{figures.size(size.across)} by {figures.size(size.up)}"


def _letters(bands: Ruled, heights: Sequence[float], width: float) -> list[str]:
    """The letter of each colour on the piece; near its top, where it may be narrow, farther in."""
    narrow = _ABOVE + (heights[0] - _ABOVE) * 0.3
    free = [(0, "A"), *((band.end, "A") for band in bands.bands)]
    tops = [*(band.start for band in bands.bands), bands.grid.cells]
    runs = [(at, top, role) for (at, role), top in zip(free, tops, strict=True) if top > at]
    runs += [(band.start, band.end, band.role) for band in bands.bands]
    drawn = []
    for start, end, role in runs:
        tall = heights[start] - heights[end]
        if tall < 20 or heights[end] < _ABOVE - 1:
            continue
        middle = (heights[start] + heights[end]) / 2
        x = _RULER + width * (0.4 if middle < narrow else 0.2)
        disc = element("circle", cx=x, cy=middle, r=10, class_="letter-disc")
        drawn.append(element("g", disc, _text(role, (x, middle + 5), "middle", "letter")))
    return [element("g", *drawn, class_="letters", aria_hidden="true")]


def _handles(
    edges: Sequence[EdgeShown], heights: Sequence[float], at: tuple[float, float], chosen: int
) -> list[str]:
    right, low = at
    downwards = sorted(edges, key=lambda one: (heights[one.at], one.side == "begins"))
    wanted = [heights[one.at] for one in downwards]
    places = spaced(wanted, _APART, _ABOVE + _KNOB[1], low + 24)
    return [
        _handle(one, (right, y), heights[one.at] - y, one.band == chosen)
        for one, y in zip(downwards, places, strict=True)
    ]


def _handle(one: EdgeShown, at: tuple[float, float], lies: float, chosen: bool) -> str:
    wide, tall = _KNOB
    x = _LEADER + wide
    leader = f"M-6 {number(lies)}L{number(x - wide)} 0"
    arrows = f"M{number(x - 6)} -3l6 -5l6 5M{number(x - 6)} 3l6 5l6 -5"
    body = (
        element("path", d=leader, class_="leader", fill="none", stroke="currentColor"),
        element("rect", x=x - wide, y=-tall, width=2 * wide, height=2 * tall, rx=11, class_="knob"),
        element("path", d=arrows, class_="arrows", fill="none", stroke="currentColor"),
        _text(one.where, (x + _WORDS_AT, -1), name="where"),
        _text(one.row, (x + _WORDS_AT, 15), name="row-words"),
    )
    return element(
        "g",
        *body,
        id=f"edge-{one.band}-{one.side}",
        class_="handle chosen" if chosen else "handle",
        transform=f"translate({number(at[0])} {number(at[1])})",
        role="slider",
        tabindex="0",
        aria_orientation="vertical",
        aria_label=one.name,
        aria_valuemin=f"{one.low}",
        aria_valuemax=f"{one.high}",
        aria_valuenow=f"{one.at}",
        aria_valuetext=one.words,
        data_band=f"{one.band}",
        data_role=one.role,
        data_side=one.side,
        data_other=f"{one.other}",
    )
