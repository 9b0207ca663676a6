"""What has the first say is made in its turn: no later one gets yarn that an earlier one needed.

Checked against a search through every choice of lots, written here and used nowhere else, and with
joins against scipy's general solver (`by_milp`).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from random import Random

import pytest
from by_milp import most_by_milp
from hypothesis import given, settings
from hypothesis import strategies as st
from workshops import ENDS, QUIET, OneClass, a_lot, a_part, a_want

from stash.planning.model.problem import Aim, Column, Mix, Problem, StockLot, Want
from stash.planning.optimiser.plan import broken
from stash.planning.optimiser.search import best_plan, in_turn


def by_search(problem: Problem, orders: Sequence[int]) -> tuple[int, ...]:
    """The most of the first, of what is left the most of the second, and so on: of all choices.

    Each lot is one skein, so that nothing is joined and lengths alone decide.
    """
    room = tuple(lot.supplies[0].um for lot in problem.lots)
    states, counts = {room}, []
    for order in orders:
        want = problem.wants[order]
        made = [states]
        while len(made) <= want.at_least:
            more = {after for state in made[-1] for after in _after(want, state)}
            if not more:
                break
            made.append(more)
        counts.append(len(made) - 1)
        states = made[-1]
    return tuple(counts)


def _after(want: Want, room: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """The room of every lot after one item more, for each choice of lots that allows it."""
    for lots in product(*(part.places for part in want.parts)):
        left = list(room)
        for part, lot in zip(want.parts, lots, strict=True):
            left[lot] -= part.um
        together = all(want.beside.row(a) >> b & 1 for i, a in enumerate(lots) for b in lots[:i])
        if min(left) >= 0 and together:
            yield tuple(left)


@st.composite
def seasons(draw: st.DrawFn) -> Problem:
    """A few one-skein lots, and orders of one or two colours, each out of some of the lots."""
    lots = [a_lot(draw(st.integers(30, 160))) for _ in range(draw(st.integers(1, 4)))]
    every = range(len(lots))
    among = st.lists(st.sampled_from(every), min_size=1, unique=True)
    wants = []
    for _ in range(draw(st.integers(1, 4))):
        parts = [
            a_part(lots, draw(st.integers(20, 90)), draw(among), role=role)
            for role in "AB"[: draw(st.integers(1, 2))]
        ]
        least = draw(st.integers(1, 3))
        wants.append(_apart(a_want(*parts, lots=len(lots), least=least, most=least), lots))
    first = tuple(range(len(wants)))
    others = draw(st.integers(0, 2))
    wants += [
        a_want(a_part(lots, draw(st.integers(10, 60))), lots=len(lots), coins=500, least=least)
        for least in range(others)
    ]
    return Problem(tuple(lots), tuple(wants), ENDS, first=first)


def _apart(want: Want, lots: Sequence[StockLot]) -> Want:
    """Two colours are never of one lot."""
    return replace(want, beside=OneClass([0] * len(lots)))


@given(seasons())
@settings(max_examples=150)
def test_each_order_gets_what_an_exact_search_gives_it(problem: Problem) -> None:
    turns = in_turn(problem, QUIET)

    made = turns.plan.made()
    assert tuple(made[order] for order in problem.first) == by_search(problem, problem.first)
    assert {*turns.fallen} == {
        order for order in problem.first if made[order] < problem.wants[order].at_least
    }


@given(seasons())
@settings(max_examples=60)
def test_nothing_else_in_the_batch_takes_it_from_them(problem: Problem) -> None:
    """Whatever else is wanted, must be made or brings most: the orders come first."""
    solved = best_plan(problem, [Aim.VALUE, Aim.LEFTOVERS], QUIET)

    made = solved.plan.made()
    assert broken(problem, solved.plan) is None
    assert tuple(made[order] for order in problem.first) == by_search(problem, problem.first)


def within_mixes(problem: Problem) -> tuple[int, ...]:
    """The same search where no mix may have more than its most."""
    nothing = (tuple(lot.supplies[0].um for lot in problem.lots), (0,) * len(problem.mixes))
    states, counts = {nothing}, []
    for order in problem.first:
        want, made = problem.wants[order], [states]
        while len(made) <= want.at_least:
            more = {
                (after, tally)
                for room, inside in made[-1]
                for after, lot in _after_of_main(want, room)
                if (tally := _tallied(problem, Column(order, (lot,)), inside)) is not None
            }
            if not more:
                break
            made.append(more)
        counts.append(len(made) - 1)
        states = made[-1]
    return tuple(counts)


def _after_of_main(want: Want, room: tuple[int, ...]) -> Iterator[tuple[tuple[int, ...], int]]:
    for lot in want.parts[0].places:
        places = {lot: want.parts[0].places[lot]}
        main = replace(want.parts[0], places=places)
        for after in _after(replace(want, parts=(main, *want.parts[1:])), room):
            yield after, lot


def _tallied(problem: Problem, column: Column, inside: tuple[int, ...]) -> tuple[int, ...] | None:
    tally = tuple(n + m.holds(column) for n, m in zip(inside, problem.mixes, strict=True))
    over = any(n > (m.at_most or 0) for n, m in zip(tally, problem.mixes, strict=True))
    return None if over else tally


@st.composite
def limited_seasons(draw: st.DrawFn) -> Problem:
    """A season where no more than so many may have their main yarn out of some lots."""
    problem = draw(seasons())
    every = range(len(problem.lots))
    families = draw(st.lists(st.frozensets(st.sampled_from(every), min_size=1), max_size=2))
    all_of_them = frozenset(range(len(problem.wants)))
    mixes = [Mix(all_of_them, lots, at_most=draw(st.integers(0, 3))) for lots in families]
    return replace(problem, mixes=tuple(mixes))


@given(limited_seasons())
@settings(max_examples=100)
def test_orders_go_beyond_a_limit_only_where_they_must_and_the_rest_stays_within(
    problem: Problem,
) -> None:
    """Each gets what it gets without limits; where a search keeps within them, so does the plan."""
    solved = best_plan(problem, [Aim.ITEMS], QUIET)

    made, best = solved.plan.made(), by_search(problem, problem.first)
    assert tuple(made[order] for order in problem.first) == best
    for mix in problem.mixes:
        inside = [item for item in solved.plan.items if mix.holds(item)]
        ordered = sum(item.want in problem.first for item in inside)
        assert len(inside) <= max(mix.at_most or 0, ordered)
        assert ordered <= (mix.at_most or 0) or within_mixes(problem) != best


def by_general_solver(problem: Problem) -> tuple[int, ...]:
    """The same in turn by scipy's solver, ball by ball with every join."""
    wants, counts = [*problem.wants], []
    for order in problem.first:
        valued = [replace(want, coins=0) for want in wants[:order]]
        own = replace(wants[order], at_least=0, coins=1)
        turn = replace(problem, wants=(*valued, own), first=())
        counts.append(round(most_by_milp(turn, Aim.VALUE)))
        wants[order] = replace(own, at_least=counts[-1], at_most=counts[-1])
    return tuple(counts)


def a_joined_season(seed: int) -> Problem:
    """Lots of two or three skeins and part balls, of which most items need a join."""
    random = Random(seed)
    lots = [
        a_lot(*(random.randint(15, 90) for _ in range(random.randint(2, 3))), opened=1)
        for _ in range(random.randint(1, 3))
    ]
    every = range(len(lots))
    wants = []
    for _ in range(random.randint(2, 3)):
        among = random.sample(every, random.randint(1, len(lots)))
        parts = [a_part(lots, random.randint(25, 80), among)]
        if len(lots) > 1 and random.random() < 0.5:
            parts.append(a_part(lots, random.randint(10, 40), role="B"))
        least = random.randint(1, 2)
        wants.append(a_want(*parts, lots=len(lots), least=least, most=least))
    return Problem(tuple(lots), tuple(wants), ENDS, first=tuple(range(len(wants))))


@pytest.mark.parametrize("seed", range(30))
def test_with_joins_each_order_gets_what_a_general_solver_gives_it(seed: int) -> None:
    problem = a_joined_season(seed)

    made = in_turn(problem, QUIET).plan.made()

    assert tuple(made[order] for order in problem.first) == by_general_solver(problem)


def test_one_early_order_outweighs_two_later_ones() -> None:
    """The greatest number of orders met is not the aim: the first in line is."""
    lots = [a_lot(100)]
    early = a_want(a_part(lots, 90), lots=1, least=1, most=1)
    late = a_want(a_part(lots, 50), lots=1, least=2, most=2)

    solved = best_plan(Problem(tuple(lots), (early, late), ENDS, first=(0, 1)), [Aim.ITEMS], QUIET)

    assert solved.plan.made() == {0: 1}
    assert {*solved.fallen} == {1}


def test_an_order_gives_up_its_first_choice_where_a_later_one_has_no_other() -> None:
    """The early one may be of either lot, the later one of the first alone: both are met."""
    lots = [a_lot(100), a_lot(60)]
    early = a_want(a_part(lots, 60), lots=2, least=1, most=1)
    late = a_want(a_part(lots, 60, [0]), lots=2, least=1, most=1)

    solved = best_plan(Problem(tuple(lots), (early, late), ENDS, first=(0, 1)), [Aim.ITEMS], QUIET)

    assert solved.plan.made() == {0: 1, 1: 1}
    assert solved.fallen == {}


def test_hours_go_to_orders_first_too() -> None:
    lots = [a_lot(500)]
    order = a_want(a_part(lots, 50), lots=1, least=2, most=2, minutes=60, coins=0)
    dear = a_want(a_part(lots, 50), lots=1, least=1, minutes=60, coins=900)
    problem = Problem(tuple(lots), (order, dear), ENDS, 120, first=(0,))

    assert best_plan(problem, [Aim.VALUE], QUIET).plan.made() == {0: 2}
