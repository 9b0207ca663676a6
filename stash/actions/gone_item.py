"""A finished item is given away or lost: a fact beside the state it is in, as a sale is."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book
from stash.actions.sold import SalesOf, unsold
from stash.errors import Refusal, Unreadable
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import of_item
from stash.stock.item import Item, ItemState
from stash.stock.sale import Sale, SaleKind
from stash.store import sale_rows

#: How an item goes without a buyer.
UNSOLD_WAYS = (SaleKind.GIVEN, SaleKind.LOST)


@dataclass(frozen=True, slots=True)
class ItemGone:
    """An item that went without a buyer, and how."""

    entry: int
    item: Item
    how: SaleKind


def item_leaving(why: str, item: str) -> SaleKind:
    """The reason an item goes, both as typed; sold is another command's."""
    word = why.strip().lower()
    if word not in [kind.value for kind in UNSOLD_WAYS]:
        sold = word == "sold"
        raise Unreadable(why, "reason_item_leaves", reasons=UNSOLD_WAYS, sold=sold, item=item)
    return SaleKind(word)


def item_gone(book: Book, item: str, how: SaleKind, *, on: date | None = None) -> ItemGone:
    """A finished item is given away or lost; `take_back` brings it back.

    Refused for one that is not done, or is not here any more.
    """
    with book.entry("gone", on) as writer:
        found = find.item_among(writer.db, item, lambda: unsold(writer.db), "unsold_item")
        if found.state is not ItemState.DONE:
            raise Refusal("only_done_is_gone", item=found)
        SalesOf(writer, [found.number]).refuse_if_sold(found)
        nothing = Money(0)
        sale_rows.add_sale(
            writer.db, Sale(writer.number, writer.on, found.number, how, nothing, nothing)
        )
        writer.what = Note("item_gone", **of_item(found), why=how.value)
    return ItemGone(writer.number, found, how)
