"""A stock-taking, under way and closed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering import amounts
from stash.rendering.amounts import Page, colour, counted, dye_lot, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.keys import held_skein

if TYPE_CHECKING:
    from stash.actions.count import Closed, Count, Line


def keys(count: Count) -> dict[str, Any]:
    """How a count stands, with stable keys."""
    return {"place": count.place, "open": count.open, "skeins": rows(count)}


def rows(count: Count) -> list[dict[str, Any]]:
    """Each skein that is to be looked for, or was found here."""
    return [
        {
            **held_skein(line.skein),
            "lot_ref": line.lot.ref,
            "yarn": str(line.lot.yarn),
            "colour": line.lot.colour or None,
            "seen": line.seen,
            "reading_g": line.reading.gross.g if line.reading else None,
        }
        for line in count.lines
    ]


def text(count: Count, page: Page) -> str:
    """The skeins of a place to tick, what is still to look for, and how to go on."""
    lines = columns([_row(line, page) for line in count.lines], "  ")
    left = f"{count.open} of {len(count.lines)} still to look for"
    way = f'tick with --tick, weigh with --weigh, book it with: stash count "{count.place}" --close'
    return f"{page.strong(count.place)}, begun {count.begun}\n{lines}\n{left}; {way}"


def _row(line: Line, page: Page) -> list[str]:
    skein, lot = line.skein, line.lot
    return [
        "seen" if line.seen else "",
        str(skein.number),
        f"{page.patch(lot)}{colour(lot)}",
        f"{lot.yarn}, {dye_lot(lot)}",
        skein.state.value,
        amounts.amount(skein.held_length, skein.held),
        f"weighed {grams(line.reading.gross)}" if line.reading else "",
        "the books have it elsewhere" if line.elsewhere else "",
    ]


def closed_text(place: str, closed: Closed, page: Page) -> str:
    """What was right, put right, moved here, lost or not found."""
    kept = [number for number in closed.not_found if number not in closed.lost]
    parts = (
        ("put right by the scale", closed.corrected),
        ("moved here", closed.moved_here),
        ("booked as lost", closed.lost),
        ("not found, still on the books", kept),
    )
    found = [f"{what}: {numbers(skeins)}" for what, skeins in parts if skeins]
    right = f"{counted(closed.right, 'skein')} right"
    head = page.strong(f"{place} counted")
    return f"{head}: {'; '.join([right, *found])}  (entry {closed.entry})"


def dropped_text(place: str) -> str:
    """That a count is forgotten."""
    return f"the count of {place} is forgotten; nothing was booked"
