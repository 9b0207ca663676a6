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
from stash.matching.lots.lot_view import Seen
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.question.wish import Wish
from stash.matching.rules.blockers import Trouble
from stash.matching.rules.conflicts import Trait
from stash.matching.rules.fits import Asked, Together
from stash.matching.scoring import coverage
from stash.matching.scoring.costs import Candidate
from stash.matching.scoring.coverage import Unfit
from stash.matching.two_lots.plans import Plan, Plans, parts


@dataclass(frozen=True, slots=True)
class Two(Seen):
    """Two lots that stand in a role as one; the search meets them like any other lot."""

    plans: tuple[Plan, ...] = ()

    @property
    def lots(self) -> tuple[Seen, Seen]:
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

    plan: Plan | None = None
    parts: tuple[Candidate, ...] = ()
    extra: int = 0

    @property
    def cost(self) -> int:
        """What speaks against either, and against their being two."""
        return sum(part.cost for part in self.parts) + self.extra


def lots_of(seen: Seen) -> tuple[Seen, ...]:
    """The lot itself, or the two that stand as one."""
    return seen.lots if isinstance(seen, Two) else (seen,)


class InPairs(Together):
    """The same conditions between lots where two may stand as one: all of them must keep them."""

    __slots__ = ()

    def fit(self, one: Seen, other: Seen, of_one_colour: bool = False) -> bool:
        """Whether each lot on one side may stand beside each on the other."""
        pairs = ((x, y) for x in lots_of(one) for y in lots_of(other))
        return all(super(InPairs, self).fit(x, y, of_one_colour) for x, y in pairs)

    def traits(self) -> tuple[Trait, ...]:
        """The same traits; two lots carry the marks of both."""
        return tuple(_of_each(trait) for trait in super().traits())

    def cost(self, lots: Sequence[Seen]) -> int:
        """The same by all lots."""
        return super().cost([one for lot in lots for one in lots_of(lot)])

    def wash_together(self, one: Seen, other: Seen) -> bool:
        """The same of each lot on either side."""
        pairs = ((x, y) for x in lots_of(one) for y in lots_of(other))
        return all(super(InPairs, self).wash_together(x, y) for x, y in pairs)


def _of_each(trait: Trait) -> Trait:
    return replace(
        trait, marks=lambda seen: [mark for one in lots_of(seen) for mark in trait.marks(one)]
    )


def rules_for(rules: Together, wish: Wish) -> Together:
    """The conditions between lots; the plain ones where nobody asked for two in a role."""
    if wish.two_lots is None or not wish.two_lots.asked:
        return rules
    return InPairs(**{name: getattr(rules, name) for name in Together.__slots__})


def in_the_line(
    good: Sequence[tuple[int, Seen]], unfit: Sequence[Unfit], ask: Asked
) -> list[tuple[int, Seen]]:
    """The lots that fill the role with the least they can cost, and the pairs that do, if asked."""
    told = asked_for(ask)
    if told is None:
        return [*good]
    alone = [] if told.only else good
    short = [one.seen for one in unfit if one.troubles == (Trouble.SHORT,)]
    able = sorted([*(lot for _, lot in good), *short], key=lambda lot: lot.id)
    return [*alone, *_pairs(able, ask, told)]


def asked_for(ask: Asked) -> TwoLotsAsked | None:
    """What she asked of two lots for the role, or None."""
    return ask.wish.two_lots.asked.get(ask.role.role) if ask.wish.two_lots else None


def _pairs(able: Sequence[Seen], ask: Asked, told: TwoLotsAsked) -> Iterator[tuple[int, Seen]]:
    plans = Plans(ask)
    by_yarn: dict[int, list[Seen]] = {}
    for lot in able:
        by_yarn.setdefault(lot.lot.lot.yarn.id, []).append(lot)
    for lots in by_yarn.values():
        for one, other in combinations(lots, 2):
            if found := plans.of(one, other, told):
                least = min(plans.least(plan) for plan in found)
                yield least + _extra(found[0], ask), _standing_as_one(found)


def _standing_as_one(plans: tuple[Plan, ...]) -> Two:
    first, second = plans[0].lots
    shades = tuple(dict.fromkeys((*first.shades, *second.shades)))
    facts = {name: getattr(first, name) for name in Seen.__slots__}
    return Two(**{**facts, "shades": shades, "plans": plans})


def _extra(plan: Plan, ask: Asked) -> int:
    """What being two costs, in thousandths; each lot that is not known adds to it."""
    weights = ask.wish.weights
    unknown = sum(not lot.known_lot for lot in plan.lots)
    return thousandths(weights.two_lots) + unknown * thousandths(weights.lot_not_known)


def weigh(seen: Seen, ask: Asked) -> Candidate:
    """The lot in a role it fills, with what it costs; of two the cheaper order."""
    if not isinstance(seen, Two):
        return coverage.weigh(seen, ask)
    couples = [_couple(seen, plan, ask) for plan in seen.plans]
    return min(couples, key=lambda couple: couple.cost)


def _couple(seen: Two, plan: Plan, ask: Asked) -> Couple:
    weighed = [coverage.weigh(lot, of_it) for lot, of_it in parts(plan, ask)]
    return Couple(
        seen=seen,
        pick=weighed[0].pick,
        free_um=sum(one.free_um for one in weighed),
        looseness=0,
        doubts=(),
        plan=plan,
        parts=tuple(weighed),
        extra=_extra(plan, ask),
    )


def filled(found: Candidate, ask: Asked) -> Filled:
    """The role filled from this lot or these two, as the answer tells it."""
    if not isinstance(found, Couple) or found.plan is None:
        return coverage.filled(found, ask)
    asks = [of_it for _, of_it in parts(found.plan, ask)]
    first, second = map(coverage.filled, found.parts, asks)
    return Filled(
        role=first.role,
        lot=first.lot,
        takes=(*first.takes, *second.takes),
        free_m=first.free_m + second.free_m,
        coverage=min(first.coverage, second.coverage),
        chance=min(first.chance, second.chance),
        left_m=first.left_m + second.left_m,
        joins=first.joins + second.joins,
        reasons=(*_being_two(found.plan, ask), *_of_each_lot(first), *_of_each_lot(second)),
        second=SecondLot(second.lot, found.plan.split),
    )


def _of_each_lot(filled: Filled) -> Iterator[Reason]:
    """What speaks for and against one of the two, each with the lot it is said of."""
    for reason in filled.reasons:
        yield Reason("of_one_lot", reason.cost, lot=filled.lot.lot, reason=reason)


def _being_two(plan: Plan, ask: Asked) -> Iterator[Reason]:
    """What speaks against two lots in one role, beside what speaks against each."""
    weights = ask.wish.weights
    lots = tuple(seen.lot.lot for seen in plan.lots)
    yield Reason("two_lots", thousandths(weights.two_lots) / 1000, split=plan.split, lots=lots)
    for seen in plan.lots:
        if not seen.known_lot:
            cost = thousandths(weights.lot_not_known) / 1000
            yield Reason("lot_to_compare", cost, lot=seen.lot.lot)
