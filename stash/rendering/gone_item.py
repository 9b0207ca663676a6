"""Items that went without a buyer, and the price of yarn that had one, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.measures.written import show_money
from stash.rendering.amounts import Page
from stash.stock.sale import SaleKind

if TYPE_CHECKING:
    from stash.actions.gone_item import ItemGone
    from stash.actions.use import YarnPrice

_WORDS = {SaleKind.GIVEN: "is given away", SaleKind.LOST: "is lost"}


def text(gone: ItemGone, page: Page) -> str:
    """How an item went, and the way back."""
    head = page.strong(f"Item {gone.item}")
    return f"{head} {_WORDS[gone.how]}  (entry {gone.entry})"


def price_text(paid: YarnPrice, currency: str) -> str:
    """What yarn was sold for, and what the place of sale kept of it."""
    less = f", less {show_money(paid.fee, currency)}" if paid.fee.coins else ""
    return f"  sold for {show_money(paid.price, currency)}{less}"
