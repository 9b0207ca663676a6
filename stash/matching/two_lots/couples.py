"""Two lots in one role, where she asks for that: one more choice for the role, at a cost.

Both are the same yarn in the same colour. Each covers what its own rows take, and both must fit the
lots of the other roles as one alone would have to; neither serves another role.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import partial
from itertools import combinations

from stash.matching.answer.proposal import Filled, SecondLot
from stash.matching.answer.reason import Reason, thousandths
from stash.matching.lots.lot_view import Lots, LotView
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.fits import RoleQuery
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import RoleFit, filled, weigh
from stash.matching.search.candidate_list import CandidateList
from stash.matching.two_lots.plans import SharePlan, SharePlans, parts


@dataclass(frozen=True, slots=True)
class Couple:
    """Two lots that fill a role: each in its own part, and what being two costs in thousandths."""

    lots: Lots
    plan: SharePlan
    parts: tuple[Candidate, ...]
    extra: int

    @property
    def cost(self) -> int:
        """What speaks against either, and against their being two."""
        return sum(part.cost for part in self.parts) + self.extra


#: What can fill a role: a lot alone, or two.
Filling = Candidate | Couple
#: The plans by which two lots share the role, by both their numbers.
Plans = Mapping[tuple[int, ...], tuple[SharePlan, ...]]


def candidates_for(
    good: Sequence[RoleFit], unfit: Sequence[RoleFit], query: RoleQuery
) -> CandidateList[Filling]:
    """The lots that fill the role, and the pairs that do where she asked for that."""
    alone = [(fit.least, (fit.view,)) for fit in good]
    asked = asked_for(query)
    if asked is None:
        return CandidateList(alone, partial(weigh_any, query=query, plans={}))
    short = [fit.view for fit in unfit if fit.blockers == (Blocker.SHORT,)]
    able = sorted([*(fit.view for fit in good), *short], key=lambda lot: lot.id)
    pairs = [*_pairs(able, query, asked)]
    plans = {_ids(plans[0].lots): plans for _, plans in pairs}
    both = [(least, plans[0].lots) for least, plans in pairs]
    found: list[tuple[int, Lots]] = [*([] if asked.only else alone), *both]
    return CandidateList(found, partial(weigh_any, query=query, plans=plans))


def asked_for(query: RoleQuery) -> TwoLotsAsked | None:
    """What she asked of two lots for the role, or None."""
    return query.wish.two_lots.asked.get(query.role.role) if query.wish.two_lots else None


def _ids(lots: Lots) -> tuple[int, ...]:
    return tuple(lot.id for lot in lots)


def _pairs(
    able: Sequence[LotView], query: RoleQuery, asked: TwoLotsAsked
) -> Iterator[tuple[int, tuple[SharePlan, ...]]]:
    """Every two lots that can share the role: the least they can cost, and their plans."""
    plans = SharePlans(query)
    by_yarn: dict[int, list[LotView]] = {}
    for lot in able:
        by_yarn.setdefault(lot.lot.lot.yarn.id, []).append(lot)
    for lots in by_yarn.values():
        for one, other in combinations(lots, 2):
            if found := plans.of(one, other, asked):
                yield min(map(plans.least, found)) + _extra(found[0], query), found


def _extra(plan: SharePlan, query: RoleQuery) -> int:
    """What being two costs, in thousandths; each lot that is not known adds to it."""
    ranking = query.wish.ranking
    unknown = sum(not lot.known_lot for lot in plan.lots)
    return thousandths(ranking.two_lots) + unknown * thousandths(ranking.lot_not_known)


def weigh_any(lots: Lots, query: RoleQuery, plans: Plans) -> Filling:
    """What fills the role, with what it costs; of two lots the cheaper order."""
    if len(lots) == 1:
        return weigh(lots[0], query)
    couples = [_couple(lots, plan, query) for plan in plans[_ids(lots)]]
    return min(couples, key=lambda couple: couple.cost)


def _couple(lots: Lots, plan: SharePlan, query: RoleQuery) -> Couple:
    weighed = tuple(weigh(lot, part) for lot, part in parts(plan, query))
    return Couple(lots, plan, weighed, _extra(plan, query))


def role_filled(found: Filling, query: RoleQuery) -> Filled:
    """The role filled from this lot or these two, as the answer gives it."""
    if isinstance(found, Candidate):
        return filled(found, query)
    queries = [part for _, part in parts(found.plan, query)]
    first, second = map(filled, found.parts, queries)
    return Filled(
        role=first.role,
        lot=first.lot,
        takes=(*first.takes, *second.takes),
        free_m=first.free_m + second.free_m,
        coverage=min(first.coverage, second.coverage),
        chance=min(first.chance, second.chance),
        left_m=first.left_m + second.left_m,
        joins=first.joins + second.joins,
        reasons=(*_being_two(found.plan, query), *_of_each_lot(first), *_of_each_lot(second)),
        second=SecondLot(second.lot, found.plan.split),
    )


def _of_each_lot(filled: Filled) -> Iterator[Reason]:
    """What speaks for and against one of the two, each with the lot it is said of."""
    for reason in filled.reasons:
        yield Reason("of_one_lot", reason.cost, lot=filled.lot.lot, reason=reason)


def _being_two(plan: SharePlan, query: RoleQuery) -> Iterator[Reason]:
    """What speaks against two lots in one role, beside what speaks against each."""
    ranking = query.wish.ranking
    lots = tuple(view.lot.lot for view in plan.lots)
    yield Reason("two_lots", thousandths(ranking.two_lots) / 1000, split=plan.split, lots=lots)
    for view in plan.lots:
        if not view.known_lot:
            cost = thousandths(ranking.lot_not_known) / 1000
            yield Reason("lot_to_compare", cost, lot=view.lot.lot)
