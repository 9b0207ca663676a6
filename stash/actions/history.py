"""What happened to some yarn, or to an item: reading only."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from stash.stock.entry import Entry
from stash.stock.item import Item
from stash.stock.movement import Booked
from stash.stock.promise import BookedPromise
from stash.stock.sale import Sale
from stash.store import entry_rows, item_rows, weighing_rows, yarn_rows
from stash.store.engine import Connection
from stash.store.entry_rows import Fact


@dataclass(frozen=True, slots=True)
class History:
    """What moved, what was set aside or released, and facts put right, oldest first.

    `entries` are those of all that and of what else was done with it, newest first. `items` are by
    number; one whose entry was cancelled is not among them. `rows`: at which row of its item a
    skein was weighed, by the entry, where that was said.
    """

    moved: tuple[Booked, ...]
    promised: tuple[BookedPromise, ...]
    facts: tuple[Fact, ...]
    entries: tuple[Entry, ...]
    items: Mapping[int, Item]
    rows: Mapping[int, int] = field(default_factory=dict)

    def entry(self, number: int) -> Entry:
        """One of its entries."""
        return next(one for one in self.entries if one.number == number)


def of_yarn(db: Connection, skeins: Collection[int], lot: int, items: Iterable[Item]) -> History:
    """The history of these skeins, and of what is known of their lot."""
    moved = entry_rows.movements(db, skeins=skeins)
    promised = entry_rows.promise_changes(db, skeins=skeins)
    facts = [*_named(db, "skein", map(str, skeins)), *_named(db, "lot", [str(lot)])]
    touched = {m.entry for m in moved} | {p.entry for p in promised} | {f.entry for f in facts}
    return History(
        moved=tuple(moved),
        promised=tuple(promised),
        facts=tuple(sorted(facts, key=lambda fact: fact.entry)),
        entries=tuple(
            entry_rows.entries(db, only=touched | weighing_rows.entries_weighing(db, skeins))
        ),
        items={item.number: item for item in items},
    )


def of_item(db: Connection, item: Item, sales: Iterable[Sale]) -> History:
    """The history of an item, which `sales` it had among it."""
    moved = entry_rows.movements(db, items=[item.number])
    promised = entry_rows.promise_changes(db, item_number=item.number)
    steps = item_rows.standing_steps(db, [item.number])
    touched = {m.entry for m in moved} | {p.entry for p in promised} | {s.entry for s in steps}
    return History(
        moved=tuple(moved),
        promised=tuple(promised),
        facts=(),
        entries=tuple(entry_rows.entries(db, only=touched | {s.entry for s in sales})),
        items={item.number: item},
        rows={one.entry: one.row for one in weighing_rows.rows_weighed(db, item.number)},
    )


def _named(db: Connection, thing: str, refs: Iterable[str]) -> Iterator[Fact]:
    """Facts of things of one kind; the yarn that a record was of before by its name."""
    for fact in entry_rows.facts(db, thing=thing, refs=[*refs]):
        if fact.name == "yarn_id":
            old = str(yarn_rows.yarn_numbered(db, int(fact.old or 0)))
            yield replace(fact, name="yarn", old=old)
        else:
            yield fact
