"""Winding off: part of a skein becomes a skein of its own."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, g, m, refuses, rows, skein

from stash.actions import check, export, log, split, use
from stash.actions.book import Book
from stash.errors import NotEnoughYarn
from stash.measures.mass import grams
from stash.measures.money import Money
from stash.stock.holding import SkeinState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    made = a_book(tmp_path)
    add(made, paid=Money(1000), place="basket")
    return made


def test_both_parts_add_up_to_the_skein(book: Book) -> None:
    done = split.split(book, "1", g(40), place="tin")

    assert (done.parent.held, done.made.held) == (grams(60), grams(40))
    assert (done.parent.state, done.made.state) == (SkeinState.OPENED, SkeinState.OPENED)
    assert (done.parent.place, done.made.place) == ("basket", "tin")
    assert done.made.lot_id == done.parent.lot_id
    assert check.check(book) == []


def test_a_length_is_wound_off_by_the_pair(book: Book) -> None:
    assert split.split(book, "1", m(50)).made.held == grams(25)


def test_what_was_paid_is_shared_to_the_last_coin(book: Book) -> None:
    split.split(book, "1", g(33))

    paid = [facts[3] for facts in export.skeins(book)[0]]
    assert paid == [Money(670), Money(330)]


def test_what_was_paid_for_yarn_used_before_stays_where_it_was_used(book: Book) -> None:
    """33 g of the 100 g it came with are worth 330 of 1000 coins, whatever was used meanwhile."""
    use.use(book, "1", g(60))
    split.split(book, "1", g(33))

    assert [skein(book, number).paid for number in (1, 2)] == [Money(670), Money(330)]
    assert [facts[3] for facts in export.skeins(book)[0]] == [Money(70), Money(330)]  # as held


def test_the_new_part_knows_its_parent(book: Book) -> None:
    split.split(book, "1", g(40))

    columns = [row for row in rows(book)["skein"] if row[0] == 2]
    assert columns[0][-2] == 1


def test_a_promise_stays_with_the_skein_it_was_made_of(book: Book) -> None:
    a_design(book, A=100)
    aside(book, A=1)
    free = skein(book, 1).free

    with pytest.raises(NotEnoughYarn):
        split.split(book, "1", g(60))
    assert split.split(book, "1", g(int(free.g))).parent.short == grams(0)


def test_all_of_a_skein_is_not_wound_off(book: Book) -> None:
    with refuses("all_of_skein", skein=1):
        split.split(book, "1", g(100))


def test_winding_off_is_taken_back_whole(book: Book) -> None:
    before = export.skeins(book)
    split.split(book, "1", g(40))
    log.undo(book)

    assert export.skeins(book) == before
    assert add(book) == 3
