"""Counting a place: notes that wait, and one entry at the end."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, refuses, skein

from stash.actions import check, export, log
from stash.actions import count as count_action
from stash.actions.book import Book
from stash.actions.weigh import ScaleReading
from stash.errors import Refusal
from stash.measures.mass import grams
from stash.stock.yarn import FullFrom


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Skeins 1 (whole), 2 (60 g left) and 3 (whole) in the basket, 4 in the tin."""
    made = a_book(tmp_path)
    add(made, place="basket")
    add(made, place="basket", lot="2", left=grams(60))
    add(made, place="basket", lot="3")
    add(made, place="tin", lot="4")
    return made


ALL = count_action.Lost(all_missing=True)


def seen(count: count_action.Count) -> dict[int, bool]:
    return {line.skein.number: line.seen for line in count.lines}


def test_a_count_begins_with_what_should_be_there(book: Book) -> None:
    count = count_action.note(book, "Basket", [], {})

    assert seen(count) == {1: False, 2: False, 3: False}
    assert count.open == 3


def test_it_goes_on_where_it_was_left(book: Book) -> None:
    count_action.note(book, "basket", ["1"], {})
    count = count_action.note(book, "basket", ["3"], {})

    assert seen(count) == {1: True, 2: False, 3: True}
    assert log.log(book)[0].kind == "add", "nothing is booked before the end"


def test_the_end_is_one_entry_of_corrections(book: Book) -> None:
    before = log.log(book)[0].number
    count_action.note(
        book, "basket", ["3"], {"1": ScaleReading(grams(95)), "2": ScaleReading(grams(52))}
    )
    closed = count_action.close(book, "basket")

    assert closed.entry == before + 1
    assert (closed.right, closed.corrected, closed.not_found) == (1, (1, 2), ())
    assert skein(book, 1).held_length == skein(book, 3).held_length, "a whole one keeps its metres"
    assert skein(book, 1).pair.origin is FullFrom.MEASURED
    assert skein(book, 2).held == grams(52)
    assert check.check(book) == []


def test_what_lay_here_after_all_moves_here(book: Book) -> None:
    count_action.note(book, "basket", ["4"], {})

    assert count_action.close(book, "basket").moved_here == (4,)
    assert skein(book, 4).place == "basket"


def test_what_was_not_found_stays_on_the_books_unless_it_is_lost(book: Book) -> None:
    count_action.note(book, "basket", ["1"], {})
    assert count_action.close(book, "basket").not_found == (2, 3)
    assert skein(book, 2).held == grams(60)

    count_action.note(book, "basket", ["1"], {})
    count_action.close(book, "basket", lost=ALL)
    assert skein(book, 2).held == skein(book, 3).held == grams(0)


def test_yarn_that_is_set_aside_is_not_lost_in_passing(book: Book) -> None:
    a_design(book, A=60)
    aside(book, A=3)
    count_action.note(book, "basket", ["1", "2"], {})

    with refuses("lost_but_set_aside"):
        count_action.close(book, "basket", lost=ALL)


def test_a_reading_that_could_not_be_booked_is_refused_at_once(book: Book) -> None:
    with pytest.raises(Refusal, match="whole_skein_far_off"):
        count_action.note(book, "basket", [], {"1": ScaleReading(grams(57))})

    assert not seen(count_action.note(book, "basket", [], {}))[1]


def test_a_count_that_is_dropped_is_forgotten(book: Book) -> None:
    count_action.note(book, "basket", ["1"], {})
    count_action.drop(book, "basket")

    assert count_action.note(book, "basket", [], {}).open == 3


def test_a_place_with_nothing_in_it_is_answered_with_the_nearest(book: Book) -> None:
    with refuses("yarn_in_place", nearest=("basket",)):
        count_action.note(book, "baskte", [], {})


def test_a_count_taken_back_is_under_way_again(book: Book) -> None:
    before = export.skeins(book)
    count_action.note(book, "basket", ["1", "4"], {"2": ScaleReading(grams(52))})
    count_action.close(book, "basket")
    log.undo(book)

    assert export.skeins(book) == before
    assert seen(count_action.note(book, "basket", [], {})) == {1: True, 2: True, 3: False, 4: True}


def test_a_count_in_which_nothing_was_seen_writes_nothing_off(book: Book) -> None:
    count_action.note(book, "basket", [], {})

    with refuses("nothing_ticked", place="basket"):
        count_action.close(book, "basket", lost=ALL)

    assert skein(book, 1).held == grams(100)


def test_only_what_is_named_and_was_not_seen_is_lost(book: Book) -> None:
    count_action.note(book, "basket", ["1"], {})
    with refuses("skein_missing", nearest=("2", "3")):
        count_action.close(book, "basket", lost=count_action.Lost((1,)))

    closed = count_action.close(book, "basket", lost=count_action.Lost((2, 2)))

    assert (closed.not_found, closed.lost) == ((2, 3), (2,))
    assert (skein(book, 2).held, skein(book, 3).held) == (grams(0), grams(100))
