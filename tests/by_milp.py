"""The same batch put to scipy's general solver, item by item and ball by ball.

Nothing of the planner is used but the problem itself: no columns, no prices, no cutting search.
Every item that could be made is a row of yes-or-no decisions, every strand may be cut of every
ball, and lengths are metres.
"""

from __future__ import annotations

from itertools import combinations
from typing import Any

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp

from stash.planning.model.problem import Aim, Column, Problem

Key = tuple[object, ...]


class _Rows:
    def __init__(self) -> None:
        self.at: dict[Key, int] = {}
        self.whole: list[int] = []
        self.upper: list[float] = []
        self.rows: list[tuple[dict[int, float], float, float]] = []

    def var(self, key: Key, upper: float, whole: bool = True) -> int:
        if key not in self.at:
            self.at[key] = len(self.whole)
            self.whole.append(int(whole))
            self.upper.append(upper)
        return self.at[key]

    def row(self, entries: dict[int, float], low: float, high: float) -> None:
        self.rows.append((entries, low, high))


def most_by_milp(problem: Problem, aim: Aim) -> float:
    """The most of an aim that any plan has (value and profit in coins, counts, micrometres).

    Of profit, what a part is expected to use may be any of what is cut for it.
    """
    rows, worth = _posed(problem, aim)
    return _solved(rows, worth)


def can_be_made(problem: Problem) -> bool:
    """Whether some plan makes all that must be."""
    return _found(*_posed(problem, Aim.ITEMS)).status == 0


def _posed(problem: Problem, aim: Aim) -> tuple[_Rows, dict[int, float]]:
    rows = _Rows()
    worth: dict[int, float] = {}
    made: list[tuple[int, int]] = []
    for w, want in enumerate(problem.wants):
        for k in range(want.at_most):
            on = rows.var(("on", w, k), 1)
            made.append((w, on))
            worth[on] = float(problem.worth(Column(w, ()), aim))
            if aim is Aim.PROFIT:
                worth[on] = float(want.coins - want.expenses)
            if k:
                rows.row({on: 1, rows.at["on", w, k - 1]: -1}, -np.inf, 0)
            _item(rows, problem, w, k, on)
        if want.at_least:
            rows.row({rows.at["on", w, k]: 1 for k in range(want.at_most)}, want.at_least, np.inf)
    if problem.minutes is not None:
        rows.row({on: problem.wants[w].minutes for w, on in made}, -np.inf, problem.minutes)
    _balls(rows, problem)
    if aim is Aim.PROFIT:
        worth |= _paid(rows, problem)
    if problem.per_pair is not None or problem.varieties:
        _pairs(rows, problem)
    return rows, worth


def _paid(rows: _Rows, problem: Problem) -> dict[int, float]:
    """What is used of each piece costs its price; no more of it is used than is cut."""
    costs: dict[int, float] = {}
    used: dict[Key, dict[int, float]] = {}
    for key, cut in [*rows.at.items()]:
        if key[0] != "cut":
            continue
        _, w, k, p, _, lot, i = key
        part, stock = problem.wants[w].parts[p], problem.lots[lot]  # type: ignore[index]
        use = rows.var(("use", *key[1:]), rows.upper[cut], whole=False)
        rows.row({use: 1.0, cut: -1.0}, -np.inf, 0)
        chosen = rows.at["lot", w, k, p, lot]
        of = used.setdefault((w, k, p, lot), {chosen: -part.used_um / 1e6})
        of[use] = 1.0
        costs[use] = -(stock.prices[i] if stock.prices else 0) / 1e6  # type: ignore[index]
    for of in used.values():
        rows.row(of, 0, 0)
    return costs


def _item(rows: _Rows, problem: Problem, w: int, k: int, on: int) -> None:
    """One lot a part, lots that may stand beside each other, and strands cut to their length."""
    want = problem.wants[w]
    for p, part in enumerate(want.parts):
        chosen = {rows.var(("lot", w, k, p, lot), 1): 1.0 for lot in part.places}
        rows.row({**chosen, on: -1.0}, 0, 0)
        for s, um in enumerate(part.strand_lengths):
            for lot, place in part.places.items():
                _strand(rows, problem, (w, k, p, s), lot, um, place.pool)
    for (p, one), (q, other) in combinations(enumerate(want.parts), 2):
        for lot in one.places:
            for beside in other.places:
                if not want.beside.row(lot) >> beside & 1:
                    both = {rows.at["lot", w, k, p, lot]: 1.0, rows.at["lot", w, k, q, beside]: 1.0}
                    rows.row(both, -np.inf, 1)


def _strand(rows: _Rows, problem: Problem, key: Key, lot: int, um: int, pool: int) -> None:
    """All of the strand from this lot if it is chosen, with a tail for every join."""
    w, k, p, s = key
    chosen = rows.at["lot", w, k, p, lot]
    join, least = problem.ends.join_um / 1e6, problem.ends.shortest_um / 1e6
    length: dict[int, float] = {chosen: -(um / 1e6 - join)}
    supplies = [i for i in range(len(problem.lots[lot].supplies)) if pool >> i & 1]
    several = rows.var(("several", w, k, p, s, lot), 1)
    uses = {}
    for i in supplies:
        full = problem.lots[lot].supplies[i].um / 1e6
        cut = rows.var(("cut", w, k, p, s, lot, i), full, whole=False)
        used = rows.var(("used", w, k, p, s, lot, i), 1)
        uses[used] = 1.0
        length[cut], length[used] = 1.0, -join
        rows.row({cut: 1.0, used: -full}, -np.inf, 0)
        # a joined end is never shorter than the useful one
        rows.row({cut: 1.0, used: -least, several: -least}, -least, np.inf)
    rows.row(length, 0, 0)
    rows.row({**uses, several: -float(len(supplies)), chosen: -1.0}, -np.inf, 0)


def _balls(rows: _Rows, problem: Problem) -> None:
    for lot, stock in enumerate(problem.lots):
        cuts = [(key[-1], at) for key, at in rows.at.items() if key[0] == "cut" and key[5] == lot]
        for i, supply in enumerate(stock.supplies):
            rows.row({at: 1.0 for ball, at in cuts if ball == i}, -np.inf, supply.um / 1e6)
        rows.row({at: 1.0 for _, at in cuts}, -np.inf, stock.most_um / 1e6)


def _pairs(rows: _Rows, problem: Problem) -> None:
    """Items of one or two parts: a pair is used where both lots are chosen, and not else."""
    count: dict[tuple[int, tuple[int, ...]], dict[int, float]] = {}
    for w, want in enumerate(problem.wants):
        for k in range(want.at_most):
            if len(want.parts) == 1:
                for lot in want.parts[0].places:
                    count.setdefault((w, (lot,)), {})[rows.at["lot", w, k, 0, lot]] = 1.0
                continue
            for lot in want.parts[0].places:
                for beside in want.parts[1].places:
                    both = rows.var(("both", w, k, lot, beside), 1, whole=False)
                    one, two = rows.at["lot", w, k, 0, lot], rows.at["lot", w, k, 1, beside]
                    rows.row({both: 1.0, one: -1.0, two: -1.0}, -1, np.inf)
                    rows.row({both: 1.0, one: -1.0}, -np.inf, 0)
                    rows.row({both: 1.0, two: -1.0}, -np.inf, 0)
                    count.setdefault((w, tuple(sorted((lot, beside)))), {})[both] = 1.0
    pairs = sorted({pair for _, pair in count})
    for pair in pairs:
        every = [of for (_, other), of in count.items() if other == pair]
        most = np.inf if problem.per_pair is None else problem.per_pair
        rows.row({at: 1.0 for of in every for at in of}, -np.inf, most)
    for number, variety in enumerate(problem.varieties):
        there = {}
        for pair in pairs:
            of = [count[w, pair] for w in sorted(variety.wants) if (w, pair) in count]
            if of:
                at = rows.var(("there", number, *pair), 1)
                there[at] = 1.0
                rows.row({at: 1.0, **{made: -1.0 for one in of for made in one}}, -np.inf, 0)
        rows.row(there, variety.at_least, np.inf)


def _solved(rows: _Rows, worth: dict[int, float]) -> float:
    found = _found(rows, worth)
    assert found.status == 0, found.message
    return round(-found.fun, 6)


def _found(rows: _Rows, worth: dict[int, float]) -> Any:
    count = len(rows.whole)
    matrix = np.zeros((len(rows.rows), count))
    for r, (entries, _, _) in enumerate(rows.rows):
        for at, brings in entries.items():
            matrix[r, at] = brings
    low, high = (np.array([row[i] for row in rows.rows]) for i in (1, 2))
    costs = np.zeros(count)
    for at, brings in worth.items():
        costs[at] = -brings
    return milp(
        costs,
        integrality=np.array(rows.whole),
        bounds=Bounds(np.zeros(count), np.array(rows.upper)),
        constraints=LinearConstraint(matrix, low, high),
        options={"mip_rel_gap": 0.0},
    )
