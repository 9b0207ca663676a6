"""What `check` finds in a file that somebody else has been at."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from books import a_full_book

from stash.actions.book import Book
from stash.actions.check import check
from stash.measures.note import Note
from stash.store.guards import GUARDS


def spoil(book: Book, *statements: str, checks: bool = True) -> list[Note]:
    """What is found after these statements, guards left as they were; or with no CHECK heeded."""
    with closing(sqlite3.connect(book.path)) as db:
        db.execute(f"PRAGMA ignore_check_constraints = {not checks}")
        for name in GUARDS:
            db.execute(f"DROP TRIGGER IF EXISTS {name}")
        for statement in statements:
            db.execute(statement)
        for guard in GUARDS.values():
            db.execute(guard)
        db.commit()
    return check(book)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    return a_full_book(tmp_path / "full.stash")


def test_a_sound_file_has_no_findings(book: Book) -> None:
    assert check(book) == []


def test_a_skein_below_nothing_is_found(book: Book) -> None:
    found = spoil(book, "UPDATE movement SET change_mg = 1 WHERE kind = 'arrived' AND id = 2")

    assert ("skein_was_below_nothing", 2) in {(n.kind, n.facts.get("skein")) for n in found}


def test_a_lost_reference_is_found(book: Book) -> None:
    found = spoil(book, "DELETE FROM yarn WHERE id = 2")

    assert ("reference_lost", "yarn") in {(n.kind, n.facts.get("parent")) for n in found}


def test_a_promise_to_a_finished_item_is_found(book: Book) -> None:
    found = spoil(book, "UPDATE promise SET item_number = 1 WHERE item_number = 2")

    assert "promise_to_closed_item" in {note.kind for note in found}


def test_a_missing_guard_is_found(book: Book) -> None:
    with closing(sqlite3.connect(book.path)) as db:
        db.execute("DROP TRIGGER guard_entry_delete")
        db.commit()

    assert check(book) == [Note("guard_missing", guard="guard_entry_delete")]


def test_a_take_back_that_leaves_something_over_is_found(book: Book) -> None:
    from stash.actions import log

    log.undo(book)
    log.undo(book)
    undone = log.undo(book)[1].number
    found = spoil(
        book,
        "UPDATE movement SET change_mg = change_mg + 1 WHERE undoes IS NOT NULL",
    )

    assert ("take_back_unbalanced", undone) in {(n.kind, n.facts.get("wrong")) for n in found}


@pytest.mark.parametrize(
    "facts",
    [
        "{}",
        '{"kind": "rained"}',
        '{"kind": "item_begun", "item": "1", "name": "hat"}',
        '{"kind": "skein_gone", "mass_mg": 9999999999999999, "skein": 2, "why": "lost"}',
    ],
)
def test_facts_of_an_entry_that_no_entry_keeps_are_found(book: Book, facts: str) -> None:
    (found,) = spoil(book, f"UPDATE entry SET facts = '{facts}' WHERE number = 4")

    assert (found.kind, found.facts["table"], found.facts["key"]) == ("row_unreadable", "entry", 4)


@pytest.mark.parametrize(
    "wrong",
    ["by_day = 'Friday'", "colours = 'blue'", "colours = '[1]'", "count = 9999999999999999"],
)
def test_an_order_that_cannot_be_read_is_found(book: Book, wrong: str) -> None:
    (found,) = spoil(book, f"UPDATE item_order SET {wrong}")

    assert (found.kind, found.facts["table"]) == ("row_unreadable", "item_order")


@pytest.mark.parametrize("wrong", ["dyed = 'by hand'", "surface = 'furry'"])
def test_a_look_that_is_none_is_refused_by_the_file_and_found(book: Book, wrong: str) -> None:
    with pytest.raises(sqlite3.IntegrityError, match="_known"):
        spoil(book, f"UPDATE lot SET {wrong} WHERE id = 1")

    found = spoil(book, f"UPDATE lot SET {wrong} WHERE id = 1", checks=False)
    assert ("row_unreadable", "lot", 1) in {
        (one.kind, one.facts.get("table"), one.facts.get("key")) for one in found
    }
