"""The log, and taking an entry back whole."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, a_line, a_skein_story, add, aside, g, promises, refuses, skein

from stash.actions import (
    add as add_action,
)
from stash.actions import (
    aside as aside_action,
)
from stash.actions import (
    change,
    check,
    designs,
    done,
    log,
    show,
    use,
    weigh,
)
from stash.actions import shelf as shelf_action
from stash.actions.book import Book
from stash.actions.change import Changes
from stash.actions.release import release
from stash.actions.settings import change_setting, read_settings
from stash.errors import InTheWay, NotFound, Refusal
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.measures.put_up import PutUp
from stash.requirements.design.design import Design


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Entry 1: two skeins; entry 2: a hat of 80 m."""
    made = a_book(tmp_path)
    add(made, count=2)
    a_design(made, A=80)
    return made


def test_undo_takes_the_newest_that_is_neither_taken_back_nor_a_take_back(book: Book) -> None:
    use.use(book, "1", g(10))
    use.use(book, "1", g(20))

    number, wrong = log.undo(book)
    assert (number, wrong.number) == (5, 4)
    assert log.undo(book)[1].number == 3
    assert skein(book, 1).held == grams(100)
    assert skein(book, 1).opened is False


def test_a_mistake_is_answered_and_stays_on_the_books(book: Book) -> None:
    use.use(book, "1", g(10))
    log.undo(book)

    moved = [b.movement for b in a_skein_story(book, "1").history.moved]
    assert [m.change for m in moved] == [grams(100), grams(-10), grams(10)]
    assert moved[2].undoes == moved[1].id
    newest, wrong = log.log(book)[:2]
    assert (newest.takes_back, wrong.taken_back_by) == (3, 4)


def test_an_entry_is_taken_back_once(book: Book) -> None:
    use.use(book, "1", g(10))
    log.undo(book, 3)

    with refuses("taken_back_before", by=4):
        log.undo(book, 3)


def test_a_take_back_is_not_taken_back(book: Book) -> None:
    use.use(book, "1", g(10))
    log.undo(book, 3)

    with refuses("entry_is_take_back", entry=4):
        log.undo(book, 4)


@pytest.mark.parametrize("number", [0, -1, 9, 10**30])
def test_no_such_entry(book: Book, number: int) -> None:
    with pytest.raises(NotFound):
        log.undo(book, number)


def test_nothing_is_left_to_take_back(tmp_path: Path) -> None:
    with refuses("nothing_to_take_back"):
        log.undo(a_book(tmp_path))


def test_skeins_that_were_used_since_are_in_the_way_newest_first(book: Book) -> None:
    use.use(book, "1", g(10))
    use.use(book, "2", g(10))

    with refuses("in_the_way", why=Note("skeins_used_since"), later=(4, 3)):
        log.undo(book, 1)


def test_what_was_taken_back_is_not_in_the_way(book: Book) -> None:
    use.use(book, "1", g(10))
    log.undo(book)

    log.undo(book, 1)
    assert shelf_action.shelf(book, shelf_action.Filters()).lots == ()
    assert check.check(book) == []


def test_an_item_that_used_its_yarn_is_in_the_way(book: Book) -> None:
    made = aside(book, A=1)
    use.use(book, "1", g(10), item=str(made))

    with refuses("in_the_way", why=Note("item_went_on"), later=(4,)):
        log.undo(book, 3)


def test_a_skein_would_go_below_nothing(book: Book) -> None:
    use.use(book, "1", g(80))
    weigh.weigh(book, "1", weigh.ScaleReading(grams(60)))
    use.use(book, "1", g(50))

    with refuses("in_the_way", why=Note("below_nothing", skeins=(1,)), later=(5,)):
        log.undo(book, 4)


def test_yarn_that_was_promised_since_does_not_go_back(book: Book) -> None:
    made = aside(book, A=1)
    release(book, [str(made)])
    aside_action.aside_note(book, "for a gift", "1", None)

    with refuses("in_the_way", why=Note("promised_since", skeins=(1,)), later=(5,)):
        log.undo(book, 4)


def test_taking_back_yarn_found_on_the_scale_looks_at_every_day(book: Book, tmp_path: Path) -> None:
    """50 g found, 60 g used, 50 g found again: without the first find there were never 60 g."""
    from datetime import timedelta

    from stash.actions import clock

    other = a_book(tmp_path / "other")
    day = [clock.today() - timedelta(days=ago) for ago in range(5)]
    add_action.receive(other, [a_line(left=grams(20))], on=day[4])
    weigh.weigh(other, "1", weigh.ScaleReading(grams(70)), on=day[3])
    use.use(other, "1", g(60), on=day[2])
    weigh.weigh(other, "1", weigh.ScaleReading(grams(60)), on=day[1])

    below = Note("below_nothing_on", skein=1, held=grams(-40), day=day[2])
    with refuses("in_the_way", why=below, later=(3,)):
        log.undo(other, 2)


def test_done_is_taken_back_whole(book: Book) -> None:
    made = str(aside(book, A=1))
    aside_action.begin(book, [made])
    before = (skein(book, 1), promises(book, 1), show.item_story(book, made).item)
    done.done(book, {made: done.Known(total=grams(44))})
    log.undo(book)

    after = (skein(book, 1), promises(book, 1), show.item_story(book, made).item)
    assert after == before
    assert check.check(book) == []


def test_a_settled_pair_is_taken_back_with_its_promises(book: Book) -> None:
    aside(book, A=1)
    before = (skein(book, 1), promises(book, 1))
    weigh.weigh(book, "1", weigh.ScaleReading(grams(91)))
    assert skein(book, 1) != before[0]
    log.undo(book)

    assert (skein(book, 1), promises(book, 1)) == before


def test_what_rests_on_a_restatement_is_in_its_way(book: Book) -> None:
    weigh.weigh(book, "1", weigh.ScaleReading(grams(91)))
    use.use(book, "1", g(5))

    with refuses("in_the_way", why=Note("skeins_moved_on")):
        log.undo(book, 3)


def test_facts_get_their_old_values_again(book: Book) -> None:
    change.change(book, ["1"], Changes(place="attic", put_up=PutUp(grams(50), metres(90))))
    log.undo(book)

    assert (skein(book, 1).place, skein(book, 1).held) == ("", grams(100))
    assert skein(book, 1).held_length == metres(200)


def test_the_same_fact_put_right_again_is_in_the_way(book: Book) -> None:
    change.change(book, ["1"], Changes(place="attic"))
    change.change(book, ["1"], Changes(place="basket"))

    with refuses("in_the_way", why=Note("put_right_again"), later=(4,)):
        log.undo(book, 3)


def test_a_setting_is_taken_back(book: Book) -> None:
    change_setting(book, "units", "us")
    log.undo(book)

    assert read_settings(book).kept == {}


def test_a_design_with_items_is_kept(book: Book) -> None:
    aside(book, A=1)

    with refuses("in_the_way", why=Note("items_made_since")):
        log.undo(book, 2)


def test_a_name_is_free_again_once_its_design_was_taken_back(book: Book) -> None:
    log.undo(book, 2)
    a_design(book, A=60)

    assert designs.names(book) == ["hat"]


def test_a_name_taken_since_does_not_come_back(book: Book) -> None:
    plan = designs.her_designs(book).plan("hat")
    designs.change_design(book, "hat", Design(name="cap", stated=plan.stated))
    a_design(book, "Hat", A=60)

    with refuses("in_the_way", why=Note("name_borne_by_another", design="Hat"), later=(4,)):
        log.undo(book, 3)


def test_two_designs_never_share_a_name(book: Book) -> None:
    a_design(book, "cap", A=60)
    with pytest.raises(Refusal, match="design_name_taken"):
        a_design(book, "HAT", A=60)
    with pytest.raises(Refusal, match="design_name_taken"):
        designs.change_design(book, "cap", Design(name="Hat", stated=(("A", metres(60)),)))


def test_a_refused_undo_leaves_no_entry(book: Book) -> None:
    use.use(book, "1", g(10))
    before = book.path.read_bytes()
    with pytest.raises(InTheWay):
        log.undo(book, 1)

    assert book.path.read_bytes() == before


def test_the_log_is_as_long_as_asked_for(book: Book) -> None:
    assert [e.number for e in log.log(book, 1)] == [2]
    assert [e.number for e in log.log(book, None)] == [2, 1]
