"""Small signs and line icons, drawn in the colour of the text around them."""

from __future__ import annotations

from enum import StrEnum

from stash.rendering.drawing.svg import element, picture_of


class Sign(StrEnum):
    """What a sign stands for; a word always stands beside it."""

    SKEIN = "skein"
    PART_BALL = "part ball"
    REMNANT = "remnant"
    ENOUGH = "enough"
    TIGHT = "tight"
    LACKS = "lacks"
    LIGHTNESS = "lightness"
    TONIGHT = "tonight"
    SHELF = "shelf"
    DESIGNS = "designs"
    SCALE = "scale"
    MARKET = "market"
    UNDO = "undo"
    FIND = "find"
    RUB_OUT = "rub out"
    PHONE = "phone"
    TICK = "tick"
    STASH = "stash"


_RING = "M12 3a9 9 0 1 0 0 18a9 9 0 0 0 0-18z"
#: Each sign in a square of 24: the lines of it, and what of it is filled.
_LINES = {
    Sign.SKEIN: (_RING + "M9.4 3.6v16.8M14.6 3.6v16.8", ""),
    Sign.PART_BALL: (
        "M11 3a8 8 0 1 0 0 16a8 8 0 0 0 0-16zM3.4 9.4c5 .2 9 3 11.6 8.4M5.8 5.2c5.6.4 9.8 3.6 "
        "12.4 9M13.6 18.6c2 2.8 4.4 2.6 7.9 2",
        "",
    ),
    Sign.REMNANT: (
        "M14 14.4c1.6 2.2 3 2.6 5 2.4",
        "M12 8.4a3.6 3.6 0 1 0 0 7.2a3.6 3.6 0 0 0 0-7.2z",
    ),
    Sign.ENOUGH: (_RING + "M7.8 12.4l3 3 5.6-6", ""),
    Sign.TIGHT: ("M12 3.6L21.6 20.4H2.4zM12 9.8v5M12 17.2v.8", ""),
    Sign.LACKS: (_RING + "M7.4 12h9.2", ""),
    Sign.LIGHTNESS: (_RING, "M12 3a9 9 0 0 1 0 18z"),
    Sign.TONIGHT: ("M20.2 14.2A8.6 8.6 0 1 1 9.8 3.8a6.9 6.9 0 0 0 10.4 10.4z", ""),
    Sign.SHELF: ("M2.5 10.5h19M2.5 20h19M6 10.5V5h4.4v5.5M13.4 20v-5.6h5V20", ""),
    Sign.DESIGNS: ("M5.2 16C5.2 8.8 7.6 5 12 5s6.8 3.8 6.8 11M3.6 16h16.8v4.2H3.6z", ""),
    Sign.SCALE: ("M3.6 5h16.8M12 5v4.6M7.6 9.6h8.8L19 20H5z", ""),
    Sign.MARKET: ("M3.8 4.6l7.6-.8 9 9-7.6 7.6-9-9zM8 8.4v.2", ""),
    Sign.UNDO: ("M8.6 4.6L3.8 9.4l4.8 4.8M3.8 9.4h10.4a5.4 5.4 0 0 1 0 10.8H9.6", ""),
    Sign.FIND: ("M10.4 3.8a6.6 6.6 0 1 0 0 13.2a6.6 6.6 0 0 0 0-13.2zM15.2 15.2l5.6 5.6", ""),
    Sign.RUB_OUT: ("M8 5h12.6v14H8L2.6 12zM11.4 9.4l5.2 5.2M16.6 9.4l-5.2 5.2", ""),
    Sign.PHONE: ("M7 2.6h10v18.8H7zM10.6 18.4h2.8", ""),
    Sign.TICK: ("M4.6 12.8l4.8 4.8L19.4 6.6", ""),
    Sign.STASH: (
        "M1.6 6h18.2a3 3 0 0 1 0 6H4.4a3 3 0 0 0 0 6h10.8c3.2 0 4 1.8 7.2 1.8",
        "",
    ),
}  # fmt: skip


def sign(which: Sign, size: int = 18, title: str = "") -> str:
    """A sign in so many pixels; silent beside its word, or of a title where it stands alone."""
    lines, filled = _LINES[which]
    drawn = [
        element(
            "path", d=lines, fill="none", stroke="currentColor", stroke_width=1.8,
            stroke_linecap="round", stroke_linejoin="round",
        )
    ]  # fmt: skip
    if filled:
        drawn.append(element("path", d=filled, fill="currentColor"))
    if which is Sign.REMNANT:
        dashed = {"stroke_width": "1.8", "stroke_dasharray": "2.8 2.85"}
        drawn.append(element("path", d=_RING, fill="none", stroke="currentColor", **dashed))
    scaled = f"scale({size / 24:.3g})"
    return picture_of((size, size), title, [element("g", *drawn, transform=scaled)])
