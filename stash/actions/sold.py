"""A finished item is sold, or comes back from its buyer: a fact beside the state it is in."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date
from functools import cached_property

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
from stash.store.item_rows import DesignRow

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
        selling = _Selling(writer, prices)
        booked = in_turn(book, [*prices], lambda item: _sell(selling, item, prices[item]))
        if not agreed and any(paid.price is None for paid in prices.values()):
            raise undecided_price(writer, [(one.item, one.sale.price) for one in booked])
        writer.what = of_items("item_sold", "items_sold", [one.item for one in booked])
    return [replace(one, currency=one.currency or currency) for one in booked]


class _Selling:
    """Items of one entry and what happened to them, each read in one question for all."""

    def __init__(self, writer: EntryWriter, asked: Iterable[str]) -> None:
        self.writer = writer
        self.items = find.Items(writer.db, asked)
        self.history = SalesOf(writer, self.items.numbers)
        self._designs: dict[str, DesignRow] = {}

    def first_unsold(self, named: str) -> int:
        """The lowest number among the finished items of a design that are hers still."""
        if named not in self._designs:
            self._designs[named] = find.design(self.writer.db, named)
        design = self._designs[named]
        hers = self._hers.get(design.id, [])
        while hers and self.history.in_this_entry(hers[-1]):
            hers.pop()
        if not hers:
            raise NotFound("unsold_item", design.name)
        return hers[-1]

    @cached_property
    def _hers(self) -> dict[int | None, list[int]]:
        """The finished items that were hers before, by design, the lowest last."""
        able, found = unsold(self.writer.db), dict[int | None, list[int]]()
        for item in reversed(item_rows.items(self.writer.db)):
            if item.number in able:
                found.setdefault(item.design_id, []).append(item.number)
        return found


def _sell(selling: _Selling, typed: str, paid: Price) -> SaleBooked:
    writer, history = selling.writer, selling.history
    found = selling.items.among(typed, lambda: unsold(writer.db), "unsold_item")
    if found.state is not ItemState.DONE:
        raise Refusal("only_done_is_sold", item=found)
    if history.in_this_entry(found.number):
        raise Refusal("sold_in_two_rows", item=found)
    history.refuse_if_sold(found)
    price = price_agreed(writer, found) if paid.price is None else paid.price
    if paid.fee > price:
        raise Refusal("fee_above_price")
    return _book(selling, found, SaleKind.SOLD, price, paid.fee)


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
        selling = _Selling(writer, [_number_in(row.what) for _, row in listed.rows])
        booked = by_row(book, listed, lambda row: _sell_row(selling, row))
        writer.what = of_items("item_sold", "items_sold", [one.item for one in booked])
    return [replace(one, currency=one.currency or currency) for one in booked]


def _number_in(what: str) -> str:
    return what.strip().removeprefix("#")


def _sell_row(selling: _Selling, row: SaleRow) -> SaleBooked:
    number, writer = _number_in(row.what), selling.writer
    typed = number if number.isdecimal() else str(selling.first_unsold(row.what))
    booked = _sell(selling, typed, row.paid)
    if row.note:
        said = "; ".join(filter(None, [item_rows.note_of(writer.db, booked.item.number), row.note]))
        writer.set_facts("item", booked.item.number, note=said)
    return booked


def take_back(
    book: Book, items: Sequence[str], fee_back: Money = NO_MONEY, *, on: date | None = None
) -> list[SaleBooked]:
    """Items come back and their price, where they were sold, is refunded; they can be sold again.


    `fee_back` is what the place of sale gave back of each fee. Refused for one that is here.
    """
    with book.entry("returned", on) as writer:
        selling = _Selling(writer, items)
        booked = in_turn(book, items, lambda item: _take_back(selling, item, fee_back))
        writer.what = of_items("item_returned", "items_returned", [one.item for one in booked])
    return booked


def _take_back(selling: _Selling, typed: str, fee_back: Money) -> SaleBooked:
    db = selling.writer.db
    found = selling.items.among(typed, lambda: _gone(db), "sold_item")
    sale = away(selling.history.sales(found.number))
    if sale is None:
        raise Refusal("item_not_sold", item=found)
    if fee_back > sale.fee:
        raise Refusal("fee_back_above_fee")
    return _book(selling, found, SaleKind.RETURNED, sale.price, fee_back)


def _gone(db: Connection) -> set[int]:
    done = {a.number for a in item_rows.items(db) if a.state is ItemState.DONE}
    return done - unsold(db)


def _book(selling: _Selling, item: Item, kind: SaleKind, price: Money, fee: Money) -> SaleBooked:
    writer = selling.writer
    selling.history.refuse_too_early(item)
    made = Sale(writer.number, writer.on, item.number, kind, price, fee)
    sale_rows.add_sale(writer.db, made)
    selling.history.add(made)
    return SaleBooked(item, made, writer.settings.currency)


def unsold(db: Connection) -> set[int]:
    """The finished items that are not sold, given away or lost."""
    gone: dict[int, bool] = {}
    for fact in sale_rows.sales(db):
        gone[fact.item] = fact.kind is not SaleKind.RETURNED
    done = {a.number for a in item_rows.items(db) if a.state is ItemState.DONE}
    return {number for number in done if not gone.get(number)}


class SalesOf:
    """What happened to items before and in an entry; that of several is read in two questions."""

    def __init__(self, writer: EntryWriter, items: Collection[int]) -> None:
        self._writer = writer
        self._sales: dict[int, list[Sale]] = {}
        self._done: dict[int, list[date]] = {}
        self._read(items)

    def _read(self, items: Collection[int]) -> None:
        for number in items:
            self._sales[number], self._done[number] = [], []
        for fact in sale_rows.sales(self._writer.db, items):
            self._sales[fact.item].append(fact)
        for step in item_rows.standing_steps(self._writer.db, items):
            if step.state is ItemState.DONE:
                self._done[step.item].append(step.on)

    def sales(self, item: int) -> Sequence[Sale]:
        """Its sales and returns, in order."""
        if item not in self._sales:
            self._read([item])
        return self._sales[item]

    def in_this_entry(self, item: int) -> bool:
        """Whether one of them is of the open entry."""
        return any(fact.entry == self._writer.number for fact in self.sales(item))

    def add(self, made: Sale) -> None:
        """One that the open entry has booked."""
        self._sales[made.item].append(made)

    def refuse_if_sold(self, item: Item) -> None:
        """What a buyer has can neither be sold again nor unravelled; nor before it was done."""
        gone = away(self.sales(item.number))
        if gone is not None and gone.kind is SaleKind.SOLD:
            raise Refusal("item_is_sold", item=item)
        if gone is not None:
            raise Refusal("item_is_gone", item=item, how=gone.kind.value)
        self.refuse_too_early(item)

    def refuse_too_early(self, item: Item) -> None:
        """Each thing that happens to an item lies on or after the day of the one before."""
        facts = [(fact.on, fact.kind.value) for fact in self.sales(item.number)]
        done = [(on, ItemState.DONE.value) for on in self._done[item.number]]
        last, what = max([*done, *facts], default=(self._writer.on, ""))
        if self._writer.on < last:
            raise Refusal("dated_before_last_step", item=item, step=what, day=last)
