"""Yarn at hand in metres, and what it reaches."""

from __future__ import annotations

from pathlib import Path

import pytest
from books import a_book, a_design, add, aside, refuses

from stash.actions import designs, reach
from stash.actions.book import Book
from stash.errors import NotFound
from stash.measures.length import metres
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.design.design import Design
from stash.requirements.yarn.design_context import DesignContext

STATED = Design(stated=(("A", metres(100)),))


def no_book() -> Book:
    raise AssertionError("only skeins need the book")


def test_amounts_alone_open_no_book() -> None:
    known = DesignContext(Design(stated=STATED.stated, put_up=PutUp(grams(50), metres(120))))

    told = reach.in_metres(known, {"A": (metres(80), grams(25))}, no_book)

    assert told == {"A": (80.0, 60.0)}


def test_a_skein_counts_with_what_is_free_of_it(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    number = add(book)  # 100 g / 200 m
    a_design(book, A=60)
    aside(book, A=number)  # with its margin of 1.28 spreads of 8 %

    told = reach.in_metres(DesignContext(STATED), {"A": (number,)}, lambda: book)

    assert told["A"][0] == pytest.approx(200 - 60 * (1 + 1.28 * 0.08), abs=0.01)


def test_what_cannot_be_told_in_metres_is_refused(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    unknown = add(book, full_length=None, thickness_from=None, thickness_to=None)

    with refuses("length_of_skein_not_known", skein=unknown):
        reach.in_metres(DesignContext(STATED), {"A": (unknown,)}, lambda: book)
    with refuses("mass_without_metres", mass=grams(20)):
        reach.in_metres(DesignContext(STATED), {"A": (grams(20),)}, no_book)
    with pytest.raises(NotFound):
        reach.in_metres(DesignContext(STATED), {"B": (metres(20),)}, no_book)


def test_what_is_known_of_a_kept_design_is_what_its_need_stands_on(tmp_path: Path) -> None:
    book = a_book(tmp_path)
    a_design(book, A=60, B=20)

    known = designs.show(book, "hat", 0.1).known

    assert known.need(known.design) == designs.show(book, "hat", 0.1).need
