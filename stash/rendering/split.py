"""Part of a skein wound off as a skein of its own, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page

if TYPE_CHECKING:
    from stash.actions.split import Split
    from stash.stock.holding import HeldSkein


def text(done: Split, page: Page) -> str:
    """What the new skein holds, and what the old one keeps."""
    made, parent = _holds(done.made, page), _holds(done.parent, page)
    wound = f"{made}, wound off skein {done.parent.number}, which keeps {parent}"
    return f"{page.strong(f'Skein {done.made.number}')}: {wound}  (entry {done.entry})"


def _holds(skein: HeldSkein, page: Page) -> str:
    return amounts.amount(skein.held_length, skein.held)
