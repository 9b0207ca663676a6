"""The whole file given out and taken in again."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from books import a_book, a_full_book, add, refuses, rows

from stash.actions import check, export, log
from stash.actions.book import Book
from stash.errors import BadInput, FileTrouble
from stash.measures.note import Note
from stash.store import exchange_rows, guards
from stash.store.engine import HEAD


@pytest.fixture
def whole(tmp_path: Path) -> dict[str, Any]:
    """What a full book gives out, by way of JSON."""
    (tmp_path / "first").mkdir()
    given = export.whole_file(a_full_book(tmp_path / "first" / "full.stash"))
    again: dict[str, Any] = json.loads(json.dumps(given))
    return again


@pytest.fixture
def empty(tmp_path: Path) -> Book:
    return a_book(tmp_path)


def test_every_row_comes_back(tmp_path: Path, whole: dict[str, Any], empty: Book) -> None:
    from stash.actions.book import open_book

    export.take_in_whole(empty, whole)

    first = open_book(tmp_path / "first" / "full.stash")
    assert {n: sorted(r, key=str) for n, r in rows(empty).items()} == {
        n: sorted(r, key=str) for n, r in rows(first).items()
    }
    assert check.check(empty) == []
    with empty.reading() as db:
        assert guards.missing(db) == []


def test_work_goes_on_where_it_was(whole: dict[str, Any], empty: Book) -> None:
    count = export.take_in_whole(empty, whole)

    assert add(empty) == 5
    assert log.log(empty)[0].number == count + 1


def test_entries_with_facts_and_with_words_of_their_own_both_come_back(
    whole: dict[str, Any], empty: Book
) -> None:
    whole["tables"]["entry"][1].update(facts=None, words="design 'hat'")
    export.take_in_whole(empty, whole)

    begun, kept = log.log(empty, None)[-5], log.log(empty, None)[-2]
    assert begun.what == Note("item_begun", item=1, name="hat")
    assert kept.what == "design 'hat'"
    with empty.reading() as db:
        again = exchange_rows.all_rows(db)
    assert again["entry"] == whole["tables"]["entry"]


def test_only_an_empty_file_takes_a_whole_one(whole: dict[str, Any], empty: Book) -> None:
    add(empty)

    with refuses("file_has_entries"):
        export.take_in_whole(empty, whole)


@pytest.mark.parametrize("given", [{}, {"revision": "9999", "tables": {}}, {"revision": HEAD}])
def test_another_file_is_refused(given: dict[str, Any]) -> None:
    with pytest.raises(FileTrouble):
        export.refuse_if_not_ours("whole.json", given)


def spoilt(whole: dict[str, Any], table: str, **columns: object) -> dict[str, Any]:
    whole["tables"][table][-1].update(columns)
    return whole


@pytest.mark.parametrize(
    ("table", "columns"),
    [
        ("movement", {"change_mg": -(10**9)}),
        ("movement", {"change_mg": "12 g"}),
        ("movement", {"skein_number": 99}),
        ("movement", {"weather": "rain"}),
        ("promise", {"item_number": 1}),
        ("lot", {"lot_state": "perhaps"}),
        ("entry", {"facts": '{"kind": "rained"}'}),
        ("skein", {"number": 1}),
        ("setting", {"name": None}),
    ],
)
def test_books_that_do_not_add_up_are_not_taken_in(
    whole: dict[str, Any], empty: Book, table: str, columns: dict[str, object]
) -> None:
    before = rows(empty)

    with pytest.raises(BadInput):
        export.take_in_whole(empty, spoilt(whole, table, **columns))

    assert rows(empty) == before
    assert add(empty) == 1


@pytest.mark.parametrize("tables", [{"entry": 5}, {"entry": [5]}, {"entry": [{}]}])
def test_rows_that_are_none_are_not_taken_in(empty: Book, tables: dict[str, Any]) -> None:
    with pytest.raises(BadInput):
        export.take_in_whole(empty, {"revision": HEAD, "tables": tables})
