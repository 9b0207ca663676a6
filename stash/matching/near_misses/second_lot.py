"""Whether another lot of the same colour would help one that is short, and how to ask for that."""

from __future__ import annotations

from collections.abc import Iterator

from stash.matching.answer.fix import Fix
from stash.matching.lots.lot_view import LotView
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.rules.fits import RoleQuery, blockers_but_length
from stash.matching.two_lots.couples import asked_for
from stash.matching.two_lots.plans import SharePlan, SharePlans, same_colourway
from stash.requirements.fit.splitting import Way


def second_lot(view: LotView, query: RoleQuery) -> Fix | None:
    """The fix of a short lot by a second one; None where none helps, or they would do as asked."""
    if query.wish.two_lots is None:
        return None
    beside = [lot for lot in query.shelf if _may_help(lot, view, query)]
    return next((_fix(plan, view, query) for plan in _plans(view, beside, query)), None)


def _may_help(lot: LotView, view: LotView, query: RoleQuery) -> bool:
    """Whether nothing but its length can speak against a lot of the same colour."""
    return (
        lot.id != view.id
        and same_colourway(lot.lot.lot, view.lot.lot)
        and not blockers_but_length(lot, query)
    )


def _plans(view: LotView, beside: list[LotView], query: RoleQuery) -> Iterator[SharePlan]:
    """What works, the way that shows least first, then the lowest lot."""
    asked, plans = asked_for(query), SharePlans(query)
    if asked:
        beside = [lot for lot in beside if not plans.of(view, lot, asked)]
    for way in Way:
        for lot in beside:
            yield from plans.of(view, lot, TwoLotsAsked((way,)))


def _fix(plan: SharePlan, view: LotView, query: RoleQuery) -> Fix:
    """To share the role with the other lot; `beside` is the first one where she had tied it."""
    (other,) = (lot.lot.lot for lot in plan.lots if lot.id != view.id)
    return Fix(
        "second_lot",
        role=query.role.role,
        lot=other,
        way=plan.split.way,
        place=plan.split.place,
        beside=view.lot.lot if query.fixed else None,
    )
