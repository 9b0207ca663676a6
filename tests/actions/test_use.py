"""Yarn leaves the shelf: into an item, or otherwise."""

from __future__ import annotations

from datetime import date, timedelta
from pathlib import Path

import pytest
from books import a_book, a_design, a_line, add, aside, g, m, promises, refuses, skein

from stash.actions import add as add_action
from stash.actions import aside as aside_action
from stash.actions import check, clock, done, log, use
from stash.actions.book import Book
from stash.errors import NotEnoughYarn, NotFound, Refusal
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.stock.holding import SkeinState
from stash.stock.item import ItemState
from stash.stock.movement import Kind
from stash.stock.yarn import LotState

TODAY = clock.today()


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Skein 1 of 100 g / 200 m, 63 m of it set aside for item 1, a hat."""
    made = a_book(tmp_path)
    add(made, place="basket")
    a_design(made, A=60)
    aside(made, A=1)
    return made


def test_use_lowers_what_is_held_and_opens_the_skein(book: Book) -> None:
    used = use.use(book, "1", g(20))

    assert used.skein.held == grams(80)
    assert used.skein.state is SkeinState.OPENED


def test_a_length_is_taken_by_the_pair(book: Book) -> None:
    assert use.use(book, "1", m(40)).amount == grams(20)


def test_no_gram_that_is_promised_is_used_for_something_else(book: Book) -> None:
    with pytest.raises(NotEnoughYarn) as refused:
        use.use(book, "1", g(70))

    assert refused.value.free == grams(100) - promises(book, 1)[0].mass
    hint = refused.value.facts["hint"]
    assert (hint.kind, [str(a) for a in hint.facts["items"]]) == ("rest_set_aside", ["1 (hat)"])


def test_what_is_promised_to_an_item_may_be_used_for_it(book: Book) -> None:
    used = use.use(book, "1", g(100), item="hat")

    assert used.skein.state is SkeinState.SPENT
    assert promises(book, 1) == []


def test_a_promise_shrinks_by_what_is_used_for_it(book: Book) -> None:
    before = promises(book, 1)[0]
    use.use(book, "1", g(10), item="1")

    after = promises(book, 1)[0]
    assert after.mass == before.mass - grams(10)
    assert after.length
    assert before.length
    assert after.length == before.length - metres(20)


def test_a_planned_item_is_begun_by_its_first_yarn(book: Book) -> None:
    assert use.use(book, "1", g(10), item="1").begun
    assert not use.use(book, "1", g(10), item="1").begun
    with refuses("begun_before"):
        aside_action.begin(book, ["1"])


def test_a_finished_item_takes_no_more_yarn(book: Book) -> None:
    done.done(book, {"1": done.Known(as_planned=True)})

    with refuses("item_closed"):
        use.use(book, "1", g(10), item="1")


def test_yarn_leaves_otherwise_too(book: Book) -> None:
    use.gone(book, "1", g(10), Kind.GIVEN)

    assert skein(book, 1).held == grams(90)


def test_gone_without_an_amount_takes_all_that_is_free(book: Book) -> None:
    gone = use.gone(book, "1", None, Kind.LOST)

    assert gone.skein.free == grams(0)
    assert gone.skein.set_aside == promises(book, 1)[0].mass
    with refuses("nothing_free", skein=1):
        use.gone(book, "1", None, Kind.LOST)


def test_yarn_that_is_promised_does_not_go(book: Book) -> None:
    with pytest.raises(NotEnoughYarn):
        use.gone(book, "1", g(80), Kind.SOLD)


@pytest.mark.parametrize("amount", [g(0), m(0), g(-5)])
def test_an_amount_is_above_nothing(book: Book, amount: use.Amount) -> None:
    with refuses("amount_above_nothing"):
        use.use(book, "1", amount)


def test_a_length_of_a_skein_without_a_pair_is_refused_with_a_way_out(book: Book) -> None:
    add(book, full_length=None, lot="", lot_state=LotState.UNKNOWN)

    with refuses("no_length_to_reckon_with", skein=2):
        use.use(book, "2", m(10))


@pytest.mark.parametrize("asked", ["99", "99999999999999999999999", "velvet", "L99"])
def test_no_such_skein(book: Book, asked: str) -> None:
    with pytest.raises(NotFound):
        use.use(book, asked, g(10))


@pytest.mark.parametrize("asked", ["99", "99999999999999999999999", "scarf"])
def test_no_such_item(book: Book, asked: str) -> None:
    with pytest.raises(NotFound):
        use.use(book, "1", g(10), item=asked)


def test_words_lead_to_the_opened_skein_else_the_lowest_whole_one(book: Book) -> None:
    add_action.receive(book, [a_line(colour="cream", lot="9", count=3)])
    assert use.use(book, "cream", g(10)).skein.number == 2
    use.use(book, "4", g(10))
    use.use(book, "2", g(90))

    used = use.use(book, "cream", g(10))
    assert used.skein.number == 4
    assert used.said is not None
    assert (used.said.kind, used.said.facts["skein"]) == ("words_led_to", 4)


def days_ago(count: int) -> date:
    return TODAY - timedelta(days=count)


def test_a_day_to_come_is_refused(book: Book) -> None:
    with refuses("day_not_come", day=TODAY + timedelta(days=1), today=TODAY):
        use.use(book, "1", g(10), on=TODAY + timedelta(days=1))


def test_yarn_cannot_be_used_before_it_came(book: Book) -> None:
    with pytest.raises(Refusal, match="skein_below_nothing_on"):
        use.use(book, "1", g(10), on=days_ago(1))

    assert skein(book, 1).held == grams(100)


def test_a_back_dated_movement_leaves_enough_on_every_later_day(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add_action.receive(book, [a_line()], on=days_ago(9))
    use.use(book, "1", g(80), on=days_ago(2))

    with pytest.raises((Refusal, NotEnoughYarn)):
        use.use(book, "1", g(30), on=days_ago(5))
    assert use.use(book, "1", g(20), on=days_ago(5)).skein.held == grams(0)
    assert check.check(book) == []


def test_yarn_that_was_not_there_yet_on_the_day_is_refused(tmp_path: Path) -> None:
    """40 g on the shelf, 60 more found by weighing yesterday: 90 g cannot have gone before."""
    from stash.actions import weigh

    book = a_book(tmp_path)
    add_action.receive(book, [a_line(left=grams(40))], on=days_ago(9))
    weigh.weigh(book, "1", weigh.ScaleReading(grams(100)), on=days_ago(1))

    with pytest.raises(Refusal, match="skein_below_nothing_on"):
        use.use(book, "1", g(90), on=days_ago(5))


def test_what_was_taken_back_is_in_nobodys_way(tmp_path: Path) -> None:
    """90 g booked by mistake and taken back today do not count for the days between."""
    book = a_book(tmp_path)
    add_action.receive(book, [a_line()], on=days_ago(9))
    use.use(book, "1", g(90), on=days_ago(6))
    log.undo(book)

    assert use.use(book, "1", g(50), on=days_ago(3)).skein.held == grams(50)
    assert check.check(book) == []


def test_the_log_says_what_was_done_in_order(book: Book) -> None:
    use.use(book, "1", g(10), item="1")

    assert [entry.kind for entry in log.log(book)] == ["use", "aside", "design add", "add"]
    used = Note("skein_used", mass=grams(10), skein=1, item=1, name="hat")
    assert log.log(book)[0].what == used


def test_a_note_holds_yarn_and_takes_none(book: Book) -> None:
    held = aside_action.aside_note(book, "for a gift", "1", g(10))

    assert held.item.state is ItemState.PLANNED
    with refuses("item_without_design"):
        use.use(book, "1", g(5), item=str(held.item.number))
