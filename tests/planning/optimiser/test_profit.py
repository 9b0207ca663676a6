"""The most profit: what yarn costs counts, skein by skein, and what is proved holds.

Checked against scipy's general solver (`by_milp` item by item, `by_counts` skein by skein).
"""

from __future__ import annotations

from dataclasses import replace

import pytest
from by_counts import Counted
from by_milp import most_by_milp
from workshops import ENDS, QUIET, a_lot, a_market, a_part, a_tight_shelf, a_want, with_prices

from stash.planning.model.problem import MILLIONTHS, Aim, Column, Part, Problem
from stash.planning.optimiser.plan import broken, total
from stash.planning.optimiser.search import best_plan

#: Half a coin: what is nearer to the best is said to be the best.
HALF = 0.5


@pytest.mark.parametrize("first", range(0, 60, 10))
def test_on_sixty_small_shelves_the_most_profit_is_that_of_a_general_solver(first: int) -> None:
    for seed in range(first, first + 10):
        problem = with_prices(a_tight_shelf(seed), seed)

        solved = best_plan(problem, [Aim.PROFIT], QUIET)

        (attained,) = solved.attained
        best = most_by_milp(problem, Aim.PROFIT)
        assert broken(problem, solved.plan) is None
        assert attained.total == total(problem, Aim.PROFIT, solved.plan)
        assert best - HALF < attained.total / MILLIONTHS <= best + 1e-3, seed
        assert best <= attained.bound / MILLIONTHS + 1e-3 < best + HALF, seed


@pytest.mark.parametrize("first", range(0, 40, 10))
def test_where_pieces_of_a_lot_have_several_prices_the_bound_still_holds(first: int) -> None:
    """What is used of what is cut may be chosen there, so the solver may be better, never worse."""
    for seed in range(first, first + 10):
        problem = with_prices(a_tight_shelf(seed, most=2), seed, by_piece=True)

        (attained,) = best_plan(problem, [Aim.PROFIT], QUIET).attained

        best = most_by_milp(problem, Aim.PROFIT)
        assert attained.total / MILLIONTHS <= best + 1e-3, seed
        assert best <= attained.bound / MILLIONTHS + 1e-3, seed


@pytest.mark.parametrize("seed", range(0, 60, 2))
def test_where_all_that_is_cut_is_used_several_prices_are_planned_as_well_as_can_be(
    seed: int,
) -> None:
    problem = with_prices(a_tight_shelf(seed, most=2), seed, by_piece=True)
    wants = [
        replace(want, parts=tuple(replace(part, used_um=part.um) for part in want.parts))
        for want in problem.wants
    ]
    problem = replace(problem, wants=tuple(wants))

    (attained,) = best_plan(problem, [Aim.PROFIT], QUIET).attained

    best = most_by_milp(problem, Aim.PROFIT)
    assert attained.total / MILLIONTHS >= 0.97 * best - 2
    assert best <= attained.bound / MILLIONTHS + 1e-3


@pytest.mark.parametrize("seed", [2, 3, 4, 8, 14, 18, 19, 27, 30, 35])
def test_on_whole_batches_it_is_near_a_general_solvers(seed: int) -> None:
    solved = best_plan(with_prices(a_market(seed), seed), [Aim.PROFIT], QUIET)

    counted = Counted(solved.problem).most(Aim.PROFIT, 60)

    assert counted.ended
    assert counted.best is not None
    (attained,) = (one for one in solved.attained if one.aim is Aim.PROFIT)
    assert attained.total / MILLIONTHS >= 0.998 * counted.best - 1
    assert attained.bound / MILLIONTHS >= counted.best - 1e-3


def test_dear_yarn_that_eats_the_gain_is_left_and_the_profit_is_truly_more() -> None:
    """A shawl sells for 50 and takes 100 m at 0.45; a cap sells for 20 and takes 50 m at 0.06.

    The shawl leaves 5, the cap 17, and there is time for one of them. Value makes the shawl.
    """
    lots = [
        replace(a_lot(100), prices=(45 * MILLIONTHS,)),
        replace(a_lot(50), prices=(6 * MILLIONTHS,)),
    ]
    shawl = a_want(_used(a_part(lots, 100, [0])), lots=2, coins=5_000, minutes=60, most=1)
    cap = a_want(_used(a_part(lots, 50)), lots=2, coins=2_000, minutes=60, most=2)
    problem = Problem(tuple(lots), (shawl, cap), ENDS, minutes=60)

    by_value = best_plan(problem, [Aim.VALUE], QUIET).plan
    by_profit = best_plan(problem, [Aim.PROFIT], QUIET)

    assert by_value.items == (Column(0, (0,)),)
    assert by_profit.plan.items == (Column(1, (1,)),)
    assert total(problem, Aim.PROFIT, by_value) == 500 * MILLIONTHS
    assert by_profit.attained[0].total == 1_700 * MILLIONTHS
    assert by_profit.attained[0].bound == pytest.approx(1_700 * MILLIONTHS)


def _used(part: Part) -> Part:
    return replace(part, used_um=part.um)


def test_what_earns_nothing_is_not_made_but_where_it_must_be() -> None:
    lots = [replace(a_lot(300), prices=(90 * MILLIONTHS,))]
    want = a_want(_used(a_part(lots, 100)), lots=1, coins=5_000)
    problem = Problem(tuple(lots), (want,), ENDS)

    assert best_plan(problem, [Aim.PROFIT], QUIET).plan.items == ()
    musts = replace(problem, wants=(replace(want, at_least=1),))
    solved = best_plan(musts, [Aim.PROFIT], QUIET)
    assert len(solved.plan.items) == 1
    assert solved.attained[-1].total == -4_000 * MILLIONTHS
    assert solved.attained[-1].bound == pytest.approx(-4_000 * MILLIONTHS)


@pytest.mark.parametrize("seed", range(20))
def test_a_later_aim_keeps_the_profit(seed: int) -> None:
    problem = with_prices(a_tight_shelf(seed), seed, by_piece=seed % 2 == 1)

    alone = best_plan(problem, [Aim.PROFIT], QUIET)
    both = best_plan(problem, [Aim.PROFIT, Aim.LEFTOVERS], QUIET)

    assert both.attained[0].total == alone.attained[0].total
    assert total(problem, Aim.PROFIT, both.plan) >= alone.attained[0].total
    assert total(problem, Aim.LEFTOVERS, both.plan) >= total(problem, Aim.LEFTOVERS, alone.plan)
