"""Looking at the shelf, at a skein and at an item."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, a_skein_story, aside, g

from stash.actions import add, done, log, show, use
from stash.actions import shelf as shelf_action
from stash.actions.book import Book
from stash.actions.shelf import Filters
from stash.errors import Ambiguous, NotFound
from stash.measures.length import metres
from stash.rendering.sentences.say import sentence
from stash.stock.yarn import LotState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    made = a_book(tmp_path)
    add.receive(
        made,
        [
            a_line(count=2, fibre="100% wool", place="basket 3"),
            a_line(colour="cream", lot="7", left=metres(50), owner="Mother"),
            a_line(
                name="Ottermeade",
                thickness_from=2,
                thickness_to=3,
                lot="",
                lot_state=LotState.UNKNOWN,
            ),
        ],
    )
    return made


def found(book: Book, **filters: object) -> list[str]:
    return [lot.lot.ref for lot in shelf_action.shelf(book, Filters(**filters)).lots]  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("filters", "refs"),
    [
        ({}, ["L2", "L1", "L3"]),
        ({"words": "ottermead"}, ["L3"]),
        ({"words": "felside navy"}, ["L1"]),
        ({"thickness": (3, 3)}, ["L3"]),
        ({"thickness": (3, 4)}, ["L2", "L1", "L3"]),
        ({"fibre": "Wool"}, ["L1"]),
        ({"colour": "cream"}, ["L2"]),
        ({"lot": " 7 "}, ["L2"]),
        ({"place": "basket"}, ["L1"]),
        ({"owner": "mother"}, ["L2"]),
        ({"least_free": metres(100)}, ["L1", "L3"]),
    ],
)
def test_filters_narrow_the_shelf(book: Book, filters: dict[str, object], refs: list[str]) -> None:
    assert found(book, **filters) == refs


def test_a_spent_skein_is_off_the_shelf_and_still_told_of(book: Book) -> None:
    use.use(book, "3", g(25))

    assert "L2" not in found(book)
    assert "L2" in found(book, with_spent=True)
    assert a_skein_story(book, "3").skein.held.mg == 0


def test_words_that_lead_to_two_lots_are_ambiguous(book: Book) -> None:
    with pytest.raises(Ambiguous) as refused:
        a_skein_story(book, "fellside")

    assert [reading.split()[0] for reading in refused.value.readings] == ["L1", "L2"]


def test_a_yarn_that_is_called_so_goes_before_those_that_only_lie_there(book: Book) -> None:
    for colour, place in (("rust", "cream box"), ("pine", "cream box"), ("pink", "attic")):
        add.receive(book, [a_line(name="Hedgebell", colour=colour, lot=colour, place=place)])

    assert a_skein_story(book, "cream").lot.colour == "cream"
    assert a_skein_story(book, "pine cream box").lot.colour == "pine"
    with pytest.raises(Ambiguous) as refused:
        a_skein_story(book, "cream box")

    assert sentence(refused.value) == (
        "'cream box' could be L4 (Hedgebell rust, in cream box) or "
        "L5 (Hedgebell pine, in cream box); type the one you mean"
    )


def test_misspelt_beyond_help_gives_the_nearest_names(book: Book) -> None:
    with pytest.raises(NotFound) as refused:
        a_skein_story(book, "ottermoody")

    assert refused.value.kind == "yarn_on_shelf"
    assert refused.value.nearest[0].facts["lot"].ref == "L3"


def test_the_trace_goes_both_ways(book: Book) -> None:
    a_design(book, A=60)
    made = str(aside(book, A=1))
    use.use(book, "1", g(10), item=made)
    done.done(book, {made: done.Known(as_planned=True)})

    assert [a.number for a in a_skein_story(book, "1").items] == [1]
    assert [s.number for s, _ in show.item_story(book, made).skeins] == [1]


def test_what_was_taken_back_leaves_no_trace_to_an_item(book: Book) -> None:
    a_design(book, A=60)
    made = str(aside(book, A=1))
    use.use(book, "2", g(10), item=made)
    log.undo(book)

    assert a_skein_story(book, "2").items == ()
    assert [s.number for s, _ in show.item_story(book, made).skeins] == [1]


def test_a_lot_is_shown_with_every_skein_it_has_had(book: Book) -> None:
    use.use(book, "1", g(100))

    lot = show.story(book, "L1")

    assert isinstance(lot, show.LotStory)
    assert [(s.number, s.held.mg > 0) for s in lot.held.skeins] == [(1, False), (2, True)]
