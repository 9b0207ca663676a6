"""The planner asked on a shelf: a batch in her things, in and out."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

from stash.matching.lots.shelf import Shelf
from stash.matching.rules.colour_pairs import colour_warnings
from stash.matching.rules.contrast import least_difference, least_gap
from stash.measures.length import Length
from stash.planning.model.attained import Attained
from stash.planning.model.batch import (
    Batch,
    Clash,
    CutSkein,
    Made,
    SkeinCut,
    SoFar,
    Terms,
    Unfilled,
    Unmet,
    Wanted,
)
from stash.planning.model.encode import Costs, Encoded, encode, wants_of_varieties
from stash.planning.model.problem import MILLIONTHS, Aim, Column, Problem
from stash.planning.not_made import not_made, too_few
from stash.planning.optimiser.clash import clash
from stash.planning.optimiser.incumbent import Calls
from stash.planning.optimiser.plan import Plan, broken, left_um, missed
from stash.planning.optimiser.search import Solved, best_plan, in_turn
from stash.planning.standing_apart import standing_apart
from stash.planning.too_alike import too_alike
from stash.planning.unfilled import Fallen, unfilled


def _unseen(plan: SoFar) -> None:
    """Nobody looks before the search has ended."""


def planned(
    shelf: Shelf,
    wants: Sequence[Wanted],
    terms: Terms,
    calls: Calls,
    costs: Costs | None = None,
    *,
    so_far: Callable[[SoFar], None] = _unseen,
) -> Batch:
    """What to make of the shelf, every cut of it, and how much better any plan could be.

    The plan is checked once more by itself; one that broke a rule would be a fault of the planner
    and is never given out. `costs` are what a milligram of each skein costs, where that matters.
    `so_far` sees what each better plan makes, as soon as there is one.
    """
    wants = standing_apart(shelf, wants, terms, calls)
    posed = encode(shelf, wants, terms, costs)

    def better(plan: Plan) -> None:
        so_far(SoFar(tuple(wants), tuple(_made(posed, wants, plan))))

    solved = best_plan(posed.problem, terms.aims, replace(calls, better=better))
    fault = broken(solved.problem, solved.plan)
    if fault:
        raise AssertionError(fault)
    problem = solved.settled
    lacks = missed(problem, solved.plan.items)
    count = len(wants)
    varied = count + len(problem.mixes)
    return Batch(
        as_of=shelf.as_of,
        wants=tuple(wants),
        terms=terms,
        made=tuple(_made(posed, wants, solved.plan)),
        unmet=tuple(
            _unmet(problem, solved.plan, want, lacks[want]) for want in range(count) if lacks[want]
        ),
        attained=tuple(_in_coins(one) for one in solved.attained if one.aim is not None),
        skeins=tuple(_skeins(posed, solved.plan)),
        minutes=sum(wants[item.want].minutes for item in solved.plan.items),
        finished=solved.finished,
        unmet_mixes={i: lack for i, lack in enumerate(lacks[count:varied]) if lack},
        clash=_clash(posed, solved, calls) if any(lacks[:varied]) and solved.finished else None,
        useful_end=Length(posed.problem.ends.shortest_um),
        not_made=tuple(
            not_made(posed.problem, wants, solved.plan, profit=Aim.PROFIT in terms.aims)
        ),
        unfilled=tuple(
            unfilled(shelf, posed, wants[want], Fallen(want, plan))
            for want, plan in solved.fallen.items()
        ),
        too_alike=tuple(too_alike(solved, wants_of_varieties(wants, terms), calls)),
    )


def _in_coins(one: Attained) -> Attained:
    """Profit to the nearest coin; what could be more of it, too."""
    if one.aim is not Aim.PROFIT:
        return one
    total, more = _coins(one.total), _coins(one.bound - one.total)
    return Attained(one.aim, total, total + more)


def _coins(millionths: int) -> int:
    return (2 * millionths + MILLIONTHS) // (2 * MILLIONTHS)


def unfilled_orders(shelf: Shelf, orders: Sequence[Wanted], calls: Calls) -> tuple[Unfilled, ...]:
    """What the shelf does not give of orders in their turn, where nothing else is made."""
    if not orders:
        return ()
    posed = encode(shelf, orders, Terms(()))
    return tuple(
        unfilled(shelf, posed, orders[want], Fallen(want, plan))
        for want, plan in in_turn(posed.problem, calls).fallen.items()
    )


def _made(posed: Encoded, wants: Sequence[Wanted], plan: Plan) -> list[Made]:
    kinds: dict[Column, list[int]] = {}
    for number, item in enumerate(plan.items, start=1):
        kinds.setdefault(item, []).append(number)
    return [_made_of(posed, wants[kind.want], kind, numbers) for kind, numbers in kinds.items()]


def _made_of(posed: Encoded, want: Wanted, kind: Column, numbers: Sequence[int]) -> Made:
    """Items of a kind, with what the matcher would say of their lots side by side."""
    seen = [posed.seen[lot] for lot in kind.lots]
    shades = [lot.shades for lot in seen]
    return Made(
        kind.want,
        tuple(lot.lot for lot in seen),
        tuple(numbers),
        tuple(colour_warnings(seen, want.wish.vision)),
        least_gap(shades),
        least_difference(shades),
    )


def _skeins(posed: Encoded, plan: Plan) -> list[CutSkein]:
    """Every skein that is cut, by number, its cuts in the order of the items."""
    cuts: dict[tuple[int, int], list[SkeinCut]] = {}
    for cut in sorted(plan.taken, key=lambda t: (t.item, t.part, t.strand, t.lot, t.supply)):
        want = plan.items[cut.item].want
        role = posed.problem.wants[want].parts[cut.part].role
        told = SkeinCut(cut.item + 1, want, role, cut.strand + 1, Length(cut.um))
        cuts.setdefault((cut.lot, cut.supply), []).append(told)
    left = left_um(posed.problem, plan)
    found = [
        _cut_skein(posed, lot, supply, tuple(told), left[lot, supply])
        for (lot, supply), told in cuts.items()
    ]
    return sorted(found, key=lambda skein: skein.number)


def _cut_skein(
    posed: Encoded, lot: int, supply: int, cuts: tuple[SkeinCut, ...], left: int
) -> CutSkein:
    held = posed.seen[lot].lot
    number = posed.problem.lots[lot].supplies[supply].number
    place = next(skein.place for skein in held.skeins if skein.number == number)
    return CutSkein(number, held, place, cuts, Length(left))


def _unmet(problem: Problem, plan: Plan, want: int, count: int) -> Unmet:
    why = too_few(problem, plan, want, count)
    return Unmet(want, count, why.short, why.minutes, why.reasons, why.nowhere)


def _clash(posed: Encoded, solved: Solved, calls: Calls) -> Clash:
    found = clash(solved.settled, solved.plan, calls)
    return Clash(
        found.wants,
        found.mixes,
        tuple(posed.seen[lot].lot for lot in found.lots),
        found.hours,
        found.more_minutes,
    )
