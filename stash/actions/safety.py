"""A safety copy of the whole file, and the file put back to one."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from stash.actions.book import Book, open_book
from stash.errors import FileTrouble, Refusal
from stash.stock.entry import Entry
from stash.store import copies, entry_rows
from stash.store.engine import revision_of


@dataclass(frozen=True, slots=True)
class Restored:
    """A file put back: the newest entry it has now, and the copy of what it was before."""

    newest: Entry | None
    kept: Path | None


def backup(book: Book, target: Path) -> Entry | None:
    """One whole copy of the file, made while it may be in use; its newest entry comes back."""
    copies.copy_to(book.path, target)
    return _newest(open_book(target))


def restore(path: Path, source: Path, *, over: bool = False) -> Restored:
    """Put the file back to a copy of it.

    Refused where the file holds entries that the copy does not have, unless `over`. What the file
    was before is kept beside it. The copy is written into the file rather than put in its place, so
    that another program that has it open goes on working with what is there now.
    """
    if revision_of(source) is None:
        raise FileTrouble(source, "there is no copy there")
    kept = None
    if revision_of(path) is not None:
        kept = _keep_present(path, source, over)
    copies.put_back(source, path)
    return Restored(_newest(open_book(path)), kept)


def _keep_present(path: Path, source: Path, over: bool) -> Path:
    present = _entries(open_book(path))
    known = copies.entries_in(source)
    later = [entry for entry in present if (entry.number, entry.at_utc) not in known]
    if later and not over:
        first, last = later[-1], later[0]
        raise Refusal(
            f"{path.name} holds entries that the copy does not have, {len(later)} of them from "
            f"{first.number} to {last.number} (newest: {last.words}); "
            "say --over to go back all the same, a copy of what is there now is kept beside it"
        )
    return copies.copy_beside(path, f"before-restore-{copies.next_number(path, 'restore')}")


def _entries(book: Book) -> list[Entry]:
    with book.reading() as db:
        return entry_rows.entries(db)


def _newest(book: Book) -> Entry | None:
    with book.reading() as db:
        found = entry_rows.entries(db, newest=1)
    return found[0] if found else None
