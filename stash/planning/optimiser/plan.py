"""A plan: items with every cut they are made of. It checks itself, without the solver."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from stash.measures.note import Note
from stash.planning.model.problem import (
    METRE_UM,
    MILLIONTHS,
    Aim,
    Column,
    Ends,
    Mix,
    Problem,
    StockLot,
    Variety,
)
from stash.planning.optimiser.cutting import (
    Cannot,
    Cutting,
    Strand,
    cheaply,
    exactly,
    paid,
    thriftily,
    with_fewer_joins,
)
from stash.planning.optimiser.skeinwise import best_cut

#: So many steps go into cutting with fewer joins than the rules find: in all, and for one lot.
POLISH_STEPS, LOT_STEPS = 4_000, 500
#: So little lost of the part balls is not worth another cutting.
LITTLE_UM = 100_000
#: More pieces and strands of several prices than this are cut by rule: the cheapest cutting of
#: one lot of twelve skeins took a second.
MOST_TO_PRICE = 8
#: Nor is less than half a coin worth another cutting.
LITTLE_COST = MILLIONTHS // 2


class Taken(NamedTuple):
    """So much of a piece for one strand of a part of an item; strands count from 0."""

    lot: int
    supply: int
    item: int
    part: int
    strand: int
    um: int


@dataclass(frozen=True, slots=True)
class Plan:
    """The items by kind, in order, and what each takes of which piece."""

    items: tuple[Column, ...]
    taken: tuple[Taken, ...]

    def made(self) -> Counter[int]:
        """How many of each want."""
        return Counter(item.want for item in self.items)


def cut_out(
    problem: Problem, items: Sequence[Column], *, thrifty: bool = False, polish: int = 0
) -> Plan | None:
    """The plan with every cut; None where some lot's pieces do not give what is asked of them.

    `thrifty` cuts as much as can be of the part balls, whatever it joins; else what costs least
    where pieces have several prices; else `polish` is how many steps are taken in all to find
    cuttings with fewer joins.
    """
    items = sorted(items)
    taken: list[Taken] = []
    for lot, asked in sorted(asked_of_lots(problem, items).items()):
        strands = [strand for _, strand in asked]
        cutting = lot_cut(problem, lot, strands, thrifty)
        if cutting is None:
            return None
        as_it_is = thrifty or problem.lots[lot].several_prices
        if polish > 0 and not as_it_is and len(cutting.cuts) > len(strands):
            steps = min(polish, LOT_STEPS)
            cutting = with_fewer_joins(problem.lots[lot], strands, problem.ends, cutting, steps)
            polish -= steps
        for cut in cutting.cuts:
            item, part, strand = asked[cut.strand][0]
            taken.append(Taken(lot, cut.supply, item, part, strand, cut.um))
    return Plan(tuple(items), tuple(taken))


def polished(problem: Problem, plan: Plan, thrifty: bool) -> Plan:
    """The same items cut with fewer joins, as far as the search for that may go."""
    return cut_out(problem, plan.items, thrifty=thrifty, polish=POLISH_STEPS) or plan


def lot_cut(problem: Problem, lot: int, strands: Sequence[Strand], thrifty: bool) -> Cutting | None:
    """The cutting of one lot: by rule where that is as good as can be, else by the solver."""
    stock, ends = problem.lots[lot], problem.ends
    if not thrifty:
        found = cheaply(stock, strands, ends) if stock.several_prices else None
        return _cheapest(stock, strands, ends, found) if found else _any_cut(stock, strands, ends)
    by_rule = thriftily(stock, strands, ends)
    most = min(stock.opened_um, sum(strand.um for strand in strands))
    if by_rule and opened_um(stock, by_rule, strands) >= most - LITTLE_UM:
        return by_rule
    return _better(stock, strands, best_cut(stock, tuple(strands), ends), by_rule)


def _any_cut(stock: StockLot, strands: Sequence[Strand], ends: Ends) -> Cutting | None:
    found = exactly(stock, strands, ends)
    if isinstance(found, Cannot):
        return None if found.proved else best_cut(stock, tuple(strands), ends)
    return found


def _cheapest(stock: StockLot, strands: Sequence[Strand], ends: Ends, by_rule: Cutting) -> Cutting:
    least = stock.least_paid(sum(strand.um for strand in strands))
    large = len(stock.supplies) + len(strands) > MOST_TO_PRICE
    if large or paid(stock, by_rule) // METRE_UM <= least + LITTLE_COST:
        return by_rule
    other = best_cut(stock, tuple(strands), ends)
    return by_rule if other is None else min(by_rule, other, key=lambda way: paid(stock, way))


def costs_more(stock: StockLot, cutting: Cutting) -> bool:
    """Whether a cutting has to take dearer pieces than the same length could be of."""
    if not stock.several_prices:
        return False
    return paid(stock, cutting) // METRE_UM > stock.least_paid(cutting.taken_um) + LITTLE_COST


def _better(
    stock: StockLot, strands: Sequence[Strand], one: Cutting | None, other: Cutting | None
) -> Cutting | None:
    """Of two cuttings the one that uses more of the part balls."""
    able = [cutting for cutting in (one, other) if cutting is not None]
    return max(able, key=lambda cutting: opened_um(stock, cutting, strands), default=None)


def opened_um(stock: StockLot, cutting: Cutting, strands: Sequence[Strand]) -> int:
    """What a cutting uses of the part balls; no more than is needed, as tails count for nothing."""
    opened = sum(cut.um for cut in cutting.cuts if not stock.supplies[cut.supply].whole)
    return min(opened, sum(strand.um for strand in strands))


Asked = tuple[tuple[int, int, int], Strand]


def asked_of_lots(problem: Problem, items: Sequence[Column]) -> dict[int, list[Asked]]:
    """The strands that every lot is to give, each with its item, part and number."""
    found: dict[int, list[Asked]] = {}
    for number, column in enumerate(items):
        for at, (part, place) in enumerate(problem.places(column)):
            found.setdefault(place.lot, []).extend(
                ((number, at, i), Strand(um, place.pool))
                for i, um in enumerate(part.strand_lengths)
            )
    return found


def total(problem: Problem, aim: Aim | None, plan: Plan) -> int:
    """What a plan comes to: coins (of profit millionths), items, micrometres of part balls, or of
    need that is met.

    Without an aim, what it misses of all that is wanted at least, below 0. Of part balls count no
    tails of joins, so that joining more uses up no more.
    """
    if aim is None:
        return -sum(missed(problem, plan.items))
    if aim is Aim.LEFTOVERS:
        lots = {cut.lot for cut in plan.taken}
        return sum(used_up_um(problem, plan, lot) for lot in lots)
    if aim is Aim.PROFIT:
        return _profit(problem, plan)
    return sum(problem.worth(column, aim) for column in plan.items)


def _profit(problem: Problem, plan: Plan) -> int:
    """What is left when expenses and yarn are paid."""
    wants = (problem.wants[item.want] for item in plan.items)
    return sum((w.coins - w.expenses) * MILLIONTHS for w in wants) - _yarn_paid(problem, plan)


def _yarn_paid(problem: Problem, plan: Plan) -> int:
    """What the yarn costs that each part is expected to use: its pieces in turn, by number."""

    def by_number(cut: Taken) -> tuple[int, int, int]:
        return cut.item, cut.part, problem.lots[cut.lot].supplies[cut.supply].number

    found, left, paid, last = 0, 0, 0, (-1, -1)
    for cut in sorted(plan.taken, key=by_number):
        if (cut.item, cut.part) != last:
            last = cut.item, cut.part
            found += paid // METRE_UM
            left, paid = problem.wants[plan.items[cut.item].want].parts[cut.part].used_um, 0
        used, prices = min(left, cut.um), problem.lots[cut.lot].prices
        left -= used
        paid += used * prices[cut.supply] if prices else 0
    return found + paid // METRE_UM


def used_up_um(problem: Problem, plan: Plan, lot: int) -> int:
    """What a plan uses of the part balls of a lot."""
    supplies = problem.lots[lot].supplies
    opened = sum(cut.um for cut in plan.taken if cut.lot == lot and not supplies[cut.supply].whole)
    places = (place for item in plan.items for place in problem.places(item))
    return min(opened, sum(part.um for part, place in places if place.lot == lot))


def missed(problem: Problem, items: Sequence[Column]) -> list[int]:
    """How many items each want lacks of its least, each mix of its own, then sets each variety."""
    made = Counter(item.want for item in items)
    wants = [max(0, want.at_least - made[i]) for i, want in enumerate(problem.wants)]
    mixes = [lacking(mix, items) for mix in problem.mixes]
    return [*wants, *mixes, *(sets_lacking(variety, items) for variety in problem.varieties)]


def sets_lacking(variety: Variety, items: Iterable[Column]) -> int:
    """How many sets of yarns more a variety asks for."""
    pairs = {item.pair for item in items if item.want in variety.wants}
    return max(0, variety.at_least - len(pairs))


def lacking(mix: Mix, items: Sequence[Column]) -> int:
    """How many items a mix lacks of what it asks for at least."""
    inside = sum(mix.holds(item) for item in items)
    least = -(-mix.at_least * len(items) // 100) if mix.share else mix.at_least
    return max(0, least - inside)


def trimmed(problem: Problem, items: Sequence[Column]) -> list[Column]:
    """Without the last items of which a mix has too many, or too large a share.

    What has the first say goes last.
    """
    kept = [*items]
    while over := next((mix for mix in problem.mixes if too_many(mix, kept)), None):
        turns = ((item.want not in problem.first, i) for i, item in enumerate(kept))
        del kept[max(turn for turn in turns if over.holds(kept[turn[1]]))[1]]
    return kept


def too_many(mix: Mix, items: Sequence[Column]) -> bool:
    """Whether a mix has more than its most."""
    if mix.at_most is None:
        return False
    inside = sum(mix.holds(item) for item in items)
    return 100 * inside > mix.at_most * len(items) if mix.share else inside > mix.at_most


class Fault(Note):
    """A rule that a plan breaks: for whoever mends the planner, so it has no words."""


def broken(problem: Problem, plan: Plan) -> Fault | None:
    """The first rule that the plan breaks; None for a sound one.

    What it makes too few of is told by `missed`, but too few different sets are a fault.
    """
    alike = any(sets_lacking(variety, plan.items) for variety in problem.varieties)
    return unsound(problem, plan) or (Fault("sets_too_alike") if alike else None)


def unsound(problem: Problem, plan: Plan) -> Fault | None:
    """The same, where sets may be alike."""
    return next(_unsound(problem, plan), None)


def _unsound(problem: Problem, plan: Plan) -> Iterator[Fault]:
    for want, count in plan.made().items():
        if count > problem.wants[want].at_most:
            yield Fault("want_made_too_often", want=want, count=count)
    minutes = sum(problem.wants[item.want].minutes for item in plan.items)
    if problem.minutes is not None and minutes > problem.minutes:
        yield Fault("too_many_minutes", minutes=minutes)
    pairs = Counter(item.pair for item in plan.items)
    if problem.per_pair is not None and max(pairs.values(), default=0) > problem.per_pair:
        yield Fault("pair_shared_too_often")
    for mix in problem.mixes:
        if too_many(mix, plan.items):
            yield Fault("mix_has_too_many")
    for item in plan.items:
        yield from _ill_assorted(problem, item)
    yield from _miscut(problem, plan)


def _ill_assorted(problem: Problem, item: Column) -> Iterator[Fault]:
    want = problem.wants[item.want]
    for part, lot in zip(want.parts, item.lots, strict=True):
        if lot not in part.places:
            yield Fault("lot_not_for_role", lot=lot, role=part.role)
    for i, lot in enumerate(item.lots):
        if not all(want.beside.row(lot) >> other & 1 for other in item.lots[:i]):
            yield Fault("lot_not_beside_others", lot=lot)


def _miscut(problem: Problem, plan: Plan) -> Iterator[Fault]:
    """Every strand whole with the tails of its joins, and no piece cut twice."""
    strands: dict[tuple[int, int, int], list[Taken]] = {}
    supplies, lots = Counter[tuple[int, int]](), Counter[int]()
    for cut in plan.taken:
        strands.setdefault((cut.item, cut.part, cut.strand), []).append(cut)
        supplies[cut.lot, cut.supply] += cut.um
        lots[cut.lot] += cut.um
    for (lot, supply), um in supplies.items():
        if um > problem.lots[lot].supplies[supply].um:
            yield Fault("supply_cut_beyond_its_end", lot=lot, supply=supply)
    for lot, um in lots.items():
        if um > problem.lots[lot].most_um:
            yield Fault("lot_gives_too_much", lot=lot)
    for number, item in enumerate(plan.items):
        for at, (part, place) in enumerate(problem.places(item)):
            for i, um in enumerate(part.strand_lengths):
                cuts = strands.pop((number, at, i), [])
                yield from _mismeasured(problem, um, place.pool, place.lot, cuts)
    if strands:
        yield Fault("cut_for_nothing")


def _mismeasured(
    problem: Problem, um: int, pool: int, lot: int, cuts: Sequence[Taken]
) -> Iterator[Fault]:
    ends = problem.ends
    if um and sum(cut.um for cut in cuts) != um + ends.join_um * (len(cuts) - 1):
        yield Fault("strand_of_wrong_length")
    if any(cut.lot != lot or not pool >> cut.supply & 1 for cut in cuts):
        yield Fault("strand_of_wrong_supply")
    if len(cuts) > 1 and min(cut.um for cut in cuts) < ends.shortest_um:
        yield Fault("useless_end_joined")


def left_um(problem: Problem, plan: Plan) -> Mapping[tuple[int, int], int]:
    """What is left of each piece that is cut, by lot and piece."""
    found: dict[tuple[int, int], int] = {}
    for cut in plan.taken:
        key = cut.lot, cut.supply
        found[key] = found.get(key, problem.lots[cut.lot].supplies[cut.supply].um) - cut.um
    return found
