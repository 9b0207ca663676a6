"""Which wants clash, over what, and the smallest give that frees them."""

from __future__ import annotations

from dataclasses import replace

from workshops import ENDS, QUIET, a_lot, a_part, a_want

from stash.planning.model.problem import Aim, Problem
from stash.planning.optimiser.clash import clash, shortage
from stash.planning.optimiser.search import best_plan


def two_on(minutes: int | None, *lengths: float) -> Problem:
    """Two wants of three hours each out of the first lot, a third out of a lot of its own."""
    lots = [a_lot(*lengths), a_lot(100)]
    wants = (
        a_want(a_part(lots, 60, [0]), lots=2, most=1, least=1, minutes=180),
        a_want(a_part(lots, 50, [0]), lots=2, most=1, least=1, minutes=180),
        a_want(a_part(lots, 50, [1]), lots=2, least=1, minutes=0),
    )
    return Problem(tuple(lots), wants, ENDS, minutes)


def test_wants_that_ask_for_the_same_yarn_clash_over_its_lot() -> None:
    problem = two_on(None, 100)
    plan = best_plan(problem, [Aim.ITEMS], QUIET).plan

    found = clash(problem, plan, QUIET)

    assert (found.wants, found.lots, found.hours) == ((0, 1), (0,), False)
    assert found.more_minutes is None


def test_too_few_hours_are_freed_by_as_many_more() -> None:
    problem = two_on(200, 200)
    plan = best_plan(problem, [Aim.ITEMS], QUIET).plan

    found = clash(problem, plan, QUIET)

    assert (found.wants, found.lots, found.hours) == ((0, 1), (), True)
    assert found.more_minutes == 160
    freed = best_plan(replace(problem, minutes=360), [Aim.ITEMS], QUIET)
    assert len(freed.plan.items) >= 3


def test_where_only_whole_numbers_clash_the_sharers_are_named() -> None:
    """Three of 66 m out of two balls of 99 m: in fractions they could be had."""
    lots = [a_lot(99, 99), a_lot(50)]
    wants = (
        a_want(a_part(lots, 66, [0]), lots=2, least=2),
        a_want(a_part(lots, 66, [0]), lots=2, least=1),
        a_want(a_part(lots, 40, [1]), lots=2, least=1),
    )
    problem = Problem(tuple(lots), wants, ENDS)
    plan = best_plan(problem, [Aim.ITEMS], QUIET).plan

    found = clash(problem, plan, QUIET)

    assert (found.wants, found.lots, found.hours) == ((0, 1), (), False)


def test_what_the_next_one_lacks_is_told_by_the_nearest_lot() -> None:
    problem = two_on(None, 100)
    plan = best_plan(problem, [Aim.ITEMS], QUIET).plan
    lacking = next(i for i in (0, 1) if not plan.made()[i])
    made = 1 - lacking

    short = shortage(problem, plan, problem.wants[lacking].parts[0])

    left = 100 - problem.wants[made].parts[0].um / 1e6
    assert short == round((problem.wants[lacking].parts[0].um / 1e6 - left) * 1e6)
