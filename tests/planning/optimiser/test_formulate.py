"""The best in fractions, with columns made as prices ask for them."""

from __future__ import annotations

from itertools import product

import numpy as np
import pytest
from scipy.optimize import linprog
from workshops import ENDS, QUIET, a_lot, a_part, a_tight_shelf, a_want

from stash.planning.model.problem import Aim, Column, Mix, Problem
from stash.planning.optimiser.formulate import Goal, Master


def every_column(problem: Problem) -> list[Column]:
    return [
        Column(number, lots)
        for number, want in enumerate(problem.wants)
        for lots in product(*(part.places for part in want.parts))
        if len(lots) == 1 or want.beside.row(lots[0]) >> lots[1] & 1
    ]


def by_linprog(problem: Problem, aim: Aim) -> float:
    """The same with every column written out, by scipy's linear programming."""
    columns = every_column(problem)
    if not columns:
        return 0.0
    rows, limits = [], []
    for lot, stock in enumerate(problem.lots):
        places = [problem.places(column) for column in columns]
        rows.append([sum(p.least_um for _, p in told if p.lot == lot) / 1e6 for told in places])
        limits.append(stock.most_um / 1e6)
    for number, want in enumerate(problem.wants):
        rows.append([float(column.want == number) for column in columns])
        limits.append(want.at_most)
    if problem.minutes is not None:
        rows.append([problem.wants[column.want].minutes for column in columns])
        limits.append(problem.minutes)
    if problem.per_pair is not None:
        for pair in sorted({column.pair for column in columns}):
            rows.append([float(column.pair == pair) for column in columns])
            limits.append(problem.per_pair)
    worths = [-float(problem.worth(column, aim)) for column in columns]
    return float(-linprog(worths, A_ub=np.array(rows), b_ub=np.array(limits)).fun)


@pytest.mark.parametrize("seed", range(40))
def test_the_bound_is_that_of_all_columns_at_once(seed: int) -> None:
    problem = a_tight_shelf(seed, lots=5, wants=3)
    for aim in (Aim.VALUE, Aim.BUYING):
        master = Master(problem, Goal(aim), QUIET.stop)

        found, bound = master.relaxed()

        assert found.total * master.scale_of_aim == pytest.approx(by_linprog(problem, aim), abs=1)
        assert bound == pytest.approx(found.total, abs=1e-5)


def test_what_must_be_made_is_missed_at_a_price_and_says_over_what() -> None:
    lots = [a_lot(100)]
    wants = tuple(a_want(a_part(lots, 60), lots=1, least=1) for _ in range(2))
    master = Master(Problem(tuple(lots), wants, ENDS), Goal(None), QUIET.stop)

    found, _ = master.relaxed()

    assert found.total == pytest.approx(-(2 - 100 / 60))
    assert master.binding(found, 1e-6) == ([0, 1], [], [0], False)


def test_a_share_holds_in_fractions_too() -> None:
    """At most a quarter of all out of the first lot, though it is all that is dear."""
    lots = [a_lot(1000), a_lot(1000)]
    wants = (a_want(a_part(lots, 50), lots=2, most=40),)
    mix = Mix(frozenset({0}), frozenset({0}), at_most=25, share=True)
    problem = Problem(tuple(lots), wants, ENDS, mixes=(mix,))
    master = Master(problem, Goal(Aim.ITEMS), QUIET.stop)

    found, _ = master.relaxed()

    # 20 out of the second lot, and a third of that out of the first
    assert found.total == pytest.approx(20 + 20 / 3)
