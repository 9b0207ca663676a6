"""What is ordered, for commands that plan it or take yarn that it needs."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

from stash.cli.common import note, refuse

if TYPE_CHECKING:
    from stash.actions.book import Book
    from stash.actions.order import ForOrder, Orders
    from stash.actions.ordered import LeftShort, Ordered
    from stash.actions.sized import Sized
    from stash.matching.answer.proposal import Take
    from stash.measures.length import Length
    from stash.parsing.wish.typed import WishWords
    from stash.planning.model.asked import WantAsked
    from stash.requirements.design.design import Design
    from stash.stock.order import Order


def order_number(typed: str) -> int | None:
    """The number of an order as it is typed; None where none is."""
    plain = typed.strip().removeprefix("#")
    if not plain:
        return None
    if not plain.isdecimal() or len(plain) > 9:
        refuse("no_order_number", typed=typed)
    return int(plain)


def for_order(book: Book, typed: str) -> ForOrder | None:
    """The order that an item is to fill, as it is typed; None where none is."""
    number = order_number(typed)
    if number is None:
        return None
    from stash.actions.order import ForOrder, order_kept

    order = order_kept(book, number)
    return ForOrder(number, not order.size or _as_kept(book, order))


def _as_kept(book: Book, order: Order) -> bool:
    """Whether the design of an order, as it is kept, is of the size ordered."""
    from stash.actions import designs
    from stash.actions.batch import as_kept, row_made
    from stash.errors import StashError
    from stash.parsing.order import order_run

    hers = designs.her_designs(book)
    try:
        plan = hers.plan(order.design)
        run = order_run(order.size, plan, hers.settings.own_size)
        return as_kept(row_made(hers.known_for(plan), run, order.size), plan)
    except StashError:  # it cannot be made at that size any more
        return False


def sized(book: Book, design: str, size: str) -> Sized | None:
    """The size that a design is to be made at; None as it is kept."""
    if not size:
        return None
    from stash.actions import designs
    from stash.actions.sized import Sized
    from stash.parsing.order import order_run

    hers = designs.her_designs(book)
    return Sized(size, order_run(size, hers.plan(design), hers.settings.own_size))


def size_ordered(book: Book, asked: ForOrder | None, design: str) -> str:
    """The size of an order, where this is its design and not yet made at that size."""
    from stash.actions.order import order_kept

    order = None if asked is None or asked.number is None else order_kept(book, asked.number)
    return order.size if order and order.design.casefold() == design.casefold() else ""


def ordered_as(
    book: Book, number: int, design: str, words: WishWords, *, found: bool
) -> tuple[str, WishWords]:
    """The design of an order where none was typed, and its colours where none were.

    Where she has `found` her yarn already, it is hers to say: its colours are not asked again.
    """
    from stash.actions.order import order_kept

    order = order_kept(book, number)
    if not (words.colours or found):
        texts = tuple(f"{role}={of}" for role, of in sorted(order.colours.items()))
        words = replace(words, colours=texts)
    return design or order.design, words


def ordered_of(book: Book, orders: Orders) -> Ordered:
    """The open orders as wants, those among them that cannot be read told apart."""
    from stash.actions.ordered import as_wants

    return as_wants(book, orders, _want)


def _want(
    order: Order, plan_of: Callable[[str], Design], chart: Callable[[str], dict[str, Length] | None]
) -> WantAsked:
    """Read only when there is an order: it takes its time to load."""
    from stash.parsing.order import order_want

    return order_want(order, plan_of, chart)


def orders_to_make(book: Book) -> tuple[Orders, tuple[WantAsked, ...]]:
    """The orders, and those still to be made as wants; what is late or left out is said."""
    from stash.actions.order import orders_kept
    from stash.actions.ordered import readable
    from stash.rendering.order import late_words, left_out_words

    orders = orders_kept(book)
    ordered = readable(book, ordered_of(book, orders))
    late = late_words(orders.open, orders.today)
    for words in (*late, *left_out_words(orders.open, ordered.faults)):
        note(f"note: {words}")
    return orders, ordered.wants


def said_to_be_short(book: Book, taken: Mapping[str, Sequence[Take]]) -> None:
    """Say which of these takes, by their names, would leave an open order short."""
    from stash.actions.order import orders_kept

    if not orders_kept(book).open:  # the planner takes longer to load than the answer took
        return
    from stash.actions.ordered import left_short_of_all

    _say(left_short_of_all(book, taken, _want))


@contextmanager
def orders_watched(book: Book, mine: int | None) -> Iterator[None]:
    """Say which orders are left short by what is done inside; of one for an order, earlier ones."""
    from stash.actions.order import orders_kept

    if not orders_kept(book).open:
        yield
        return
    from stash.actions.ordered import watched

    with watched(book, mine, _want) as found:
        yield
    for one in found:
        _say(one)


def _say(short: LeftShort) -> None:
    from stash.rendering.order import short_words

    for words in short_words(short.orders.all, short.by):
        note(f"note: {words}")
