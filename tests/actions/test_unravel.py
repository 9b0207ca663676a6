"""An item comes apart and its yarn goes back to the shelf."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, g, promises, refuses, skein

from stash.actions import check, designs, export, log, unravel, use
from stash.actions import done as done_action
from stash.actions.book import Book
from stash.measures.mass import Mass, grams
from stash.stock.item import ItemState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A hat under way: 40 g of skein 1 and 10 g of skein 2 are in it."""
    made = a_book(tmp_path)
    add(made)
    add(made, colour="cream", lot="2")
    a_design(made, A=100, B=30)
    aside(made, A=1, B=2)
    use.use(made, "1", g(40), item="1")
    use.use(made, "2", g(10), item="1")
    return made


def test_yarn_comes_back_as_new_skeins_of_the_same_lots(book: Book) -> None:
    done = unravel.unravel(book, ["1"])[0]

    assert done.item.state is ItemState.UNRAVELLED
    back = [(r.was, r.skein.held.mg, r.made) for r in done.returned]
    assert back == [(1, 38_000, True), (2, 9_500, True)], "5 % is lost"
    assert [r.skein.lot_id for r in done.returned] == [1, 2]
    assert check.check(book) == []


def test_what_was_set_aside_is_released(book: Book) -> None:
    unravel.unravel(book, ["1"])

    assert promises(book, 1) == promises(book, 2) == []


def test_yarn_can_be_wound_back_onto_a_skein_of_its_lot(book: Book) -> None:
    done = unravel.unravel(book, ["1"], into={1: 1, 2: 2}, back=1)[0]

    assert [(r.skein.number, r.skein.held, r.made) for r in done.returned] == [
        (1, grams(100), False),
        (2, grams(100), False),
    ]


def test_what_the_scale_says_comes_back_to_the_milligram(book: Book) -> None:
    """43 g of the 50 g it used: by largest remainder 34.4 g and 8.6 g."""
    done = unravel.unravel(book, ["1"], back=grams(43))[0]

    assert [(r.was, r.mass.mg) for r in done.returned] == [(1, 34_400), (2, 8_600)]
    assert check.check(book) == []


@pytest.mark.parametrize(
    ("back", "kind"),
    [
        (grams(51), "more_back_than_used"),
        (grams(0), "more_back_than_used"),
        (0.0, "loss_of_all"),
        (1.2, "loss_of_all"),
    ],
)
def test_no_more_comes_back_than_went_in(book: Book, back: float | Mass, kind: str) -> None:
    before = export.skeins(book)

    with refuses(kind):
        unravel.unravel(book, ["1"], back=back)
    assert export.skeins(book) == before


def test_yarn_of_a_skein_it_did_not_use_is_not_wound_back(book: Book) -> None:
    with refuses("skein_not_used", skein=3, used=(1, 2)):
        unravel.unravel(book, ["1"], into={3: 1})


def test_it_is_not_wound_onto_another_lot(book: Book) -> None:
    with refuses("onto_another_lot", skein=2, was=1):
        unravel.unravel(book, ["1"], into={1: 2})


def test_an_item_that_used_nothing_is_not_unravelled(book: Book) -> None:
    add(book, lot="3")
    add(book, lot="4")
    aside(book, A=3, B=4)
    with refuses("nothing_to_unravel"):
        unravel.unravel(book, ["2"])


def test_an_unravelled_item_teaches_nothing(book: Book) -> None:
    done_action.done(book, {"1": done_action.Known(left={"1": grams(55), "2": grams(88)})})
    taught = designs.show(book, "hat").need.source
    unravel.unravel(book, ["1"])

    assert taught == "own items"
    assert designs.show(book, "hat").need.source == "stated"


def test_unravelling_is_taken_back_whole(book: Book) -> None:
    before = (export.skeins(book), promises(book, 1), promises(book, 2))
    unravel.unravel(book, ["1"])
    log.undo(book)

    assert (export.skeins(book), promises(book, 1), promises(book, 2)) == before
    assert skein(book, 1).held == grams(60)


def test_an_item_whose_unravelling_is_taken_back_teaches_again(book: Book) -> None:
    done_action.done(book, {"1": done_action.Known(left={"1": grams(55), "2": grams(88)})})
    before = designs.show(book, "hat").need
    unravel.unravel(book, ["1"])
    log.undo(book)

    assert designs.show(book, "hat").need == before
