"""At the scale: the balls that are worked from, one by one, and all their readings as one entry."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.her_settings import Settings
from stash.actions.weigh import ScaleReading, Weighing, booked_note, weigh_within
from stash.measures.mass import NO_MASS
from stash.measures.note import Note
from stash.stock.holding import HeldSkein
from stash.stock.item import Item, ItemState
from stash.stock.promise import Promised
from stash.stock.weighing import WeighingOutcome
from stash.stock.yarn import Lot
from stash.store import item_rows, skein_rows
from stash.store.engine import Connection


@dataclass(frozen=True, slots=True)
class WorkedFrom:
    """A ball that a begun item is worked from, and for which of its colours."""

    item: Item
    role: str
    skein: HeldSkein
    lot: Lot


@dataclass(frozen=True, slots=True)
class Walk:
    """The balls to put on the scale, by item and colour, and her settings."""

    balls: tuple[WorkedFrom, ...]
    settings: Settings


def balls_to_weigh(book: Book, item: str = "") -> Walk:
    """The part balls set aside for begun items, or for one of them.

    Of a colour that has no part ball yet it is the skein that is taken first.
    """
    with book.reading() as db:
        settings = Settings.read(db)
        named = [find.item(db, item)] if item else item_rows.items(db)
        begun = [one for one in named if one.state is ItemState.BEGUN]
        balls = tuple(ball for one in begun for ball in _of_item(db, one))
    return Walk(balls, settings)


def _of_item(db: Connection, item: Item) -> list[WorkedFrom]:
    promised = sorted(item_rows.promises(db, items=[item.number]), key=lambda p: (p.role, p.since))
    held = skein_rows.held_skeins(db, [p.skein for p in promised])
    skeins = {s.number: s for s in held if s.held > NO_MASS}
    lots = skein_rows.lots(db, sorted({s.lot_id for s in skeins.values()}))
    chosen = dict.fromkeys(
        (p.role, number) for p in promised for number in _worked_from(p, promised, skeins)
    )
    return [
        WorkedFrom(item, role, skeins[number], lots[skeins[number].lot_id])
        for role, number in chosen
    ]


def _worked_from(
    of: Promised, promised: Sequence[Promised], skeins: Mapping[int, HeldSkein]
) -> list[int]:
    """The opened skeins of a colour of the item, else the first of them."""
    same = [p.skein for p in promised if p.role == of.role and p.skein in skeins]
    return [number for number in same if skeins[number].opened] or same[:1]


#: What the scale showed of skeins, by number.
Readings = Mapping[int, ScaleReading]


def try_readings(book: Book, readings: Readings, on: date | None = None) -> None:
    """Raise what would stop these readings from being written; nothing is written."""
    with book.trying("weigh", on) as writer:
        _weigh(writer, readings)


def weigh_all(book: Book, readings: Readings, on: date | None = None) -> list[Weighing]:
    """All these readings in one entry."""
    with book.entry("weigh", on) as writer:
        weighed = _weigh(writer, readings)
        (first, outcome, item), *more = weighed
        writer.what = booked_note(first, outcome, item)
        if more:
            writer.what = Note("skeins_weighed", numbers=tuple(s.number for s, _, _ in weighed))
        after = {number: writer.skein(number) for number in readings}
    return [
        Weighing(
            entry=writer.number,
            before=before,
            after=after[before.number],
            outcome=outcome,
            item=item,
            said=None,
            shorts=writer.shorts,
            settings=writer.settings,
        )
        for before, outcome, item in weighed
    ]


def _weigh(
    writer: EntryWriter, readings: Readings
) -> list[tuple[HeldSkein, WeighingOutcome, Item | None]]:
    found = []
    for number, asked in readings.items():
        before = writer.skein(number)
        whom = find.item(writer.db, asked.item) if asked.item else None
        found.append((before, *weigh_within(writer, before, asked, whom)))
    return found
