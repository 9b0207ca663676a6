"""A finished item is sold, or comes back from its buyer: a fact beside the state it is in."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.order import price_agreed, undecided_price
from stash.actions.several import Listed, by_row, in_turn, of_items
from stash.errors import NotFound, Refusal
from stash.measures.money import Money
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


@dataclass(frozen=True, slots=True)
class Price:
    """What the buyer paid for one item, None for what its order says, and what the place of sale
    keeps of it."""

    price: Money | None = None
    fee: Money = NO_MONEY


def sell(
    book: Book,
    prices: Mapping[str, Price],
    *,
    agreed: bool = False,
    currency: str = "",
    on: date | None = None,
) -> list[SaleBooked]:
    """Finished items are sold, all in one entry, each by its own price.

    `currency` is the one they came in, kept if the file has none. Refused for one that is not
    done, or is sold already. With no price, Undecided with the one its order says,
    unless that was `agreed`.
    """
    with book.entry("sold", on) as writer:
        learn(writer, currency)
        booked = in_turn([*prices], lambda item: _sell(writer, item, prices[item]))
        if not agreed and any(paid.price is None for paid in prices.values()):
            raise undecided_price(writer, [(one.item, one.sale.price) for one in booked])
        writer.what = of_items("item_sold", "items_sold", [one.item for one in booked])
    return [replace(one, currency=one.currency or currency) for one in booked]


def _sell(writer: EntryWriter, typed: str, paid: Price) -> SaleBooked:
    found = find.item_among(writer.db, typed, lambda: unsold(writer.db), "unsold_item")
    if found.state is not ItemState.DONE:
        raise Refusal("only_done_is_sold", item=found)
    if found.number in sale_rows.items_sold_in(writer.db, writer.number):
        raise Refusal("sold_in_two_rows", item=found)
    refuse_if_sold(writer, found)
    price = price_agreed(writer, found) if paid.price is None else paid.price
    if paid.fee > price:
        raise Refusal("fee_above_price")
    return _book(writer, found, SaleKind.SOLD, price, paid.fee)


@dataclass(frozen=True, slots=True)
class SaleRow:
    """One row of a market's list: an item's number, or a design, of which the first goes."""

    what: str
    paid: Price
    note: str = ""


def sell_listed(
    book: Book, listed: Listed[SaleRow], *, currency: str = "", on: date | None = None
) -> list[SaleBooked]:
    """All that was sold at a market, in one entry; BadRows, and nothing booked, for a bad row."""
    with book.entry("sold", on) as writer:
        learn(writer, currency)
        booked = by_row(listed, lambda row: _sell_row(writer, row))
        writer.what = of_items("item_sold", "items_sold", [one.item for one in booked])
    return [replace(one, currency=one.currency or currency) for one in booked]


def _sell_row(writer: EntryWriter, row: SaleRow) -> SaleBooked:
    number = row.what.strip().removeprefix("#")
    typed = number if number.isdecimal() else str(_first_unsold(writer, row.what))
    booked = _sell(writer, typed, row.paid)
    if row.note:
        said = "; ".join(filter(None, [item_rows.note_of(writer.db, booked.item.number), row.note]))
        writer.set_facts("item", booked.item.number, note=said)
    return booked


def _first_unsold(writer: EntryWriter, named: str) -> int:
    """The lowest number among the finished items of a design that are hers still."""
    db = writer.db
    design = find.design(db, named)
    hers = unsold(db) - sale_rows.items_sold_in(db, writer.number)
    able = [a.number for a in item_rows.items(db) if a.design_id == design.id and a.number in hers]
    if not able:
        raise NotFound("unsold_item", design.name)
    return able[0]


def take_back(
    book: Book, items: Sequence[str], fee_back: Money = NO_MONEY, *, on: date | None = None
) -> list[SaleBooked]:
    """Items come back and their price, where they were sold, is refunded; they can be sold again.


    `fee_back` is what the place of sale gave back of each fee. Refused for one that is here.
    """
    with book.entry("returned", on) as writer:
        booked = in_turn(items, lambda item: _take_back(writer, item, fee_back))
        writer.what = of_items("item_returned", "items_returned", [one.item for one in booked])
    return booked


def _take_back(writer: EntryWriter, typed: str, fee_back: Money) -> SaleBooked:
    found = find.item_among(writer.db, typed, lambda: _gone(writer.db), "sold_item")
    sale = away(sale_rows.sales(writer.db, found.number))
    if sale is None:
        raise Refusal("item_not_sold", item=found)
    if fee_back > sale.fee:
        raise Refusal("fee_back_above_fee")
    return _book(writer, found, SaleKind.RETURNED, sale.price, fee_back)


def _gone(db: Connection) -> set[int]:
    done = {a.number for a in item_rows.items(db) if a.state is ItemState.DONE}
    return done - unsold(db)


def _book(writer: EntryWriter, item: Item, kind: SaleKind, price: Money, fee: Money) -> SaleBooked:
    _refuse_too_early(writer, item)
    made = Sale(writer.number, writer.on, item.number, kind, price, fee)
    sale_rows.add_sale(writer.db, made)
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
