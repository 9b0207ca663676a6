"""A safety copy, and the file put back to it."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_full_book, add, rows

from stash.actions import check, safety
from stash.actions.book import Book, open_book
from stash.errors import FileTrouble, NotAStash, Refusal


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_full_book(tmp_path / "shelf.stash")


def test_a_copy_holds_every_row(book: Book, tmp_path: Path) -> None:
    newest = safety.backup(book, tmp_path / "safe.stash")

    assert rows(open_book(tmp_path / "safe.stash")) == rows(book)
    assert newest is not None
    assert newest.number == 10


def test_a_copy_is_made_while_somebody_writes(book: Book, tmp_path: Path) -> None:
    before = rows(book)
    with book.entry("add") as pen:
        pen.words = "under way"
        safety.backup(book, tmp_path / "safe.stash")

    assert rows(open_book(tmp_path / "safe.stash")) == before


def test_a_copy_never_goes_over_a_file(book: Book, tmp_path: Path) -> None:
    (tmp_path / "safe.stash").write_text("dear")
    with pytest.raises(FileTrouble, match="already"):
        safety.backup(book, tmp_path / "safe.stash")


def test_later_work_is_not_lost_without_a_word(book: Book, tmp_path: Path) -> None:
    safety.backup(book, tmp_path / "safe.stash")
    add(book)
    before = rows(book)

    with pytest.raises(Refusal, match=r"1 of them.*--over"):
        safety.restore(book.path, tmp_path / "safe.stash")
    assert rows(book) == before


def test_going_back_gives_the_same_rows_and_keeps_what_was_there(
    book: Book, tmp_path: Path
) -> None:
    safety.backup(book, tmp_path / "safe.stash")
    then = rows(book)
    add(book)
    now = rows(book)
    done = safety.restore(book.path, tmp_path / "safe.stash", over=True)

    assert rows(book) == then, "a book that was open goes on working"
    assert check.check(book) == []
    assert done.kept is not None
    assert rows(open_book(done.kept)) == now


def test_two_ways_back_keep_two_copies(book: Book, tmp_path: Path) -> None:
    safety.backup(book, tmp_path / "safe.stash")
    kept = []
    for _ in range(2):
        add(book)
        kept.append(safety.restore(book.path, tmp_path / "safe.stash", over=True).kept)

    assert kept[0] != kept[1]
    assert all(one is not None and one.exists() for one in kept)


def test_a_lost_file_comes_back(book: Book, tmp_path: Path) -> None:
    safety.backup(book, tmp_path / "safe.stash")
    then = rows(book)
    book.path.unlink()
    done = safety.restore(book.path, tmp_path / "safe.stash")

    assert rows(open_book(book.path)) == then
    assert done.kept is None


@pytest.mark.parametrize("there", [True, False])
def test_what_is_no_copy_is_refused(book: Book, tmp_path: Path, there: bool) -> None:
    if there:
        (tmp_path / "odd.stash").write_text("a letter to a friend, and no stash at all " * 20)
    before = rows(book)
    with pytest.raises(NotAStash if there else FileTrouble):
        safety.restore(book.path, tmp_path / "odd.stash")
    assert rows(book) == before


def test_an_older_copy_is_brought_up_to_date(tmp_path: Path) -> None:
    import sqlite3
    from contextlib import closing

    dump = Path(__file__).parents[2] / "fixtures" / "schemas" / "0001.sql"
    with closing(sqlite3.connect(tmp_path / "old.stash")) as db:
        db.executescript(dump.read_text("utf-8"))
    present = a_book(tmp_path)
    safety.restore(present.path, tmp_path / "old.stash")

    assert check.check(open_book(present.path)) == []
    assert add(open_book(present.path)) == 5
