"""A plan as it stands in the columns that say how a lot is cut."""

from __future__ import annotations

from stash.planning.model.problem import METRE_UM, Problem
from stash.planning.optimiser.cutting import Strand
from stash.planning.optimiser.plan import Plan, Taken
from stash.planning.optimiser.skeinwise import Sketched, Written


def put_cuts(
    values: list[float], cut_as: Written | Sketched, problem: Problem, plan: Plan, lot: int
) -> None:
    """Put what a plan cuts of a lot among the values of a program."""
    strands: dict[tuple[int, int, int], list[Taken]] = {}
    for cut in plan.taken:
        if cut.lot == lot:
            strands.setdefault((cut.item, cut.part, cut.strand), []).append(cut)
    places = iter(cut_as.joined if isinstance(cut_as, Written) else ())
    for (item, number, strand), cuts in strands.items():
        part = problem.wants[plan.items[item].want].parts[number]
        kind = Strand(part.strand_lengths[strand], part.places[lot].pool)
        if len(cuts) == 1:
            values[cut_as.whole[kind, cuts[0].supply]] += 1
        elif isinstance(cut_as, Sketched):
            values[cut_as.joined[kind]] += 1
            for cut in cuts:
                values[cut_as.cut[cut.supply]] += cut.um / METRE_UM
        elif one := next(places, None):
            values[one.kinds[kind]] = 1.0
            for cut in cuts:
                values[one.used[cut.supply]] = 1.0
                values[one.cut[cut.supply]] = cut.um / METRE_UM
