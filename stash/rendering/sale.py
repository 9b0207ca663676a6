"""Items sold and returned, as words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stash.measures.written import show_money
from stash.rendering.amounts import Page
from stash.stock.sale import Sale, SaleKind

if TYPE_CHECKING:
    from stash.actions.sold import SaleBooked


def sold_text(done: SaleBooked, page: Page) -> str:
    """What an item was sold for, and what the place of sale kept of it."""
    sale, currency = done.sale, done.currency
    price = show_money(sale.price, currency)
    if sale.fee.coins:
        kept = show_money(sale.price - sale.fee, currency)
        price = f"{price}, less a fee of {show_money(sale.fee, currency)}: {kept} for you"
    return f"Sold {page.strong(f'item {done.item}')} for {price}  (entry {sale.entry})"


def returned_text(done: SaleBooked, page: Page) -> str:
    """What was refunded for an item; one that had no buyer just came back."""
    price = done.sale.price
    back = f", {show_money(price, done.currency)} refunded" if price.coins else ""
    head = page.strong(f"Item {done.item}")
    return f"{head} came back{back}  (entry {done.sale.entry})"


def went_by(sale: Sale, day: str, currency: str) -> str:
    """What became of an item, on which day and for how much: `sold today for €28.00`."""
    if sale.kind is not SaleKind.SOLD:
        return f"{'given away' if sale.kind is SaleKind.GIVEN else sale.kind.value} {day}"
    fee = f", {show_money(sale.fee, currency)} of it the fee" if sale.fee.coins else ""
    return f"sold {day} for {show_money(sale.price, currency)}{fee}"
