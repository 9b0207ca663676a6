"""What `check` finds in a file that somebody else has been at."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest
from books import a_full_book

from stash.actions.book import Book
from stash.actions.check import check
from stash.store.guards import GUARDS


def spoil(book: Book, *statements: str) -> list[str]:
    """What is found after these statements, guards left as they were."""
    with closing(sqlite3.connect(book.path)) as db:
        for name in GUARDS:
            db.execute(f"DROP TRIGGER {name}")
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

    assert any("skein 2 held" in line and "less than nothing" in line for line in found)


def test_a_lost_reference_is_found(book: Book) -> None:
    found = spoil(book, "DELETE FROM yarn WHERE id = 2")

    assert any("refers to a row of yarn that is not there" in line for line in found)


def test_a_promise_to_a_finished_article_is_found(book: Book) -> None:
    found = spoil(book, "UPDATE promise SET article_number = 1 WHERE article_number = 2")

    assert any("is done and still has yarn set aside" in line for line in found)


def test_a_missing_guard_is_found(book: Book) -> None:
    with closing(sqlite3.connect(book.path)) as db:
        db.execute("DROP TRIGGER guard_entry_delete")
        db.commit()

    assert check(book) == [
        "guard_entry_delete is missing or altered; the rule it holds may have been broken"
    ]


def test_a_take_back_that_leaves_something_over_is_found(book: Book) -> None:
    from stash.actions import log

    log.undo(book)
    log.undo(book)
    undone = log.undo(book)[1].number
    found = spoil(
        book,
        "UPDATE movement SET change_mg = change_mg + 1 WHERE undoes IS NOT NULL",
    )

    assert any(f"takes back {undone} and leaves" in line for line in found)


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

    assert "entry 4 cannot be read" in str(found)
