"""The file proved sound: what the database says of itself, and what the books must add up to."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import islice

from stash.actions.book import Book
from stash.actions.rows_read import unreadable
from stash.measures.note import Note
from stash.stock.item import Item, ItemState
from stash.stock.sale import Sale, SaleKind, away
from stash.store import balance_rows, guards, item_rows, sale_rows, skein_rows
from stash.store.engine import Connection


def check(book: Book) -> list[Note]:
    """Everything that is not as it must be; nothing for a sound file."""
    with book.reading() as db:
        return findings(db)


def findings(db: Connection) -> list[Note]:
    """The same inside a view or a unit of work that is open already.

    What the books add up to is looked at only where every row can be read.
    """
    of_rows = [*islice(unreadable(db), _MOST_NAMED)]
    return [*_file(db), *(of_rows or _books(db))]


#: So many rows that cannot be read say enough.
_MOST_NAMED = 50


def _file(db: Connection) -> Iterator[Note]:
    for row in db.exec_driver_sql("PRAGMA integrity_check"):
        if row[0] != "ok":
            yield Note("pages_damaged", complaint=row[0])
    for row in db.exec_driver_sql("PRAGMA foreign_key_check"):
        yield Note("reference_lost", table=row[0], row=row[1], parent=row[2])
    for name in guards.missing(db):
        yield Note("guard_missing", guard=name)


def _books(db: Connection) -> Iterator[Note]:
    skeins = skein_rows.held_skeins(db)
    numbers = [skein.number for skein in skeins]
    for number, day, held in balance_rows.lowest_on_any_day(db):
        yield Note("skein_was_below_nothing", skein=number, held=held, day=day)
    for skein in skeins:
        if skein.set_aside + skein.free != skein.held:
            yield Note("skein_does_not_add_up", skein=skein.number)
    promises = item_rows.promises(db)
    for number in sorted({p.skein for p in promises} - {*numbers}):
        yield Note("promise_of_lost_skein", skein=number)
    known = {item.number: item for item in item_rows.items(db)}
    for promise in promises:
        item = known.get(promise.item)
        if item is None:
            yield Note("promise_to_lost_item", item=promise.item)
        elif not item.open:
            yield Note("promise_to_closed_item", item=item)
    yield from _sales(db, known)
    for wrong, answer, left in balance_rows.unbalanced_take_backs(db):
        yield Note("take_back_unbalanced", entry=answer, wrong=wrong, left=left)


def _sales(db: Connection, known: Mapping[int, Item]) -> Iterator[Note]:
    """Going and coming back take turns, of items that are done."""
    by_item: dict[int, list[Sale]] = {}
    for sale in sale_rows.sales(db):
        by_item.setdefault(sale.item, []).append(sale)
    for number, facts in by_item.items():
        item = known.get(number)
        back = [fact.kind is SaleKind.RETURNED for fact in facts]
        if item is None:
            yield Note("sale_of_lost_item", item=number)
        elif back != [i % 2 == 1 for i in range(len(facts))]:
            yield Note("sales_out_of_turn", item=item)
        elif away(facts) is not None and item.state is not ItemState.DONE:
            yield Note("sold_and_not_done", item=item)
