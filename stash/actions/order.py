"""Orders taken in, changed and dropped, and the items that are made for them."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from stash.actions import clock, find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.designs import kept_named, refuse_unknown_roles
from stash.actions.her_settings import Settings
from stash.actions.limits import refuse_strange_colours
from stash.errors import BadInput, NotFound, Refusal, Undecided
from stash.matching.answer.proposal import Proposal, Take
from stash.matching.question.wish import Named
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.written import show_money
from stash.stock.entry import of_item
from stash.stock.item import NOT_ASKED, AskedFor, Item, ItemState
from stash.stock.order import Order
from stash.store import item_rows, order_rows, skein_rows
from stash.store.engine import Connection


class ForOrder(NamedTuple):
    """The order an item is for, None for none.

    `as_kept`: whether its design as it is kept is of the size ordered.
    """

    number: int | None
    as_kept: bool = True


@dataclass(frozen=True, slots=True)
class OrderTyped:
    """What is said of an order; None leaves a fact as it is, "" or {} clears it.

    `named` are the colours as the shelf is searched for them. `currency` is the one the price came
    in, kept if the file has none.
    """

    who: str | None = None
    design: str | None = None
    by: date | None = None
    count: int | None = None
    size: str | None = None
    colours: Mapping[str, str] | None = None
    price: Money | None = None
    note: str | None = None
    named: tuple[Named, ...] = ()
    currency: str = ""


@dataclass(frozen=True, slots=True)
class OrderBooked:
    """An order as an entry has left it, and what was changed of it."""

    entry: int
    order: Order
    settings: Settings
    done: tuple[Note, ...] = ()


def add_order(book: Book, typed: OrderTyped, *, on: date | None = None) -> OrderBooked:
    """Take in an order. Raises NotFound for a design that is not kept or has no such colour."""
    with book.entry("order add", on) as writer:
        learn(writer, typed.currency)
        if typed.by is None:
            raise Refusal("order_without_day")
        _refuse_gone_by(typed.by)
        kept = _design(writer, typed.design or "", typed.colours or {})
        _refuse_strange(writer, typed)
        made = Order(
            number=0,
            who=typed.who or "",
            design_id=kept.id,
            design=kept.name,
            by=typed.by,
            count=1 if typed.count is None else typed.count,
            size=typed.size or "",
            colours=typed.colours or {},
            price=typed.price,
            note=typed.note or "",
        )
        number = order_rows.add_order(writer.db, writer.number, made)
        facts = {"order": number, "who": made.who, "count": made.count, "name": made.design}
        writer.what = Note("order_added", **facts)
        ordered = order_numbered(writer.db, number)
        settings = Settings.read(writer.db)
    return OrderBooked(writer.number, ordered, settings)


def _refuse_gone_by(day: date) -> None:
    if day < (today := clock.today()):
        raise Refusal("day_gone_by_for_order", day=day, today=today)


def _design(writer: EntryWriter, name: str, colours: Mapping[str, str]) -> item_rows.DesignRow:
    """The design ordered: kept, with a need, and with every colour that is asked for."""
    try:
        row = find.design(writer.db, name)
    except NotFound as no:
        raise NotFound("design_for_batch", name, no.nearest) from None
    refuse_unknown_roles(kept_named(writer.db, writer.settings, row.name).need, colours)
    return row


def _refuse_strange(writer: EntryWriter, typed: OrderTyped) -> None:
    if typed.named:
        refuse_strange_colours(typed.named, skein_rows.held_lots(writer.db))


def order_numbered(db: Connection, number: int) -> Order:
    """The order of this number. Raises NotFound with those that are open."""
    known = order_rows.orders(db)
    for one in known:
        if one.number == number:
            return one
    raise NotFound("order", str(number), [str(one) for one in known if one.left][:3])


def change_order(
    book: Book, number: int, typed: OrderTyped, *, on: date | None = None
) -> OrderBooked:
    """Change what is said of an order; the old values stay in the entry."""
    with book.entry("order change", on) as writer:
        learn(writer, typed.currency)
        order = order_numbered(writer.db, number)
        if order.dropped:
            raise Refusal("order_is_dropped", order=order)
        facts = _facts(writer, order, typed)
        names = writer.set_facts("order", number, **facts) if facts else []
        if not names:
            raise Refusal("order_so_already", order=order)
        ordered = order_numbered(writer.db, number)
        currency = writer.settings.currency or typed.currency
        done = tuple(Note("fact_now", **_now(name, ordered, currency)) for name in names)
        writer.what = Note("order_changed", order=number, who=ordered.who, done=done)
        settings = Settings.read(writer.db)
    return OrderBooked(writer.number, ordered, settings, done)


def _facts(writer: EntryWriter, order: Order, typed: OrderTyped) -> dict[str, str]:
    """The columns that are to be changed; refused where the order's items speak against it."""
    name = order.design if typed.design is None else typed.design
    colours = order.colours if typed.colours is None else typed.colours
    design = _design(writer, name, colours)
    _refuse_strange(writer, typed)
    if design.id != order.design_id and order.items:
        raise Refusal("order_has_items", order=order)
    if typed.count is not None and typed.count < order.filled:
        raise Refusal("count_below_items", order=order, count=typed.count)
    if typed.by is not None:
        _refuse_gone_by(typed.by)
    said: dict[str, str | None] = {
        "who": typed.who,
        "design_id": None if typed.design is None else str(design.id),
        "by_day": None if typed.by is None else typed.by.isoformat(),
        "count": None if typed.count is None else str(typed.count),
        "size": typed.size,
        "colours": None if typed.colours is None else order_rows.wanted_text(typed.colours),
        "price_coins": None if typed.price is None else str(typed.price.coins),
        "note": typed.note,
    }
    return {name: value for name, value in said.items() if value is not None}


def _now(name: str, order: Order, currency: str) -> dict[str, str | None]:
    """What a fact of an order is called, and what it is now, as they are shown for good."""
    shown = {
        "design_id": ("design", order.design),
        "by_day": ("day", order.by.isoformat()),
        "count": ("count", str(order.count)),
        "colours": ("colour", ", ".join(f"{r}={c}" for r, c in sorted(order.colours.items()))),
        "price_coins": ("price", order.price and show_money(order.price, currency)),
    }
    fact, value = shown.get(name) or (name, getattr(order, name))
    return {"fact": fact, "value": value or None}


def drop_order(book: Book, number: int, *, on: date | None = None) -> OrderBooked:
    """An order is off; the items made for it stay as they are."""
    with book.entry("order drop", on) as writer:
        order = order_numbered(writer.db, number)
        if not writer.set_facts("order", number, dropped="1"):
            raise Refusal("order_dropped_already", order=order)
        writer.what = Note("order_dropped", order=number, who=order.who)
        dropped = order_numbered(writer.db, number)
    return OrderBooked(writer.number, dropped, writer.settings)


def order_for(db: Connection, asked: ForOrder, design: str) -> Order | None:
    """The order that one more item of a design is for; refused where it does not take one."""
    if asked.number is None:
        return None
    order = order_numbered(db, asked.number)
    if order.dropped:
        raise Refusal("order_is_dropped", order=order)
    if not order.fits(design, as_kept=asked.as_kept):
        if order.fits(design):
            raise Refusal("order_of_another_size", order=order)
        raise Refusal("order_of_another_design", order=order, design=design)
    if not order.left:
        raise Refusal("order_full", order=order)
    return order


def asked_by(db: Connection, asked: ForOrder | None, design: str) -> AskedFor:
    """What an order asks for one more item of a design; nothing where it is for none."""
    order = asked and order_for(db, asked, design)
    return AskedFor(order.price, order=order.number) if order else NOT_ASKED


def give_to_order(writer: EntryWriter, item: Item, asked: ForOrder) -> Note:
    """An item is for an order from now on, or for none, as part of an entry."""
    if item.asked.order == asked.number:
        kind = "item_for_no_order" if asked.number is None else "item_for_that_order"
        raise Refusal(kind, item=item)
    if item.state is ItemState.UNRAVELLED:
        raise Refusal("unravelled_for_order", item=item)
    order = order_for(writer.db, asked, item.design)
    writer.set_facts("item", item.number, order_number=str(order.number) if order else None)
    of_order = {"order": order and order.number, "who": order and order.who}
    return Note("item_ordered", **of_item(item), **of_order)


def order_kept(book: Book, number: int) -> Order:
    """The order of this number."""
    with book.reading() as db:
        return order_numbered(db, number)


@dataclass(frozen=True, slots=True)
class Orders:
    """Orders in their turn, her settings, and the day it is."""

    all: tuple[Order, ...]
    settings: Settings
    today: date

    @property
    def open(self) -> tuple[Order, ...]:
        """Those of which something is still to be made."""
        return tuple(one for one in self.all if one.left)


def orders_kept(book: Book) -> Orders:
    """Every order in its turn."""
    with book.reading() as db:
        return Orders(tuple(order_rows.orders(db)), Settings.read(db), clock.today())


def price_agreed(writer: EntryWriter, item: Item) -> Money:
    """What the order of an item says it is sold for; BadInput where there is no such price."""
    order = None if item.asked.order is None else order_numbered(writer.db, item.asked.order)
    if order is None or order.price is None:
        raise BadInput("no_price_agreed" if item.asked.order else "no_price_paid", item=item)
    return order.price


def undecided_price(writer: EntryWriter, items: Sequence[tuple[Item, Money]]) -> Undecided:
    """Whether items are sold for what their orders say, which is hers to agree to."""
    if len(items) > 1:
        numbers = tuple(item.number for item, _ in items)
        agreed = Note("prices_agreed", numbers=numbers)
        return Undecided(agreed, [(Note("sell_for_those"), "agreed")])
    item, price = items[0]
    figure = re.sub(r"[^0-9.]", "", show_money(price, writer.settings.currency))
    order = order_numbered(writer.db, item.asked.order or 0)
    return Undecided(
        Note("price_agreed", item=item, order=order), [(Note("sell_for_that"), figure)]
    )


#: So many of the sets that are shown first are held against the orders.
LOOKED_AT = 5


def takes_of(proposals: Sequence[Proposal]) -> dict[str, list[Take]]:
    """What the first sets of an answer would take, by their keys."""
    return {one.key: taken_by(one) for one in proposals[:LOOKED_AT]}


def taken_by(proposal: Proposal) -> list[Take]:
    """What a set takes."""
    return [take for filled in proposal.roles for take in filled.takes]
