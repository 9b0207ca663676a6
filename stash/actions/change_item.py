"""Facts of items put right: what is noted of them, the price asked, the hours."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from stash.actions import find
from stash.actions.book import Book, EntryWriter
from stash.actions.currency import learn
from stash.actions.order import ForOrder, give_to_order
from stash.actions.several import in_turn
from stash.errors import Refusal
from stash.measures.money import Money
from stash.measures.note import Note
from stash.measures.written import show_minutes, show_money
from stash.stock.item import Item, ItemState


@dataclass(frozen=True, slots=True)
class ItemChanges:
    """What is to be put right; None leaves a fact as it is, "" clears a note.

    `minutes` is what a finished item took, or what an open one is planned to take. `currency` is
    the one `asked` came in.
    """

    note: str | None = None
    asked: Money | None = None
    minutes: int | None = None
    order: ForOrder | None = None
    currency: str = ""


@dataclass(frozen=True, slots=True)
class ItemsChanged:
    """What was put right of which items."""

    entry: int
    items: tuple[Item, ...]
    done: tuple[Note, ...]


def change_items(
    book: Book, items: Sequence[str], changes: ItemChanges, *, on: date | None = None
) -> ItemsChanged:
    """Put facts right of items, all in one entry. Refused where all of it is so already."""
    with book.entry("change", on) as writer:
        learn(writer, changes.currency)
        booked = in_turn(book, items, lambda item: _change(writer, item, changes))
        done = tuple(dict.fromkeys(note for _, notes in booked for note in notes))
        numbers = tuple(item.number for item, _ in booked)
        if not done:
            raise Refusal("items_so_already", items=numbers)
        writer.what = Note("items_changed", numbers=numbers, done=done)
    return ItemsChanged(writer.number, tuple(item for item, _ in booked), done)


def _change(writer: EntryWriter, typed: str, changes: ItemChanges) -> tuple[Item, list[Note]]:
    item = find.item(writer.db, typed)
    hours = "made_minutes" if item.state is ItemState.DONE else "asked_minutes"
    given: dict[str, str | None] = {}
    said: dict[str, tuple[str, str]] = {}
    if changes.note is not None:
        given["note"], said["note"] = changes.note, ("note", changes.note)
    if changes.asked is not None:
        currency = writer.settings.currency or changes.currency
        given["asked_coins"] = str(changes.asked.coins)
        said["asked_coins"] = "asked", show_money(changes.asked, currency)
    if changes.minutes is not None:
        given[hours] = str(changes.minutes)
        said[hours] = "hours", show_minutes(changes.minutes)
    names = writer.set_facts("item", item.number, **given) if given else []
    notes = [Note("fact_now", fact=said[n][0], value=said[n][1] or None) for n in names]
    if changes.order is not None:
        notes.append(_ordered(give_to_order(writer, item, changes.order)))
    return item, notes


def _ordered(given: Note) -> Note:
    order, who = given.facts["order"], given.facts["who"]
    return Note("fact_now", fact="order", value=None if order is None else f"{order} ({who})")
