"""Yarn comes onto the shelf: lines become lot records and skeins, in one entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import clock
from stash.actions.arriving import Arrived, Desk
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.her_settings import UNITS, Settings, units_decided
from stash.errors import Refusal
from stash.measures.note import Note
from stash.stock.entry import of_lot
from stash.stock.incoming import Incoming
from stash.store import entry_rows, exchange_rows
from stash.store.copies import copy_beside


@dataclass(frozen=True, slots=True)
class Received:
    """An entry of new yarn, line by line, and the habits that it set."""

    entry: int
    arrived: tuple[Arrived, ...]
    habits: Mapping[str, str]

    @property
    def skeins(self) -> int:
        """How many skeins came."""
        return sum(len(a.skeins) for a in self.arrived)


@dataclass(frozen=True, slots=True)
class SheetStamp:
    """Which file the lines came from; its bytes are taken in twice only if that is meant: `again`.

    With `opening_of` the lines were there on the morning of that day already.
    """

    name: str
    sha256: str
    again: bool = False
    opening_of: date | None = None


def receive(
    book: Book,
    lines: Sequence[Incoming],
    *,
    kind: str = "add",
    on: date | None = None,
    sheet: SheetStamp | None = None,
    habits: Mapping[str, str] | None = None,
    chosen: Mapping[str, str] | None = None,
) -> Received:
    """Book every line or none. Raises Refusal for a line with neither weight nor length.

    `habits` are settings that the lines suggest (the currency of prices, yards or metres); those
    she has not set yet are set by them in the same entry, and so are those she has `chosen` with
    them, whatever they were.
    """
    if not lines:
        raise Refusal("no_yarn_to_add")
    with book.entry(kind, on) as writer:
        if sheet is not None and not sheet.again:
            refuse_again(sheet.name, exchange_rows.entry_of_sheet(writer.db, sheet.sha256))
        if any(line.paid is not None for line in lines):
            learn(writer, (habits or {}).get("currency", ""))
        lines = [line.trimmed() for line in lines]
        desk = Desk.of(writer, lines)
        arrived = tuple(desk.take(line) for line in lines)
        desk.settle()
        new = _set_settings(writer, habits or {}, chosen or {})
        if sheet is not None:
            exchange_rows.add_sheet(writer.db, writer.number, sheet.name, sheet.sha256, len(lines))
        received = Received(writer.number, arrived, new)
        writer.what = _booked(received, sheet)
        return received


def foresee(book: Book, lines: Sequence[Incoming]) -> tuple[Arrived, ...]:
    """What these lines would become if they were booked now; nothing is.

    Raises what `receive` would.
    """
    lines = [line.trimmed() for line in lines]
    with book.reading() as db:
        desk = Desk.of(EntryWriter(db, 0, clock.today(), Settings()), lines, only_looks=True)
        return tuple(desk.take(line) for line in lines)


def _set_settings(
    writer: EntryWriter, habits: Mapping[str, str], chosen: Mapping[str, str]
) -> Mapping[str, str]:
    """The habits that were not set before; units are decided once, all three together."""
    known = writer.settings.kept or {}
    single = {name: value for name, value in habits.items() if name not in UNITS}
    units = {} if any(name in known for name in UNITS) else units_decided(habits)
    new = {name: value for name, value in single.items() if value and name not in known}
    new.update(units)
    for name, value in {**new, **chosen}.items():
        writer.set_facts("setting", name, value=value)
    return new


def copy_first(book: Book) -> None:
    """A copy of the file beside it before much comes in; a file without entries needs none."""
    with book.reading() as db:
        entries = entry_rows.entries(db, newest=1)
    if entries:
        copy_beside(book.path, f"before-entry-{entries[0].number + 1}")


def taken_in_before(book: Book, sha256: str) -> int | None:
    """The entry that took in a file of the same bytes and was not taken back, or None."""
    with book.reading() as db:
        return exchange_rows.entry_of_sheet(db, sha256)


def refuse_again(name: str, entry: int | None) -> None:
    """The same bytes twice are refused: they would put the same skeins on the shelf again."""
    if entry is not None:
        raise Refusal("taken_in_already", name=name, entry=entry)


def _booked(received: Received, sheet: SheetStamp | None) -> Note:
    skeins, lots = received.skeins, len({a.lot.id for a in received.arrived})
    if sheet is not None:
        since = sheet.opening_of.isoformat() if sheet.opening_of else None
        name = sheet.name
        return Note("sheet_taken_in", skeins=skeins, lots=lots, sheet=name, opening_of=since)
    if lots > 1:
        return Note("lots_added", skeins=skeins, lots=lots)
    return Note("yarn_added", skeins=skeins, **of_lot(received.arrived[0].lot))
