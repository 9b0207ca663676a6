"""Sheets taken in, and the whole file as plain rows for giving out."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from sqlalchemy import Connection, MetaData, Table, func, insert, select
from sqlalchemy.exc import SQLAlchemyError

from stash.errors import BadInput
from stash.store import guards
from stash.store.skein_rows import taken_back_entries
from stash.store.tables import metadata, sheet

#: Rows by the name of their table, each by the names of its columns.
Rows = Mapping[str, Sequence[Mapping[str, Any]]]


def add_sheet(db: Connection, number: int, name: str, sha256: str, rows: int) -> None:
    """Remember a file that was taken in, by the digest of its bytes."""
    db.execute(insert(sheet).values(entry_number=number, name=name, sha256=sha256, rows=rows))


def entry_of_sheet(db: Connection, sha256: str) -> int | None:
    """The entry that took in the same bytes and was not taken back, or None."""
    found: int | None = db.execute(
        select(func.max(sheet.c.entry_number)).where(
            sheet.c.sha256 == sha256, sheet.c.entry_number.not_in(taken_back_entries)
        )
    ).scalar()
    return found


def all_rows(db: Connection) -> dict[str, list[dict[str, Any]]]:
    """Every row of every table, by table and in the order they were written."""
    return {
        table.name: [
            dict(row._mapping) for row in db.execute(select(table).order_by(*table.primary_key))
        ]
        for table in metadata.sorted_tables
    }


def each_row(db: Connection) -> Iterator[tuple[str, Mapping[str, Any]]]:
    """Every row of every table with the name of its table, one after another."""
    for table in metadata.sorted_tables:
        for row in db.execute(select(table).order_by(*table.primary_key)):
            yield table.name, dict(row._mapping)


def is_empty(db: Connection) -> bool:
    """Whether nothing was ever booked in this file."""
    return db.exec_driver_sql("SELECT 1 FROM entry LIMIT 1").first() is None


def put_all(db: Connection, rows: Rows) -> None:
    """Write rows as `all_rows` gave them into an empty file.

    Guards look at one row after another, and here all movements come before all promises; whoever
    calls sees to it that the whole adds up. Raises BadInput for rows that are no rows of ours.
    """
    db.exec_driver_sql("PRAGMA defer_foreign_keys = ON")
    guards.lift(db)
    put_rows(db, rows)
    guards.remake(db)


def put_rows(db: Connection, rows: Rows) -> None:
    """Write rows into the tables that are there, whatever the revision; raises BadInput."""
    tables = MetaData()
    tables.reflect(db)
    for name in [name for name in rows if name not in tables.tables]:
        raise BadInput("no_such_table", table=name)
    for table in tables.sorted_tables:
        try:
            _put(db, table, [dict(row) for row in rows.get(table.name, [])])
        except (SQLAlchemyError, TypeError, ValueError, OverflowError) as bad:
            why = str(bad).splitlines()[0]
            raise BadInput("table_not_taken_in", table=table.name, why=why) from bad


def _put(db: Connection, table: Table, rows: list[dict[str, Any]]) -> None:
    for name in sorted({name for row in rows for name in row} - {*table.c.keys()}):
        raise BadInput("table_lacks_column", table=table.name, column=name)
    if rows:
        db.execute(insert(table), rows)
