"""Whether another lot of the same colour would help one that is short, and how to ask for that."""

from __future__ import annotations

from collections.abc import Iterator

from stash.matching.answer.fix import Fix
from stash.matching.lots.lot_view import Seen
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.rules.fits import Asked, troubles_but_length
from stash.matching.two_lots.couples import asked_for
from stash.matching.two_lots.plans import Plan, Plans, same_colourway
from stash.requirements.fit.splitting import Way


def second_lot(seen: Seen, ask: Asked) -> Fix | None:
    """The fix of a short lot by a second one; None where none helps, or they would do as asked."""
    if ask.wish.two_lots is None:
        return None
    beside = [lot for lot in ask.shelf if _may_help(lot, seen, ask)]
    return next((_fix(plan, seen, ask) for plan in _plans(seen, beside, ask)), None)


def _may_help(lot: Seen, seen: Seen, ask: Asked) -> bool:
    """Whether nothing but its length can speak against a lot of the same colour."""
    return (
        lot.id != seen.id
        and same_colourway(lot.lot.lot, seen.lot.lot)
        and not troubles_but_length(lot, ask)
    )


def _plans(seen: Seen, beside: list[Seen], ask: Asked) -> Iterator[Plan]:
    """What works, the way that shows least first, then the lowest lot."""
    told, plans = asked_for(ask), Plans(ask)
    if told:
        beside = [lot for lot in beside if not plans.of(seen, lot, told)]
    for way in Way:
        for lot in beside:
            yield from plans.of(seen, lot, TwoLotsAsked((way,)))


def _fix(plan: Plan, seen: Seen, ask: Asked) -> Fix:
    """To share the role with the other lot; `beside` the first one where she had tied it."""
    (other,) = (lot.lot.lot for lot in plan.lots if lot.id != seen.id)
    return Fix(
        "second_lot",
        role=ask.role.role,
        lot=other,
        way=plan.split.way,
        place=plan.split.place,
        beside=seen.lot.lot if ask.fixed else None,
    )
