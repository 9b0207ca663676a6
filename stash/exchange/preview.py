"""The first rows of a sheet as they would come in, in words."""

from __future__ import annotations

from collections.abc import Sequence

from stash.measures.written import show_money
from stash.rendering.amounts import counted
from stash.rendering.figures import near
from stash.rendering.her_words import hers, named_thickness
from stash.stock.incoming import Incoming
from stash.stock.yarn import LotState

_HEADINGS = ("row", "yarn", "colour", "lot", "thickness", "fibre", "full skein", "skeins", "left")
_MORE = ("place", "bought", "paid in all")


def rows(taken: Sequence[tuple[int, Incoming]], currency: str) -> list[list[str]]:
    """Headings and rows, without the columns that are blank in all of them."""
    if not taken:
        return []
    shown = [_row(line, incoming, currency) for line, incoming in taken]
    headings = [*map(hers, (*_HEADINGS, *_MORE))]
    filled = [place for place in range(len(headings)) if any(row[place] for row in shown)]
    return [[row[place] for place in filled] for row in (headings, *shown)]


def row_words(line: int, one: Incoming, currency: str) -> dict[str, str]:
    """One row as it would come in, by the headings of a preview."""
    return dict(zip((*_HEADINGS, *_MORE), _row(line, one, currency), strict=True))


def _row(line: int, one: Incoming, currency: str) -> list[str]:
    lot = {LotState.UNKNOWN: "", LotState.CLAIMED_NONE: "none"}.get(one.lot_state, one.lot)
    full = (one.full_mass, one.full_length)
    low, high = one.thickness_from, one.thickness_to
    return [
        str(line),
        " ".join(filter(None, [one.maker, one.name])),
        " ".join(filter(None, [one.colour, one.colour_no and f"no. {one.colour_no}"])),
        lot,
        "" if low is None or high is None else named_thickness(low, high),
        one.fibre,
        " / ".join(str(near(half)) for half in full if half is not None),
        counted(one.count, "skein"),
        "" if one.left is None else f"{'about ' if one.about else ''}{near(one.left)}",
        one.place,
        one.bought.isoformat() if one.bought else "",
        "" if one.paid is None else show_money(one.paid, currency),
    ]
