"""Whether a lot covers a role: filled, with its coverage and chance, or what is missing."""

from __future__ import annotations

from typing import NamedTuple

from stash.matching.answer.proposal import Filled, Take
from stash.matching.lots.lot_view import LotView, put_up_of
from stash.matching.rules.blockers import RULED_OUT, Blocker
from stash.matching.rules.fits import RoleQuery, blockers_but_length
from stash.matching.scoring.costs import Candidate, candidate, least_together, pick_costs, reasons
from stash.measures.length import Length
from stash.stock.enough import short_um, summed
from stash.stock.holding import HeldSkein
from stash.stock.picking import Pick, best_pick, shortage_um
from stash.stock.spread import Contribution, contributions, together_m


class RoleFit(NamedTuple):
    """How a lot fits a role: the least it can cost there, or what keeps it out and what is missing.

    The cost is in thousandths, and 0 where it is kept out.
    """

    view: LotView
    least: int = 0
    blockers: tuple[Blocker, ...] = ()
    short_um: int = 0


def role_fit(view: LotView, query: RoleQuery) -> RoleFit:
    """How the lot fits the role.

    A lot that is ruled out is not measured, unless she named it and wants to hear everything.
    """
    blockers = blockers_but_length(view, query)
    unmeasured = Blocker.NO_LENGTH in blockers or Blocker.BARRED in blockers
    if unmeasured or (blockers and query.fixed is None and not RULED_OUT.isdisjoint(blockers)):
        return RoleFit(view, blockers=blockers)
    sums = summed(query.of(view.supplies), query.wanted)
    short = short_um(sums, query.wanted)
    if short is None:
        short = 0 if _pick(view, query) else shortage_um(query.of(view.supplies), query.wanted)
    if short:
        return RoleFit(view, blockers=(*blockers, Blocker.SHORT), short_um=short)
    if blockers:
        return RoleFit(view, blockers=blockers)
    return RoleFit(view, least_together(view, query, sums))


def weigh(view: LotView, query: RoleQuery) -> Candidate:
    """The lot in a role it fills, with its best pick and what it costs."""
    pick = _pick(view, query)
    assert pick is not None
    return candidate(view, query, pick)


def _pick(view: LotView, query: RoleQuery) -> Pick | None:
    costs = pick_costs(query.wish.ranking, view.known_lot)
    return best_pick(query.of(view.supplies), query.wanted, costs)


def covers(view: LotView, query: RoleQuery) -> bool:
    """Whether the lot's pieces hold what is wanted, whatever else speaks against it."""
    short = short_um(summed(query.of(view.supplies), query.wanted), query.wanted)
    return _pick(view, query) is not None if short is None else not short


def filled(found: Candidate, query: RoleQuery) -> Filled:
    """The role filled from this lot, as the answer gives it."""
    free_m = Length(found.free_um).m
    expected_m = query.role.estimate.expected_m
    return Filled(
        role=query.role.role,
        lot=found.view.lot,
        takes=_takes(found),
        free_m=free_m,
        coverage=free_m / expected_m if expected_m > 0 else 1.0,
        chance=query.role.estimate.chance_within(free_m, stock_spread_m(found.view, query)),
        left_m=Length(found.free_um - found.pick.taken_um).m,
        joins=found.pick.joins,
        reasons=reasons(found, query),
    )


def _takes(found: Candidate) -> tuple[Take, ...]:
    places = {skein.number: skein.place for skein in found.view.lot.skeins}
    return tuple(
        Take(cut.number, found.view.id, places[cut.number], cut.strand, Length(cut.um))
        for cut in found.pick.cuts
    )


def stock_spread_m(view: LotView, query: RoleQuery) -> float:
    """How far the lot's free yarn may be off, in metres (one standard deviation)."""
    skeins = {skein.number: skein for skein in view.lot.skeins}
    long_enough = [p for p in query.of(view.supplies) if p.um >= query.wanted.shortest_um]
    return together_m(
        (Length(supply.um).m, _open(view, skeins[supply.number])) for supply in long_enough
    )


def _open(view: LotView, skein: HeldSkein) -> tuple[Contribution, ...]:
    by_thickness = put_up_of(skein, view.thickness, view.assume)
    return contributions(skein, view.lot.lot, view.scale, by_thickness)
