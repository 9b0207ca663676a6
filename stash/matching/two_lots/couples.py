"""Two lots in one role, where she asks for that: one more choice in the role's line, at a cost.

Both are the same yarn in the same colour. Each covers what its own rows take, and both stand to the
lots of the other roles as one alone would have to; neither serves another role.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

from stash.matching.answer.proposal import Filled, SecondLot
from stash.matching.answer.reason import Reason, thousandths
from stash.matching.lots.lot_view import LotView
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.question.wish import Wish
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.conflicts import ConflictKey
from stash.matching.rules.fits import PairRules, RoleQuery
from stash.matching.scoring import coverage
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import Unfit
from stash.matching.two_lots.plans import SharePlan, SharePlans, parts


@dataclass(frozen=True, slots=True)
class Two(LotView):
    """Two lots that stand in a role as one; the search meets them like any other lot."""

    plans: tuple[SharePlan, ...] = ()

    @property
    def lots(self) -> tuple[LotView, LotView]:
        """Both of them, as the first plan names them."""
        return self.plans[0].lots

    @property
    def id(self) -> int:
        """After every lot alone; two by the lower of their numbers, then the higher one."""
        low, high = sorted(lot.id for lot in self.lots)
        return (1 << 128) + (low << 64) + high


@dataclass(frozen=True, slots=True)
class Couple(Candidate):
    """Two lots that fill a role: each in its own part, and what being two costs in thousandths."""

    plan: SharePlan | None = None
    parts: tuple[Candidate, ...] = ()
    extra: int = 0

    @property
    def cost(self) -> int:
        """What speaks against either, and against their being two."""
        return sum(part.cost for part in self.parts) + self.extra


def lots_of(view: LotView) -> tuple[LotView, ...]:
    """The lot itself, or the two that stand as one."""
    return view.lots if isinstance(view, Two) else (view,)


class InPairs(PairRules):
    """The same conditions between lots where two may stand as one: all of them must keep them."""

    __slots__ = ()

    def fit(self, one: LotView, other: LotView, of_one_colour: bool = False) -> bool:
        """Whether each lot on one side may stand beside each on the other."""
        pairs = ((x, y) for x in lots_of(one) for y in lots_of(other))
        return all(super(InPairs, self).fit(x, y, of_one_colour) for x, y in pairs)

    def conflict_keys(self) -> tuple[ConflictKey, ...]:
        """The same traits; two lots carry the marks of both."""
        return tuple(_of_each(conflict_key) for conflict_key in super().conflict_keys())

    def cost(self, lots: Sequence[LotView]) -> int:
        """The same by all lots."""
        return super().cost([one for lot in lots for one in lots_of(lot)])

    def wash_together(self, one: LotView, other: LotView) -> bool:
        """The same of each lot on either side."""
        pairs = ((x, y) for x in lots_of(one) for y in lots_of(other))
        return all(super(InPairs, self).wash_together(x, y) for x, y in pairs)


def _of_each(conflict_key: ConflictKey) -> ConflictKey:
    return replace(
        conflict_key,
        values=lambda view: [value for one in lots_of(view) for value in conflict_key.values(one)],
    )


def rules_for(rules: PairRules, wish: Wish) -> PairRules:
    """The conditions between lots; the plain ones where nobody asked for two in a role."""
    if wish.two_lots is None or not wish.two_lots.asked:
        return rules
    return InPairs(**{name: getattr(rules, name) for name in PairRules.__slots__})


def in_the_line(
    good: Sequence[tuple[int, LotView]], unfit: Sequence[Unfit], query: RoleQuery
) -> list[tuple[int, LotView]]:
    """The lots that fill the role with the least they can cost, and the pairs that do, if asked."""
    asked = asked_for(query)
    if asked is None:
        return [*good]
    alone = [] if asked.only else good
    short = [one.view for one in unfit if one.blockers == (Blocker.SHORT,)]
    able = sorted([*(lot for _, lot in good), *short], key=lambda lot: lot.id)
    return [*alone, *_pairs(able, query, asked)]


def asked_for(query: RoleQuery) -> TwoLotsAsked | None:
    """What she asked of two lots for the role, or None."""
    return query.wish.two_lots.asked.get(query.role.role) if query.wish.two_lots else None


def _pairs(
    able: Sequence[LotView], query: RoleQuery, asked: TwoLotsAsked
) -> Iterator[tuple[int, LotView]]:
    plans = SharePlans(query)
    by_yarn: dict[int, list[LotView]] = {}
    for lot in able:
        by_yarn.setdefault(lot.lot.lot.yarn.id, []).append(lot)
    for lots in by_yarn.values():
        for one, other in combinations(lots, 2):
            if found := plans.of(one, other, asked):
                least = min(plans.least(plan) for plan in found)
                yield least + _extra(found[0], query), _standing_as_one(found)


def _standing_as_one(plans: tuple[SharePlan, ...]) -> Two:
    first, second = plans[0].lots
    shades = tuple(dict.fromkeys((*first.shades, *second.shades)))
    facts = {name: getattr(first, name) for name in LotView.__slots__}
    return Two(**{**facts, "shades": shades, "plans": plans})


def _extra(plan: SharePlan, query: RoleQuery) -> int:
    """What being two costs, in thousandths; each lot that is not known adds to it."""
    weights = query.wish.weights
    unknown = sum(not lot.known_lot for lot in plan.lots)
    return thousandths(weights.two_lots) + unknown * thousandths(weights.lot_not_known)


def weigh(view: LotView, query: RoleQuery) -> Candidate:
    """The lot in a role it fills, with what it costs; of two the cheaper order."""
    if not isinstance(view, Two):
        return coverage.weigh(view, query)
    couples = [_couple(view, plan, query) for plan in view.plans]
    return min(couples, key=lambda couple: couple.cost)


def _couple(view: Two, plan: SharePlan, query: RoleQuery) -> Couple:
    weighed = [coverage.weigh(lot, of_it) for lot, of_it in parts(plan, query)]
    return Couple(
        view=view,
        pick=weighed[0].pick,
        free_um=sum(one.free_um for one in weighed),
        looseness=0,
        doubts=(),
        plan=plan,
        parts=tuple(weighed),
        extra=_extra(plan, query),
    )


def filled(found: Candidate, query: RoleQuery) -> Filled:
    """The role filled from this lot or these two, as the answer tells it."""
    if not isinstance(found, Couple) or found.plan is None:
        return coverage.filled(found, query)
    queries = [of_it for _, of_it in parts(found.plan, query)]
    first, second = map(coverage.filled, found.parts, queries)
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
    weights = query.wish.weights
    lots = tuple(view.lot.lot for view in plan.lots)
    yield Reason("two_lots", thousandths(weights.two_lots) / 1000, split=plan.split, lots=lots)
    for view in plan.lots:
        if not view.known_lot:
            cost = thousandths(weights.lot_not_known) / 1000
            yield Reason("lot_to_compare", cost, lot=view.lot.lot)
