"""What a statement may name is limited; what a sheet may bring is not."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest
from books import a_book, a_line
from sqlalchemy import event

from stash.actions import add, check, count, log, use
from stash.actions.book import Book
from stash.measures.mass import grams

#: More than the columns of any table, fewer than the skeins of the sheet. SQLite's own limit is
#: 32,766 (sqlite.org/limits.html, "Maximum Number Of Host Parameters").
LIMIT = 60


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A book whose file takes few values in a statement, and 200 skeins in it by one entry."""
    made = a_book(tmp_path)

    @event.listens_for(made.file.engine, "connect")
    def _limit(db: sqlite3.Connection, _: object) -> None:
        db.setlimit(sqlite3.SQLITE_LIMIT_VARIABLE_NUMBER, LIMIT)

    add.receive(made, [a_line(count=200, place="attic")])
    return made


def test_many_skeins_are_taken_back(book: Book) -> None:
    log.undo(book)

    assert check.check(book) == []
    with book.reading() as db:
        moved = "SELECT count(*), sum(change_mg) FROM movement"
        assert db.exec_driver_sql(moved).one() == (400, 0)


def test_many_skeins_are_lost_and_found_again(book: Book) -> None:
    count.note(book, "attic", ["1"], {})
    assert len(count.close(book, "attic", lost=count.Lost(all_missing=True)).not_found) == 199

    log.undo(book)
    assert use.use(book, "200", use.Amount("5g", grams(5))).skein.held == grams(95)


def test_many_numbers_are_asked_for(book: Book) -> None:
    lines = [a_line(number=number, record=number, lot="") for number in range(300, 500)]

    assert add.receive(book, lines).skeins == 200
