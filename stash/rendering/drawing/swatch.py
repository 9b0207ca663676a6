"""A swatch: one strand laid to and fro, and what is left of it by its outline."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from stash.rendering.drawing.strand import Lays, Paint, paint
from stash.rendering.drawing.svg import (
    LABEL,
    OUTLINE,
    OUTLINE_SHOWS,
    PRINT,
    element,
    mark_of,
    number,
    picture_of,
    text_of,
)
from stash.rendering.drawing.texture import (
    LEAN,
    USUAL_LAY,
    lay_height,
    lay_id,
    strength_of,
)
from stash.rendering.drawing.yarn_look import YarnLook
from stash.rendering.her_words import hers
from stash.stock.yarn import Surface


class Left(StrEnum):
    """What is left of a yarn, as it is drawn."""

    WHOLE = "whole"
    OPENED = "opened"
    REMNANT = "remnant"
    CHIP = "chip"  # a small sample beside a name


@dataclass(frozen=True, slots=True)
class Shown:
    """How a swatch is shown: its size in pixels, in grey or not, what stands on its label.

    `title`: what a reader of screens says of it; without one it is silent, as beside its name.
    `again`: tells apart the ids of one swatch drawn twice on a page.
    """

    width: int = 184
    height: int = 92
    grey: bool = False
    label: str = ""
    title: str = ""
    again: str = ""


#: A card is so much narrower where an end hangs out, and a bobbin so wide.
_OPENED, _BOBBIN = 0.87, 0.46
#: Room above and below a card for its label, in pixels.
_ROOM = 4.5
#: Below this height in pixels a lay is less tall, so that a chip has lays too.
_SMALL = 48
#: So many pixels of a card of the usual width show a centimetre of strand.
_PX_PER_CM, _USUAL_WIDTH = 4.2, 184


@dataclass(frozen=True, slots=True)
class _Box:
    x: float
    y: float
    width: float
    height: float
    round: float

    def rect(self, **attributes: str | float) -> str:
        return element(
            "rect", x=self.x, y=self.y, width=self.width, height=self.height, rx=self.round,
            **attributes,
        )  # fmt: skip


def yarn_swatch(look: YarnLook, left: Left, shown: Shown | None = None) -> str:
    """A yarn as SVG, about 0.7 kB, at most 1.2 kB at the size of a card.

    It needs `page_defs` once on its page.
    """
    shown = shown or Shown()
    size = (float(shown.width), float(shown.height))
    box = _box(left, shown)
    if not look.colours:
        return picture_of(size, shown.title, _not_known(box, shown))
    lay = _lay(look, shown.height)
    texture = lay_id(look.surface, lay, strength_of(look))  # also of its greys, a shade off
    look = look.in_grey() if shown.grey else look
    painted = _painted(look, left, shown, lay, box)
    body = [painted.definition] if painted.definition else []
    body += _strand(look, painted, box, texture)
    body += _around(look, left, shown, box)
    return picture_of(size, shown.title, body)


def _lay(look: YarnLook, height: int) -> int:
    lay = lay_height(look.thickness)
    return lay if height >= _SMALL else {6: 5, 8: 6, 10: 8}[lay]


def _box(left: Left, shown: Shown) -> _Box:
    """Where the lays are."""
    width, height = shown.width, shown.height
    if left is Left.CHIP or height < _SMALL:
        return _Box(0.5, 0.5, width - 1, height - 1, 4)
    tall = height - 2 * _ROOM
    if left is Left.REMNANT:
        return _Box(10, _ROOM, width * _BOBBIN, tall, 1)
    wide = width * _OPENED if left is Left.OPENED else width - 1.0
    return _Box(0.5, _ROOM, wide - 0.5, tall, 10)


def _painted(look: YarnLook, left: Left, shown: Shown, lay: int, box: _Box) -> Paint:
    scale = _PX_PER_CM * min(1.6, max(0.3, shown.width / _USUAL_WIDTH)) * USUAL_LAY / lay
    lays = Lays(
        width=round(box.width * 1.03),
        height=box.height,
        lay=lay,
        px_per_cm=scale,
        transform=f"rotate({LEAN})",
    )
    mark = mark_of(look.seed, look.shades, look.dyed.value, lay, left.value, shown) + shown.again
    return paint(look, lays, mark)


def _strand(look: YarnLook, painted: Paint, box: _Box, texture: str) -> list[str]:
    """The lays: colour, texture, edge; round a brushed one its halo."""
    halo = []
    shows = OUTLINE_SHOWS
    if look.surface is Surface.BRUSHED:
        shows = 0.3
        halo = [
            box.rect(fill=painted.fill, filter="url(#halo)"),
            *(
                box.rect(fill="none", stroke=painted.fill, stroke_width=wide, stroke_dasharray=dash)
                for wide, dash in (("9", ".4 5.1 .3 7.3 .4 3.2"), ("6", ".4 2.9 .3 3.7 .4 1.9"))
            ),
        ]
    return [
        *halo,
        box.rect(fill=painted.fill),
        box.rect(
            fill=f"url(#{texture})",
            class_="yarn-outline",
            stroke=OUTLINE,
            stroke_opacity=f"{shows:.2g}",
        ),
    ]


def _around(look: YarnLook, left: Left, shown: Shown, box: _Box) -> list[str]:
    """What shows how much is left: a paper label, a loose end, a bobbin."""
    if left is Left.CHIP or shown.height < _SMALL:
        return []
    if left is Left.WHOLE:
        return _label(shown, box)
    ends = _end(look, left, box)
    return ends if left is Left.OPENED else [_flanges(box), *ends]


def _label(shown: Shown, box: _Box) -> list[str]:
    """A paper band, as wide as what stands on it."""
    wide = max(38.0, 9.0 * len(shown.label) + 12)
    wide = min(wide, box.width * 0.7)
    x = box.x + box.width - wide - box.width * 0.1
    band = element(
        "rect", x=x, y=box.y - 2, width=wide, height=box.height + 4, rx=1.5, fill=LABEL,
        stroke=OUTLINE,
    )  # fmt: skip
    if not shown.label:
        return [band]
    words = element(
        "text", text_of(shown.label), x=x + wide / 2, y=box.y + box.height / 2 + 5,
        text_anchor="middle", font_size="14", font_weight="700", fill=PRINT,
    )  # fmt: skip
    return [band, words]


def _end(look: YarnLook, left: Left, box: _Box) -> list[str]:
    """A loose end that hangs out at the lower right."""
    thick = {6: 4.0, 8: 5.0, 10: 6.5}[lay_height(look.thickness)]
    right, low = box.x + box.width, box.y + box.height
    if left is Left.REMNANT:
        path = f"M{number(right - 3)} {number(low - 10)}c9 0 10 8 17 8s8-2 13-2"
    else:
        path = f"M{number(right - 36)} {number(low - 2.5)}c13 0 19 6 32 3s12-11 24-9"
    edge = element(
        "path", d=path, fill="none", class_="yarn-end", stroke=OUTLINE, stroke_width=thick + 2,
        stroke_linecap="round",
    )  # fmt: skip
    inside = element(
        "path", d=path, fill="none", stroke=look.shades[0][0], stroke_width=thick,
        stroke_linecap="round",
    )  # fmt: skip
    return [edge, inside]


def _flanges(box: _Box) -> str:
    """Both ends of a bobbin."""
    wide = number(box.width + 12)
    ends = (
        f"M{number(box.x - 6)} {number(y)}h{wide}v7h-{wide}z"
        for y in (box.y - 2.5, box.y + box.height - 4.5)
    )
    return element("path", d="".join(ends), fill=LABEL, stroke=OUTLINE, stroke_linejoin="round")


def _not_known(box: _Box, shown: Shown) -> list[str]:
    """Empty lays and a question."""
    step = 8 if shown.height < _SMALL else 14
    lines = "".join(
        f"M{number(box.x)} {number(box.y + y)}h{number(box.width)}"
        for y in range(step, int(box.height), step)
    )
    drawn = [
        box.rect(fill="none", class_="yarn-empty", stroke=OUTLINE, stroke_opacity=".6"),
        element("path", d=lines, class_="yarn-empty", stroke=OUTLINE, stroke_opacity=".3"),
    ]
    middle: dict[str, Any] = {
        "x": box.x + box.width / 2,
        "text_anchor": "middle",
        "font_weight": "700",
    }
    y = box.y + box.height / 2 + 5
    if box.width < 90:
        mark = element("text", "?", y=y, font_size="13", class_="yarn-ask", **middle)
        return [*drawn, mark]
    paper = element(
        "rect", x=box.x + box.width / 2 - 34, y=y - 19, width=68, height=28, rx=4, fill=LABEL
    )
    asked = element("text", hers("colour?"), y=y, font_size="14", fill=PRINT, **middle)
    return [*drawn, paper, asked]
