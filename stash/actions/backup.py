"""A safety copy of the whole file, and the file put back to one."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Collection
from dataclasses import dataclass
from pathlib import Path

from stash.actions.book import Book, open_book
from stash.actions.check import check
from stash.errors import Damaged, FileTrouble, Refusal, StashError
from stash.stock.entry import Entry
from stash.store import copies, entry_rows
from stash.store.engine import Connection, revision_of
from stash.store.files import write_with
from stash.store.put_back import put_back
from stash.store.upgrade import begun_for

#: Hears where a copy of what was there is kept.
Tell = Callable[[Path], None]


@dataclass(frozen=True, slots=True)
class Restored:
    """A file put back: the newest entry it has now, and the copy of what it was before."""

    newest: Entry | None
    kept: Path | None


def backup(book: Book, target: Path) -> Entry | None:
    """One whole copy of the file, made while it may be in use; its newest entry comes back."""
    copies.copy_to(book.path, target)
    return _newest(open_book(target))


def restore(
    path: Path, source: Path, *, over: bool = False, tell: Tell = lambda _: None
) -> Restored:
    """Put the file back to a copy of it, which is proved sound first.

    Refused where the file holds entries that the copy does not have, unless `over`. What the file
    was before is kept beside it, and `tell` hears where as soon as it is. Its rows are written into
    the file rather than a file in its place, so that another program that has it open goes on
    working with what is there now; only a file too damaged for that is replaced.
    """
    if revision_of(source) is None:
        raise FileTrouble(source, "there is no copy there")
    if path.exists() and path.samefile(source):
        raise FileTrouble(source, "is the file itself, not a copy of it; name a copy")
    with tempfile.TemporaryDirectory(prefix="stash-") as folder:
        proved = Path(folder) / "copy.stash"
        copies.snapshot(source, proved)
        copy = _proved(proved, source)
        kept = _put_back(path, copy, over, tell)
    return Restored(_newest(open_book(path)), kept)


def _proved(proved: Path, source: Path) -> Book:
    """The copy, brought up to date; refused if it is damaged or its books do not add up."""
    try:
        copy = open_book(proved)
        found = check(copy)
    except StashError as trouble:
        found = [str(trouble).removeprefix(f"{proved}: ")]
    except Exception as trouble:  # a damaged page may hold anything
        found = [str(trouble).splitlines()[0]]
    if found:
        raise FileTrouble(source, f"the copy is damaged, nothing was put back ({found[0]})")
    return copy


def _put_back(path: Path, copy: Book, over: bool, tell: Tell) -> Path | None:
    """The file with the rows of the copy; where what it was before is kept, if it was anything."""
    was_there = path.exists() and path.stat().st_size > 0
    kept: list[Path] = []
    known = _known(copy)

    def first(db: Connection) -> None:
        if was_there:
            _refuse_later(path, db, known, over)
            kept.append(_keep(path))
            tell(kept[0])

    try:
        with begun_for(path) as file:
            put_back(file, copy.file, first)
    except Damaged:
        kept.append(_replace(path, copy.path, over))
        tell(kept[-1])
    return kept[-1] if kept else None


def _known(copy: Book) -> set[tuple[int, str]]:
    """The number and the instant of every entry of the copy."""
    with copy.reading() as db:
        return {(entry.number, entry.at_utc) for entry in entry_rows.entries(db)}


def _refuse_later(
    path: Path, db: Connection, known: Collection[tuple[int, str]], over: bool
) -> None:
    present = entry_rows.entries(db)
    later = [entry for entry in present if (entry.number, entry.at_utc) not in known]
    if later and not over:
        ends = {"first": later[-1], "newest": later[0]}
        raise Refusal("entries_not_in_copy", file=path.name, count=len(later), **ends)


def _keep(path: Path) -> Path:
    return copies.copy_beside(path, f"before-restore-{copies.next_number(path, 'restore')}")


def _replace(path: Path, copy: Path, over: bool) -> Path:
    """A file that SQLite cannot read, kept byte by byte, and the copy in its place."""
    if not over:
        raise Refusal(
            f"{path.name} is damaged, so its entries cannot be compared with the copy's; "
            "say --over to go back all the same, what is there now is kept beside it"
        )
    number = copies.next_number(path, "restore")
    kept = path.with_name(f"{path.stem}.before-restore-{number}{path.suffix}")
    write_with(kept, lambda beside: beside.write_bytes(path.read_bytes()), over=False)
    copies.replace_with(path, copy)
    return kept


def _newest(book: Book) -> Entry | None:
    with book.reading() as db:
        found = entry_rows.entries(db, newest=1)
    return found[0] if found else None
