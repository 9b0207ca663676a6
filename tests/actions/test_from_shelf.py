"""What the whole shelf can become, re-done with the books themselves."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, add

from stash.actions import add as add_action
from stash.actions import aside
from stash.actions import shelf as shelf_action
from stash.actions.book import Book
from stash.actions.ideas import FromShelf, from_shelf
from stash.actions.match import NeedAsked, propose
from stash.actions.release import release
from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.stock.yarn import LotState


def ask(book: Book) -> FromShelf:
    return from_shelf(book, lambda name: None)


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Navy, a part ball of cream, and two lone skeins; a skein is 100 g / 200 m."""
    book = a_book(tmp_path)
    add(book, count=3)
    add(book, colour="cream", lot="2", left=grams(60))
    add(book, colour="rust", lot="3")
    add(book, colour="grey", lot="", lot_state=LotState.UNKNOWN)
    a_design(book, "hat", A=100, B=20)
    a_design(book, "cowl", A=230)
    a_design(book, "shawl", A=900)
    return book


def test_a_design_said_possible_can_be_set_aside_so_often_and_no_more(book: Book) -> None:
    for one in ask(book).found.designs:
        name = one.question.name
        for _ in range(one.in_a_row):
            aside.aside(book, name, "1")
        with pytest.raises(Refusal):
            aside.aside(book, name, "1")
        for item in _open(book):
            release(book, [str(item)])


def _open(book: Book) -> list[int]:
    return sorted({line.item.number for line in shelf_action.set_aside(book).lines})


def test_the_best_set_is_the_first_that_match_gives(book: Book) -> None:
    for one in ask(book).found.designs:
        found = propose(book, NeedAsked(design=one.question.name)).match.proposals
        assert (one.best and one.best.key) == (found[0].key if found else None)


def test_a_lone_skein_with_one_more_fills_what_it_was_said_to_fill(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, colour="rust", lot="3")
    a_design(book, "cowl", A=230)

    (one,) = ask(book).found.one_more
    assert [becomes.name for becomes in one.designs] == ["cowl"]
    assert not propose(book, NeedAsked(design="cowl")).match.proposals

    more = a_line(colour="rust", lot="3", full_mass=one.put_up.mass, full_length=metres(200))
    add_action.receive(book, [more])

    (found,) = propose(book, NeedAsked(design="cowl")).match.proposals
    assert found.key == one.lot.lot.ref
    assert ask(book).found.one_more == ()


def test_a_shelf_without_designs_says_nothing(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book)

    answered = ask(book)
    assert (answered.lots, answered.found.designs, answered.found.one_more) == (1, (), ())
