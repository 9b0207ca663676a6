"""SVG as text: elements, numbers, paths; whatever is text is escaped here and nowhere else.

No `style` attribute, no script: a page may forbid both. What follows the light or dark scheme of
a page has a class (see `CLASSES`) and, for a picture by itself, the light scheme's colour.
"""

from __future__ import annotations

from collections.abc import Iterable
from html import escape
from zlib import crc32

#: The namespace of SVG.
NAMESPACE = "http://www.w3.org/2000/svg"
#: The classes a page colours by its scheme: what of each, and in which of its inks.
CLASSES = {
    "yarn-outline": ("stroke", "outline"),  # the edge of drawn yarn
    "yarn-end": ("stroke", "outline"),  # round a loose end
    "yarn-empty": ("stroke", "outline"),  # lays of a yarn whose colour is not known
    "yarn-ask": ("fill", "ink"),  # the question on those of a chip
    "bar": ("fill", "paper"),  # what of a bar is used up
    "bar-gap": ("stroke", "paper"),  # beside the mark on a bar
    "woad": ("stroke", "woad"),
    "wash": ("fill", "wash"),
    "wash-edge": ("fill", "wash"),
    "hair": ("stroke", "hair"),
}
#: The inks of the light scheme, for a picture by itself.
WOAD, WASH, HAIR, PAPER = "#184e68", "#d6e4eb", "#c3c7c5", "#f8f8f6"
#: The edge of drawn yarn in the light scheme, and how much of it shows.
OUTLINE, OUTLINE_SHOWS = "#2a2f32", 0.75
#: A paper band and its print, in both schemes.
LABEL, PRINT = "#f1f0eb", "#1e2225"


def number(value: float) -> str:
    """To a tenth of a pixel, as short as can be."""
    text = f"{value:.1f}"
    text = text[:-2] if text.endswith(".0") else text
    return "0" if text == "-0" else text


def fine(value: float) -> str:
    """To a thousandth, for shares and scales, as short as can be."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return text.replace("0.", ".", 1) if text.startswith(("0.", "-0.")) else text


def element(name: str, *inside: str, **attributes: str | float) -> str:
    """An element; `_` in an attribute's name stands for `-`, one at its end is left out.

    Attributes are escaped, and left out where they are empty; what is inside is markup already.
    """
    said = "".join(
        f' {key.rstrip("_").replace("_", "-")}="{_value(value)}"'
        for key, value in attributes.items()
        if value != ""
    )
    return f"<{name}{said}>{''.join(inside)}</{name}>" if inside else f"<{name}{said}/>"


def _value(value: str | float) -> str:
    if not isinstance(value, str):
        return number(value)
    return value if value.isalnum() else escape(value)


def text_of(words: str) -> str:
    """Words as they may stand inside an element: escaped, on one line, no control characters."""
    return escape("".join(c if c.isprintable() else " " for c in words))


def picture_of(
    size: tuple[float, float], title: str, inside: Iterable[str], *, overflows: bool = False
) -> str:
    """A whole drawing with its size in the markup: of a title, or silent where it has none.

    `overflows`: what lies beyond its size, as fibres do, is seen.
    """
    box = f"0 0 {number(size[0])} {number(size[1])}"
    said: dict[str, str | float] = {"width": size[0], "height": size[1], "viewBox": box}
    if overflows:
        said["overflow"] = "visible"
    if not title:
        return element("svg", *inside, **said, aria_hidden="true")
    return element("svg", element("title", text_of(title)), *inside, **said, role="img")


def mark_of(*facts: object) -> str:
    """A short name for what is drawn, alike for like facts, to make ids of."""
    return f"y{crc32(repr(facts).encode()):x}"
