"""What a plan leaves unmade though it was wanted, and what the next one would have needed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from stash.measures.length import Length
from stash.planning.model.batch import NotMade, Wanted, Why
from stash.planning.model.problem import METRE_UM, MILLIONTHS, Problem, Want
from stash.planning.optimiser.clash import shortage
from stash.planning.optimiser.plan import Plan


def not_made(
    problem: Problem, wants: Sequence[Wanted], plan: Plan, *, profit: bool
) -> Iterator[NotMade]:
    """Every want that could have been made more of, with what one more of it lacks.

    `profit`: one that brings none is wanted for nothing.
    One without a most is named where none of it is made. What falls short of its least is `Unmet`.
    """
    made = plan.made()
    for i, want in enumerate(wants):
        if made[i] < want.at_least:
            continue
        left = None if want.at_most is None else want.at_most - made[i]
        if left or (left is None and not made[i]):
            yield _of(problem, plan, i, left, profit=profit)


def _of(problem: Problem, plan: Plan, want: int, count: int | None, *, profit: bool) -> NotMade:
    asked = problem.wants[want]
    lacks = {part.role: shortage(problem, plan, part) for part in asked.parts}
    nowhere = tuple(role for role, um in lacks.items() if um is None)
    short = {role: Length(um) for role, um in lacks.items() if um}
    used = sum(problem.wants[item.want].minutes for item in plan.items)
    minutes = 0 if problem.minutes is None else max(0, asked.minutes - (problem.minutes - used))
    reasons = [
        *([Why.YARN] if short or nowhere else []),
        *([Why.HOURS] if minutes else []),
    ]
    other = Why.LOSS if profit and _loses(problem, plan, asked) else _other(problem)
    return NotMade(want, count, short, nowhere, minutes, tuple(reasons) or (other,))


def _loses(problem: Problem, plan: Plan, want: Want) -> bool:
    """Whether the cheapest yarn that is left makes one more of it cost all that it brings."""
    left = [lot.most_um for lot in problem.lots]
    for cut in plan.taken:
        left[cut.lot] -= cut.um
    cost = 0
    for part in want.parts:
        lots = [lot for lot, place in part.places.items() if place.least_um <= left[lot]]
        cost += min((problem.lots[lot].cheapest for lot in lots), default=0) * part.used_um
    return (want.coins - want.expenses) * MILLIONTHS <= cost // METRE_UM


def _other(problem: Problem) -> Why:
    """Where yarn and hours would do: a limit, or what else is made brings more."""
    mixed = any(mix.at_most is not None for mix in problem.mixes)
    limited = problem.per_pair is not None or mixed or problem.varieties
    return Why.LIMIT if limited else Why.OTHERS
