"""What is ordered held against the shelf: which orders fall short today, or by what is taken."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from types import MappingProxyType

from stash.actions import clock
from stash.actions.batch import BatchAsked, read_wants
from stash.actions.book import Book
from stash.actions.designs import her_designs
from stash.actions.her_settings import Settings
from stash.actions.match import shelf_of
from stash.actions.order import Orders, orders_kept
from stash.errors import StashError
from stash.matching.after_taking import shelf_after
from stash.matching.answer.proposal import Take
from stash.matching.lots.shelf import Shelf
from stash.measures.length import Length
from stash.measures.note import Note
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Terms, Unfilled, Wanted
from stash.planning.optimiser.incumbent import Calls
from stash.planning.plan_batch import unfilled_orders
from stash.requirements.design.design import Design
from stash.stock.order import Order
from stash.store import item_rows
from stash.store.engine import Connection

#: A word beside another answer is worth so many seconds of waiting; after that it is left unsaid.
_PATIENCE_S = 3.0
_NONE: Mapping[int, StashError] = MappingProxyType({})
#: Reads an order as a want, by the plan of a design's name and the sides of a size of her own.
ReadWant = Callable[
    [Order, Callable[[str], Design], Callable[[str], dict[str, Length] | None]], WantAsked
]


@dataclass(frozen=True, slots=True)
class Ordered:
    """The open orders as wants, in their turn; and why some cannot be read as wants, by number."""

    wants: tuple[WantAsked, ...] = ()
    faults: Mapping[int, StashError] = field(default_factory=lambda: _NONE)


@dataclass(frozen=True, slots=True)
class OrdersShort:
    """What the shelf does not give of the orders today, in their turn, and what cannot be asked."""

    short: tuple[Unfilled, ...] = ()
    faults: Mapping[int, StashError] = field(default_factory=lambda: _NONE)

    def of(self, order: int) -> Unfilled | None:
        """What one order lacks, None for nothing."""
        return next((one for one in self.short if one.order == order), None)


def _unheard(doing: Note) -> None:
    """What is being done for a word beside another answer is not told."""


def orders_short(
    book: Book,
    ordered: Ordered,
    stop: Callable[[], bool],
    report: Callable[[Note], None] = _unheard,
) -> OrdersShort:
    """What the orders lack today, each once those before it have their yarn."""
    if not ordered.wants:
        return OrdersShort(faults=ordered.faults)
    with book.reading() as db:
        shelf, wants, faults = _held_against_shelf(db, ordered)
    return OrdersShort(unfilled_orders(shelf, wants, Calls(stop, report)), faults)


def patiently() -> Callable[[], bool]:
    """Whether to stop, for a word beside another answer: soon."""
    end = clock.seconds() + _PATIENCE_S
    return lambda: clock.seconds() > end


def _held_against_shelf(
    db: Connection, ordered: Ordered
) -> tuple[Shelf, list[Wanted], Mapping[int, StashError]]:
    settings = Settings.read(db)
    shelf, rows = shelf_of(db, settings), item_rows.designs(db)

    def read(*wants: WantAsked) -> list[Wanted]:
        return read_wants(db, settings, BatchAsked(wants, Terms(())), shelf.lots, rows)[1]

    able, faults = list[Wanted](), {**ordered.faults}
    try:
        return shelf, read(*ordered.wants), faults
    except StashError:  # one of them cannot be asked: each by itself
        pass
    for want in ordered.wants:
        try:
            able += read(want)
        except StashError as fault:
            faults[want.order or 0] = fault
    return shelf, able, faults


def readable(book: Book, ordered: Ordered) -> Ordered:
    """The orders that can be planned; the others among the faults."""
    if not ordered.wants:
        return ordered
    with book.reading() as db:
        _, _, faults = _held_against_shelf(db, ordered)
    able = tuple(want for want in ordered.wants if want.order not in faults)
    return Ordered(able, faults)


def left_short(
    book: Book, ordered: Ordered, taken: Mapping[str, Sequence[Take]]
) -> dict[str, tuple[Unfilled, ...]]:
    """The orders that each of these takes, by its name, would leave shorter than they are.

    What is not seen soon is left unsaid: a plan that was broken off says nothing for certain.
    """
    if not ordered.wants or not taken:
        return {}
    with book.reading() as db:
        shelf, wants, _ = _held_against_shelf(db, ordered)
    calls, found = Calls(patiently(), _unheard), dict[str, tuple[Unfilled, ...]]()
    before = OrdersShort(unfilled_orders(shelf, wants, calls))
    for name, takes in taken.items():
        after = OrdersShort(unfilled_orders(shelf_after(shelf, takes), wants, calls))
        if not calls.stop():
            found[name] = shorter(before, after)
    return found


def shorter(before: OrdersShort, after: OrdersShort) -> tuple[Unfilled, ...]:
    """The orders that lack more than they did."""
    lacked = {one.order: one.count for one in before.short}
    return tuple(one for one in after.short if one.count > lacked.get(one.order, 0))


@dataclass(frozen=True, slots=True)
class LeftShort:
    """The orders, and which of them each of several takes, by its name, leaves short."""

    orders: Orders
    by: Mapping[str, Sequence[Unfilled]]


def as_wants(book: Book, orders: Orders, read: ReadWant) -> Ordered:
    """The open orders as wants, those among them that cannot be read told apart."""
    if not orders.open:
        return Ordered()
    hers = her_designs(book)
    wants, faults = [], {}
    for order in orders.open:
        try:
            wants.append(read(order, hers.plan, hers.settings.own_size))
        except StashError as fault:
            faults[order.number] = fault
    return Ordered(tuple(wants), faults)


def left_short_of_all(book: Book, taken: Mapping[str, Sequence[Take]], read: ReadWant) -> LeftShort:
    """Which of these takes, by their names, would leave an open order short."""
    orders, ordered = _earlier(book, None, read)
    return LeftShort(orders, left_short(book, ordered, taken))


@contextmanager
def watched(book: Book, mine: int | None, read: ReadWant) -> Iterator[list[LeftShort]]:
    """What is done inside may leave orders short: of one for an order, earlier ones.

    The list has the answer once it is done, nothing where that is not certain soon.
    """
    orders, ordered = _earlier(book, mine, read)
    stop = patiently()
    before = orders_short(book, ordered, stop)
    found: list[LeftShort] = []
    yield found
    if ordered.wants and not stop():
        after = orders_short(book, ordered, stop)
        found += [] if stop() else [LeftShort(orders, {"": shorter(before, after)})]


def _earlier(book: Book, mine: int | None, read: ReadWant) -> tuple[Orders, Ordered]:
    """The orders, and those that come before one of them, or all that are open."""
    orders = orders_kept(book)
    turns = {one.number: one.turn for one in orders.all}
    own = turns.get(mine) if mine is not None else None
    wants = as_wants(book, orders, read).wants
    return orders, Ordered(tuple(w for w in wants if own is None or turns[w.order or 0] < own))
