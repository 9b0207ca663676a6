"""Will an item's yarn last, by its books."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, g, refuses
from requirements.some_designs import plain_scarf

from stash.actions import aside as aside_action
from stash.actions import designs, log, use
from stash.actions.book import Book
from stash.actions.lasts import LastsAsked, will_last
from stash.actions.weigh import ScaleReading, weigh
from stash.measures.mass import grams
from stash.measures.note import Note
from stash.requirements.lasting.lasting import GrowingRows, Keep, Verdict


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """A hat under way: A from ball 1 of 100 g, B from a part ball of 40 g; ball 2 lies by."""
    book = a_book(tmp_path)
    add(book, count=2)
    add(book, colour="cream", lot="7", left=grams(40))
    a_design(book, A=160, B=20)
    aside(book, A=1, B=3)
    aside_action.begin(book, ["1"])
    return book


def on_scale(book: Book, skein: int, reading: int) -> None:
    weigh(book, str(skein), ScaleReading(grams(reading), item="1"))


def test_each_colour_is_answered_by_what_was_booked_of_it(book: Book) -> None:
    on_scale(book, 1, 60)
    on_scale(book, 3, 37)

    found = will_last(book, LastsAsked("1", rows_left=40, at={1: 20, 3: 20}))

    assert found.least_sure == "A"
    assert (found.roles["A"].have_g, found.roles["A"].verdict) == (60, Verdict.NO)
    assert found.roles["A"].need_g == pytest.approx(80)
    assert found.roles["B"].need_g == pytest.approx(6)
    assert found.roles["B"].verdict is Verdict.YES


def test_rows_at_several_weighings_are_matched_to_the_newest(book: Book) -> None:
    for reading in (92, 80, 61):
        on_scale(book, 1, reading)

    last, both = (will_last(book, LastsAsked("1", rows, 30, role="A")).roles["A"]
                  for rows in ([20], [10, 20]))  # fmt: skip

    assert both.need_g == pytest.approx(0.5 * (last.need_g + 57), rel=0.1)
    with refuses("more_rows_than_weighings", skein=1, known=3, given=4):
        will_last(book, LastsAsked("1", [5, 10, 15, 20], 30, role="A"))


def test_two_balls_weighed_at_one_row_count_once(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    add(book, count=2)
    a_design(book, A=300)
    aside_action.aside_own_choice(book, "hat", {"A": [1, 2]})
    on_scale(book, 1, 80)
    on_scale(book, 2, 90)

    found = will_last(book, LastsAsked("1", rows_left=10, at={1: 20, 2: 20})).roles["A"]

    assert found.need_g == pytest.approx(15)
    assert found.have_g == 170


def test_a_ball_by_its_band_alone_is_less_sure_than_a_weighed_one(tmp_path: Path) -> None:
    spreads = []
    for was_weighed in (False, True):
        book = a_book(tmp_path / str(was_weighed))
        add(book)
        if was_weighed:
            weigh(book, "1", ScaleReading(grams(100)))
        a_design(book, A=160)
        aside(book, A=1)
        on_scale(book, 1, 60)
        spreads.append(will_last(book, LastsAsked("1", [20], 20)).roles["A"].spread_g)

    assert spreads[0] > 2 * spreads[1]


def test_yarn_promised_to_others_does_not_count(book: Book) -> None:
    on_scale(book, 1, 60)
    before = will_last(book, LastsAsked("1", [20], 10, role="A")).roles["A"].have_g
    aside_action.aside_note(book, "for the class", "1", g(10))

    after = will_last(book, LastsAsked("1", [20], 10, role="A")).roles["A"].have_g

    assert before - after == pytest.approx(10)


def test_what_was_taken_back_was_never_used(book: Book) -> None:
    on_scale(book, 1, 60)
    use.use(book, "1", g(20), item="1")
    log.undo(book)

    assert will_last(book, LastsAsked("1", [20], 10, role="A")).roles["A"].have_g == 60


def test_metres_kept_back_go_by_the_skeins_pair(book: Book) -> None:
    on_scale(book, 1, 60)

    found = will_last(book, LastsAsked("1", [20], 10, keep=Keep(length_m=8), role="A")).roles["A"]

    assert found.keep_g == pytest.approx(4)


def test_the_plan_says_what_is_left(tmp_path: Path) -> None:
    """A scarf of 420 rows: after 105 of them three quarters are to come."""
    book = a_book(tmp_path)
    add(book, count=2)
    designs.add_design(book, plain_scarf())
    aside_action.aside_own_choice(book, "", {"A": [1, 2]})
    weigh(book, "1", ScaleReading(grams(80), item="1"))

    found = will_last(book, LastsAsked("1", [105]))

    rows = found.roles["A"].rows_left + 105
    assert found.notes == (Note("rows_left_by_plan", left=rows - 105, rows=rows),)
    assert found.roles["A"].need_g == pytest.approx(20 * (rows - 105) / 105)
    with refuses("more_rows_than_planned", rows=rows, done=rows + 1):
        will_last(book, LastsAsked("1", [rows + 1]))


def test_growing_rows_as_she_says(book: Book) -> None:
    on_scale(book, 1, 80)

    even = will_last(book, LastsAsked("1", [20], 20, role="A")).roles["A"]
    growing = will_last(book, LastsAsked("1", [20], 20, GrowingRows(1, 2), role="A")).roles["A"]

    assert growing.need_g == pytest.approx(3 * even.need_g)


def test_nothing_used_nothing_planned_nothing_of_that_name(book: Book) -> None:
    with refuses("nothing_used_yet"):
        will_last(book, LastsAsked("1", [20], 10))
    on_scale(book, 1, 80)
    with refuses("yarn_used_of_role", asked="C"):
        will_last(book, LastsAsked("1", [20], 10, role="C"))
    with refuses("plan_not_by_rows"):
        will_last(book, LastsAsked("1", [20]))
