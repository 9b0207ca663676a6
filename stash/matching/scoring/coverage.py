"""Whether a lot covers a role: filled, with its coverage and chance, or what is missing."""

from __future__ import annotations

from dataclasses import dataclass

from stash.matching.answer.proposal import Filled, Take
from stash.matching.lots.lot_view import Seen, put_up_of
from stash.matching.rules.blockers import RULED_OUT, Trouble
from stash.matching.rules.fits import Asked, troubles_but_length
from stash.matching.scoring.costs import Candidate, candidate, least_together, pick_costs, reasons
from stash.measures.length import Length
from stash.stock.enough import short_um, summed
from stash.stock.holding import HeldSkein
from stash.stock.picking import Pick, best_pick, shortage_um
from stash.stock.spread import Contribution, contributions, together_m


@dataclass(frozen=True, slots=True)
class Unfit:
    """A lot that does not fill a role: what is in the way, and how much is missing."""

    seen: Seen
    troubles: tuple[Trouble, ...]
    short_um: int = 0


def look(seen: Seen, ask: Asked) -> int | Unfit:
    """The least that the lot can cost in the role, in thousandths, or why it does not fill it.

    A lot that is ruled out is not measured, unless she named it and wants to hear everything.
    """
    troubles = troubles_but_length(seen, ask)
    unmeasured = Trouble.NO_LENGTH in troubles or Trouble.BARRED in troubles
    if unmeasured or (troubles and ask.fixed is None and not RULED_OUT.isdisjoint(troubles)):
        return Unfit(seen, troubles)
    sums = summed(ask.of(seen.pieces), ask.wanted)
    short = short_um(sums, ask.wanted)
    if short is None:
        short = 0 if _pick(seen, ask) else shortage_um(ask.of(seen.pieces), ask.wanted)
    if short:
        return Unfit(seen, (*troubles, Trouble.SHORT), short)
    return Unfit(seen, troubles) if troubles else least_together(seen, ask, sums)


def weigh(seen: Seen, ask: Asked) -> Candidate:
    """The lot in a role it fills, with its best pick and what it costs."""
    pick = _pick(seen, ask)
    assert pick is not None
    return candidate(seen, ask, pick)


def _pick(seen: Seen, ask: Asked) -> Pick | None:
    costs = pick_costs(ask.wish.weights, seen.known_lot)
    return best_pick(ask.of(seen.pieces), ask.wanted, costs)


def covers(seen: Seen, ask: Asked) -> bool:
    """Whether the lot's pieces hold what is wanted, whatever else speaks against it."""
    short = short_um(summed(ask.of(seen.pieces), ask.wanted), ask.wanted)
    return _pick(seen, ask) is not None if short is None else not short


def filled(found: Candidate, ask: Asked) -> Filled:
    """The role filled from this lot, as the answer tells it."""
    free_m = Length(found.free_um).m
    expected_m = ask.role.estimate.expected_m
    return Filled(
        role=ask.role.role,
        lot=found.seen.lot,
        takes=_takes(found),
        free_m=free_m,
        coverage=free_m / expected_m if expected_m > 0 else 1.0,
        chance=ask.role.estimate.chance_within(free_m, stock_spread_m(found.seen, ask)),
        left_m=Length(found.free_um - found.pick.taken_um).m,
        joins=found.pick.joins,
        reasons=reasons(found, ask),
    )


def _takes(found: Candidate) -> tuple[Take, ...]:
    places = {skein.number: skein.place for skein in found.seen.lot.skeins}
    return tuple(
        Take(cut.number, found.seen.id, places[cut.number], cut.strand, Length(cut.um))
        for cut in found.pick.cuts
    )


def stock_spread_m(seen: Seen, ask: Asked) -> float:
    """How far the lot's free yarn may be off, in metres (one standard deviation)."""
    skeins = {skein.number: skein for skein in seen.lot.skeins}
    long_enough = [p for p in ask.of(seen.pieces) if p.um >= ask.wanted.shortest_um]
    return together_m(
        (Length(piece.um).m, _open(seen, skeins[piece.number])) for piece in long_enough
    )


def _open(seen: Seen, skein: HeldSkein) -> tuple[Contribution, ...]:
    by_class = put_up_of(skein, seen.thickness, seen.assume)
    return contributions(skein, seen.lot.lot, seen.scale, by_class)
