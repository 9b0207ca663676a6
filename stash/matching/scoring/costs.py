"""What speaks for and against a lot in a role: costs in whole thousandths, and the words for them.

A cost is fixed before it is worded, so that the order of proposals needs no words.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from stash.matching.amounts import counted, m_and_yd
from stash.matching.answer.proposal import Reason
from stash.matching.lots.lot_view import Seen
from stash.matching.lots.shelf_stats import came_on
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Wash, Weights
from stash.matching.rules.colour_pairs import told_beside
from stash.matching.rules.contrast import gap_word, least_gap
from stash.matching.rules.fits import Asked, Together, class_steps
from stash.measures.rounding import two_figures
from stash.stock.enough import Sums, least_cost, summed
from stash.stock.picking import Costs, Pick
from stash.stock.yarn import Condition, PairFrom


def thousandths(weight: float) -> int:
    """A weight as the whole number it is reckoned with."""
    return round(1000 * weight)


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
    doubts: tuple[tuple[int, str], ...]

    @property
    def cost(self) -> int:
        """Everything that speaks against it, added up."""
        return self.pick.cost + self.looseness + sum(cost for cost, _ in self.doubts)


def candidate(seen: Seen, ask: Asked, pick: Pick) -> Candidate:
    """The lot with its pick, weighed."""
    sums = summed(ask.of(seen.pieces), ask.wanted)
    return Candidate(seen, pick, sums.um, _looseness(sums, ask), _doubts(seen, ask))


def least_together(seen: Seen, ask: Asked, sums: Sums) -> int:
    """No more than the lot will cost once its skeins are picked and its doubts weighed."""
    costs = pick_costs(ask.wish.weights, seen.known_lot)
    return _looseness(sums, ask) + least_cost(sums, ask.wanted, costs)


def _looseness(sums: Sums, ask: Asked) -> int:
    """What leaving a share of the lot's free yarn behind costs."""
    share = 1 - ask.wanted.um / sums.um if sums.um else 0
    return thousandths(ask.wish.weights.looseness * share)


def _doubts(seen: Seen, ask: Asked) -> tuple[tuple[int, str], ...]:
    """What is not quite known or not quite right about the lot, with its cost."""
    weights = ask.wish.weights
    step = thousandths(weights.class_step)
    found = [*_stated(seen, ask)]
    if steps := class_steps(seen, ask):
        found.append(
            (step * steps, f"{seen.thickness}, {counted(steps, 'step')} from the class asked for")
        )
    if seen.thickness is None and (ask.together or ask.need.class_from is not None):
        found.append((step, "class not known: make a swatch first"))
    if seen.thickness is not None and seen.thickness.derived:
        found.append((step, f"{seen.thickness}, by its metres per 100 g"))
    if ask.together and not seen.shades:
        found.append((thousandths(weights.colour_not_known), "colour not known: look in daylight"))
    if length_assumed(seen):
        found.append((step, f"length assumed from the usual one of {seen.thickness}: weigh it"))
    return (*found, *_from_the_shelf(seen, ask))


def _stated(seen: Seen, ask: Asked) -> Iterator[tuple[int, str]]:
    """What is to be known of the lot, and whose it is."""
    for condition in seen.lot.lot.conditions:
        yield thousandths(ask.wish.weights.condition), _CONDITIONS[condition]
    if ask.wish.limits.wash is Wash.HOT:
        yield 0, "its fibres bear a hot wash: check the band and your local rules"
    owners = [skein.owner for skein in seen.lot.skeins if skein.owner]
    for owner in dict.fromkeys(owners):
        yield 0, f"belongs to {owner}"


_CONDITIONS = {
    Condition.FADED: "faded: lay it beside a fresh end of it first",
    Condition.QUARANTINED: "quarantined: treat it before it meets other yarn",
    Condition.SMOKE: "smells of smoke: air or wash it first",
    Condition.PETS: "from a home with pets: wash it, or mind allergies",
}


def _from_the_shelf(seen: Seen, ask: Asked) -> Iterator[tuple[int, str]]:
    """Oldest first, and dearest last: held against the rest of the shelf."""
    weights, came = ask.wish.weights, came_on(seen.lot)
    newer = thousandths(weights.newness * seen.around.newness(came))
    if newer and came:
        yield newer, f"newer than other yarn: here since {came.isoformat()}"
    if seen.around.price_m is None:
        return
    dearness = seen.around.dearness(seen.lot)
    # a price that is not known counts as the middle one, or not knowing would be rewarded
    share = 0.5 if dearness is None else dearness / (1 + dearness)
    cost = thousandths(weights.price * share * _part_of_the_piece(ask))
    if cost and dearness is None:
        yield cost, "price not known, taken as the middle one"
    elif cost:
        yield cost, f"a metre costs {two_figures(dearness or 0):g} x the middle price here"


def _part_of_the_piece(ask: Asked) -> float:
    """The role's share of all the yarn of the piece."""
    whole_m = math.fsum(role.set_aside_m for role in ask.need.roles)
    return ask.role.set_aside_m / whole_m if whole_m else 0.0


def length_assumed(seen: Seen) -> bool:
    """Whether any length of the lot rests on its class alone."""
    return seen.assume and any(s.pair.origin is PairFrom.MISSING for s in seen.lot.skeins)


def reasons(found: Candidate, ask: Asked) -> tuple[Reason, ...]:
    """Why the lot stands where it does in its role; their costs add up to its cost."""
    weights, pick = ask.wish.weights, found.pick
    costs = pick_costs(weights, found.seen.known_lot)
    weighed = [
        _opening(pick, costs),
        *((costs.sliver, f"skein {n} would be opened for a sliver") for n in pick.slivers),
        *([(costs.join * pick.joins, counted(pick.joins, "join"))] if pick.joins else []),
        *(
            (costs.useless_end, f"leaves {m_and_yd(um)} of skein {n}, too short to use")
            for n, um in pick.useless_ends
        ),
        *([(costs.lone_skein, "leaves one whole skein by itself")] * pick.leaves_lone_skein),
        *_mixed(found, costs),
        (found.looseness, _left(found)),
        *found.doubts,
    ]
    return tuple(Reason(cost / 1000, words) for cost, words in weighed)


def _opening(pick: Pick, costs: Costs) -> tuple[int, str]:
    if not pick.opened:
        return 0, "no whole skein is opened"
    return costs.opening * len(pick.opened), f"opens {counted(len(pick.opened), 'whole skein')}"


def _left(found: Candidate) -> str:
    left_um = found.free_um - found.pick.taken_um
    return f"{m_and_yd(left_um)} of this lot stay free" if left_um else "uses this lot up"


def _mixed(found: Candidate, costs: Costs) -> list[tuple[int, str]]:
    if found.pick.pieces < 2 or found.seen.known_lot:
        return []
    return [(costs.mixed, "entered together, lot not known: compare in daylight")]


def reasons_together(lots: tuple[Candidate, ...], rules: Together) -> tuple[Reason, ...]:
    """What speaks for and against the lots beside each other."""
    found = []
    shades = by_colour([lot.seen.shades for lot in lots], rules.colours)
    gap = least_gap(shades)
    if gap is not None:
        words = "apart in lightness" if len(shades) == 2 else "apart in lightness at least"
        found.append(Reason(0.0, f"{gap:.0f} {words}: {gap_word(gap)}"))
    found += [Reason(0.0, words) for words in told_beside([lot.seen for lot in lots], rules.vision)]
    cost = rules.cost([lot.seen for lot in lots])
    if cost:
        named = " beside ".join(str(lot.seen.thickness or "class not known") for lot in lots)
        found.append(Reason(cost / 1000, named))
    return tuple(found)
