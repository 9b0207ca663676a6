"""What is left over, gathered: items change lots, and nothing else changes."""

from __future__ import annotations

import pytest
from workshops import a_workshop

from stash.planning.model.problem import Problem
from stash.planning.optimiser.consolidate import consolidate
from stash.planning.optimiser.draft_plan import DraftPlan
from stash.planning.optimiser.plan import broken, cut_out
from stash.planning.optimiser.search import first_plan


def a_bench(problem: Problem) -> DraftPlan:
    bench = DraftPlan(problem)
    for column in first_plan(problem).items:
        assert bench.put(column) is None
    return bench


@pytest.mark.parametrize("seed", range(4))
def test_the_same_items_are_made_and_what_is_left_is_gathered(seed: int) -> None:
    problem = a_workshop(seed, 24, 2, most=(20, 40))
    bench = a_bench(problem)
    wants, squares = [*bench.made], sum(um * um for um in bench.room)

    changes = consolidate(bench, list(range(24)))

    plan = cut_out(problem, bench.columns)
    assert plan is not None
    assert broken(problem, plan) is None
    assert [bench.made[i] for i in range(len(wants))] == wants
    assert sum(bench.asked) == sum(p.um for c in bench.columns for p, _ in problem.places(c))
    assert (changes > 0) == (sum(um * um for um in bench.room) > squares)


def test_a_lot_that_cannot_give_it_is_named_and_nothing_is_taken() -> None:
    problem = a_workshop(1, 12, 1)
    bench = a_bench(problem)
    column = bench.columns[0]
    while (lot := bench.put(column)) is None:
        pass
    asked = [*bench.asked]

    assert lot == -1 or lot in column.lots
    assert bench.put(column) == lot
    assert bench.asked == asked
