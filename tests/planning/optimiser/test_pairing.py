"""Parts that lots give, made into items."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from random import Random

import pytest
from workshops import ENDS, QUIET, OneClass, a_lot, a_part, a_want

from stash.planning.model.problem import Problem, Want
from stash.planning.optimiser.pairing import Slot, paired, slots_of

LOTS = [a_lot(500) for _ in range(4)]
PARTS = [a_part(LOTS, 20 + i, role=role) for i, role in enumerate("ABC")]


def a_problem(parts: int = 3, per_pair: int | None = None) -> Problem:
    beside = OneClass([0] * len(LOTS))
    return Problem(
        tuple(LOTS), (Want(tuple(PARTS[:parts]), 0, 9, 100, 0, beside),), ENDS, per_pair=per_pair
    )


@pytest.mark.parametrize("seed", range(20))
def test_parts_taken_from_items_make_as_many_items_again(seed: int) -> None:
    random = Random(seed)
    items = [random.sample(range(4), 3) for _ in range(6)]
    counts = Counter(Slot(0, part, lot) for lots in items for part, lot in enumerate(lots))

    made = paired(a_problem(), counts, QUIET.stop)

    assert made.short == ()
    assert Counter(slot for column in made.items for slot in slots_of(column)) == counts
    assert all(len(set(column.lots)) == 3 for column in made.items)


def test_parts_that_may_not_stand_beside_each_other_make_fewer_and_name_the_want() -> None:
    """Two of A and one of B from one lot: one item only."""
    counts = {Slot(0, 0, 0): 2, Slot(0, 1, 0): 1, Slot(0, 1, 1): 1}

    made = paired(a_problem(2), counts, QUIET.stop)

    assert (len(made.items), made.short) == (1, (0,))


def test_a_pair_is_made_no_oftener_than_it_may_be() -> None:
    counts = {Slot(0, 0, 0): 3, Slot(0, 1, 1): 2, Slot(0, 1, 2): 1}

    assert len(paired(a_problem(2, per_pair=1), counts, QUIET.stop).items) == 2


def test_wants_of_as_many_parts_share_the_limit_on_a_pair() -> None:
    one = a_want(a_part(LOTS, 30), lots=4)
    problem = replace(a_problem(2, per_pair=1), wants=(one, one))

    made = paired(problem, {Slot(0, 0, 0): 1, Slot(1, 0, 0): 1}, QUIET.stop)

    assert (len(made.items), made.short) == (1, (0, 1))
