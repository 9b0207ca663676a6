"""What speaks for and against a lot in a role, with its cost in whole thousandths."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from stash.matching.answer.reason import Reason, thousandths
from stash.matching.lots.lot_view import Seen
from stash.matching.lots.shelf_stats import came_on
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Wash, Weights
from stash.matching.rules.colour_pairs import colour_notes
from stash.matching.rules.contrast import contrast_of, least_gap
from stash.matching.rules.fits import Asked, Together, class_steps
from stash.measures.length import Length
from stash.stock.enough import Sums, least_cost, summed
from stash.stock.picking import Costs, Pick
from stash.stock.yarn import PairFrom


# two for each set of weights, and asked for with every lot
@lru_cache(maxsize=16)
def pick_costs(weights: Weights, known_lot: bool) -> Costs:
    """Her weights as the picking of skeins knows them."""
    return Costs(
        opening=thousandths(weights.opening),
        sliver=thousandths(weights.sliver),
        join=thousandths(weights.join),
        useless_end=thousandths(weights.useless_end),
        lone_skein=thousandths(weights.lone_skein),
        mixed=0 if known_lot else thousandths(weights.lot_not_known),
    )


@dataclass(frozen=True, slots=True)
class Candidate:
    """A lot that fills a role: the best pick from it, and what it costs in thousandths."""

    seen: Seen
    pick: Pick
    free_um: int
    looseness: int
    doubts: tuple[Reason, ...]
    doubts_cost: int = 0

    @property
    def cost(self) -> int:
        """Everything that speaks against it, added up."""
        return self.pick.cost + self.looseness + self.doubts_cost


def candidate(seen: Seen, ask: Asked, pick: Pick) -> Candidate:
    """The lot with its pick, weighed."""
    sums = summed(ask.of(seen.pieces), ask.wanted)
    doubts = tuple(_doubts(seen, ask))
    found = tuple(Reason(kind, cost / 1000, **facts) for cost, kind, facts in doubts)
    return Candidate(
        seen, pick, sums.um, _looseness(sums, ask), found, sum(cost for cost, _, _ in doubts)
    )


#: What speaks against a lot: its cost in thousandths, its kind, its facts.
Doubt = tuple[int, str, dict[str, Any]]


def least_together(seen: Seen, ask: Asked, sums: Sums) -> int:
    """No more than the lot will cost once its skeins are picked and its doubts weighed."""
    costs = pick_costs(ask.wish.weights, seen.known_lot)
    return _looseness(sums, ask) + least_cost(sums, ask.wanted, costs)


def _looseness(sums: Sums, ask: Asked) -> int:
    """What leaving a share of the lot's free yarn behind costs."""
    share = 1 - ask.wanted.um / sums.um if sums.um else 0
    return thousandths(ask.wish.weights.looseness * share)


def _doubts(seen: Seen, ask: Asked) -> Iterator[Doubt]:
    """What is not quite known or not quite right about the lot."""
    weights, thickness = ask.wish.weights, {"thickness": seen.thickness}
    step = thousandths(weights.class_step)
    yield from _stated(seen, ask)
    if steps := class_steps(seen, ask):
        yield step * steps, "class_away", {**thickness, "steps": steps}
    if seen.thickness is None and (ask.together or ask.need.class_from is not None):
        yield step, "class_not_known", {}
    if seen.thickness is not None and seen.thickness.derived:
        yield step, "class_derived", thickness
    if ask.together and not seen.shades:
        yield thousandths(weights.colour_not_known), "colour_not_known", {}
    if length_assumed(seen):
        yield step, "length_assumed", thickness
    yield from _from_the_shelf(seen, ask)


def _stated(seen: Seen, ask: Asked) -> Iterator[Doubt]:
    """What is to be known of the lot, and whose it is."""
    for condition in seen.lot.lot.conditions:
        yield thousandths(ask.wish.weights.condition), "in_condition", {"condition": condition}
    if ask.wish.limits.wash is Wash.HOT:
        yield 0, "bears_hot_wash", {}
    owners = [skein.owner for skein in seen.lot.skeins if skein.owner]
    for owner in dict.fromkeys(owners):
        yield 0, "owned_by", {"owner": owner}


def _from_the_shelf(seen: Seen, ask: Asked) -> Iterator[Doubt]:
    """Oldest first, and dearest last: compared with the rest of the shelf."""
    weights, came = ask.wish.weights, came_on(seen.lot)
    newer = thousandths(weights.newness * seen.around.newness(came))
    if newer and came:
        yield newer, "newer_than_others", {"since": came}
    if seen.around.price_m is None:
        return
    dearness = seen.around.dearness(seen.lot)
    # a price that is not known counts as the middle one, or not knowing would be rewarded
    share = 0.5 if dearness is None else dearness / (1 + dearness)
    cost = thousandths(weights.price * share * _part_of_the_piece(ask))
    if cost and dearness is None:
        yield cost, "price_not_known", {}
    elif cost:
        yield cost, "price_of_a_metre", {"times_middle": dearness}


def _part_of_the_piece(ask: Asked) -> float:
    """The role's share of all the yarn of the piece."""
    whole_m = math.fsum(role.set_aside_m for role in ask.need.roles)
    return ask.role.set_aside_m / whole_m if whole_m else 0.0


def length_assumed(seen: Seen) -> bool:
    """Whether any length of the lot rests on its class alone."""
    return seen.assume and any(s.pair.origin is PairFrom.MISSING for s in seen.lot.skeins)


def reasons(found: Candidate, ask: Asked) -> tuple[Reason, ...]:
    """Why the lot ranks as it does in its role; their costs add up to its cost."""
    pick = found.pick
    costs = pick_costs(ask.wish.weights, found.seen.known_lot)
    return (
        _opening(pick, costs),
        *(Reason("opened_for_little", costs.sliver / 1000, skein=n) for n in pick.slivers),
        *([Reason("joins", costs.join * pick.joins / 1000, count=pick.joins)] * bool(pick.joins)),
        *(
            Reason("useless_end", costs.useless_end / 1000, left=Length(um), skein=n)
            for n, um in pick.useless_ends
        ),
        *([Reason("leaves_lone_skein", costs.lone_skein / 1000)] * pick.leaves_lone_skein),
        *_mixed(found, costs),
        _left(found),
        *found.doubts,
    )


def _opening(pick: Pick, costs: Costs) -> Reason:
    if not pick.opened:
        return Reason("opens_no_skein", 0.0)
    count = len(pick.opened)
    return Reason("opens_skeins", costs.opening * count / 1000, count=count)


def _left(found: Candidate) -> Reason:
    left_um, cost = found.free_um - found.pick.taken_um, found.looseness / 1000
    return Reason("stays_free", cost, left=Length(left_um)) if left_um else Reason("used_up", cost)


def _mixed(found: Candidate, costs: Costs) -> list[Reason]:
    if found.pick.pieces < 2 or found.seen.known_lot:
        return []
    return [Reason("entered_together", costs.mixed / 1000)]


def reasons_together(lots: tuple[Candidate, ...], rules: Together) -> tuple[Reason, ...]:
    """What speaks for and against the lots beside each other."""
    found = []
    shades = by_colour([lot.seen.shades for lot in lots], rules.colours)
    gap = least_gap(shades)
    if gap is not None:
        contrast, colours = contrast_of(gap), len(shades)
        found.append(Reason("lightness_apart", 0.0, gap=gap, contrast=contrast, colours=colours))
    found += [
        Reason(note.kind, 0.0, **note.facts)
        for note in colour_notes([lot.seen for lot in lots], rules.vision)
    ]
    cost = rules.cost([lot.seen for lot in lots])
    if cost:
        classes = tuple(lot.seen.thickness for lot in lots)
        found.append(Reason("classes_differ", cost / 1000, classes=classes))
    return tuple(found)
