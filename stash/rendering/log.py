"""What was done, entry by entry, and an entry cancelled."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import TYPE_CHECKING, Any

from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import Page
from stash.rendering.columns import columns
from stash.rendering.her_words import hers
from stash.rendering.sentences.phrases import joined
from stash.rendering.sentences.say import sentence
from stash.stock.entry import Entry
from stash.stock.holding import HeldSkein

if TYPE_CHECKING:
    from stash.actions.log import Unmade

#: Where an entry was written that names no device.
THIS_COMPUTER = "this computer"
#: What entries can be sorted by on a page: what that is called, and which commands did it.
SORTS: Mapping[str, tuple[str, ...]] = {
    "yarn that came": ("add", "import", "opening"),
    "set aside and released": ("aside", "release"),
    "weighed and used": ("weigh", "use", "split", "count"),
    "items": ("begin", "done", "unravel"),
    "gone and sold": ("gone", "sold", "returned"),
    "facts changed": ("change",),
    "designs": ("design",),
    "orders": ("order",),
    "settings": ("settings",),
    "undone": ("undo",),
}


def device_named(text: str) -> str | None:
    """A device as the record names it; None where none is named."""
    name = " ".join(text.split())
    return "" if name.casefold() == THIS_COMPUTER else name or None


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


#: So many skeins are named where an entry is asked about.
_NAMED = 3


def as_before_words(found: Unmade) -> str:
    """What would be so after an entry is cancelled: `no. 22 holds 100 g instead of 86 g`."""
    said = [words for before, after in found.skeins if (words := _as_before(before, after))]
    more = len(said) - _NAMED
    named = said if more <= 0 else [*said[:_NAMED], f"{more} more change"]
    return joined(named)


def _as_before(before: HeldSkein, after: HeldSkein) -> str:
    if before.held != after.held:
        now, then = figures.near(before.held), figures.near(after.held)
        return f"no. {after.number} holds {then} instead of {now}"
    if before.free != after.free:
        now, then = figures.down(before.free), figures.down(after.free)
        return f"no. {after.number} has {then} free instead of {now}"
    return ""
