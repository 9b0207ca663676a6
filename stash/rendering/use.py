"""Yarn used, and yarn that left otherwise, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.rendering import amounts
from stash.rendering.amounts import Page, grams
from stash.stock.movement import Kind

if TYPE_CHECKING:
    from stash.actions.use import Consumed


def text(found: Consumed, page: Page) -> str:
    """How much was used and for what, what is left, and the item that is begun by it."""
    aim = f" for item {found.item}" if found.item else ""
    begun = f"\n  item {found.item} is begun by it" if found.begun else ""
    return f"{_left(found, f'used{aim}', page)}{begun}"


#: How a reason is said, where its name does not say it.
_WHY = {Kind.MISTAKEN: "taken out, entered by mistake"}


def gone_text(found: Consumed, why: Kind, page: Page) -> str:
    """How much is gone and why, and what is left."""
    return _left(found, _WHY.get(why, why.value), page)


def _left(found: Consumed, what: str, page: Page) -> str:
    skein = found.skein
    left = f"{amounts.amount(skein.held_length, skein.held)} left"
    head = page.strong(f"Skein {skein.number}")
    return f"{head}: {grams(found.amount)} {what}; {left}  (entry {found.entry})"
