"""Sentences about orders: who wants what by when, and what stands in the way."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stash.measures.note import Note
from stash.rendering.amounts import counted
from stash.rendering.amounts import numbers as listed
from stash.rendering.sentences.say import sentence
from stash.rendering.sentences.words import Words
from stash.stock.order import Order


def _order_added(order: int, who: str, count: int, name: str) -> str:
    return f"order {order} ({who}): {count} x {name}"


def _order_changed(order: int, who: str, done: Sequence[Note]) -> str:
    return f"order {order} ({who}): {'; '.join(map(sentence, done))}"


def _item_ordered(
    item: int, name: str | None, order: int | None = None, who: str | None = None
) -> str:
    if order is None:
        return f"item {item} ({name}) is for no order now"
    return f"item {item} ({name}) is for order {order} ({who})"


def _order_full(order: Order) -> str:
    items = ", ".join(map(str, order.items))
    return (
        f"order {order} has its {counted(order.count, 'item')} already ({items}); "
        f"`stash order change {order.number} --count {order.count + 1}` makes room for one more"
    )


#: What an entry has booked, as the log shows it.
BOOKED: Mapping[str, Words] = {
    "order_added": _order_added,
    "order_changed": _order_changed,
    "order_dropped": "order {order} ({who}) dropped",
}
#: What cannot be made of what was typed.
REFUSED: Mapping[str, Words] = {
    "ordered_of_nobody": (
        'an order needs a name: `stash order add "blue, collected Friday" "Winter hat" '
        "--by 2026-12-12`"
    ),
    "order_without_day": "an order needs its day: add --by, as in --by 2026-12-12",
    "no_order_number": "orders go by number, not {typed!r}; `stash order list` shows yours",
    "order_of_none": (
        "an order is for 1 to {most} items, not {count}; say how many with --count, or cancel "
        "the order with `stash order drop 3`"
    ),
    "no_change_of_order": (
        "nothing to change: give --who, --by, --count, --size, --colour, --price or --note"
    ),
    "note_for_size": (
        "a size is of a design, so leave out --note, or leave out --size to hold yarn aside"
    ),
    "note_for_order": (
        "an order is for a design, so leave out --note, or leave out --order to hold yarn aside"
    ),
}

SENTENCES: Mapping[str, Words] = {
    "day_gone_by_for_order": ("{day} has gone by, today is {today}; give --by a day from today on"),
    "order_so_already": "order {order} is like that already",
    "order_dropped_already": "order {order} is dropped already",
    "order_is_dropped": (
        "order {order} is dropped; `stash undo` its entry if it is wanted after all"
    ),
    "order_full": _order_full,
    "order_of_another_design": (
        "order {order} is for {order.asked_for}, not {design}; `stash order list` shows the others"
    ),
    "order_of_another_size": (
        "order {order} asks for {order.size}, and {order.design} as you keep it is another size; "
        "`stash aside --order {order.number}` makes one at that size"
    ),
    "order_has_items": (
        "order {order} has items of {order.design}; it stays for that design, or give them "
        "another order with `stash change item N --order none`"
    ),
    "count_below_items": (
        "order {order} has {order.filled} of its items, so its count cannot be {count}"
    ),
    "item_for_that_order": "item {item} is for that order already",
    "item_for_no_order": "item {item} is for no order",
    "unravelled_for_order": "item {item} is unravelled, so it cannot be for an order",
    "price_agreed": "item {item} is made for order {order}, and its price was agreed",
    "sell_for_that": "to sell it for that, type --for",
    "design_ordered": (
        "{design} is ordered: {order}; make it first, or `stash order drop {order.number}`"
    ),
    "prices_agreed": lambda numbers: (
        f"items {listed(numbers)} are made for orders, and their prices were agreed"
    ),
    "sell_for_those": "to sell each for what its order says, type --for",
    "no_price_paid": "what did the buyer pay? Add --for 28.00",
    "no_price_agreed": "the order of item {item} has no price; add --for 28.00",
    "item_ordered": _item_ordered,
}
