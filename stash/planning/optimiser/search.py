"""The best plan that can be found, and what no plan can exceed.

Aims are taken in turn, earlier ones kept: first that every least is met, then what she asks for.
For each the best in fractions gives a bound; whole items are dived for, what is left over is
gathered, and on a small shelf the gap is closed by branching.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from stash.measures.note import Note
from stash.planning.model.attained import Attained
from stash.planning.model.problem import Aim, Column, Problem
from stash.planning.optimiser.branching import close_gap
from stash.planning.optimiser.consolidate import consolidate
from stash.planning.optimiser.draft_plan import DraftPlan
from stash.planning.optimiser.formulate import Goal, Master, Reached
from stash.planning.optimiser.incumbent import Calls, Incumbent
from stash.planning.optimiser.plan import Plan, cut_out, missed, polished, trimmed
from stash.planning.optimiser.pricing import Prices, cheapest
from stash.planning.optimiser.rounding import dive

#: A gap this small is not worth more gathering.
ENOUGH = 0.001
#: How often what is left over is gathered and the rest asked again.
ROUNDS = 6
#: So much work goes into closing gaps, as the solver counts it, and so much of it at most for one
#: aim: 4 to 8 s of one core.
WORK, FOR_ONE = 25_000_000, 16_000_000


@dataclass(frozen=True, slots=True)
class Solved:
    """The plan, what it attains of each aim, and the problem with what had to be given up."""

    problem: Problem
    plan: Plan
    attained: tuple[Attained, ...]
    finished: bool


def best_plan(problem: Problem, aims: Sequence[Aim], calls: Calls) -> Solved:
    """The plan that is best for these aims in their order, as near as could be proved."""
    best = first_plan(problem)
    attained: list[Attained] = []
    kept: list[Reached] = []
    left = WORK
    for aim in (*([None] if _has_musts(problem) else []), *aims):
        calls.report(Note("working_on_aim", aim=aim))
        held = Incumbent(problem, Goal(aim, tuple(kept)), best)
        left -= _pursue(held, min(left, FOR_ONE), calls)
        best = held.plan
        attained.append(held.attained)
        if aim is None:
            problem = given_up(problem, best)
        else:
            kept.append(Reached(aim, held.total))
    return Solved(
        problem, polished(problem, best, Aim.LEFTOVERS in aims), tuple(attained), not calls.stop()
    )


def _has_musts(problem: Problem) -> bool:
    return any(want.at_least for want in problem.wants) or any(m.at_least for m in problem.mixes)


def given_up(problem: Problem, plan: Plan) -> Problem:
    """The problem with each least lowered to what the plan makes of it."""
    lacks = missed(problem, plan.items)
    count = len(problem.wants)
    wants = [
        replace(want, at_least=want.at_least - lack)
        for want, lack in zip(problem.wants, lacks[:count], strict=True)
    ]
    mixes = [
        replace(mix, at_least=0) if lack else mix
        for mix, lack in zip(problem.mixes, lacks[count:], strict=True)
    ]
    return replace(problem, wants=tuple(wants), mixes=tuple(mixes))


def _pursue(held: Incumbent, work: int, calls: Calls) -> int:
    """Look for the most of a goal; how much of the work for closing the gap was taken."""
    master = Master(held.problem, held.goal, calls.stop)
    for column in held.plan.items:
        master.add(column)
    found, bound = master.relaxed()
    held.lower(bound * master.scale_of_aim)
    if found.done and not held.within(0.0):
        prices = master.prices(found)
        _dive_and_consolidate(held, (master, prices), calls)
        if not held.within(0.0) and not calls.stop():
            return close_gap(held, (master, prices), work, calls)
    return 0


def _dive_and_consolidate(held: Incumbent, at: tuple[Master, Prices], calls: Calls) -> None:
    """Dive, gather what is left over, and dive again, while it helps."""
    master, prices = at
    bench = DraftPlan(held.problem)
    binding = sorted({lot for (lot, _), price in prices.yarn.items() if price > 0})
    for _ in range(ROUNDS):
        dive(master, bench)
        calls.report(Note("items_so_far", aim=held.goal.aim, count=len(bench.items)))
        if held.near(bench.columns, ENOUGH) or master.stop() or not consolidate(bench, binding):
            break
        master.restart(bench.columns)
    held.offer(bench.columns)


def first_plan(problem: Problem) -> Plan:
    """A plan to begin with: what must be made first, then what brings most for its yarn."""
    bench = DraftPlan(problem)
    wants = problem.wants

    def rank(want: int) -> tuple[bool, float, int]:
        return not wants[want].at_least, -wants[want].coins / max(1, wants[want].um), want

    for want in sorted(range(len(wants)), key=rank):
        _make_all(bench, want)
    return cut_out(problem, trimmed(problem, bench.columns)) or Plan((), ())


def _make_all(bench: DraftPlan, number: int) -> None:
    """As many of a want as can be made, out of the lots with most left."""
    want = bench.problem.wants[number]
    lines = [
        sorted(
            (float(-bench.room[place.lot]), place.lot)
            for place in part.places.values()
            if bench.room[place.lot] >= place.least_um
        )
        for part in want.parts
    ]
    tries = 2 * want.at_most + 20
    for _, lots in cheapest(lines, want.beside):
        while bench.put(Column(number, lots)) is None:
            tries += 1
        tries -= 1
        if not tries or bench.made[number] >= want.at_most:
            return
