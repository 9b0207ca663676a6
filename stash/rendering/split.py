"""Part of a skein wound off as a skein of its own, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page

if TYPE_CHECKING:
    from stash.actions.split import Split


def text(done: Split, page: Page) -> str:
    """What the new skein holds, and what the old one keeps."""
    made, parent = (amounts.amount(s.held_length, s.held) for s in (done.made, done.parent))
    head = page.strong(f"Skein {done.made.number}")
    wound = f"{made}, wound off skein {done.parent.number}; {parent} left on it"
    return f"{head}: {wound}  (entry {done.entry})"
