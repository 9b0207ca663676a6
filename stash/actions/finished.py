"""Items as they are once they are done: what each took, and what went back to the shelf."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from stash.actions.book import Book, EntryWriter
from stash.actions.cautions import item_plans
from stash.actions.her_settings import Settings
from stash.actions.yarn_of_items import YarnOfItems
from stash.measures.length import NO_LENGTH, Length
from stash.measures.mass import NO_MASS, Mass
from stash.measures.note import Note
from stash.requirements.design.design import Design
from stash.stock.item import Item
from stash.stock.movement import standing
from stash.stock.promise import Promised
from stash.stock.yarn import Lot
from stash.store import item_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class UsedRole:
    """What one role took in all, in metres where every skein has a pair, and what was expected."""

    role: str
    mass: Mass
    length: Length | None
    expected: Length | None
    estimated: bool


@dataclass(frozen=True, slots=True)
class Finished:
    """A finished item: what it used, what went back to the shelf, and what is worth saying."""

    entry: int
    item: Item
    used: tuple[UsedRole, ...]
    released: tuple[Promised, ...]
    notes: tuple[Note, ...]
    shorts: tuple[Note, ...]
    plan: Design
    lots: tuple[Lot, ...]
    settings: Settings


@dataclass(frozen=True, slots=True)
class ClosedItem:
    """An item that was closed, as it was before: what is worth saying, and what is free again."""

    item: Item
    notes: Sequence[Note]
    released: Sequence[Promised]


def finished(book: Book, writer: EntryWriter, closed: Sequence[ClosedItem]) -> list[Finished]:
    """Items as an entry has left them."""
    with book.reading() as db:
        return finished_in(db, writer, closed)


def finished_in(
    db: Connection, writer: EntryWriter, closed: Sequence[ClosedItem]
) -> list[Finished]:
    """The same in a view that is open; each thing is read of all of them together."""
    numbers = [one.item.number for one in closed]
    items = item_rows.items(db, numbers)
    now, plans = {item.number: item for item in items}, item_plans(db, items)
    yarn = YarnOfItems.read(db, numbers)
    return [
        Finished(
            entry=writer.number,
            item=now[one.item.number],
            used=tuple(_used(yarn, one.item.number)),
            released=tuple(one.released),
            notes=tuple(one.notes),
            shorts=writer.shorts,
            plan=plans[one.item.number],
            lots=yarn.lots(one.item.number),
            settings=writer.settings,
        )
        for one in closed
    ]


def _used(yarn: YarnOfItems, item: int) -> Iterator[UsedRole]:
    """What each role took, all entries together."""
    moves = standing(yarn.moves[item])
    expected = {role.role: role.expected for role in yarn.planned.get(item, ())}
    for role in sorted({move.role for move in moves}):
        mine = [move for move in moves if move.role == role]
        lengths = [yarn.skeins[move.skein].length(-move.change) for move in mine]
        yield UsedRole(
            role,
            sum((-move.change for move in mine), NO_MASS),
            sum((one for one in lengths if one), NO_LENGTH) if all(lengths) else None,
            expected.get(role),
            any(move.estimated for move in mine),
        )
