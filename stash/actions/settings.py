"""Her settings: looked at, and put right in an entry of their own."""

from __future__ import annotations

from collections.abc import Mapping

from stash.actions.book import Book
from stash.actions.currency import learn, refuse_change
from stash.actions.her_settings import SYSTEMS, UNITS, Settings
from stash.actions.method import refuse_second_choice
from stash.measures.note import Note


def read_settings(book: Book) -> Settings:
    """Her present settings."""
    with book.reading() as db:
        return Settings.read(db)


def change_setting(book: Book, name: str, value: str | None, currency: str = "") -> int | None:
    """Set one setting to a value as it is kept (None: its usual one again); the entry.

    None where it is so already: nothing is booked then. `currency` is the one an amount of money
    came in, kept if the file has none.
    """
    kept = read_settings(book).kept or {}
    values = _values(name, value)
    if all(kept.get(one) == new for one, new in values.items()):
        return None
    with book.entry("settings") as writer:
        if name == "valuation":
            refuse_second_choice(writer)
        if name == "currency":
            refuse_change(writer, value)
        learn(writer, currency)
        for one, new in values.items():
            writer.set_facts("setting", one, value=new)
        writer.what = Note("setting_set", setting=name, value=value)
    return writer.number


def _values(name: str, value: str | None) -> Mapping[str, str | None]:
    """What is set by it: all units by a system of them, else the setting alone."""
    if name != "units":
        return {name: value}
    return dict.fromkeys(UNITS) if value is None else dict(SYSTEMS[value])
