"""What speaks for and against a lot in a role, with its cost in whole thousandths."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from stash.matching.answer.reason import Reason, thousandths
from stash.matching.lots.lot_view import Lots, LotView, as_one
from stash.matching.lots.shelf_stats import came_on
from stash.matching.question.strands import by_colour
from stash.matching.question.wish import Ranking, Wash
from stash.matching.rules.colour_pairs import colour_notes
from stash.matching.rules.contrast import contrast_of, least_gap
from stash.matching.rules.fits import PairRules, RoleQuery, thickness_steps
from stash.measures.length import Length
from stash.stock.enough import Sums, least_cost, summed
from stash.stock.picking import Costs, Pick
from stash.stock.yarn import FullFrom


# two for each ranking, and asked for with every lot
@lru_cache(maxsize=16)
def pick_costs(ranking: Ranking, known_lot: bool) -> Costs:
    """Her ranking as the picking of skeins knows them."""
    return Costs(
        opening=thousandths(ranking.opening),
        very_little=thousandths(ranking.very_little),
        join=thousandths(ranking.join),
        useless_end=thousandths(ranking.useless_end),
        lone_skein=thousandths(ranking.lone_skein),
        mixed=0 if known_lot else thousandths(ranking.lot_not_known),
    )


@dataclass(frozen=True, slots=True)
class Candidate:
    """A lot that fills a role: the best pick from it, and what it costs in thousandths."""

    view: LotView
    pick: Pick
    free_um: int
    looseness: int
    doubts: tuple[Reason, ...]

    @property
    def lots(self) -> Lots:
        """The lot, as a choice for the role."""
        return (self.view,)

    @property
    def cost(self) -> int:
        """Everything that speaks against it, added up."""
        doubts = sum(thousandths(doubt.cost) for doubt in self.doubts)
        return self.pick.cost + self.looseness + doubts


def candidate(view: LotView, query: RoleQuery, pick: Pick) -> Candidate:
    """The lot with its pick, weighed."""
    sums = summed(query.of(view.supplies), query.wanted)
    return Candidate(view, pick, sums.um, _looseness(sums, query), tuple(_doubts(view, query)))


def least_together(view: LotView, query: RoleQuery, sums: Sums) -> int:
    """No more than the lot will cost once its skeins are picked and its doubts weighed."""
    costs = pick_costs(query.wish.ranking, view.known_lot)
    return _looseness(sums, query) + least_cost(sums, query.wanted, costs)


def _looseness(sums: Sums, query: RoleQuery) -> int:
    """What leaving a share of the lot's free yarn behind costs."""
    share = 1 - query.wanted.um / sums.um if sums.um else 0
    return thousandths(query.wish.ranking.looseness * share)


def _doubts(view: LotView, query: RoleQuery) -> Iterator[Reason]:
    """What is not quite known or not quite right about the lot."""
    ranking, thickness = query.wish.ranking, view.thickness
    step = thousandths(ranking.thickness_step) / 1000
    yield from _stated(view, query)
    if steps := thickness_steps(view, query):
        cost = thousandths(ranking.thickness_step) * steps / 1000
        yield Reason("thickness_away", cost, thickness=thickness, steps=steps)
    if thickness is None and (query.together or query.need.thickness_from is not None):
        yield Reason("thickness_not_known", step)
    if thickness is not None and thickness.derived:
        yield Reason("thickness_derived", step, thickness=thickness)
    if query.together and not view.shades:
        yield Reason("colour_not_known", thousandths(ranking.colour_not_known) / 1000)
    if length_assumed(view):
        yield Reason("length_assumed", step, thickness=thickness)
    yield from _from_the_shelf(view, query)


def _stated(view: LotView, query: RoleQuery) -> Iterator[Reason]:
    """What is to be known of the lot, and whose it is."""
    cost = thousandths(query.wish.ranking.condition) / 1000
    for condition in view.lot.lot.conditions:
        yield Reason("in_condition", cost, condition=condition)
    if query.wish.limits.wash is Wash.HOT:
        yield Reason("bears_hot_wash", 0.0)
    owners = [skein.owner for skein in view.lot.skeins if skein.owner]
    for owner in dict.fromkeys(owners):
        yield Reason("owned_by", 0.0, owner=owner)


def _from_the_shelf(view: LotView, query: RoleQuery) -> Iterator[Reason]:
    """Oldest first, and dearest last: compared with the rest of the shelf."""
    ranking, came = query.wish.ranking, came_on(view.lot)
    newer = thousandths(ranking.newness * view.stats.newness(came))
    if newer and came:
        yield Reason("newer_than_others", newer / 1000, since=came)
    if view.stats.price_m is None:
        return
    dearness = view.stats.dearness(view.lot)
    # a price that is not known counts as the middle one, or not knowing would be rewarded
    share = 0.5 if dearness is None else dearness / (1 + dearness)
    cost = thousandths(ranking.price * share * _part_of_the_design(query))
    if cost and dearness is None:
        yield Reason("price_not_known", cost / 1000)
    elif cost:
        yield Reason("price_of_a_metre", cost / 1000, times_middle=dearness)


def _part_of_the_design(query: RoleQuery) -> float:
    """The role's share of all the yarn of the design."""
    whole_m = math.fsum(role.set_aside_m for role in query.need.roles)
    return query.role.set_aside_m / whole_m if whole_m else 0.0


def length_assumed(view: LotView) -> bool:
    """Whether any length of the lot rests on its class alone."""
    return view.assume and any(s.pair.origin is FullFrom.MISSING for s in view.lot.skeins)


def reasons(found: Candidate, query: RoleQuery) -> tuple[Reason, ...]:
    """Why the lot ranks as it does in its role; their costs add up to its cost."""
    pick = found.pick
    costs = pick_costs(query.wish.ranking, found.view.known_lot)
    return (
        _opening(pick, costs),
        *(Reason("opened_for_little", costs.very_little / 1000, skein=n) for n in pick.slivers),
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
        return Reason("opens_no_skein", 0.0, count=pick.supplies)
    count = len(pick.opened)
    return Reason("opens_skeins", costs.opening * count / 1000, count=count)


def _left(found: Candidate) -> Reason:
    left_um, cost = found.free_um - found.pick.taken_um, found.looseness / 1000
    return Reason("stays_free", cost, left=Length(left_um)) if left_um else Reason("used_up", cost)


def _mixed(found: Candidate, costs: Costs) -> list[Reason]:
    if found.pick.supplies < 2 or found.view.known_lot:
        return []
    return [Reason("entered_together", costs.mixed / 1000)]


def reasons_together(chosen: Sequence[Lots], rules: PairRules) -> tuple[Reason, ...]:
    """What speaks for and against the lots of each role beside those of the others."""
    found = []
    views = [as_one(lots) for lots in chosen]
    shades = by_colour([view.shades for view in views], rules.colours)
    gap = least_gap(shades)
    if gap is not None:
        contrast, colours = contrast_of(shades), len(shades)
        found.append(Reason("lightness_apart", 0.0, gap=gap, contrast=contrast, colours=colours))
    found += [Reason(note.kind, 0.0, **note.facts) for note in colour_notes(views, rules.vision)]
    cost = rules.cost([lot for lots in chosen for lot in lots])
    if cost:
        classes = tuple(view.thickness for view in views)
        found.append(Reason("thicknesses_differ", cost / 1000, classes=classes))
    return tuple(found)
