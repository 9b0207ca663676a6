"""Yarn used, and yarn that left otherwise, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page
from stash.rendering.sentences.entries import left_by

if TYPE_CHECKING:
    from stash.actions.use import Consumed
    from stash.stock.movement import Kind


def text(found: Consumed, page: Page) -> str:
    """How much was used and for what, what is left, and the item that is begun by it."""
    aim = f" for item {found.item}" if found.item else ""
    begun = f"\n  item {found.item} is now begun" if found.begun else ""
    return f"{_left(found, f'used{aim}', page)}{begun}"


def gone_text(found: Consumed, why: Kind, page: Page) -> str:
    """How much is gone and why, and what is left."""
    return _left(found, left_by(why.value), page)


def _left(found: Consumed, what: str, page: Page) -> str:
    skein = found.skein
    took = amounts.amount(skein.length(found.amount), found.amount)
    left = amounts.amount(skein.held_length, skein.held) if skein.held else "nothing"
    head = page.strong(f"Skein {skein.number}")
    return f"{head}: {took} {what}; {left} left  (entry {found.entry})"
