"""A safety copy, and the file put back to it."""

from __future__ import annotations

import sqlite3
import threading
import time
from collections.abc import Callable
from contextlib import closing, suppress
from pathlib import Path

import pytest
from books import a_book, a_full_book, add, refuses, rows

from stash.actions import backup, check, log
from stash.actions.book import Book, open_book
from stash.errors import FileTrouble, NotAStash, Refusal
from stash.store import copies, engine, put_back


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_full_book(tmp_path / "shelf.stash")


def test_a_copy_holds_every_row(book: Book, tmp_path: Path) -> None:
    newest = backup.backup(book, tmp_path / "safe.stash")

    assert rows(open_book(tmp_path / "safe.stash")) == rows(book)
    assert newest is not None
    assert newest.number == 11


def test_a_copy_is_made_while_somebody_writes(book: Book, tmp_path: Path) -> None:
    before = rows(book)
    with book.entry("add") as writer:
        writer.what = "under way"
        backup.backup(book, tmp_path / "safe.stash")

    assert rows(open_book(tmp_path / "safe.stash")) == before


def test_a_copy_never_goes_over_a_file(book: Book, tmp_path: Path) -> None:
    (tmp_path / "safe.stash").write_text("dear")
    with refuses("file_exists"):
        backup.backup(book, tmp_path / "safe.stash")


def test_later_work_is_not_lost_without_a_word(book: Book, tmp_path: Path) -> None:
    backup.backup(book, tmp_path / "safe.stash")
    add(book)
    before = rows(book)

    with refuses("entries_not_in_copy", count=1):
        backup.restore(book.path, tmp_path / "safe.stash")
    assert rows(book) == before


def test_going_back_gives_the_same_rows_and_keeps_what_was_there(
    book: Book, tmp_path: Path
) -> None:
    backup.backup(book, tmp_path / "safe.stash")
    then = rows(book)
    add(book)
    now = rows(book)
    done = backup.restore(book.path, tmp_path / "safe.stash", over=True)

    assert rows(book) == then, "a book that was open goes on working"
    assert check.check(book) == []
    assert done.kept is not None
    assert rows(open_book(done.kept)) == now


def test_two_ways_back_keep_two_copies(book: Book, tmp_path: Path) -> None:
    backup.backup(book, tmp_path / "safe.stash")
    kept = []
    for _ in range(2):
        add(book)
        kept.append(backup.restore(book.path, tmp_path / "safe.stash", over=True).kept)

    assert kept[0] != kept[1]
    assert all(one is not None and one.exists() for one in kept)


def test_a_lost_file_comes_back(book: Book, tmp_path: Path) -> None:
    backup.backup(book, tmp_path / "safe.stash")
    then = rows(book)
    book.path.unlink()
    done = backup.restore(book.path, tmp_path / "safe.stash")

    assert rows(open_book(book.path)) == then
    assert done.kept is None


@pytest.mark.parametrize("there", [True, False])
def test_what_is_no_copy_is_refused(book: Book, tmp_path: Path, there: bool) -> None:
    if there:
        (tmp_path / "odd.stash").write_text("a letter to a friend, and no stash at all " * 20)
    before = rows(book)
    with pytest.raises(NotAStash if there else FileTrouble):
        backup.restore(book.path, tmp_path / "odd.stash")
    assert rows(book) == before


def test_an_older_copy_is_brought_up_to_date(tmp_path: Path) -> None:
    dump = Path(__file__).parents[2] / "fixtures" / "schemas" / "0001.sql"
    with closing(sqlite3.connect(tmp_path / "old.stash")) as db:
        db.executescript(dump.read_text("utf-8"))
    present = a_book(tmp_path)
    backup.restore(present.path, tmp_path / "old.stash")

    assert check.check(open_book(present.path)) == []
    assert add(open_book(present.path)) == 5


def a_copy(book: Book, folder: Path) -> Path:
    backup.backup(book, folder / "safe.stash")
    return folder / "safe.stash"


def page_of(table: str) -> Callable[[Path], None]:
    """Damage: the page on which a table begins, overwritten."""

    def damage(path: Path) -> None:
        with closing(sqlite3.connect(path)) as db:
            (page,) = db.execute("SELECT rootpage FROM sqlite_master WHERE name = ?", [table])
            (size,) = db.execute("PRAGMA page_size")
        data = bytearray(path.read_bytes())
        start = (page[0] - 1) * size[0]
        data[start : start + size[0]] = b"\x7f" * size[0]
        path.write_bytes(data)

    return damage


def shorter(path: Path) -> None:
    path.write_bytes(path.read_bytes()[: path.stat().st_size // 2])


def row_by_row(statement: str) -> Callable[[Path], None]:
    """Damage: rows altered behind the guards, so that the books no longer add up."""

    def damage(path: Path) -> None:
        with closing(sqlite3.connect(path)) as db:
            for (name,) in db.execute(
                "SELECT name FROM sqlite_master WHERE type='trigger'"
            ).fetchall():
                db.execute(f"DROP TRIGGER {name}")
            db.execute(statement)
            db.commit()

    return damage


DAMAGES = {
    **{table: page_of(table) for table in ("entry", "skein", "movement", "promise", "lot", "fact")},
    "index": page_of("ix_movement_balance"),
    "half of it": shorter,
    "first page": lambda path: path.write_bytes(b"SQLite format 3\0" + path.read_bytes()[16:100]),
    "no guards": row_by_row("SELECT 1"),
    "more used than there was": row_by_row("UPDATE movement SET change_mg = -900000 WHERE id = 5"),
    "a reference to nothing": row_by_row("DELETE FROM lot WHERE id = 1"),
    "a table gone": row_by_row("DROP TABLE sale"),
    "a day that is none": row_by_row("UPDATE entry SET on_day = '2026-13-45' WHERE number = 3"),
    "a word that is none": row_by_row("UPDATE item_step SET how = 'by guess' WHERE how <> ''"),
}


@pytest.mark.parametrize("damage", DAMAGES.values(), ids=DAMAGES)
def test_a_damaged_copy_is_not_put_back(
    book: Book, tmp_path: Path, damage: Callable[[Path], None]
) -> None:
    copy = a_copy(book, tmp_path)
    damage(copy)
    before = book.path.read_bytes()

    with pytest.raises(FileTrouble):
        backup.restore(book.path, copy, over=True)

    assert book.path.read_bytes() == before
    assert sorted(p.name for p in tmp_path.iterdir()) == ["safe.stash", "shelf.stash"]


@pytest.mark.parametrize("how", ["itself", "link", "second name"])
def test_the_file_itself_is_no_copy_of_it(book: Book, tmp_path: Path, how: str) -> None:
    copy = tmp_path / "other.stash" if how != "itself" else book.path
    if how == "link":
        copy.symlink_to(book.path)
    elif how == "second name":
        copy.hardlink_to(book.path)

    with refuses("copy_is_the_file"):
        backup.restore(book.path, copy, over=True)


def test_while_another_program_reads_or_writes_it_waits_as_long_as_every_command(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = a_copy(book, tmp_path)
    before = rows(book)
    monkeypatch.setattr(engine, "BUSY_WAIT_MS", 200)
    kept: list[Path] = []
    for begin in ("BEGIN", "BEGIN IMMEDIATE", "BEGIN EXCLUSIVE"):
        with closing(sqlite3.connect(book.path, isolation_level=None)) as other:
            other.execute(begin)
            other.execute("SELECT count(*) FROM entry").fetchone()
            begun = time.monotonic()
            with refuses("busy"):
                backup.restore(book.path, copy, over=True, report=kept.append)
            assert time.monotonic() - begun < 12
        assert rows(book) == before
    assert len(kept) == 1, "a reader lets the copy be kept, and it is named"


def test_a_copy_that_is_being_written_to_is_waited_for_and_no_longer(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = a_copy(book, tmp_path)
    monkeypatch.setattr(copies, "BUSY_WAIT_MS", 200)
    monkeypatch.setattr(engine, "BUSY_WAIT_MS", 200)
    with closing(sqlite3.connect(copy, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with refuses("busy"):
            backup.restore(book.path, copy)


def test_an_entry_made_meanwhile_is_never_lost(book: Book, tmp_path: Path) -> None:
    """Somebody adds while it goes back: the entry is in the file, or in the copy that was kept."""
    copy = a_copy(book, tmp_path)
    for turn in range(12):
        other = threading.Thread(
            target=lambda lot: add(open_book(book.path), lot=lot), args=[f"M{turn}"]
        )
        other.start()
        time.sleep(0.004 * turn)
        with suppress(Refusal):
            done = backup.restore(book.path, copy, over=True)
        other.join()

        files = [book.path, *([done.kept] if done.kept else [])]
        lots = {row[6] for path in files for row in rows(open_book(path))["lot"]}
        assert f"M{turn}" in lots


def test_numbers_go_on_from_those_of_the_copy(book: Book, tmp_path: Path) -> None:
    copy = a_copy(book, tmp_path)
    add(book, count=3)
    backup.restore(book.path, copy, over=True)

    assert add(book) == 5
    assert log.log(book)[0].number == 12


def test_what_was_kept_is_named_even_if_it_breaks_off(
    book: Book, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    copy = a_copy(book, tmp_path)
    add(book)
    before = rows(book)
    kept: list[Path] = []

    def full(*_: object) -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(put_back, "put_all", full)
    with pytest.raises(KeyboardInterrupt):
        backup.restore(book.path, copy, over=True, report=kept.append)

    assert rows(book) == before
    assert rows(open_book(kept[0])) == before


@pytest.mark.parametrize("damage", ["entry", "skein", "movement", "half of it"])
def test_a_damaged_file_is_kept_as_it_is_and_the_copy_put_in_its_place(
    book: Book, tmp_path: Path, damage: str
) -> None:
    copy = a_copy(book, tmp_path)
    then = rows(book)
    DAMAGES[damage](book.path)
    broken = book.path.read_bytes()
    kept: list[Path] = []

    done = backup.restore(book.path, copy, over=True, report=kept.append)

    assert rows(open_book(book.path)) == then
    assert done.kept == kept[-1]
    assert kept[-1].read_bytes() == broken
