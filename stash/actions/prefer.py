"""Her settings: looked at, and put right in an entry of their own."""

from __future__ import annotations

from stash.actions.book import Book
from stash.actions.preferences import Preferences


def settings(book: Book) -> Preferences:
    """Her settings as they stand."""
    with book.reading() as db:
        return Preferences.read(db)


def prefer(book: Book, name: str, value: str | None) -> tuple[int, bool]:
    """Set one setting to a value as it is kept (None: its usual one again); the entry.

    The second part says whether anything changed.
    """
    with book.entry("prefer") as pen:
        changed = bool(pen.set_facts("setting", name, value=value))
        pen.words = f"{name} is {value if value is not None else 'as usual'} from now on"
    return pen.number, changed
