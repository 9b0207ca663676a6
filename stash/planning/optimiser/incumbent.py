"""What has been found for one aim so far: the best plan, and what no plan can exceed."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import floor, gcd, inf

from stash.measures.note import Note
from stash.planning.model.attained import Attained
from stash.planning.model.problem import MILLIONTHS, Aim, Column, Problem
from stash.planning.optimiser.formulate import Goal
from stash.planning.optimiser.plan import Plan, cut_out, missed, total, trimmed, unsound
from stash.planning.optimiser.solver import Stop


def unseen(plan: Plan) -> None:
    """Nobody looks at a plan before the search has ended."""


@dataclass(frozen=True, slots=True)
class Calls:
    """Whom to ask whether to stop, who hears what is being done, and who sees each better plan."""

    stop: Stop
    report: Callable[[Note], None]
    better: Callable[[Plan], None] = unseen


class Incumbent:
    """The best plan for a goal, beginning with one that keeps what earlier aims have reached."""

    def __init__(
        self, problem: Problem, goal: Goal, start: Plan, better: Callable[[Plan], None] = unseen
    ) -> None:
        self.problem, self.goal, self._better = problem, goal, better
        cut = self._cut(start.items)
        self.plan = start if cut is None or not self._keeps_aims(cut) else cut
        self.total = total(problem, goal.aim, self.plan)
        self.unit = _unit(problem, goal.aim)
        #: By less than this no plan is said to be better: half a coin rounds to none.
        self.least = MILLIONTHS // 2 if goal.aim is Aim.PROFIT else self.unit
        self.bound = max(self.total, _without_end(problem, goal.aim))
        better(self.plan)

    @property
    def attained(self) -> Attained:
        """What is attained by now."""
        return Attained(self.goal.aim, self.total, self.bound)

    def within(self, gap: float) -> bool:
        """Whether no plan can be better by more than such a share."""
        return self.bound - self.total < self.least or self.attained.gap <= gap

    def near(self, items: Sequence[Column], gap: float) -> bool:
        """Whether these, once cut, would leave no more than such a share to gain."""
        aim = self.goal.aim
        if aim is None or aim is Aim.LEFTOVERS:
            return False  # told by the cuts, or by what is missed
        found = sum(self.problem.worth(column, aim) for column in items)
        return Attained(aim, found, self.bound).gap <= gap

    def offer(self, items: Sequence[Column]) -> bool:
        """Keep these items if they can be cut, keep what must be kept, and are better."""
        plan = self._cut(trimmed(self.problem, items))
        if plan is None or not self._keeps(plan):
            return False
        found = total(self.problem, self.goal.aim, plan)
        if found <= self.total:
            return False
        self.plan, self.total = plan, found
        self.bound = max(self.bound, found)
        self._better(plan)
        return True

    def _cut(self, items: Sequence[Column]) -> Plan | None:
        return cut_out(self.problem, items, thrifty=self.goal.leftovers)

    def _keeps(self, plan: Plan) -> bool:
        if unsound(self.problem, plan):
            return False
        lacks = missed(self.problem, plan.items)
        if any(lacks) and (self.goal.aim or any(lacks[want] for want in self.problem.first)):
            return False
        return self._keeps_aims(plan)

    def _keeps_aims(self, plan: Plan) -> bool:
        return all(total(self.problem, r.aim, plan) >= r.total for r in self.goal.kept)

    def lower(self, bound: float) -> None:
        """No plan comes to more than this; totals are whole multiples of the unit."""
        if bound < inf:
            within = bound + 1e-7 * max(1.0, abs(bound))  # the solver's own tolerance
            whole = floor(max(within, self.total) / self.unit) * self.unit
            self.bound = max(self.total, min(self.bound, whole))


def _without_end(problem: Problem, aim: Aim | None) -> int:
    """What a shelf without end would come to."""
    if aim is None:
        return 0
    if aim is Aim.LEFTOVERS:
        return sum(lot.opened_um for lot in problem.lots)
    wants = enumerate(problem.wants)
    return sum(want.at_most * max(0, problem.worth(Column(i, ()), aim)) for i, want in wants)


def _unit(problem: Problem, aim: Aim | None) -> int:
    if aim is None or aim in (Aim.LEFTOVERS, Aim.PROFIT):
        return 1
    worths = [problem.worth(Column(i, ()), aim) for i in range(len(problem.wants))]
    return max(1, gcd(*worths))
