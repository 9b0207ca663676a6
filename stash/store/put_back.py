"""A stash file put back to what a proved copy holds: every row, in one unit of work."""

from __future__ import annotations

from collections.abc import Callable

from sqlalchemy import Connection

from stash.store import guards
from stash.store.engine import StashFile
from stash.store.exchange_rows import all_rows, put_all
from stash.store.tables import metadata


def put_back(file: StashFile, copy: StashFile, first: Callable[[Connection], None]) -> None:
    """The rows of the copy in place of those of the file, both of the newest revision.

    `first` checks the present rows under the same lock: between that check and the new rows nobody
    writes. Row by row, because SQLite's own backup takes its lock anew, so that an entry booked in
    between was lost, and waits for ever while another program reads.
    """
    with copy.reading() as db:
        rows, numbers = all_rows(db), _numbers(db)
    with file.remaking() as db:
        first(db)
        guards.lift(db)
        for table in reversed(metadata.sorted_tables):
            db.execute(table.delete())
        put_all(db, rows)
        db.exec_driver_sql("DELETE FROM sqlite_sequence")
        if numbers:
            db.exec_driver_sql("INSERT INTO sqlite_sequence (name, seq) VALUES (?, ?)", numbers)


def _numbers(db: Connection) -> list[tuple[str, int]]:
    """The last number each table gave, which is never given again."""
    return [(r[0], r[1]) for r in db.exec_driver_sql("SELECT name, seq FROM sqlite_sequence")]
