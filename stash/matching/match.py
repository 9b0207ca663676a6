"""What on the shelf can become this: proposals in order, and the near misses beside them."""

from __future__ import annotations

import gc
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from dataclasses import replace
from functools import partial
from itertools import islice

from stash.matching.answer.proposal import Match, Proposal
from stash.matching.lots.lot_view import LotView, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.near_misses.near_misses import MissContext, RoleLots, near_misses
from stash.matching.question.planned_design import PlannedDesign
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Wish
from stash.matching.rules.contrast import least_difference, least_gap
from stash.matching.rules.fits import PairRules, RoleQuery, pair_rules, role_query
from stash.matching.scoring.costs import Candidate, reasons_together
from stash.matching.scoring.coverage import Unfit, look
from stash.matching.search.best_first import best_first
from stash.matching.search.candidate_list import CandidateList
from stash.matching.two_lots.couples import filled, in_the_line, rules_for, weigh
from stash.requirements.yarn.need import Need


@contextmanager
def _nothing_swept() -> Iterator[None]:
    """Leave off looking for garbage: what is made of a shelf is in use until the answer stands.

    On 100,000 lots Python's collector took nearly half of the time, and more with each lot.
    """
    was_on = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_on:
            gc.enable()


@_nothing_swept()
def match(shelf: Shelf, need: Need, wish: Wish, plan: PlannedDesign | None = None) -> Match:
    """The sets of lots that can become the piece, best first, and those that almost can.

    Exact: no set that fits and costs less is passed over. The order is by cost, then by the lot
    numbers of the roles, A first; `wish.top` is how many are wanted (None: all of them). With the
    plan that the need is of, near misses say how it could be made otherwise.
    """
    views = views_of(shelf, wish.assume)
    by_role = lots_by_role(views, need, wish)
    rules = rules_for(pair_rules(need, wish), wish)
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
    good: list[tuple[int, LotView]] = []
    unfit: list[Unfit] = []
    for lot in views:
        if query.allows(lot.id):
            found = look(lot, query)
            if isinstance(found, Unfit):
                unfit.append(found)
            else:
                good.append((found, lot))
    return RoleLots(
        query,
        CandidateList(in_the_line(good, unfit, query), partial(weigh, query=query)),
        tuple(unfit),
    )


def _proposal(
    rank: int, chosen: tuple[Candidate, ...], queries: Sequence[RoleQuery], rules: PairRules
) -> Proposal:
    shades = by_colour([lot.view.shades for lot in chosen], rules.colours)
    return Proposal(
        rank=rank,
        roles=tuple(filled(lot, query) for lot, query in zip(chosen, queries, strict=True)),
        lightness_gap=least_gap(shades),
        colour_difference=least_difference(shades),
        reasons=reasons_together(chosen, rules),
    )


def spread_out(proposals: Sequence[Proposal], per_lot: int = 2) -> tuple[tuple[Proposal, ...], int]:
    """The proposals to show, at most so many for one A lot, and how many more there are.

    One generous lot would otherwise fill the list with its partners. Ranks stay as they are.
    """
    shown: list[Proposal] = []
    rows: dict[int, int] = {}
    for proposal in proposals:
        lot_id = proposal.roles[0].lot.lot.id
        rows[lot_id] = rows.get(lot_id, 0) + 1
        if rows[lot_id] <= per_lot:
            shown.append(proposal)
    return tuple(shown), len(proposals) - len(shown)
