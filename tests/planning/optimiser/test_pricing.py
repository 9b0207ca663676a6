"""Kinds of items by what they gain: none is passed over."""

from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st
from workshops import a_tight_shelf

from stash.planning.model.problem import Column, Problem
from stash.planning.optimiser.pricing import LEAST_GAIN, Prices, cheapest, gainful


class Pairs:
    """Lots that may stand beside each other, as drawn."""

    def __init__(self, apart: set[tuple[int, int]]) -> None:
        self._apart = apart

    def row(self, lot: int) -> int:
        return sum(
            1 << other
            for other in range(8)
            if other != lot and not {(lot, other), (other, lot)} & self._apart
        )


costs = st.lists(st.integers(0, 9), min_size=1, max_size=6)
pairs = st.sets(st.tuples(st.integers(0, 7), st.integers(0, 7))).map(Pairs)


@given(st.lists(costs, min_size=1, max_size=3), pairs)
def test_sets_come_by_cost_and_all_of_them(by_part: list[list[int]], beside: Pairs) -> None:
    """Incumbent against every set in the plain order of `itertools.product`."""
    lines = [sorted((float(cost), lot) for lot, cost in enumerate(one)) for one in by_part]

    found = list(cheapest(lines, beside))

    fitting = [
        (sum(cost for cost, _ in chosen), tuple(lot for _, lot in chosen))
        for chosen in product(*lines)
        if all(
            beside.row(chosen[i][1]) >> chosen[j][1] & 1
            for i in range(len(chosen))
            for j in range(i)
        )
    ]
    assert [cost for cost, _ in found] == sorted(cost for cost, _ in fitting)
    assert sorted(found) == sorted(fitting)


def priced(problem: Problem, seed: int) -> Prices:
    keys = {
        (place.lot, place.pool)
        for want in problem.wants
        for part in want.parts
        for place in part.places.values()
    }
    yarn = {key: (7 * key[0] + seed) % 5 * 1e-8 for key in sorted(keys)}
    return Prices(yarn, [1.0 + seed / 9] * len(problem.wants), {}, {(0, 1): 0.5})


@given(st.integers(0, 60))
def test_every_kind_that_gains_is_told_with_its_gain(seed: int) -> None:
    problem = a_tight_shelf(seed)
    prices = priced(problem, seed % 7)
    for number, want in enumerate(problem.wants):
        room = dict.fromkeys(prices.yarn, 10**12)
        found = {one.column: one.gain for one in gainful(problem, prices, number, room)}
        gains = {}
        for lots in product(*(part.places for part in want.parts)):
            column = Column(number, lots)
            if len(lots) == 2 and not want.beside.row(lots[0]) >> lots[1] & 1:
                continue
            cost = sum(p.least_um * prices.yarn[p.lot, p.pool] for _, p in problem.places(column))
            gains[column] = prices.item[number] - cost - prices.pairs.get(column.pair, 0.0)
        expected = {column: gain for column, gain in gains.items() if gain > LEAST_GAIN}
        assert found.keys() == expected.keys()
        assert all(abs(found[column] - gain) < 1e-9 for column, gain in expected.items())
