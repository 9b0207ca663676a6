"""Whether another lot of the same colour would help one that is short, and how to ask for that."""

from __future__ import annotations

from collections.abc import Iterator

from stash.matching.lots.lot_view import Seen
from stash.matching.question.two_lots_asked import TwoLotsAsked
from stash.matching.rules.fits import Asked, troubles_but_length
from stash.matching.two_lots.couples import asked_for
from stash.matching.two_lots.plans import Plan, Plans, same_colourway
from stash.requirements.fit.splitting import Way


def second_lot(seen: Seen, ask: Asked) -> str:
    """The way out of a short lot by a second one: `L9 of the same colour in the brim: ask with
    --two-lots A=brim`; nothing where none helps, or they would do as she asked already.
    """
    if ask.wish.two_lots is None:
        return ""
    beside = [lot for lot in ask.shelf if _may_help(lot, seen, ask)]
    return next((_words(plan, seen, ask) for plan in _plans(seen, beside, ask)), "")


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


def _words(plan: Plan, seen: Seen, ask: Asked) -> str:
    way, place = plan.split.way, plan.split.place
    where = {Way.ALTERNATE: "in alternating rows", Way.CHANGE: f"with a change {place}"}
    (other,) = (lot.lot.lot.ref for lot in plan.lots if lot.id != seen.id)
    role = ask.role.role
    tied = f"--with {role}={seen.lot.lot.ref}/{other} " if ask.fixed else ""
    told = where.get(way, place)
    return f"{other} of the same colour {told}: ask with {tied}--two-lots {role}={way}"
