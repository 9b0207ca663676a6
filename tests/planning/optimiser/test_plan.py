"""A plan checks itself, without the solver: every rule that is broken is noticed."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from workshops import ENDS, QUIET, OneClass, a_lot, a_part, a_want

from stash.planning.model.problem import Aim, Column, Mix, Problem
from stash.planning.optimiser.plan import (
    Fault,
    Plan,
    Taken,
    broken,
    cut_out,
    lacking,
    left_um,
    missed,
    polished,
    total,
    trimmed,
)
from stash.planning.optimiser.search import best_plan

LOTS = [a_lot(50, 100, opened=1), a_lot(80)]
HAT = a_want(a_part(LOTS, 120, [0]), a_part(LOTS, 30, role="B"), lots=2, most=1, minutes=60)
PROBLEM = Problem(tuple(LOTS), (HAT, a_want(a_part(LOTS, 20), lots=2)), ENDS)


def a_plan() -> Plan:
    made = cut_out(PROBLEM, [Column(0, (0, 1)), Column(1, (1,))])
    assert made is not None
    return made


def test_a_sound_plan_breaks_nothing() -> None:
    assert broken(PROBLEM, a_plan()) is None


def fault_of(problem: Problem, plan: Plan) -> Fault:
    fault = broken(problem, plan)
    assert fault is not None
    return fault


def changed(plan: Plan, at: int, **facts: int) -> Plan:
    cuts = [*plan.taken]
    cuts[at] = cuts[at]._replace(**facts)
    return replace(plan, taken=tuple(cuts))


@pytest.mark.parametrize(
    ("facts", "said"),
    [
        ({"um": 1}, "strand_of_wrong_length"),
        ({"lot": 1, "supply": 0}, "supply_cut_beyond_its_end"),
        ({"strand": 1}, "strand_of_wrong_length"),
    ],
)
def test_a_cut_that_was_changed_is_noticed(facts: dict[str, int], said: str) -> None:
    plan = a_plan()
    (at, *_) = [i for i, cut in enumerate(plan.taken) if cut.item == 0 and cut.part == 0]

    assert fault_of(PROBLEM, changed(plan, at, **facts)).kind == said


def test_a_cut_for_no_item_is_noticed() -> None:
    plan = a_plan()
    more = Taken(1, 0, 0, 2, 0, 1)

    assert broken(PROBLEM, replace(plan, taken=(*plan.taken, more))) == Fault("cut_for_nothing")


def test_too_short_an_end_is_noticed() -> None:
    plan = a_plan()
    least = min(cut.um for cut in plan.taken if (cut.item, cut.part) == (0, 0))
    strict = replace(PROBLEM, ends=replace(PROBLEM.ends, shortest_um=least + 1))

    assert broken(strict, plan) == Fault("useless_end_joined")


@pytest.mark.parametrize(
    ("problem", "said"),
    [
        (replace(PROBLEM, minutes=59), Fault("too_many_minutes", minutes=60)),
        (replace(PROBLEM, per_pair=0), Fault("pair_shared_too_often")),
        (
            replace(PROBLEM, wants=(replace(HAT, at_most=0), PROBLEM.wants[1])),
            Fault("want_made_too_often", want=0, count=1),
        ),
        (
            replace(PROBLEM, mixes=(Mix(frozenset({0}), None, at_most=0),)),
            Fault("mix_has_too_many"),
        ),
        (
            replace(PROBLEM, lots=(replace(LOTS[0], most_um=1), LOTS[1])),
            Fault("lot_gives_too_much", lot=0),
        ),
        (
            replace(PROBLEM, wants=(replace(HAT, beside=OneClass([1, 2])), PROBLEM.wants[1])),
            Fault("lot_not_beside_others", lot=1),
        ),
    ],
)
def test_each_rule_is_held(problem: Problem, said: Fault) -> None:
    assert broken(problem, a_plan()) == said


def test_totals_are_reckoned_from_the_plan_alone() -> None:
    plan = a_plan()

    assert total(PROBLEM, Aim.VALUE, plan) == 200
    assert total(PROBLEM, Aim.ITEMS, plan) == 2
    assert total(PROBLEM, Aim.BUYING, plan) == 170_000_000
    opened = sum(cut.um for cut in plan.taken if (cut.lot, cut.supply) == (0, 0))
    assert total(PROBLEM, Aim.LEFTOVERS, plan) == opened


def test_what_is_left_and_what_is_taken_make_each_design() -> None:
    plan = a_plan()
    for (lot, supply), left in left_um(PROBLEM, plan).items():
        taken = sum(cut.um for cut in plan.taken if (cut.lot, cut.supply) == (lot, supply))
        assert left + taken == PROBLEM.lots[lot].supplies[supply].um


def test_items_the_balls_do_not_give_are_no_plan() -> None:
    assert cut_out(PROBLEM, [Column(0, (0, 1))] * 2) is None


def test_polishing_keeps_the_items() -> None:
    lots = [a_lot(117, 79)]
    wants = tuple(a_want(a_part(lots, m), lots=1, most=1) for m in (17, 41, 58, 38, 40))
    problem = Problem(tuple(lots), wants, ENDS)
    rough = cut_out(problem, [Column(i, (0,)) for i in range(5)])
    assert rough is not None

    fine = polished(problem, rough, thrifty=False)

    assert fine.items == rough.items
    assert (len(fine.taken), broken(problem, fine)) == (5, None)
    assert len(rough.taken) > 5


def test_a_share_lacks_up_to_the_next_whole_item() -> None:
    mix = Mix(frozenset({0}), None, at_least=50, share=True)

    assert lacking(mix, [Column(1, (0,))] * 3) == 2
    assert lacking(mix, [Column(0, (0,)), Column(1, (0,))]) == 0


def test_of_too_large_a_share_the_last_are_left_out() -> None:
    mixes = (
        Mix(frozenset({0}), None, at_most=50, share=True),
        Mix(frozenset({1}), None, at_most=1),
    )
    made = [Column(0, (0, 1))] * 3 + [Column(1, (1,))] * 2

    kept = trimmed(replace(PROBLEM, mixes=mixes), made)

    # one of the second want at most, so one of the first: half of two
    assert Counter(column.want for column in kept) == {0: 1, 1: 1}


def test_what_is_missed_is_told_by_want_and_mix() -> None:
    problem = replace(PROBLEM, mixes=(Mix(frozenset({1}), None, at_least=4),))
    wants = (replace(HAT, at_least=1), replace(PROBLEM.wants[1], at_least=3))

    assert missed(replace(problem, wants=wants), a_plan().items) == [0, 2, 3]


def test_a_plan_out_of_the_planner_is_cut_as_it_says() -> None:
    solved = best_plan(PROBLEM, [Aim.VALUE], QUIET)
    again = cut_out(PROBLEM, solved.plan.items)

    assert again is not None
    assert {type(cut) for cut in solved.plan.taken} == {Taken}
    assert sum(c.um for c in again.taken) >= sum(c.um for c in solved.plan.taken)
