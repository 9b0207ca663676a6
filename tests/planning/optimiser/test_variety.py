"""At least so many different sets of yarns: held exactly, or as far as can be.

Checked against scipy's general solver (`by_milp` item by item, `by_counts` skein by skein).
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_counts import Counted
from by_milp import can_be_made, most_by_milp
from workshops import (
    ENDS,
    QUIET,
    a_lot,
    a_market,
    a_part,
    a_tight_shelf,
    a_want,
    with_prices,
    with_variety,
)

from stash.planning.model.problem import MILLIONTHS, Aim, Column, Problem, Variety
from stash.planning.optimiser.plan import Fault, broken, cut_out, missed, sets_lacking
from stash.planning.optimiser.search import best_plan


@pytest.mark.parametrize("first", range(0, 80, 10))
def test_on_small_shelves_the_best_of_different_sets_is_that_of_a_general_solver(
    first: int,
) -> None:
    for seed in range(first, first + 10):
        problem = with_variety(a_tight_shelf(seed), seed)

        solved = best_plan(problem, [Aim.VALUE], QUIET)

        attained = solved.attained[-1]
        assert broken(solved.problem, solved.plan) is None
        assert attained.total == attained.bound == most_by_milp(solved.problem, Aim.VALUE), seed


@pytest.mark.parametrize("first", range(0, 60, 10))
def test_no_plan_has_more_of_the_sets_that_were_asked_for(first: int) -> None:
    """Where one alone falls short, the solver finds no plan with one more, and one as it is."""
    for seed in range(first, first + 10):
        problem = with_variety(a_tight_shelf(seed), seed)
        problem = replace(problem, varieties=problem.varieties[:1])

        solved = best_plan(problem, [Aim.VALUE], QUIET)

        for variety in problem.varieties:
            lack = sets_lacking(variety, solved.plan.items)
            reached = replace(variety, at_least=variety.at_least - lack)
            assert can_be_made(replace(problem, varieties=(reached,)))
            if lack:
                more = replace(reached, at_least=reached.at_least + 1)
                assert not can_be_made(replace(problem, varieties=(more,))), seed


@pytest.mark.parametrize("seed", range(0, 60, 3))
def test_profit_and_variety_go_together(seed: int) -> None:
    problem = with_variety(with_prices(a_tight_shelf(seed), seed), seed)

    solved = best_plan(problem, [Aim.PROFIT], QUIET)

    best = most_by_milp(solved.problem, Aim.PROFIT)
    attained = solved.attained[-1]
    assert broken(solved.problem, solved.plan) is None
    assert best - 0.5 < attained.total / MILLIONTHS <= best + 1e-3
    assert best <= attained.bound / MILLIONTHS + 1e-3


@pytest.mark.parametrize("seed", [2, 3, 4, 8, 14, 18, 19, 27, 30, 35])
def test_on_whole_batches_it_is_near_a_general_solvers(seed: int) -> None:
    problem = a_market(seed)
    every = frozenset(range(len(problem.wants)))
    problem = replace(problem, varieties=(Variety(every, 4),))

    solved = best_plan(problem, [Aim.VALUE], QUIET)

    counted = Counted(solved.problem).most(Aim.VALUE, 60)
    assert broken(solved.problem, solved.plan) is None
    assert counted.best is not None
    assert counted.ended
    assert solved.attained[-1].total >= 0.998 * counted.best - 1e-3
    assert solved.attained[-1].bound >= counted.best - 1e-3


LOTS = [a_lot(100), a_lot(100), a_lot(100)]
HAT = a_want(a_part(LOTS, 50), lots=3, most=4, coins=100)


def test_two_yarns_in_whichever_order_are_one_set_as_where_pairs_are_limited() -> None:
    two = a_want(a_part(LOTS, 20), a_part(LOTS, 20, role="B"), lots=3)
    variety = Variety(frozenset({0}), 2)

    assert sets_lacking(variety, [Column(0, (0, 1)), Column(0, (1, 0))]) == 1
    problem = Problem(tuple(LOTS), (two,), ENDS, varieties=(variety,))
    assert len({item.pair for item in best_plan(problem, [Aim.ITEMS], QUIET).plan.items}) >= 2


def test_a_plan_of_too_few_different_sets_breaks_a_rule() -> None:
    problem = Problem(tuple(LOTS), (HAT,), ENDS, varieties=(Variety(frozenset({0}), 2),))
    plan = cut_out(problem, [Column(0, (0,)), Column(0, (0,))])
    assert plan is not None

    assert broken(problem, plan) == Fault("sets_too_alike")
    assert missed(problem, plan.items) == [0, 1]


def test_of_all_that_is_made_a_set_counts_once_whatever_it_is_made_into() -> None:
    variety = Variety(frozenset({0, 1}), 3)
    made = [Column(0, (0,)), Column(1, (0,)), Column(1, (2,))]

    assert sets_lacking(variety, made) == 1
