"""Giving out the shelf or the whole file, and taking a whole file in again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from typing import Any

from stash.actions.book import Book
from stash.actions.check import findings
from stash.actions.her_settings import Settings
from stash.actions.priced import Priced
from stash.errors import BadInput, FileTrouble, Refusal
from stash.measures.money import Money
from stash.stock.holding import HeldSkein
from stash.stock.yarn import Lot
from stash.store import exchange_rows, skein_rows
from stash.store.engine import HEAD, KNOWN
from stash.store.upgrade import rows_of_today

#: One skein with all that a row of a sheet says: record, skein, bought on, cost of what it holds,
#: note.
SkeinFacts = tuple[Lot, HeldSkein, date | None, Money | None, str]


def skeins(book: Book) -> tuple[list[SkeinFacts], str]:
    """Every skein that holds yarn, by number, and the currency of what it cost."""
    with book.reading() as db:
        settings = Settings.read(db)
        facts = skein_rows.bought_and_paid(db)
        priced = Priced.read(db)
    costs = priced.held_costs()
    rows = [
        (priced.lot(number), priced.skeins[number], facts[number][0], cost, facts[number][2])
        for number, cost in sorted(costs.items())
    ]
    return rows, settings.currency


def whole_file(book: Book) -> dict[str, Any]:
    """Every row of every table, as JSON holds it: entries, items, promises and all."""
    with book.reading() as db:
        return {"revision": HEAD, "tables": exchange_rows.all_rows(db)}


def refuse_if_not_ours(name: str, given: Mapping[str, Any]) -> None:
    """Only what this version or an older one gave out can be taken in whole; raises FileTrouble."""
    if given.get("revision") not in KNOWN or not isinstance(given.get("tables"), Mapping):
        raise FileTrouble(name, "not_given_out_by_us", revision=HEAD)


def take_in_whole(book: Book, given: Mapping[str, Any]) -> int:
    """Write a whole file as it was given out into an empty one; the number of its entries.

    Refused where anything was booked already: what is merged cannot be kept apart again.
    """
    tables = rows_of_today(given["revision"], given["tables"])
    with book.file.writing() as db:
        if not exchange_rows.is_empty(db):
            raise Refusal("file_has_entries", path=book.path)
        exchange_rows.put_all(db, tables)
        if found := findings(db):
            raise BadInput("not_sound", finding=found[0])
    entries: Sequence[object] = tables.get("entry", [])
    return len(entries)
