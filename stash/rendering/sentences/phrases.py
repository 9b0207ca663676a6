"""Words that several sentences share."""

from __future__ import annotations

from collections.abc import Iterable

from stash.matching.lots.lot_view import Thickness
from stash.rendering.amounts import colour_name
from stash.rendering.her_words import named_thickness, thickness_name
from stash.requirements.yarn.need import Source
from stash.stock.yarn import Lot

_SOURCES = {
    Source.OWN_ITEMS: "from your finished ones",
    Source.SWATCH: "from a swatch",
    Source.STATED: "from the figure you gave",
    Source.GAUGE: "from your gauge",
}


def thickness_words(thickness: Thickness) -> str:
    """The same of a lot, where it may only follow from its length: `about worsted (4)`."""
    about = "about " if thickness.derived else ""
    return about + named_thickness(thickness.low, thickness.high)


def source_words(source: Source, low: int | None = None, high: int | None = None) -> str:
    """Where a figure comes from; a rough one names the thickness it is usual for."""
    if source is not Source.THICKNESS:
        return _SOURCES[source]
    if low is None:
        return "rough: from typical yarn"
    return f"rough: from typical {thickness_name(low, low if high is None else high)}"


def lot_named(lot: Lot) -> str:
    """A lot by its number, with its colour where that is known: `L7 (rust)`."""
    known = lot.colour or lot.colour_no
    return f"{lot.ref} ({colour_name(lot)})" if known else lot.ref


def yarn_called(lot: Lot) -> str:
    """A lot as the page calls it, which has no numbers for lots: its colour, else its yarn."""
    return lot.colour or str(lot.yarn)


def joined(parts: Iterable[str]) -> str:
    """Several things one after the other: `a and b`."""
    return " and ".join(parts)


def either(parts: Iterable[str]) -> str:
    """Several to choose from: `a`, `a or b`, `a, b or c`."""
    *first, last = parts
    return f"{', '.join(first)} or {last}" if first else last
