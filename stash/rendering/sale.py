"""Items sold and returned, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.measures.written import show_money
from stash.rendering.amounts import Page

if TYPE_CHECKING:
    from stash.actions.sold import SaleBooked


def sold_text(done: SaleBooked, page: Page) -> str:
    """What an item was sold for, and what the place of sale kept of it."""
    sale, currency = done.sale, done.currency
    less = f", less {show_money(sale.fee, currency)}" if sale.fee.coins else ""
    price = f"for {show_money(sale.price, currency)}{less}"
    return f"{page.strong(f'Item {done.item}')} is sold {price}  (entry {sale.entry})"


def returned_text(done: SaleBooked, page: Page) -> str:
    """What was given back for an item."""
    back = f"{show_money(done.sale.price, done.currency)} given back"
    head = page.strong(f"Item {done.item}")
    return f"{head} came back, {back}  (entry {done.sale.entry})"
