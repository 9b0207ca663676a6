"""Which valuation method a year is reckoned by: one method a file and year."""

from __future__ import annotations

from collections.abc import Iterator

from stash.actions.book import EntryWriter
from stash.costing.pools import Method
from stash.errors import Refusal
from stash.stock.entry import Entry
from stash.store import entry_rows
from stash.store.engine import Connection


def method_of(db: Connection, year: int) -> Method:
    """The method of a year: the last one chosen in it or before; until then each skein's cost."""
    chosen = [value for entry, value in _choices(db) if entry.on.year <= year]
    return Method(chosen[-1] or Method.SPECIFIC) if chosen else Method.SPECIFIC


def refuse_second_choice(writer: EntryWriter) -> None:
    """A year has one method; to choose is to use it, and a choice can only be taken back."""
    for entry, _ in _choices(writer.db):
        if entry.on.year == writer.on.year:
            raise Refusal("method_chosen_already", year=entry.on.year, entry=entry.number)


def _choices(db: Connection) -> Iterator[tuple[Entry, str | None]]:
    """Every choice not taken back, oldest first, with what was chosen (None: as usual)."""
    facts = entry_rows.facts(db, thing="setting", refs=["valuation"])
    entries = {e.number: e for e in entry_rows.entries(db, only={fact.entry for fact in facts})}
    for fact in facts:
        entry = entries.get(fact.entry)
        if entry is not None and entry.takes_back is None and entry.taken_back_by is None:
            yield entry, fact.new
