"""Movements: which of them still stand."""

from __future__ import annotations

from stash.measures.mass import grams
from stash.stock.movement import LEAVING, OPENING, Kind, Movement, standing


def test_what_was_taken_back_no_longer_stands() -> None:
    wrong = Movement(1, Kind.USED, grams(-10), id=1)
    answer = Movement(1, Kind.USED, grams(10), undoes=1, id=2)
    right = Movement(1, Kind.USED, grams(-5), id=3)

    assert standing([wrong, answer, right]) == [right]


def test_arriving_and_restating_do_not_open_a_skein() -> None:
    assert {*Kind} - {*OPENING} == {Kind.ARRIVED, Kind.RESTATED}


def test_yarn_leaves_in_the_four_ways_of_the_contract() -> None:
    assert [kind.value for kind in LEAVING] == ["given", "sold", "lost", "spoilt", "mistaken"]
