"""Colour for a person's terminal, where it is wanted."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence

from stash.stock.yarn import Lot


def paints() -> bool:
    """Whether colour may be shown: a person's terminal, and nothing said against it."""
    return (
        sys.stdout.isatty() and not os.environ.get("NO_COLOR") and os.environ.get("TERM") != "dumb"
    )


def swatch(hexes: Sequence[str]) -> str:
    """A patch of each colour before its name, where a terminal can show it; else nothing."""
    if not paints() or not hexes:
        return ""
    return "".join(in_colour(value, "██") for value in hexes) + " "


def patch(lot: Lot) -> str:
    """A lot's colours before its name, where a terminal can show them; else nothing."""
    return swatch([colour.hex for colour in lot.colours])


def in_colour(value: str | None, text: str) -> str:
    """A text in a colour (#rrggbb), where one is known and a terminal can show it."""
    if value is None or not paints():
        return text
    red, green, blue = (int(value[i : i + 2], 16) for i in (1, 3, 5))
    return f"\x1b[38;2;{red};{green};{blue}m{text}\x1b[0m"


def strong(text: str) -> str:
    """What matters most in an answer, where a terminal can show it."""
    return f"\x1b[1m{text}\x1b[0m" if paints() else text
