"""Her settings: looked at, and put right in an entry of their own."""

from __future__ import annotations

from stash.actions.book import Book
from stash.actions.currency import learn, refuse_change
from stash.actions.method import refuse_second_choice
from stash.actions.preferences import Preferences
from stash.measures.note import Note


def settings(book: Book) -> Preferences:
    """Her present settings."""
    with book.reading() as db:
        return Preferences.read(db)


def prefer(book: Book, name: str, value: str | None, currency: str = "") -> int | None:
    """Set one setting to a value as it is kept (None: its usual one again); the entry.

    None where it is so already: nothing is booked then. `currency` is the one an amount of money
    came in, kept if the file has none.
    """
    if (settings(book).kept or {}).get(name) == value:
        return None
    with book.entry("prefer") as writer:
        if name == "valuation":
            refuse_second_choice(writer)
        if name == "currency":
            refuse_change(writer, value)
        learn(writer, currency)
        writer.set_facts("setting", name, value=value)
        writer.what = Note("setting_set", setting=name, value=value)
    return writer.number
