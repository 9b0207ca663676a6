"""The same batch put to scipy's general solver, skein by skein, joins and all.

Nothing of the planner is used but the problem itself. Every kind of item is counted, so is
every strand that is cut whole out of a skein; a strand that is joined has a place of its own, with
what each skein gives to it. Lengths are metres. Joined strands are laid end to end, so of a lot
there are never more of them than it has skeins less one. `by_milp` says the same item by
item, which only very small batches can be solved with.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import product
from math import prod
from time import perf_counter

import numpy as np
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import csr_array

from stash.planning.model.problem import Aim, Column, Problem, Variety, Want

#: A batch of more kinds of items than this would take minutes to write out alone.
MOST_KINDS = 30_000


class TooLarge(Exception):
    """The batch is not put to the solver at all."""


def kinds(want: Want) -> int:
    """How many sets of lots there are for a want, those that may not be together among them."""
    return prod(len(part.places) for part in want.parts)


@dataclass(frozen=True)
class Answer:
    """The best found, what nothing exceeds, and whether they are proved to be the same."""

    best: float | None
    bound: float
    ended: bool
    counts: dict[Column, int]


class Rows:
    """Variables with limits and worths, and rows of them."""

    def __init__(self) -> None:
        self.whole: list[int] = []
        self.upper: list[float] = []
        self.worth: list[float] = []
        self.at: tuple[list[int], list[int], list[float]] = ([], [], [])
        self.low: list[float] = []
        self.high: list[float] = []

    def var(self, upper: float, whole: bool = True) -> int:
        self.whole.append(int(whole))
        self.upper.append(upper)
        self.worth.append(0.0)
        return len(self.upper) - 1

    def row(self, entries: Sequence[tuple[int, float]], low: float, high: float) -> None:
        together: dict[int, float] = {}
        for at, brings in entries:
            together[at] = together.get(at, 0.0) + brings
        for at, brings in together.items():
            for part, value in zip(self.at, (len(self.low), at, brings), strict=True):
                part.append(value)  # type: ignore[arg-type]
        self.low.append(low)
        self.high.append(high)

    def solved(self, seconds: float) -> tuple[np.ndarray | None, float, bool]:
        rows, columns, values = self.at
        matrix = csr_array((values, (rows, columns)), shape=(len(self.low), len(self.upper)))
        found = milp(
            -np.array(self.worth),
            integrality=np.array(self.whole),
            bounds=Bounds(np.zeros(len(self.upper)), np.array(self.upper)),
            constraints=LinearConstraint(matrix, np.array(self.low), np.array(self.high)),
            options={"mip_rel_gap": 0.0, "time_limit": seconds},
        )
        bound = np.inf if found.mip_dual_bound is None else -found.mip_dual_bound
        return found.x, bound, found.status == 0


class Counted:
    """The batch as counts: of each kind of item, and of each strand from each skein."""

    def __init__(self, problem: Problem) -> None:
        self.problem, self.rows = problem, Rows()
        if sum(kinds(want) for want in problem.wants) > MOST_KINDS:
            raise TooLarge
        self.made = {
            column: self.rows.var(problem.wants[column.want].at_most)
            for number, want in enumerate(problem.wants)
            for column in _columns(number, problem)
        }
        self._limits()
        self.used_up: list[int] = []
        self.from_lot: dict[int, list[Column]] = {}
        for column in self.made:
            for lot in dict.fromkeys(column.lots):
                self.from_lot.setdefault(lot, []).append(column)
        for lot in range(len(problem.lots)):
            self._lot(lot)

    def _limits(self) -> None:
        problem, rows = self.problem, self.rows
        for number, want in enumerate(problem.wants):
            of = [(at, 1.0) for column, at in self.made.items() if column.want == number]
            rows.row(of, want.at_least, want.at_most)
        if problem.minutes is not None:
            every = [(at, problem.wants[c.want].minutes) for c, at in self.made.items()]
            rows.row(every, -np.inf, problem.minutes)
        if problem.per_pair is not None:
            for pair in sorted({column.pair for column in self.made}):
                of = [(at, 1.0) for column, at in self.made.items() if column.pair == pair]
                rows.row(of, -np.inf, problem.per_pair)
        for variety in problem.varieties:
            self._vary(variety)
        for mix in problem.mixes:
            inside = [(at, 1.0) for column, at in self.made.items() if mix.holds(column)]
            most = np.inf if mix.at_most is None else mix.at_most
            if not mix.share:
                rows.row(inside, mix.at_least, most)
                continue
            for share, low, high in ((mix.at_least, 0, np.inf), (most, -np.inf, 0)):
                if np.isfinite(share):
                    off = [(at, -share / 100) for at in self.made.values()]
                    rows.row([*inside, *off], low, high)

    def _vary(self, variety: Variety) -> None:
        """A pair is there or not, and not without an item of it."""
        items: dict[tuple[int, ...], list[tuple[int, float]]] = {}
        for column, at in self.made.items():
            if column.want in variety.wants:
                items.setdefault(column.pair, []).append((at, -1.0))
        there = []
        for of in items.values():
            at = self.rows.var(1)
            there.append((at, 1.0))
            self.rows.row([(at, 1.0), *of], -np.inf, 0)
        self.rows.row(there, variety.at_least, np.inf)

    def _lot(self, lot: int) -> None:
        problem, rows = self.problem, self.rows
        stock = problem.lots[lot]
        asked: dict[tuple[int, int], list[tuple[int, float]]] = {}
        need: list[tuple[int, float]] = []
        for column in self.from_lot.get(lot, ()):
            at = self.made[column]
            for part, place in problem.places(column):
                if place.lot == lot:
                    need.append((at, part.um / 1e6))
                    for um in part.strand_lengths:
                        asked.setdefault((um, place.pool), []).append((at, 1.0))
        given = {kind: [(at, -n) for at, n in entries] for kind, entries in asked.items()}
        cuts: list[list[tuple[int, float]]] = [[] for _ in stock.supplies]
        for (um, pool), entries in given.items():
            for i, supply in enumerate(stock.supplies):
                if pool >> i & 1 and supply.um >= um:
                    whole = rows.var(supply.um // um if um else 10_000)
                    entries.append((whole, 1.0))
                    cuts[i].append((whole, um / 1e6))
        for _ in range(len(stock.supplies) - 1):
            self._joined(lot, given, cuts)
        for entries in given.values():
            rows.row(entries, 0, 0)
        for supply, told in zip(stock.supplies, cuts, strict=True):
            rows.row(told, -np.inf, supply.um / 1e6)
        rows.row([one for told in cuts for one in told], -np.inf, stock.most_um / 1e6)
        self._use(lot, need, cuts)

    def _joined(
        self,
        lot: int,
        given: dict[tuple[int, int], list[tuple[int, float]]],
        cuts: list[list[tuple[int, float]]],
    ) -> None:
        """One strand that may be joined, of any length that is asked of the lot."""
        rows, ends = self.rows, self.problem.ends
        join, least = ends.join_um / 1e6, ends.shortest_um / 1e6
        kinds = {kind: rows.var(1) for kind in given}
        rows.row([(at, 1.0) for at in kinds.values()], -np.inf, 1)
        length = [(at, join - um / 1e6) for (um, _), at in kinds.items()]
        for i, supply in enumerate(self.problem.lots[lot].supplies):
            if supply.um < ends.shortest_um:
                continue
            cut, used = rows.var(supply.um / 1e6, whole=False), rows.var(1)
            length += [(cut, 1.0), (used, -join)]
            cuts[i].append((cut, 1.0))
            rows.row([(cut, 1.0), (used, -supply.um / 1e6)], -np.inf, 0)
            rows.row([(cut, 1.0), (used, -least)], 0, np.inf)
            able = [(at, -1.0) for (_, pool), at in kinds.items() if pool >> i & 1]
            rows.row([(used, 1.0), *able], -np.inf, 0)
        rows.row(length, 0, 0)
        for kind, at in kinds.items():
            given[kind].append((at, 1.0))

    def _use(
        self, lot: int, need: list[tuple[int, float]], cuts: list[list[tuple[int, float]]]
    ) -> None:
        """What of the part balls is used: what is cut of them, and no more than is needed."""
        stock = self.problem.lots[lot]
        if not stock.opened_um or not need:
            return
        used = self.rows.var(stock.opened_um / 1e6, whole=False)
        opened = [
            (at, -n)
            for supply, told in zip(stock.supplies, cuts, strict=True)
            if not supply.whole
            for at, n in told
        ]
        self.rows.row([(used, 1.0), *opened], -np.inf, 0)
        self.rows.row([(used, 1.0), *((at, -n) for at, n in need)], -np.inf, 0)
        self.used_up.append(used)

    def worths(self, aim: Aim) -> list[tuple[int, float]]:
        """What each variable adds to an aim: coins, items, metres."""
        if aim is Aim.LEFTOVERS:
            return [(at, 1.0) for at in self.used_up]
        metre = 1e6 if aim in (Aim.BUYING, Aim.PROFIT) else 1
        return [(at, self.problem.worth(column, aim) / metre) for column, at in self.made.items()]

    def most(self, aim: Aim, seconds: float) -> Answer:
        """The most of an aim in so much time."""
        self.rows.worth = [0.0] * len(self.rows.upper)
        for at, worth in self.worths(aim):
            self.rows.worth[at] = worth
        values, bound, ended = self.rows.solved(seconds)
        if values is None:
            return Answer(None, bound, ended, {})
        counts = {column: round(values[at]) for column, at in self.made.items()}
        best = float(np.dot(values, self.rows.worth))
        return Answer(best, bound, ended, {c: n for c, n in counts.items() if n})

    def keep(self, aim: Aim, least: float) -> None:
        """From now on no less than so much of an aim."""
        self.rows.row(self.worths(aim), least, np.inf)


def in_turn(problem: Problem, aims: Sequence[Aim], seconds: float) -> list[Answer]:
    """The most of each aim, those before it kept; it ends with the first that is not proved."""
    counted, answers = Counted(problem), []
    until = perf_counter() + seconds
    for aim in aims:
        answer = counted.most(aim, max(1.0, until - perf_counter()))
        answers.append(answer)
        if answer.best is None or not answer.ended:
            break
        counted.keep(aim, answer.best - 1e-6 * max(1.0, answer.best))
    return answers


def _columns(number: int, problem: Problem) -> list[Column]:
    want = problem.wants[number]
    found = []
    for lots in product(*(part.places for part in want.parts)):
        if all(want.beside.row(a) >> b & 1 for i, a in enumerate(lots) for b in lots[:i]):
            found.append(Column(number, lots))
    return found
