"""What was done, entry by entry, and an entry cancelled."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import datetime
from typing import Any

from stash.measures.note import Note
from stash.rendering.amounts import Page
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
from stash.rendering.sentences.say import sentence
from stash.stock.entry import Entry


def keys(entries: Sequence[Entry]) -> list[dict[str, Any]]:
    """The entries with stable keys."""
    return [
        {
            "number": entry.number,
            "on": entry.on.isoformat(),
            "at_utc": entry.at_utc,
            "kind": entry.kind,
            "words": sentence(entry.what),
            "takes_back": entry.takes_back,
            "taken_back_by": entry.taken_back_by,
            "device": entry.device,
        }
        for entry in entries
    ]


def text(entries: Sequence[Entry]) -> str:
    """The same for reading, a line each; with the device where there is more than this computer."""
    elsewhere = any(entry.device for entry in entries)
    lines = [
        [
            str(entry.number),
            entry.on.isoformat(),
            entry.kind,
            _begun_large(entry.what),
            *([f"on {entry.device or THIS_COMPUTER}"] if elsewhere else []),
            f"{hers('cancelled by entry')} {entry.taken_back_by}" if entry.taken_back_by else "",
        ]
        for entry in entries
    ]
    return columns(lines) or "No entries."


def _begun_large(what: Note | str) -> str:
    """The sentence of an entry by itself; one written before facts were kept stays as it was."""
    words = sentence(what)
    return words if isinstance(what, str) else words[:1].upper() + words[1:]


#: Where an entry was written that names no device.
THIS_COMPUTER = "this computer"
UNDO_IT = "Undo this?"
NOTHING_UNDONE = "nothing was changed"


def to_undo_text(entry: Entry, page: Page) -> str:
    """Which entry would be cancelled: its number, when and where it was written, what it did."""
    written = datetime.fromisoformat(entry.at_utc).astimezone()
    where = entry.device or THIS_COMPUTER
    head = page.strong(f"Entry {entry.number}, {written:%Y-%m-%d %H:%M}, {where}")
    return f"{head}: {sentence(entry.what)}"


def undone_text(number: int, wrong: Entry, page: Page) -> str:
    """Which entry was cancelled by which."""
    cancelled = page.strong(f"Entry {wrong.number} {hers('is cancelled')}")
    return f"{cancelled}: {sentence(wrong.what)}  (entry {number})"
