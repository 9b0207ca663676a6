"""Scale against books, in the books."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, a_skein_story, add, aside, g, promises, skein

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    aside as aside_action,
)
from stash.actions import (
    check,
    log,
    show,
    use,
    weigh,
    weigh_metre,
)
from stash.actions.book import Book
from stash.actions.weigh import ScaleReading
from stash.errors import Refusal
from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.stock.movement import Kind
from stash.stock.weighing import Verdict
from stash.stock.yarn import LotState


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Skein 1 whole, skein 2 opened at 80 g; a hat of 60 m is kept."""
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(), a_line(left=grams(80))])
    a_design(made, A=60)
    return made


def begun(book: Book, number: int) -> int:
    made = aside(book, A=number)
    aside_action.begin(book, [str(made)])
    return made


def test_a_fall_is_use_for_the_one_begun_item_and_its_promise_shrinks(book: Book) -> None:
    made = begun(book, 2)
    before = promises(book, 2)[0].mass
    weighing = weigh.weigh(book, "2", ScaleReading(grams(60)))

    assert (weighing.outcome.verdict, weighing.outcome.item) == (Verdict.USE, made)
    assert promises(book, 2)[0].mass == before - grams(20)


@pytest.mark.parametrize("full", [{}, {"full_length": None}], ids=["a pair", "a weight alone"])
def test_more_than_a_full_skein_of_the_lot_holds_is_asked_about(
    tmp_path: Path, full: dict[str, None]
) -> None:
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(left=grams(58), **full)])

    with pytest.raises(Refusal, match="more_than_full"):
        weigh.weigh(made, "1", ScaleReading(grams(200)))

    assert skein(made, 1).held == grams(58)


def test_a_metre_weighed_by_itself_is_no_full_skein(tmp_path: Path) -> None:
    made = a_book(tmp_path)
    add_action.receive(made, [a_line(left=grams(58))])
    weigh_metre.weigh_metre(made, "1", PutUp(Mass(4_300), metres(10)))

    assert weigh.weigh(made, "1", ScaleReading(grams(90))).outcome.change == grams(32)


def test_a_planned_item_is_no_claimant(book: Book) -> None:
    aside(book, A=2)
    weighing = weigh.weigh(book, "2", ScaleReading(grams(60)))

    assert weighing.outcome.verdict is Verdict.CORRECTION
    moved = a_skein_story(book, "2").history.moved[-1].movement
    assert (moved.kind, moved.change, moved.item) == (Kind.CORRECTED, grams(-20), None)


def test_two_begun_items_are_named_and_for_settles_it(book: Book) -> None:
    begun(book, 2)
    a_design(book, "band", A=20)
    other = aside(book, "band", A=2)
    aside_action.begin(book, [str(other)])

    with pytest.raises(Refusal, match="several_items_under_way"):
        weigh.weigh(book, "2", ScaleReading(grams(60)))
    assert weigh.weigh(book, "2", ScaleReading(grams(60), item="band")).outcome.item == other


def test_in_agreement_books_nothing_and_keeps_the_reading(book: Book) -> None:
    weigh.weigh(book, "2", ScaleReading(Mass(80_400)))

    assert skein(book, 2).held == grams(80)
    assert log.log(book)[0].what == Note("skein_agrees", skein=2, held=grams(80))


def test_a_whole_skein_keeps_every_metre_and_so_do_its_promises(book: Book) -> None:
    aside(book, A=1)
    before = promises(book, 1)[0].length
    weigh.weigh(book, "1", ScaleReading(grams(93)))

    held = skein(book, 1)
    assert (held.held, held.held_length, held.opened) == (grams(93), metres(200), False)
    assert held.pair.put_up
    assert promises(book, 1)[0].length == before
    assert promises(book, 1)[0].mass == held.pair.put_up.mass_covering(before or metres(0))
    assert check.check(book) == []


def test_a_promise_of_an_assumed_skein_keeps_its_metres_in_the_same_entry(book: Book) -> None:
    add(book, full_mass=None, lot="", lot_state=LotState.UNKNOWN)
    aside(book, A=3)
    before = promises(book, 3)[0]
    entry = weigh.weigh(book, "3", ScaleReading(grams(55))).entry

    after = promises(book, 3)[0]
    assert after.length == before.length
    assert before.length
    assert after.mass == Mass(-(-before.length.um * 55_000 // 200_000_000))
    assert entry == log.log(book)[0].number


def test_a_weighing_below_its_promises_names_the_newest_first(book: Book) -> None:
    aside(book, A=2)
    a_design(book, "band", A=60)
    newest = aside(book, "band", A=2)
    weighing = weigh.weigh(book, "2", ScaleReading(grams(50)))

    (short,) = weighing.shorts
    assert (short.kind, str(short.facts["item"])) == ("promise_short", f"{newest} (band)")
    assert skein(book, 2).short == short.facts["missing"]
    assert check.check(book) == []


def test_a_skein_that_was_short_before_is_not_named_again(book: Book) -> None:
    aside(book, A=2)
    weigh.weigh(book, "2", ScaleReading(grams(20)))
    weighing = weigh.weigh(book, "2", ScaleReading(grams(26)))

    assert weighing.shorts == ()


def test_use_for_an_item_that_only_the_reading_names_goes_into_its_role(book: Book) -> None:
    made = begun(book, 1)
    weigh.weigh(book, "2", ScaleReading(grams(70), item=str(made)))

    moved = show.item_story(book, str(made)).history.moved[-1].movement
    assert (moved.skein, moved.role, moved.change) == (2, "A", grams(-10))


def test_the_role_is_kept_when_more_is_used_than_was_set_aside(book: Book) -> None:
    a_design(book, "two", A=20, B=20)
    made = aside(book, "two", A=1, B=2)
    use.use(book, "2", g(15), item=str(made))
    use.use(book, "2", g(15), item=str(made))

    roles = [b.movement.role for b in show.item_story(book, str(made)).history.moved]
    assert roles == ["B", "B"]


def test_opened_and_recount_answer_a_whole_skein_that_is_far_off(book: Book) -> None:
    with pytest.raises(Refusal, match="whole_skein_far_off"):
        weigh.weigh(book, "1", ScaleReading(grams(60)))

    weigh.weigh(book, "1", ScaleReading(grams(60), opened=True))
    assert skein(book, 1).held_length == metres(120)
    assert skein(book, 1).opened


def test_a_tare_is_taken_off(book: Book) -> None:
    assert weigh.weigh(book, "2", ScaleReading(grams(82), tare=grams(12))).after.held == grams(70)


def test_a_reading_of_nothing_spends_an_opened_skein(book: Book) -> None:
    assert weigh.weigh(book, "2", ScaleReading(grams(0))).after.held == grams(0)


def test_a_typed_length_cannot_be_weighed_as_nothing(book: Book) -> None:
    add(book, full_mass=None, lot="", lot_state=LotState.UNKNOWN)

    with pytest.raises(Refusal):
        weigh.weigh(book, "3", ScaleReading(grams(0)))
