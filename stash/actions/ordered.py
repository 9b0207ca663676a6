"""What is ordered held against the shelf: which orders fall short today, or by what is taken."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from types import MappingProxyType

from stash.actions.batch import BatchAsked, read_wants
from stash.actions.book import Book
from stash.actions.her_settings import Settings
from stash.actions.match import shelf_of
from stash.errors import StashError
from stash.matching.after_taking import shelf_after
from stash.matching.answer.proposal import Take
from stash.matching.lots.shelf import Shelf
from stash.planning.model.asked import WantAsked
from stash.planning.model.batch import Terms, Unfilled, Wanted
from stash.planning.optimiser.incumbent import Calls
from stash.planning.plan_batch import unfilled_orders
from stash.store import item_rows
from stash.store.engine import Connection

#: Nobody has to be told of so short a search, and nobody stops it.
_QUIETLY = Calls(lambda: False, lambda doing: None)
_NONE: Mapping[int, StashError] = MappingProxyType({})


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


def orders_short(book: Book, ordered: Ordered) -> OrdersShort:
    """What the orders lack today, each once those before it have their yarn."""
    if not ordered.wants:
        return OrdersShort(faults=ordered.faults)
    with book.reading() as db:
        shelf, wants, faults = _held_against_shelf(db, ordered)
    return OrdersShort(unfilled_orders(shelf, wants, _QUIETLY), faults)


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
    """The orders that each of these takes, by its name, would leave shorter than they are."""
    if not ordered.wants or not taken:
        return {}
    with book.reading() as db:
        shelf, wants, _ = _held_against_shelf(db, ordered)
    before = OrdersShort(unfilled_orders(shelf, wants, _QUIETLY))
    after = {
        name: OrdersShort(unfilled_orders(shelf_after(shelf, takes), wants, _QUIETLY))
        for name, takes in taken.items()
    }
    return {name: shorter(before, now) for name, now in after.items()}


def shorter(before: OrdersShort, after: OrdersShort) -> tuple[Unfilled, ...]:
    """The orders that lack more than they did."""
    lacked = {one.order: one.count for one in before.short}
    return tuple(one for one in after.short if one.count > lacked.get(one.order, 0))
