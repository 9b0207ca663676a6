"""What the books teach the next estimate."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from books import a_book, add
from requirements.some_designs import SC, cm, gauge, plain_scarf

from stash.actions import aside, designs, done, log
from stash.actions.book import Book
from stash.actions.done import Known
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.requirements.design.shapes import Shape, Size
from stash.requirements.yarn.need import RoleNeed, Source

COWL = replace(
    plain_scarf(), name="cowl", fabric=SC, gauge=gauge(14, 16), size=Size(cm(20), cm(60))
)
RUG = replace(COWL, name="rug", shape=Shape.BLANKET, size=Size(cm(60), cm(60)))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Five balls, and the plan of a cowl."""
    book = a_book(tmp_path)
    add(book, count=5)
    designs.add_design(book, COWL)
    return book


def make(book: Book, known: Known) -> None:
    aside.aside_own_choice(book, "cowl", {"A": [1, 2]})
    done.done(book, {"cowl": known})


def need(book: Book, name: str = "cowl") -> RoleNeed:
    (role,) = designs.show(book, name).need.roles
    return role


def test_each_finished_item_tightens_the_next_estimate(book: Book) -> None:
    spreads = [need(book).estimate.relative]
    for _ in range(3):
        make(book, Known(total=grams(30)))
        spreads.append(need(book).estimate.relative)

    assert spreads == sorted(spreads, reverse=True)
    assert spreads[1] <= 0.07
    assert need(book).estimate.expected_m == pytest.approx(60, rel=0.03)


def test_as_planned_teaches_neither_the_design_nor_another(book: Book) -> None:
    designs.add_design(book, RUG)
    before = need(book), need(book, "rug")
    make(book, Known(as_planned=True))

    assert (need(book), need(book, "rug")) == before


def test_an_item_teaches_other_designs_in_its_stitch_until_it_is_taken_back(book: Book) -> None:
    designs.add_design(book, RUG)
    before = need(book, "rug")
    make(book, Known(by_role={"A": grams(30)}))
    after = need(book, "rug")
    other = replace(RUG, name="")
    unkept = designs.her_designs(book).known_for(other).need(other).roles[0]
    log.undo(book)

    assert after.source is Source.GAUGE
    assert after.estimate.relative < before.estimate.relative
    assert unkept.estimate == after.estimate
    assert need(book, "rug") == before


def test_a_design_made_larger_keeps_what_its_items_taught(book: Book) -> None:
    make(book, Known(total=grams(30)))
    small = need(book)
    larger = replace(COWL, size=Size(cm(20), cm(120)))
    _, changed = designs.change_design(book, "cowl", larger)

    ratio = changed.roles[0].estimate.expected_m / small.estimate.expected_m
    foreseen = changed.roles[0].others[0].estimate.expected_m / small.others[0].estimate.expected_m

    assert changed.roles[0].source is Source.OWN_ITEMS
    assert ratio == pytest.approx(foreseen, rel=0.001)
    assert "items_carried_over" in [note.kind for note in changed.notes]


def test_an_item_goes_by_the_plan_it_was_set_aside_for(book: Book) -> None:
    """Made larger, made, and made smaller again: the item belongs to the large plan."""
    designs.change_design(book, "cowl", replace(COWL, size=Size(cm(20), cm(120))))
    make(book, Known(total=grams(60)))
    designs.change_design(book, "cowl", COWL)

    assert need(book).estimate.expected_m == pytest.approx(60, rel=0.05)


def test_a_stated_figure_belongs_to_the_size_it_was_given_for(book: Book) -> None:
    """Stated for the small cowl: twice as long it is carried over; stated anew it stands."""
    long = Size(cm(20), cm(120))
    stated = replace(COWL, name="loop", stated=(("A", metres(70)),))
    designs.add_design(book, stated)

    _, longer = designs.change_design(book, "loop", replace(stated, size=long))
    anew = replace(stated, size=long, stated=(("A", metres(150)),))
    _, said_anew = designs.change_design(book, "loop", anew)

    assert longer.roles[0].estimate.expected_m == pytest.approx(140, rel=0.02)
    assert "stated_figure_carried_over" in [note.kind for note in longer.notes]
    assert designs.her_designs(book).plan("loop").stated == (("A", metres(150)),)
    assert said_anew.roles[0].estimate.expected_m == 150
    assert "stated_figure_carried_over" not in [note.kind for note in said_anew.notes]
