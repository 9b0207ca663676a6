"""Each guard bites, whatever the program does."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

import pytest
from books import a_full_book

from stash.store.guards import APPEND_ONLY, GUARDS, KEPT, lift, missing, remake


@pytest.fixture(scope="module")
def path(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return a_full_book(tmp_path_factory.mktemp("books") / "full.stash").path


@pytest.fixture
def db(path: Path) -> Iterator[sqlite3.Connection]:
    """The file without the program: every change is forgotten."""
    with closing(sqlite3.connect(path, isolation_level=None)) as raw:
        raw.execute("BEGIN")
        yield raw
        raw.rollback()


def test_a_fresh_file_has_every_guard(db: sqlite3.Connection) -> None:
    found = {row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")}
    assert found == {*GUARDS}


@pytest.mark.parametrize("table", APPEND_ONLY)
def test_append_only_rows_are_never_updated(db: sqlite3.Connection, table: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"guard: {table} rows"):
        db.execute(f"UPDATE {table} SET rowid = rowid")


def test_the_device_of_an_entry_is_never_changed(db: sqlite3.Connection) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="guard: entry rows"):
        db.execute("UPDATE entry SET device = 'another phone' WHERE number = 1")


@pytest.mark.parametrize("table", [*APPEND_ONLY, *KEPT])
def test_rows_never_vanish(db: sqlite3.Connection, table: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match=f"guard: {table} rows"):
        db.execute(f"DELETE FROM {table}")


def move(db: sqlite3.Connection, skein: int, mg: int) -> None:
    db.execute(
        "INSERT INTO movement (entry_number, skein_number, kind, change_mg) "
        "VALUES (1, ?, 'lost', ?)",
        (skein, mg),
    )


def promise(db: sqlite3.Connection, mg: int, kind: str) -> None:
    db.execute(
        "INSERT INTO promise (entry_number, skein_number, item_number, kind, change_mg) "
        "VALUES (1, 4, 2, ?, ?)",
        (kind, mg),
    )


def held(db: sqlite3.Connection, skein: int) -> int:
    asked = "SELECT SUM(change_mg) FROM movement WHERE skein_number = ?"
    return int(db.execute(asked, (skein,)).fetchone()[0])


def test_a_skein_cannot_hold_less_than_nothing(db: sqlite3.Connection) -> None:
    move(db, 2, -held(db, 2))
    with pytest.raises(sqlite3.IntegrityError, match="less than nothing"):
        move(db, 2, -1)


def test_no_gram_is_promised_twice(db: sqlite3.Connection) -> None:
    promise(db, held(db, 4), "set aside")
    with pytest.raises(sqlite3.IntegrityError, match="promised twice"):
        promise(db, 1, "set aside")


def test_a_promise_cannot_be_less_than_nothing(db: sqlite3.Connection) -> None:
    promise(db, 10, "set aside")
    promise(db, -10, "released")
    with pytest.raises(sqlite3.IntegrityError, match="a promise cannot be less"):
        promise(db, -1, "released")


@pytest.mark.parametrize(
    ("table", "column"),
    [("skein", "tare_mg"), ("lot", "full_mg"), ("lot", "thickness_from"), ("skein", "paid_coins")],
)
def test_a_column_of_numbers_takes_no_words(
    db: sqlite3.Connection, table: str, column: str
) -> None:
    # SQLite documentation, "STRICT Tables": a value that cannot become an integer is refused
    with pytest.raises(sqlite3.IntegrityError, match="cannot store TEXT value"):
        db.execute(f"UPDATE {table} SET {column} = '12 g'")


def test_every_table_is_strict(db: sqlite3.Connection) -> None:
    lax = [row[1] for row in db.execute("PRAGMA table_list") if not row[5]]
    assert {name for name in lax if not name.startswith("sqlite_")} <= {"alembic_version"}


def test_foreign_keys_hold(path: Path) -> None:
    with closing(sqlite3.connect(path)) as raw:
        raw.execute("PRAGMA foreign_keys = ON")
        with pytest.raises(sqlite3.IntegrityError, match="FOREIGN KEY"):
            move(raw, 999, 5)


def test_a_guard_that_is_altered_or_gone_is_noticed_and_remade(tmp_path: Path) -> None:
    book = a_full_book(tmp_path / "full.stash")
    with book.file.writing() as db:
        db.exec_driver_sql("DROP TRIGGER guard_movement_update")
        db.exec_driver_sql("DROP TRIGGER guard_promise_twice")
        db.exec_driver_sql(
            "CREATE TRIGGER guard_promise_twice AFTER INSERT ON promise BEGIN SELECT 1; END"
        )
        assert missing(db) == ["guard_movement_update", "guard_promise_twice"]
        remake(db)
        assert missing(db) == []


def test_lifted_guards_are_all_away(tmp_path: Path) -> None:
    book = a_full_book(tmp_path / "full.stash")
    with book.file.writing() as db:
        lift(db)
        assert missing(db) == sorted(GUARDS)
        remake(db)


def test_an_item_is_sold_once_until_it_is_returned(db: sqlite3.Connection) -> None:
    """In the full book item 1 is sold."""

    def sale(kind: str) -> None:
        db.execute(
            "INSERT INTO sale (entry_number, item_number, kind, price_coins, fee_coins) "
            "VALUES (1, 1, ?, 100, 0)",
            (kind,),
        )

    with pytest.raises(sqlite3.IntegrityError, match="sold once"):
        sale("sold")
    sale("returned")
    with pytest.raises(sqlite3.IntegrityError, match="sold once"):
        sale("returned")
    sale("sold")
