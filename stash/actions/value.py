"""Yarn, items under way and finished ones at cost on any day, by the method of its year."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import clock
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.method import method_of
from stash.actions.priced import Priced
from stash.actions.sales import sold_lines, total_of
from stash.costing.pools import Method
from stash.costing.valuation import Turn, Valuation, Where, valuation
from stash.errors import Refusal
from stash.measures.mass import NO_MASS, Mass
from stash.measures.money import Money
from stash.stock.item import Item, ItemState
from stash.stock.sale import Sale, SaleKind
from stash.store import item_rows, sale_rows
from stash.store.engine import Connection
from stash.store.item_rows import Stepped

_WHERE = {
    ItemState.PLANNED: Where.UNDER_WAY,
    ItemState.BEGUN: Where.UNDER_WAY,
    ItemState.DONE: Where.FINISHED,
    ItemState.UNRAVELLED: Where.UNRAVELLED,
}
_WENT = {
    SaleKind.SOLD: Where.SOLD,
    SaleKind.GIVEN: Where.GIVEN,
    SaleKind.LOST: Where.LOST,
    SaleKind.RETURNED: Where.FINISHED,
}


@dataclass(frozen=True, slots=True)
class Value:
    """The worth of a day and how it came about since the first day of the span.

    `kept_by` is the method of the year, which may not be the one that was asked for;
    `unpriced` are skeins whose price is not known; `takings` and `fees` are those of the span, of
    items and of yarn.
    """

    valuation: Valuation
    kept_by: Method
    items: dict[int, Item]
    unpriced: tuple[int, ...]
    takings: Money
    fees: Money
    currency: str


def value(
    book: Book, on: date | None = None, first: date | None = None, method: Method | None = None
) -> Value:
    """Everything at cost on the evening of a day; the span begins with its year unless said."""
    last = on or clock.today()
    first = first or date(last.year, 1, 1)
    if first > last:
        raise Refusal("span_backwards", first=first, last=last)
    with book.reading() as db:
        settings = Settings.read(db)
        kept_by = method_of(db, last.year)
        priced = Priced.read(db, method or kept_by)
        sales = sale_rows.sales(db)
        found = valuation(
            priced.method, priced.moved, turns(db, sales), priced.yarns, (first, last)
        )
        items = {a.number: a for a in item_rows.items(db)}
        sold = total_of(
            [x for x in sold_lines(db, settings, priced, sales) if first <= x.on <= last]
        )
    return Value(
        valuation=found,
        kept_by=kept_by,
        items=items,
        unpriced=_unpriced(priced, first, last),
        takings=sold.price,
        fees=sold.fee,
        currency=settings.currency,
    )


def turns(db: Connection, sales: Sequence[Sale]) -> list[Turn]:
    """Where each item was counted from which day, in the order in which it was booked."""
    steps = item_rows.standing_steps(db)
    known = [*map(_stepped, steps), *map(_went, sales)]
    return [turn for _, turn in sorted(known, key=lambda one: one[0])]


def _stepped(step: Stepped) -> tuple[int, Turn]:
    return step.entry, Turn(step.item, step.on, _WHERE[step.state])


def _went(sale: Sale) -> tuple[int, Turn]:
    return sale.entry, Turn(sale.item, sale.on, _WENT[sale.kind])


def _unpriced(priced: Priced, first: date, last: date) -> tuple[int, ...]:
    """Skeins without a price that hold yarn on the last day or moved in the span."""
    held: dict[int, Mass] = {}
    concerned: set[int] = set()
    for m in priced.moved:
        origin = priced.origins[m.skein]
        if m.on <= last and origin.paid is None and origin.parent is None:
            held[m.skein] = held.get(m.skein, NO_MASS) + m.total.mass
            concerned |= {m.skein} if m.on >= first else set()
    return tuple(n for n, mass in sorted(held.items()) if mass or n in concerned)
