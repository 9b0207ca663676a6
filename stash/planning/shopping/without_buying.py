"""What would let the shelf do without buying: the design made otherwise, or of other yarn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace

from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.matching.lots.shelf import Shelf
from stash.matching.match import match
from stash.measures.estimate import to_books
from stash.measures.length import Length
from stash.planning.model.batch import Wanted
from stash.requirements.yarn.design_context import DesignContext
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot

#: So many sets are named: the nearest with all that would do, others with what changes least.
MOST_SETS = 3
#: What is done with the yarn that is there, the design staying as it is.
_AS_IT_IS = frozenset({"other_skeins", "remnants_too", "let_skein_in", "lower_margin"}) | {
    *("margin_by_skeins", "release_promised", "second_lot")
}


@dataclass(frozen=True, slots=True)
class ShelfWay:
    """Lots of the shelf by role, and the one `fix` that lets them become the design.

    `uses` is what is set aside of each lot.
    """

    roles: tuple[tuple[str, HeldLot], ...]
    fix: Fix
    uses: tuple[tuple[HeldLot, Length], ...]

    @property
    def um(self) -> int:
        """All the yarn it takes."""
        return sum(length.um for _, length in self.uses)


def shelf_ways(shelf: Shelf, want: Wanted, plan: DesignContext | None) -> tuple[ShelfWay, ...]:
    """Every way to make one more of a want from this shelf, what changes least first.

    With its plan, ways to make it otherwise are among them. Where she asked for a colour or a yarn,
    the best set without that comes last.
    """
    found = match(shelf, want.need, want.wish, plan)
    whole = [miss for miss in found.near_misses if len(miss.roles) == len(want.need.roles)]
    ways: list[ShelfWay] = []
    for place, miss in enumerate(whole[:MOST_SETS]):
        able = list(_ways(miss, want.need, plan))
        ways += able if place == 0 else able[:1]
    return (*ways, *_of_other_yarn(shelf, want, plan))


def _ways(miss: NearMiss, need: Need, plan: DesignContext | None) -> Iterator[ShelfWay]:
    for fix in miss.fixes:
        if fix.made is not None and plan is not None:
            lots = {**dict(miss.roles), **dict(fix.joining)}
            yield _way(lots, fix, plan.need(fix.made))
        elif fix.change in _AS_IT_IS:
            yield _way(dict(miss.roles), fix, _with_margin(need, fix))


def _with_margin(need: Need, fix: Fix) -> Need:
    """The need with the margin that is left to it; one that is taken by its skeins has none."""
    if fix.kind not in ("lower_margin", "margin_by_skeins"):
        return need
    margin = fix.facts.get("margin", 0.0)
    return replace(need, roles=tuple(replace(role, margin=margin) for role in need.roles))


def _of_other_yarn(shelf: Shelf, want: Wanted, plan: DesignContext | None) -> Iterator[ShelfWay]:
    """The best set where the colours and yarns that were asked for may be others."""
    limits = want.wish.limits
    if not (limits.wanted or want.wish.fixed):
        return
    wish = replace(want.wish, fixed={}, limits=replace(limits, wanted={}), top=1)
    for best in match(shelf, want.need, wish, plan).proposals:
        yield _way({one.role: one.lot for one in best.roles}, Fix("other_yarn"), want.need)


def _way(lots: Mapping[str, HeldLot], fix: Fix, need: Need) -> ShelfWay:
    roles = tuple((one.role, lots[one.role]) for one in need.roles)
    uses = tuple((lots[one.role], to_books(one.set_aside_m)) for one in need.roles)
    return ShelfWay(roles, fix, uses)
