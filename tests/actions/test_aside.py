"""Yarn set aside, begun and given back: it lowers what is free, not what is held."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import (
    a_book,
    a_design,
    a_line,
    a_skein_story,
    add,
    aside,
    g,
    m,
    promises,
    refuses,
    skein,
)

from stash.actions import add as add_action
from stash.actions import aside as aside_action
from stash.actions import check, log, show, use, weigh
from stash.actions import shelf as shelf_action
from stash.actions.book import Book
from stash.actions.match import NeedAsked
from stash.actions.release import release
from stash.errors import NotEnoughYarn, NotFound, Refusal, StashError
from stash.measures.colour import Colour
from stash.measures.estimate import to_books
from stash.measures.length import metres
from stash.measures.mass import NO_MASS, Mass, grams
from stash.measures.note import Note
from stash.stock.item import ItemState
from stash.stock.yarn import LotState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Three skeins of navy, one of cream, all 100 g / 200 m; a hat of 80 m A and 20 m B."""
    made = a_book(tmp_path)
    add_action.receive(
        made,
        [
            a_line(count=3, colours=(Colour("#203050"),), place="basket"),
            a_line(colour="cream", colours=(Colour("#f5ecd8"),), place="attic"),
        ],
    )
    a_design(made, A=80, B=20)
    return made


def test_a_proposal_is_set_aside_by_its_rank_or_its_key(book: Book) -> None:
    by_rank = aside_action.aside(book, "hat", "1")
    by_key = aside_action.aside(book, "HAT", "L1+L2")

    assert {p.role for p in by_rank.picked} == {p.role for p in by_key.picked} == {"A", "B"}
    assert [p.lot.ref for p in by_key.picked if p.role == "A"] == ["L1"]


def test_setting_aside_lowers_what_is_free_and_not_what_is_held(book: Book) -> None:
    aside(book, A=1, B=4)

    held = skein(book, 1)
    assert held.held == grams(100)
    assert held.free == grams(100) - held.promised
    assert not held.opened


def test_at_least_the_metres_asked_for_are_promised(book: Book) -> None:
    need = aside_action.aside(book, "hat", "1")
    for picked in need.picked:
        held = picked.skein
        assert held.pair.put_up
        assert picked.length
        assert picked.mass == held.pair.put_up.mass_covering(picked.length)


def test_the_list_to_pick_is_by_place(book: Book) -> None:
    picked = aside_action.aside(book, "hat", "L1+L2").picked

    assert [p.skein.place for p in picked] == ["attic", "basket"]


def test_no_gram_is_promised_twice(book: Book) -> None:
    a_design(book, "scarf", A=150)
    aside(book, "scarf", A=1)

    with refuses("choice_too_short", role="A"):
        aside(book, A=1, B=4)
    assert skein(book, 1).promised <= grams(100)


@pytest.mark.parametrize("which", ["0", "99", "L9+L2", "L2"])
def test_no_such_proposal(book: Book, which: str) -> None:
    with pytest.raises(StashError) as refused:
        aside_action.aside(book, "hat", which)

    assert refused.value.exit_status in (2, 3, 4)
    assert log.log(book)[0].kind == "design add"


def test_a_key_needs_a_lot_for_each_role(book: Book) -> None:
    with refuses("proposal"):
        aside_action.aside(book, "hat", "²")


def test_her_own_choice_is_booked_whatever_the_matcher_says(book: Book) -> None:
    made = aside_action.aside_own_choice(book, "hat", {"A": [2, 3], "B": [4]})

    assert {p.skein.number for p in made.picked} <= {2, 3, 4}
    assert sum((p.mass for p in made.picked if p.role == "A"), NO_MASS) >= grams(42)


def test_a_choice_without_the_whole_margin_is_said(book: Book) -> None:
    add(book, colour="cream", lot="8", left=metres(81))
    made = aside_action.aside_own_choice(book, "hat", {"A": [5], "B": [4]})

    assert made.notes == (Note("margin_not_whole", role="A"),)


def test_two_lots_in_one_role_are_said(book: Book) -> None:
    add(book, lot="8", left=metres(50))
    made = aside_action.aside_own_choice(book, "hat", {"A": [5, 1], "B": [4]})

    assert made.notes == (Note("different_lots", role="A"),)


def test_a_skein_named_twice_counts_once(book: Book) -> None:
    add(book, colour="red", left=metres(60))

    with refuses("choice_too_short", role="A"):
        aside_action.aside_own_choice(book, "hat", {"A": [5, 5], "B": [4]})


@pytest.mark.parametrize(
    ("skeins", "kind"),
    [
        ({"A": [99], "B": [4]}, NotFound),
        ({"A": [1]}, Refusal),
        ({"A": [1], "B": [1]}, Refusal),
        ({"A": [1], "B": [4], "C": [2]}, NotFound),
        ({"A": [], "B": [4]}, Refusal),
    ],
)
def test_a_choice_that_cannot_be(
    book: Book, skeins: dict[str, list[int]], kind: type[StashError]
) -> None:
    with pytest.raises(kind):
        aside_action.aside_own_choice(book, "hat", skeins)


def test_a_skein_without_a_length_cannot_be_chosen(book: Book) -> None:
    add(book, full_length=None, lot="", lot_state=LotState.UNKNOWN)

    with refuses("skein_without_length", skein=5):
        aside(book, A=5, B=4)


def test_a_note_holds_an_amount_or_all_that_is_free(book: Book) -> None:
    some = aside_action.aside_note(book, "for a gift", "1", m(50))
    rest = aside_action.aside_note(book, "for a swatch", "1", None)

    assert [p.mass for p in (*some.picked, *rest.picked)] == [grams(25), grams(75)]
    assert skein(book, 1).free == grams(0)
    with pytest.raises(NotEnoughYarn):
        aside_action.aside_note(book, "more", "1", None)
    with pytest.raises(NotEnoughYarn):
        aside_action.aside_note(book, "more", "2", g(101))


def test_releasing_gives_all_back(book: Book) -> None:
    made = aside(book, A=1, B=4)
    release(book, [str(made)])

    assert skein(book, 1).free == grams(100)
    with refuses("nothing_set_aside"):
        release(book, [str(made)])
    assert check.check(book) == []


def test_the_need_is_kept_with_the_item(book: Book) -> None:
    made = aside(book, A=1, B=4)

    planned = show.item_story(book, str(made)).planned
    assert [(p.role, p.expected, p.set_aside) for p in planned] == [
        ("A", metres(80), to_books(80 * 1.1024)),
        ("B", metres(20), to_books(20 * 1.1024)),
    ]


def test_an_item_by_name_is_the_one_that_is_open(book: Book) -> None:
    aside(book, A=1, B=4)
    assert aside_action.begin(book, ["hat"])[1][0].state is ItemState.BEGUN

    aside(book, A=2, B=4)
    with pytest.raises(StashError, match="ambiguous") as refused:
        aside_action.begin(book, ["hat"])
    assert refused.value.exit_status == 2


def test_a_note_is_not_begun(book: Book) -> None:
    made = aside_action.aside_note(book, "for a gift", "1", None).item

    with refuses("no_design_to_begin"):
        aside_action.begin(book, [str(made.number)])


def test_numbers_of_items_are_never_used_again(book: Book) -> None:
    first = aside(book, A=1, B=4)
    log.undo(book)

    assert aside(book, A=1, B=4) == first + 1


def test_what_is_promised_is_listed_by_item(book: Book) -> None:
    aside(book, A=1, B=4)
    aside(book, A=2, B=4)

    lines = shelf_action.set_aside(book).lines
    assert [(x.item.number, x.promise.role, x.promise.skein) for x in lines] == [
        (1, "A", 1),
        (1, "B", 4),
        (2, "A", 2),
        (2, "B", 4),
    ]


def test_the_newest_promise_is_short_first_and_a_rise_mends_it(book: Book) -> None:
    first, second = aside(book, A=1, B=4), aside(book, A=1, B=4)
    use.use(book, "1", g(1), item=str(first))
    weigh.weigh(book, "1", weigh.ScaleReading(grams(70), recount=True))

    total = sum((p.mass for p in promises(book, 1)), Mass(0))
    assert skein(book, 1).short == total - grams(70)
    assert skein(book, 1).free == grams(0)
    assert [p.item for p in promises(book, 1)] == [first, second]

    weigh.weigh(book, "1", weigh.ScaleReading(grams(99)))
    assert skein(book, 1).short == grams(0)


def test_an_older_item_may_use_what_the_newer_is_short_of(book: Book) -> None:
    first, second = aside(book, A=1, B=4), aside(book, A=1, B=4)
    weigh.weigh(book, "1", weigh.ScaleReading(grams(50), recount=True))
    mine = promises(book, 1)[0].mass

    with pytest.raises(NotEnoughYarn) as refused:
        use.use(book, "1", g(40), item=str(second))
    assert refused.value.free == grams(50) - mine
    assert use.use(book, "1", g(44), item=str(first)).amount == grams(44)


def test_looking_asks_only_for_reading(book: Book) -> None:
    before = book.path.read_bytes()
    set_aside_lines = shelf_action.set_aside(book).lines
    shelf_action.shelf(book, shelf_action.Filters(words="navi"))
    a_skein_story(book, "1")

    assert set_aside_lines == ()
    assert book.path.read_bytes() == before


def test_the_same_question_gives_the_same_answer(book: Book) -> None:
    from stash.actions.match import propose

    hat = NeedAsked("hat")
    assert propose(book, hat).match == propose(book, hat).match
