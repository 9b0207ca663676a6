"""Different sets of yarns that a plan lacks though they were asked for, and why."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from stash.planning.model.batch import TooAlike, Why
from stash.planning.model.problem import Problem, Variety
from stash.planning.optimiser.incumbent import Calls
from stash.planning.optimiser.plan import sets_lacking
from stash.planning.optimiser.search import Solved, best_plan


def too_alike(solved: Solved, wants: Sequence[int | None], calls: Calls) -> Iterator[TooAlike]:
    """Every variety that the plan falls short of; `wants` says what each is of."""
    problem = solved.settled
    for want, variety in zip(wants, problem.varieties, strict=True):
        lack = sets_lacking(variety, solved.plan.items)
        if lack:
            found = _reasons(problem, variety, lack, calls) if solved.finished else []
            reasons = () if calls.stop() else tuple(found) or (Why.YARN,)
            yield TooAlike(want, variety.at_least, lack, reasons)


def _reasons(problem: Problem, variety: Variety, lack: int, calls: Calls) -> list[Why]:
    """Everything without which more sets would differ: each is left out by itself, and planned."""
    return [
        why
        for why, freed in _freed(replace(problem, varieties=(variety,)))
        if sets_lacking(variety, best_plan(freed, (), calls).plan.items) < lack
    ]


def _freed(problem: Problem) -> Iterator[tuple[Why, Problem]]:
    if problem.minutes is not None:
        yield Why.HOURS, replace(problem, minutes=None)
    if problem.per_pair is not None or any(mix.at_most is not None for mix in problem.mixes):
        mixes = tuple(replace(mix, at_most=None) for mix in problem.mixes)
        yield Why.LIMIT, replace(problem, per_pair=None, mixes=mixes)
    musts = [w for i, w in enumerate(problem.wants) if i not in problem.first and w.at_least]
    if musts or any(mix.at_least for mix in problem.mixes):
        wants = tuple(
            w if i in problem.first else replace(w, at_least=0) for i, w in enumerate(problem.wants)
        )
        mixes = tuple(replace(mix, at_least=0) for mix in problem.mixes)
        yield Why.OTHERS, replace(problem, wants=wants, mixes=mixes)
