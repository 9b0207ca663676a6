"""What a plan leaves unmade though it was wanted, and what the next one would have needed."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice

from stash.measures.length import Length
from stash.planning.model.batch import NotMade, Wanted, Why
from stash.planning.model.problem import METRE_UM, MILLIONTHS, Column, Problem, Want
from stash.planning.optimiser.clash import shortage
from stash.planning.optimiser.plan import Plan, too_many
from stash.planning.optimiser.pricing import cheapest


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
    other = Why.LOSS if profit and _loses(problem, plan, asked) else _other(problem, plan, want)
    return NotMade(want, count, short, nowhere, minutes, tuple(reasons) or (other,))


def too_few(problem: Problem, plan: Plan, want: int, count: int) -> NotMade:
    """Why a want falls short of its least by so many: the same of what must be made."""
    return _of(problem, plan, want, count, profit=False)


def _loses(problem: Problem, plan: Plan, want: Want) -> bool:
    """Whether the cheapest yarn that is left makes one more of it cost all that it brings."""
    left = _left(problem, plan)
    cost = 0
    for part in want.parts:
        lots = [lot for lot, place in part.places.items() if place.least_um <= left[lot]]
        cost += min((problem.lots[lot].cheapest for lot in lots), default=0) * part.used_um
    return (want.coins - want.expenses) * MILLIONTHS <= cost // METRE_UM


def _left(problem: Problem, plan: Plan) -> list[int]:
    """What the plan leaves of every lot."""
    left = [lot.most_um for lot in problem.lots]
    for cut in plan.taken:
        left[cut.lot] -= cut.um
    return left


#: So many sets of yarns are looked at for one that no limit keeps back.
_LOOKED_AT = 5_000


def _other(problem: Problem, plan: Plan, want: int) -> Why:
    """Where yarn and hours would do: a limit, or it does not go together, or others bring more."""
    left, asked = _left(problem, plan), problem.wants[want]
    lines = [
        [(0.0, lot) for lot, place in part.places.items() if place.least_um <= left[lot]]
        for part in asked.parts
    ]
    sets = islice(cheapest(lines, asked.beside), _LOOKED_AT)
    limited = [_limited(problem, plan, Column(want, lots)) for _, lots in sets]
    if not limited:
        return Why.OTHERS
    return Why.LIMIT if all(limited) or problem.varieties else Why.OTHERS


def _limited(problem: Problem, plan: Plan, column: Column) -> bool:
    """Whether a limit on pairs, colours or mixes keeps one more of a kind back."""
    if problem.per_pair is not None:
        alike = sum(item.pair == column.pair for item in plan.items)
        if alike >= problem.per_pair:
            return True
    return any(mix.holds(column) and too_many(mix, [*plan.items, column]) for mix in problem.mixes)
