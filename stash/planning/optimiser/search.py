"""The best plan that can be found, and what no plan can exceed.

What has the first say of the yarn is made in its turn, each as often as those before it allow.
Then aims are taken in turn, earlier ones kept: that every least is met, then what she asks for.
For each the best in fractions gives a bound; whole items are dived for, what is left over is
gathered, and on a small shelf the gap is closed by branching.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from stash.measures.note import Note
from stash.planning.model.attained import Attained
from stash.planning.model.problem import Aim, Column, Mix, Problem, Want
from stash.planning.optimiser.branching import close_gap
from stash.planning.optimiser.consolidate import consolidate
from stash.planning.optimiser.draft_plan import DraftPlan
from stash.planning.optimiser.formulate import Goal, Master, Reached
from stash.planning.optimiser.incumbent import Calls, Incumbent
from stash.planning.optimiser.plan import Plan, cut_out, missed, polished, total, trimmed
from stash.planning.optimiser.pricing import Prices, cheapest
from stash.planning.optimiser.rounding import dive

#: A gap this small is not worth more gathering.
ENOUGH = 0.001
#: How often what is left over is gathered and the rest asked again.
ROUNDS = 6
#: So much work goes into closing gaps, as the solver counts it, and so much of it at most for one
#: aim: 4 to 8 s of one core.
WORK, FOR_ONE = 25_000_000, 16_000_000
#: The plan of nothing.
NOTHING = Plan((), ())


@dataclass(frozen=True, slots=True)
class Solved:
    """The plan, what it attains of each aim, and the problem with what had to be given up.

    `settled` is the problem with what has the first say at what is made of it. `fallen` are the
    wants among these that fall short, each with the plan of its turn.
    """

    problem: Problem
    settled: Problem
    plan: Plan
    attained: tuple[Attained, ...]
    finished: bool
    fallen: Mapping[int, Plan]


def best_plan(problem: Problem, aims: Sequence[Aim], calls: Calls) -> Solved:
    """The plan that is best for these aims in their order, as near as could be proved."""
    turns = in_turn(problem, calls)
    problem = turns.problem
    best = first_plan(problem, turns.plan.items)
    attained: list[Attained] = []
    kept: list[Reached] = []
    left = WORK
    for aim in (*([None] if _has_musts(problem) else []), *aims):
        calls.report(Note("working_on_aim", aim=aim))
        held = Incumbent(problem, Goal(aim, tuple(kept)), best, calls.better)
        left -= _pursue(held, min(left, FOR_ONE), calls)
        best = held.plan
        attained.append(held.attained)
        if aim is None:
            problem = given_up(problem, best)
        else:
            kept.append(Reached(aim, held.total))
    plan = polished(problem, best, Aim.LEFTOVERS in aims)
    if any(total(problem, reached.aim, plan) < reached.total for reached in kept):
        plan = best  # fewer joins may cost more
    told = tuple(attained)
    return Solved(problem, turns.problem, plan, told, not calls.stop(), turns.fallen)


@dataclass(frozen=True, slots=True)
class Turns:
    """What has the first say, made one after the other as often as can be.

    The problem has each of them settled at what is made; `fallen` as in `Solved`.
    """

    problem: Problem
    plan: Plan
    fallen: Mapping[int, Plan]


def in_turn(problem: Problem, calls: Calls) -> Turns:
    """Each want that has the first say, as often as those before it allow, which lose nothing."""
    plan, fallen = NOTHING, dict[int, Plan]()
    for at, want in enumerate(problem.first):
        calls.report(Note("working_on_order", at=at + 1, of=len(problem.first)))
        problem, plan = _in_its_turn(problem, at, plan, calls)
        made = plan.made()[want]
        if made < problem.wants[want].at_least:
            fallen[want] = plan
        problem = _with(problem, {want: made})
    return Turns(problem, plan, fallen)


def _in_its_turn(problem: Problem, at: int, plan: Plan, calls: Calls) -> tuple[Problem, Plan]:
    """The most of one want, within what mixes allow where that is as many.

    Else a mix that is full is raised by what is lacking, or all of them to what comes of it.
    """
    want = problem.first[at]
    within = _most_of(problem, at, plan, calls)
    lack = problem.wants[want].at_least - within.made()[want]
    full = [i for i, mix in enumerate(problem.mixes) if _is_full(mix, within)]
    if not lack or not full:
        return problem, within
    beyond = _most_of(_with_mosts(problem, dict.fromkeys(full)), at, within, calls)
    lack = beyond.made()[want] - within.made()[want]
    if not lack:
        return problem, within
    for i in full:
        raised = _with_mosts(problem, {i: (problem.mixes[i].at_most or 0) + lack})
        found = _most_of(raised, at, within, calls)
        if found.made()[want] == beyond.made()[want]:
            return raised, found
    counts = {i: sum(map(problem.mixes[i].holds, beyond.items)) for i in full}
    mosts = {i: max(problem.mixes[i].at_most or 0, count) for i, count in counts.items()}
    return _with_mosts(problem, mosts), beyond


def _most_of(problem: Problem, at: int, plan: Plan, calls: Calls) -> Plan:
    """The plan with most of one want in its turn."""
    turn = _turn(problem, at)
    held = Incumbent(turn, Goal(Aim.VALUE), _more_of(turn, plan, problem.first[at]))
    if not held.within(0.0):
        _pursue(held, FOR_ONE, calls)
    return held.plan


def _is_full(mix: Mix, plan: Plan) -> bool:
    """Whether a plan has as many of a mix as there may be."""
    return not mix.share and mix.at_most == sum(map(mix.holds, plan.items))


def _with_mosts(problem: Problem, mosts: Mapping[int, int | None]) -> Problem:
    mixes = [replace(mix, at_most=mosts.get(i, mix.at_most)) for i, mix in enumerate(problem.mixes)]
    return replace(problem, mixes=tuple(mixes))


def _with(problem: Problem, made: Mapping[int, int]) -> Problem:
    """The problem with some wants settled at so many."""
    wants = [
        replace(want, at_least=made[i], at_most=made[i]) if i in made else want
        for i, want in enumerate(problem.wants)
    ]
    return replace(problem, wants=tuple(wants))


def _turn(problem: Problem, at: int) -> Problem:
    """The problem in the turn of one want: those before it settled, nothing after it made."""
    settled, own = problem.first[:at], problem.first[at]
    wants = [
        want if i in settled else replace(want, at_least=0) if i == own else _unmade(want)
        for i, want in enumerate(problem.wants)
    ]
    valued = [replace(want, coins=int(i == own)) for i, want in enumerate(wants)]
    mosts = [
        mix for mix in problem.mixes if mix.at_most is not None and mix.wants & {*settled, own}
    ]
    return replace(problem, wants=tuple(valued), mixes=tuple(mosts), varieties=())


def _unmade(want: Want) -> Want:
    parts = tuple(replace(part, places={}) for part in want.parts)
    return replace(want, parts=parts, at_least=0, at_most=0)


def _more_of(problem: Problem, plan: Plan, want: int) -> Plan:
    """The plan with as many of a want as can simply be put beside it."""
    bench = _begun_with(problem, plan.items)
    if len(bench.items) < len(plan.items):  # cut so finely that the draft cannot see it
        return plan
    _make_all(bench, want)
    return cut_out(problem, trimmed(problem, bench.columns)) or plan


def _begun_with(problem: Problem, items: Sequence[Column]) -> DraftPlan:
    bench = DraftPlan(problem)
    for column in items:
        bench.put(column)
    return bench


def _has_musts(problem: Problem) -> bool:
    mixes = any(mix.at_least for mix in problem.mixes)
    return mixes or bool(problem.varieties) or any(want.at_least for want in problem.wants)


def given_up(problem: Problem, plan: Plan) -> Problem:
    """The problem with each least lowered to what the plan makes of it."""
    lacks = missed(problem, plan.items)
    left = iter(lacks)
    wants = [replace(want, at_least=want.at_least - next(left)) for want in problem.wants]
    mixes = [replace(mix, at_least=0) if next(left) else mix for mix in problem.mixes]
    varied = [replace(one, at_least=one.at_least - next(left)) for one in problem.varieties]
    varied = [one for one in varied if one.at_least]
    return replace(problem, wants=tuple(wants), mixes=tuple(mixes), varieties=tuple(varied))


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
        if held.goal.profit or held.problem.varieties:
            held.offer(bench.columns)  # what is gathered next may be dearer, or more alike
        calls.report(Note("items_so_far", aim=held.goal.aim, count=len(bench.items)))
        if held.near(bench.columns, ENOUGH) or master.stop() or not consolidate(bench, binding):
            break
        master.restart(bench.columns)
    held.offer(bench.columns)


def first_plan(problem: Problem, made: Sequence[Column] = ()) -> Plan:
    """A plan to begin with: what is `made`, what must be, then what brings most for its yarn."""
    bench = _begun_with(problem, made)
    if len(bench.items) < len(made):
        return cut_out(problem, made) or NOTHING
    wants = problem.wants

    def rank(want: int) -> tuple[bool, float, int]:
        return not wants[want].at_least, -wants[want].coins / max(1, wants[want].um), want

    for want in sorted(range(len(wants)), key=rank):
        _make_all(bench, want)
    return cut_out(problem, trimmed(problem, bench.columns)) or cut_out(problem, made) or NOTHING


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
