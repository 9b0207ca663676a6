"""What on the shelf can become this: proposals in order, and the near misses beside them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import islice

from stash.matching.answer.proposal import Match, Proposal
from stash.matching.lots.lot_view import LotView, as_one, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.near_misses.near_misses import MissContext, RoleLots, near_misses
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Wish
from stash.matching.rules.contrast import least_difference, least_gap
from stash.matching.rules.fits import PairRules, RoleQuery, pair_rules, role_query
from stash.matching.scoring.costs import reasons_together
from stash.matching.scoring.coverage import RoleFit, role_fit
from stash.matching.search.best_first import best_first
from stash.matching.search.without_collecting import without_collecting
from stash.matching.two_lots.couples import Filling, candidates_for, role_filled
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need


@without_collecting()
def match(shelf: Shelf, need: Need, wish: Wish, plan: DesignContext | None = None) -> Match:
    """The sets of lots that can become the design, best first, and those that almost can.

    Exact: no set that fits and costs less is left out. The order is by cost, then by the lot
    numbers of the roles, A first; `wish.top` is how many are wanted (None: all of them). With the
    plan that the need is of, near misses say how it could be made otherwise.
    """
    views = views_of(shelf, wish.assume)
    by_role = lots_by_role(views, need, wish)
    rules = pair_rules(need, wish)
    proposals = proposed(by_role, rules, wish.top)
    return Match(
        need=need,
        as_of=shelf.as_of,
        proposals=proposals,
        near_misses=near_misses(by_role, MissContext(views, rules, plan), any_fits=bool(proposals)),
        looked_at=sum(any(at.query.allows(lot.id) for at in by_role) for lot in views),
    )


def lots_by_role(views: Sequence[LotView], need: Need, wish: Wish) -> list[RoleLots]:
    """Every role with the lots that fill it, and those that do not."""
    queries = [replace(role_query(role, need, wish), shelf=views) for role in need.roles]
    return [_role_lots(views, query) for query in queries]


def proposed(
    by_role: Sequence[RoleLots], rules: PairRules, top: int | None
) -> tuple[Proposal, ...]:
    """The best so many sets of these lots, in order."""
    sets = islice(best_first([at.good for at in by_role], rules), top)
    queries = [at.query for at in by_role]
    return tuple(
        _proposal(rank, chosen, queries, rules) for rank, chosen in enumerate(sets, start=1)
    )


def _role_lots(views: Sequence[LotView], query: RoleQuery) -> RoleLots:
    good: list[RoleFit] = []
    unfit: list[RoleFit] = []
    for lot in views:
        if query.allows(lot.id):
            fit = role_fit(lot, query)
            (unfit if fit.blockers else good).append(fit)
    return RoleLots(query, candidates_for(good, unfit, query), tuple(unfit))


def _proposal(
    rank: int, chosen: tuple[Filling, ...], queries: Sequence[RoleQuery], rules: PairRules
) -> Proposal:
    lots = [one.lots for one in chosen]
    shades = by_colour([as_one(one).shades for one in lots], rules.colours)
    return Proposal(
        rank=rank,
        roles=tuple(role_filled(one, query) for one, query in zip(chosen, queries, strict=True)),
        lightness_gap=least_gap(shades),
        colour_difference=least_difference(shades),
        reasons=reasons_together(lots, rules),
    )


def spread_out(proposals: Sequence[Proposal], per_lot: int = 2) -> tuple[Proposal, ...]:
    """The proposals to show, at most so many for one A lot.

    One generous lot would otherwise fill the list with its partners. Ranks stay as they are.
    """
    shown: list[Proposal] = []
    rows: dict[int, int] = {}
    for proposal in proposals:
        lot_id = proposal.roles[0].lot.lot.id
        rows[lot_id] = rows.get(lot_id, 0) + 1
        if rows[lot_id] <= per_lot:
            shown.append(proposal)
    return tuple(shown)
