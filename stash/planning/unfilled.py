"""What an order lacks, once those before it have their yarn: the matcher asked on what is left."""

from __future__ import annotations

from dataclasses import dataclass

from stash.matching.after_taking import shelf_after
from stash.matching.answer.proposal import Take
from stash.matching.lots.lot_view import views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.match import lots_by_role, match
from stash.measures.length import Length
from stash.planning.model.batch import Unfilled, Wanted
from stash.planning.model.encode import Encoded
from stash.planning.optimiser.plan import Plan


@dataclass(frozen=True, slots=True)
class Fallen:
    """A want that falls short, by its place, and the plan of its turn."""

    want: int
    plan: Plan


def unfilled(shelf: Shelf, posed: Encoded, order: Wanted, fallen: Fallen) -> Unfilled:
    """How many of an order cannot be made, and what the next one lacks."""
    plan, problem = fallen.plan, posed.problem
    made = plan.made()[fallen.want]
    used = sum(problem.wants[item.want].minutes for item in plan.items)
    spare = order.minutes if problem.minutes is None else problem.minutes - used
    left = shelf_after(shelf, _takes(posed, plan))
    found = match(left, order.need, order.wish)
    by_role = lots_by_role(views_of(left, order.wish.assume), order.need, order.wish)
    return Unfilled(
        order.order or 0,
        problem.wants[fallen.want].at_least - made,
        None if found.proposals else next(iter(found.near_misses), None),
        tuple(at.query.role.role for at in by_role if not at.good),
        max(0, order.minutes - spare),
    )


def _takes(posed: Encoded, plan: Plan) -> list[Take]:
    """Everything a plan cuts, as what is taken of each skein."""
    return [
        Take(
            posed.problem.lots[cut.lot].supplies[cut.supply].number,
            posed.seen[cut.lot].id,
            "",
            cut.strand + 1,
            Length(cut.um),
        )
        for cut in plan.taken
    ]
