"""A stock-taking, under way and closed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from stash.rendering import amounts
from stash.rendering.amounts import Page, colour, counted, dye_lot, grams, numbers
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
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
    """The skeins of a place, which of them are found or missing, and how to go on or to close."""
    lines = columns([_row(line, page) for line in count.lines], "  ")
    return f"{page.strong(count.place)}, counting since {count.begun}\n{lines}\n{_next(count)}"


def _next(count: Count) -> str:
    command = f'stash count "{count.place}"'
    missing = [line.skein.number for line in count.lines if not line.seen]
    if not missing:
        return f"All {len(count.lines)} found. To finish: {command} --close"
    found, one = len(count.lines) - len(missing), missing[0]
    return (
        f"{found} of {len(count.lines)} found; still to find: {numbers(missing)}\n"
        f"What you see: {command} --tick {one} (on the scale: --weigh {one}={hers('43g')}). "
        f"To finish: {command} --close"
    )


def _row(line: Line, page: Page) -> list[str]:
    skein, lot = line.skein, line.lot
    return [
        "found" if line.seen else "",
        str(skein.number),
        f"{page.patch(lot)}{colour(lot)}",
        f"{lot.yarn}, {dye_lot(lot)}",
        skein.state.value,
        amounts.amount(skein.held_length, skein.held),
        f"weighed {grams(line.reading.gross)}" if line.reading else "",
        _from_elsewhere(line),
    ]


def _from_elsewhere(line: Line) -> str:
    return f"from {line.skein.place or 'no place'}" if line.elsewhere else ""


def closed_text(place: str, closed: Closed, page: Page) -> str:
    """What was right, corrected, moved here, lost or not found."""
    missing = [number for number in closed.not_found if number not in closed.lost]
    parts = (
        ("corrected by the scale", closed.corrected),
        ("moved here", closed.moved_here),
        ("lost", closed.lost),
        ("missing, still listed", missing),
    )
    found = [f"{what}: {numbers(skeins)}" for what, skeins in parts if skeins]
    right = f"{counted(closed.right, 'skein')} as noted"
    head = page.strong(f"{place} counted")
    lines = [f"{head}: {'; '.join([right, *found])}  (entry {closed.entry})"]
    if missing:
        lines.append(f"  if one is lost: stash gone {missing[0]} --why lost")
    return "\n".join(lines)


def dropped_text(place: str) -> str:
    """That a count is forgotten."""
    return f"Dropped the count of {place}; nothing has changed."
