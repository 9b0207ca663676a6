"""How two lots of one colour can share a role: which may, and the nearest split both cover."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace

from stash.matching.lots.lot_view import LotView
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.rules.fits import RoleQuery
from stash.matching.scoring.coverage import covers, role_fit
from stash.measures.estimate import Estimate, to_books
from stash.requirements.fit.splitting import Split, Way
from stash.stock.yarn import Lot, LotState


@dataclass(frozen=True, slots=True)
class SharePlan:
    """Two lots in their order, and the split by which both cover their parts.

    `at` is the split's place among those of its way.
    """

    lots: tuple[LotView, LotView]
    split: Split
    at: int


class SharePlans:
    """The plans for one role; what a lot covers of each split is worked out once, lot by lot."""

    def __init__(self, query: RoleQuery) -> None:
        self._query = query
        self._able: dict[tuple[int, int, Way], frozenset[int]] = {}
        self._least: dict[tuple[int, int, Way, int], int] = {}
        self._parts: dict[tuple[int, Way, int], RoleQuery] = {}

    def of(self, one: LotView, other: LotView, asked: TwoLotsAsked) -> tuple[SharePlan, ...]:
        """How two lots fill the role by the first of her ways that works, in either order."""
        if not same_colourway(one.lot.lot, other.lot.lot):
            return ()
        orders = [lots for lots in ((one, other), (other, one)) if _may_stand(lots, asked)]
        for way in asked.ways:
            found = [plan for lots in orders if (plan := self._nearest(lots, way))]
            if found:
                return tuple(found)
        return ()

    def _nearest(self, lots: tuple[LotView, LotView], way: Way) -> SharePlan | None:
        """The first split of a way by which either lot covers its part, or None."""
        both = self._covering(lots[0], 0, way) & self._covering(lots[1], 1, way)
        if not both:
            return None
        at = min(both)
        return SharePlan(lots, self._splits(way)[at], at)

    def _covering(self, view: LotView, lot: int, way: Way) -> frozenset[int]:
        """The places of the splits of a way whose one part the lot covers."""
        key = view.id, lot, way
        if key not in self._able:
            able = (
                at for at in range(len(self._splits(way))) if covers(view, self._part(lot, way, at))
            )
            self._able[key] = frozenset(able)
        return self._able[key]

    def _splits(self, way: Way) -> tuple[Split, ...]:
        assert self._query.wish.two_lots
        return self._query.wish.two_lots.ways(self._query.role.role).of(way)

    def _part(self, lot: int, way: Way, at: int) -> RoleQuery:
        key = lot, way, at
        if key not in self._parts:
            self._parts[key] = part(self._splits(way)[at], lot, self._query)
        return self._parts[key]

    def least(self, plan: SharePlan) -> int:
        """No more than the two cost in their parts, in thousandths."""
        return sum(self._least_of(plan, lot) for lot in (0, 1))

    def _least_of(self, plan: SharePlan, lot: int) -> int:
        way, view = plan.split.way, plan.lots[lot]
        key = view.id, lot, way, plan.at
        if key not in self._least:
            self._least[key] = role_fit(view, self._part(lot, way, plan.at)).least
        return self._least[key]


def part(split: Split, lot: int, query: RoleQuery) -> RoleQuery:
    """The question for one lot's part of the role: its length, as sure as the whole."""
    length_m = split.length_m(lot)
    share = length_m / query.role.set_aside_m
    estimate = Estimate(length_m / (1 + query.role.margin), query.role.estimate.spread_m * share)
    wanted = replace(query.wanted, um=to_books(length_m).um)
    return replace(query, role=replace(query.role, estimate=estimate), wanted=wanted)


def parts(plan: SharePlan, query: RoleQuery) -> Iterator[tuple[LotView, RoleQuery]]:
    """Each of the two lots with the question for its part."""
    for lot, view in enumerate(plan.lots):
        yield view, part(plan.split, lot, query)


def same_colourway(one: Lot, other: Lot) -> bool:
    """Whether two bands name the same colour: by number where both have one, else by name."""
    if one.yarn.id != other.yarn.id:
        return False
    if one.colour_no and other.colour_no:
        return one.colour_no.casefold() == other.colour_no.casefold()
    return bool(one.colour) and one.colour.casefold() == other.colour.casefold()


def _may_stand(lots: tuple[LotView, LotView], asked: TwoLotsAsked) -> bool:
    """A lot that is not known can only be the odd one, and only where she asks for that."""
    first, other = (lot.lot.lot.lot_state for lot in lots)
    if asked.only is not None and asked.only != (lots[0].id, lots[1].id):
        return False
    return first is not LotState.UNKNOWN and (asked.unknown or other is not LotState.UNKNOWN)
