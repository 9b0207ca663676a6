"""Which wants cannot all be met, over what, and the smallest give that would free them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.planning.model.problem import Part, Problem
from stash.planning.optimiser.formulate import Goal, Master
from stash.planning.optimiser.incumbent import Calls
from stash.planning.optimiser.plan import Plan, missed
from stash.planning.optimiser.search import best_plan

#: Prices below this are none.
_NOTHING = 1e-6


@dataclass(frozen=True, slots=True)
class ClashOf:
    """Wants, mixes and lots by their place; `more_minutes` None where no time would do."""

    wants: tuple[int, ...]
    mixes: tuple[int, ...]
    lots: tuple[int, ...]
    hours: bool
    more_minutes: int | None


def clash(problem: Problem, plan: Plan, calls: Calls) -> ClashOf:
    """What stands against each other where a plan misses some of what must be made.

    Where even fractions cannot meet it, the prices of the best fractions name the rows that
    contradict each other, and no others do; else the wants that share lots with those missed.
    """
    master = Master(problem, Goal(None), calls.stop)
    found, _ = master.relaxed()
    wants, mixes, lots, hours = master.binding(found, _NOTHING)
    lacks = missed(problem, plan.items)
    if found.total > -_NOTHING:
        wants, lots, hours = _sharing(problem, lacks), [], False
        mixes = [i for i, mix in enumerate(problem.mixes) if mix.at_least]
    more = None
    if problem.minutes is not None and not problem.varieties:
        more = _more_minutes(problem, calls)
    return ClashOf(tuple(wants), tuple(mixes), tuple(lots), hours or bool(more), more)


def _sharing(problem: Problem, lacks: Sequence[int]) -> list[int]:
    """The wants with a least that may come from the lots of those that are missed."""
    lots = [{lot for part in want.parts for lot in part.places} for want in problem.wants]
    wanted = set().union(*(lots[i] for i in range(len(lots)) if lacks[i]))
    return [
        i
        for i, want in enumerate(problem.wants)
        if want.at_least and (lacks[i] or not wanted.isdisjoint(lots[i]))
    ]


def _more_minutes(problem: Problem, calls: Calls) -> int | None:
    """How much more time alone would do; None where it would not."""
    least = [replace(want, at_most=want.at_least) for want in problem.wants]
    timeless = replace(problem, minutes=None, wants=tuple(least))
    solved = best_plan(timeless, (), calls)
    if any(missed(timeless, solved.plan.items)):
        return None
    minutes = sum(problem.wants[item.want].minutes for item in solved.plan.items)
    return max(0, minutes - (problem.minutes or 0)) or None


def shortage(problem: Problem, plan: Plan, part: Part) -> int | None:
    """How much the lot that comes nearest lacks of one more such part; None where no lot may be."""
    taken: Counter[int] = Counter()
    for cut in plan.taken:
        taken[cut.lot] += cut.um
    lacks = [
        max(0, place.least_um - (problem.lots[lot].most_um - taken[lot]))
        for lot, place in part.places.items()
    ]
    return min(lacks, default=None)
