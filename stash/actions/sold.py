"""A finished item is sold, or comes back from its buyer: a fact beside the state it is in."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.order import price_agreed
from stash.errors import Refusal
from stash.measures.money import Money
from stash.measures.note import Note
from stash.stock.entry import of_item
from stash.stock.item import Item, ItemState
from stash.stock.sale import Sale, SaleKind, away
from stash.store import item_rows, sale_rows
from stash.store.engine import Connection

NO_MONEY = Money(0)


@dataclass(frozen=True, slots=True)
class SaleBooked:
    """A sale or a return as it was booked, and the currency of its money."""

    item: Item
    sale: Sale
    currency: str


def sell(
    book: Book,
    item: str,
    price: Money | None,
    fee: Money = NO_MONEY,
    *,
    currency: str = "",
    on: date | None = None,
) -> SaleBooked:
    """A finished item is sold; the fee is what the place of sale keeps of the price.

    `currency` is the one they came in, kept if the file has none. Refused for one that is not
    done, or is sold already. With no price, Undecided with the one its order says.
    """
    with book.entry("sold", on) as writer:
        learn(writer, currency)
        ready = unsold(writer.db)
        found = find.item_among(writer.db, item, ready, "unsold_item")
        if found.state is not ItemState.DONE:
            raise Refusal("only_done_is_sold", item=found)
        refuse_if_sold(writer, found)
        price = price_agreed(writer, found) if price is None else price
        if fee > price:
            raise Refusal("fee_above_price")
        booked = _book(writer, found, SaleKind.SOLD, price, fee)
    return replace(booked, currency=booked.currency or currency)


def take_back(
    book: Book, item: str, fee_back: Money = NO_MONEY, *, on: date | None = None
) -> SaleBooked:
    """An item comes back and its price, where it was sold, is given back; it can be sold again.

    `fee_back` is what the place of sale gave back of its fee. Refused for one that is here.
    """
    with book.entry("returned", on) as writer:
        done = {a.number for a in item_rows.items(writer.db) if a.state is ItemState.DONE}
        found = find.item_among(writer.db, item, done - unsold(writer.db), "sold_item")
        sale = away(sale_rows.sales(writer.db, found.number))
        if sale is None:
            raise Refusal("item_not_sold", item=found)
        if fee_back > sale.fee:
            raise Refusal("fee_back_above_fee")
        return _book(writer, found, SaleKind.RETURNED, sale.price, fee_back)


def _book(writer: EntryWriter, item: Item, kind: SaleKind, price: Money, fee: Money) -> SaleBooked:
    _refuse_too_early(writer, item)
    made = Sale(writer.number, writer.on, item.number, kind, price, fee)
    sale_rows.add_sale(writer.db, made)
    booked = "item_sold" if kind is SaleKind.SOLD else "item_returned"
    writer.what = Note(booked, **of_item(item))
    return SaleBooked(item, made, writer.settings.currency)


def unsold(db: Connection) -> set[int]:
    """The finished items that are not sold, given away or lost."""
    gone: dict[int, bool] = {}
    for fact in sale_rows.sales(db):
        gone[fact.item] = fact.kind is not SaleKind.RETURNED
    done = {a.number for a in item_rows.items(db) if a.state is ItemState.DONE}
    return {number for number in done if not gone.get(number)}


def refuse_if_sold(writer: EntryWriter, item: Item) -> None:
    """What a buyer has can neither be sold again nor unravelled; nor on a day before it was."""
    gone = away(sale_rows.sales(writer.db, item.number))
    if gone is not None and gone.kind is SaleKind.SOLD:
        raise Refusal("item_is_sold", item=item)
    if gone is not None:
        raise Refusal("item_is_gone", item=item, how=gone.kind.value)
    _refuse_too_early(writer, item)


def _refuse_too_early(writer: EntryWriter, item: Item) -> None:
    """Each thing that happens to an item lies on or after the day of the one before."""
    facts = [(fact.on, fact.kind.value) for fact in sale_rows.sales(writer.db, item.number)]
    steps = [
        (step.on, step.state.value)
        for step in item_rows.standing_steps(writer.db, item.number)
        if step.state is ItemState.DONE
    ]
    last, what = max([*steps, *facts], default=(writer.on, ""))
    if writer.on < last:
        raise Refusal("dated_before_last_step", item=item, step=what, day=last)
