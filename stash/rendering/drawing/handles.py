"""Handles at the edges of bands: where each edge is drawn on a board, and a slider to move it.

Level bands have theirs beside the piece, upright ones below it. A sock's rows go down its leg and
then along its foot, so the edges on its foot have theirs below as well. Rounds are counted from the
middle, upwards. What lies at the back of a tube has its handle at the side where it goes on.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from stash.rendering.band_edges import EdgeShown, Ruled, spaced
from stash.rendering.drawing import outlines
from stash.rendering.drawing.outlines import Scale
from stash.rendering.drawing.piece import Laid
from stash.rendering.drawing.svg import element, number, text_of
from stash.requirements.design.shapes import Shape

#: From the piece to the middle of a knob, and half of one; how far apart two are at least, one
#: above the other and side by side; where words are from the middle of a knob.
KNOB, HALF_KNOB = 44.0, (18.0, 12.0)
APART, BESIDE = 36.0, 80.0
_WORDS_AT, _WORDS_BELOW = 24.0, 28.0
#: What is said of an edge that is not seen from the front.
AT_THE_BACK = ", at the back"


@dataclass(frozen=True, slots=True)
class Way:
    """One way in which bands lie on a board, and where each edge between two cells is drawn.

    `at` is how high on the board, or from number `below` on how far across, with the handles below.
    `side` is where handles beside begin, `low` where those below do, both in pixels. `front` cells
    are seen, what comes after them is at the back. `leads` is how far before `side` each edge ends,
    where that is far. `strip` says how what lies between two edges is drawn, for a script.
    """

    ruled: Ruled
    at: Sequence[float]
    below: int
    side: float
    low: float
    front: int
    strip: Mapping[str, Any]
    leads: Sequence[float] = ()

    @property
    def name(self) -> str:
        """Level or upright."""
        return "upright" if self.ruled.upright else "level"

    @property
    def for_scripts(self) -> Mapping[str, Any]:
        """All that is needed to move a handle by whole cells."""
        ruled = self.ruled
        return {
            "at": [round(one, 1) for one in self.at],
            "below": self.below,
            "side": self.side,
            "low": self.low,
            "front": self.front,
            "leads": [round(one, 1) for one in self.leads],
            "says": ruled.places,
            "typed": ruled.typed,
            "one": ruled.one,
            "down": ruled.from_top,
            "tall": round(float(ruled.grid.um) / 10_000, 2),
            "strip": self.strip,
        }


@dataclass(frozen=True, slots=True)
class Placed:
    """A piece where it lies on a board: the corner of its body, and how wide all of it is."""

    laid: Laid
    scale: Scale
    corner: tuple[float, float]
    wide: float


def level_way(placed: Placed, ruled: Ruled) -> Way:
    """The level bands of a piece."""
    (shape, layout), scale, (left, top) = placed.laid, placed.scale, placed.corner
    cells = ruled.grid.cells + 1
    unit = scale.stitch_px if layout.sideways else scale.row_px
    low, side = top + scale.height, left + placed.wide
    strip: dict[str, Any] = {"kind": "level", "wide": scale.width, "corner": placed.corner}
    leads: list[float] = []
    if shape is Shape.SOCK:
        return _sock_way(placed, ruled, strip)
    if layout.centred:
        low = top + scale.height / 2
        square = 0.0 if shape is Shape.CIRCLE else 1.0
        strip["kind"] = "square" if square else "disc"
        leads = [scale.width / 2 - square * one * unit for one in range(cells)]
    if shape is Shape.TRIANGLE:
        leads = [scale.width / 2 * (1 - one / (cells - 1)) for one in range(cells)]
    if shape is Shape.COWL:
        sag = outlines.sag(scale)
        low += sag
        strip |= {"kind": "bowed", "sag": sag}
    at = [low - one * unit for one in range(cells)]
    return Way(ruled, at, cells, side, low, cells, strip, leads)


def _sock_way(placed: Placed, ruled: Ruled, strip: dict[str, Any]) -> Way:
    """Down the leg beside it, then along the foot below it."""
    (_, layout), scale, (left, top) = placed.laid, placed.scale, placed.corner
    foot = outlines.foot_of(layout, scale)
    cells, unit = ruled.grid.cells + 1, scale.row_px
    on_leg = min(cells, int(foot.leg / unit) + 1)
    at = [top + one * unit for one in range(on_leg)]
    at += [left + one * unit - foot.leg + foot.heel for one in range(on_leg, cells)]
    strip |= {"kind": "hanging", "unit": unit}
    low = top + foot.leg + foot.wide
    return Way(ruled, at, on_leg, left + foot.wide, low, cells, strip)


def upright_way(placed: Placed, ruled: Ruled) -> Way:
    """The upright bands; of a tube those at its back are all at the right of it."""
    scale, (left, top) = placed.scale, placed.corner
    unit = scale.row_px if placed.laid[1].sideways else scale.stitch_px
    front = round(scale.width / unit)
    at = [left + min(one * unit, scale.width) for one in range(ruled.grid.cells + 1)]
    strip = {"kind": "upright", "tall": scale.height, "corner": placed.corner}
    return Way(ruled, at, 0, left + scale.width, top + scale.height, front, strip)


def handles(
    ways: Sequence[Way], chosen: int, high: float, bottom: float, widest: float
) -> tuple[list[str], bool]:
    """A handle for each edge, and whether they are too many to be seen all at once.

    `high` and `bottom` are where the piece begins and ends, `widest` how far they may lie across.
    """
    edges = [(way, one) for way in ways for one in way.ruled.edges]
    beside = [one for one in edges if one[1].at < one[0].below]
    below = [one for one in edges if one[1].at >= one[0].below]
    crowded = _crowded(beside, bottom - high, APART) or _crowded(below, widest, BESIDE)
    drawn: list[str] = []
    for them, apart, room in (
        (beside, APART, (high + HALF_KNOB[1], bottom)),
        (below, BESIDE, (0.0, widest)),
    ):
        for group in _seen_together(them, chosen, crowded):
            drawn += _placed(group, apart, room, chosen)
    return drawn, crowded


_Edges = Sequence[tuple[Way, EdgeShown]]


def _crowded(edges: _Edges, room: float, apart: float) -> bool:
    return (len(edges) - 1) * apart > room


def _seen_together(edges: _Edges, chosen: int, crowded: bool) -> Iterator[_Edges]:
    """All of them, else those of the band that is chosen and, apart from these, the others."""
    if not crowded:
        yield edges
        return
    yield [one for one in edges if one[1].band == chosen]
    for other in sorted({one.band for _, one in edges} - {chosen}):
        yield [one for one in edges if one[1].band == other]


def _placed(edges: _Edges, apart: float, room: tuple[float, float], chosen: int) -> Iterator[str]:
    inwards = sorted(edges, key=lambda it: (it[0].at[it[1].at], it[1].side == _nearer(it[0])))
    wanted = [way.at[one.at] for way, one in inwards]
    places = spaced(wanted, apart, *room)
    for (way, one), place in zip(inwards, places, strict=True):
        at = (place, way.low) if one.at >= way.below else (way.side, place)
        lies = way.at[one.at] - place
        yield _handle(one, way, at, lies, chosen=one.band == chosen)


def _nearer(way: Way) -> str:
    """Which edge lies farther on where two share a place: counted down the board, or up it."""
    return "begins" if way.at[-1] < way.at[0] else "ends"


def _handle(one: EdgeShown, way: Way, at: tuple[float, float], lies: float, *, chosen: bool) -> str:
    below = one.at >= way.below
    back = AT_THE_BACK if one.at - (one.side == "ends") >= way.front else ""
    lead = way.leads[one.at] if way.leads else 0.0
    named = f"handle{' below' if below else ''}{' chosen' if chosen else ''}"
    return element(
        "g",
        *(_below(one, lies, back) if below else _beside(one, lies, lead)),
        id=f"edge-{one.band}-{one.side}",
        class_=named,
        transform=f"translate({number(at[0])} {number(at[1])})",
        role="slider",
        tabindex="0",
        aria_orientation="horizontal" if below else "vertical",
        aria_label=one.name,
        aria_valuemin=f"{one.low}",
        aria_valuemax=f"{one.high}",
        aria_valuenow=f"{one.at}",
        aria_valuetext=one.words + back,
        data_way=way.name,
        data_band=f"{one.band}",
        data_role=one.role,
        data_side=one.side,
        data_other=f"{one.other}",
        data_mixed=one.mixed,
    )


def _beside(one: EdgeShown, lies: float, lead: float) -> tuple[str, ...]:
    wide, tall = HALF_KNOB
    x = KNOB
    return (
        _line("leader", f"M{number(-6 - lead)} {number(lies)}H-6L{number(x - wide)} 0"),
        _knob(x - wide, -tall),
        _line("arrows", f"M{number(x - 6)} -3l6 -5l6 5M{number(x - 6)} 3l6 5l6 -5"),
        text(one.where, (x + _WORDS_AT, -1), name="where"),
        text(one.row, (x + _WORDS_AT, 15), name="row-words"),
    )


def _below(one: EdgeShown, lies: float, back: str) -> tuple[str, ...]:
    wide, tall = HALF_KNOB
    y = KNOB - wide + tall
    return (
        _line("leader", f"M{number(lies)} -6L0 {number(y - tall)}"),
        _knob(-wide, y - tall),
        _line("arrows", f"M-5 {number(y - 5)}l-5 5l5 5M5 {number(y - 5)}l5 5l-5 5"),
        text(one.where, (0, y + _WORDS_BELOW), "middle", "where"),
        text(one.row, (0, y + _WORDS_BELOW + 16), "middle", "row-words"),
        text(back and "back", (0, y + _WORDS_BELOW + 32), "middle", "row-words back"),
    )


#: How much room handles below a piece take.
ROOM_BELOW = KNOB - HALF_KNOB[0] + HALF_KNOB[1] + _WORDS_BELOW + 34


def _knob(x: float, y: float) -> str:
    wide, tall = HALF_KNOB
    return element("rect", x=x, y=y, width=2 * wide, height=2 * tall, rx=11, class_="knob")


def _line(name: str, path: str) -> str:
    return element("path", d=path, class_=name, fill="none", stroke="currentColor")


def text(words: str, at: tuple[float, float], anchor: str = "start", name: str = "") -> str:
    """Words on a board."""
    said = text_of(words)
    return element(
        "text", said, x=at[0], y=at[1], text_anchor=anchor, class_=name, fill="currentColor"
    )
