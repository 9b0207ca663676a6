"""What the matcher reads off a lot once, before any role is looked at."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stash.matching.lots.shelf import Shelf
from stash.matching.lots.shelf_stats import NO_STATS, ShelfStats, stats_of
from stash.measures.colour import Lab, lab
from stash.measures.length import Length
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldLot, HeldSkein
from stash.stock.picking import Supply
from stash.stock.spread import USUAL_SCALE, Scale
from stash.stock.yarn import FullFrom, LotState
from stash.trade.thickness import thickness_of_m_per_100g, usual_m_per_100g


@dataclass(frozen=True, slots=True)
class Thickness:
    """A thickness class, or a range of them; `derived` where it only follows from the pair."""

    low: int
    high: int
    derived: bool = False

    def steps_from(self, low: int, high: int) -> int:
        """How many classes lie between this one and a range; 0 where they meet."""
        return max(0, self.low - high, low - self.high)


@dataclass(frozen=True, slots=True)
class LotView:
    """A lot with the lengths, the thickness and the colours it is matched by.

    `id` is the number of the lot. `pieces` holds the skeins whose length is known (or assumed, if
    she asked for that).
    """

    id: int
    lot: HeldLot
    supplies: tuple[Supply, ...]
    thickness: Thickness | None
    shades: tuple[Lab, ...]
    assume: bool
    scale: Scale = USUAL_SCALE
    stats: ShelfStats = NO_STATS

    @property
    def known_lot(self) -> bool:
        """Whether its skeins are known to be of one dye lot."""
        return self.lot.lot.lot_state is LotState.NUMBERED


#: What fills a role: one lot, or two of one yarn and colour that share it.
Lots = tuple[LotView, ...]


def order_of(lots: Lots) -> tuple[int, ...]:
    """The place of a choice among equally cheap ones: lots alone first, then by their numbers."""
    if len(lots) == 1:
        return (1, lots[0].id)
    return (len(lots), *sorted(lot.id for lot in lots))


def as_one(lots: Lots) -> LotView:
    """What two lots of one colour look like beside others: the first, with the shades of both."""
    first, *others = lots
    if not others:
        return first
    shades = dict.fromkeys(shade for lot in lots for shade in lot.shades)
    return replace(first, shades=tuple(shades))


def views_of(shelf: Shelf, assume: bool) -> list[LotView]:
    """Every lot of the shelf as the matcher sees it."""
    stats = stats_of(shelf)
    return [view_of(lot, assume, shelf.scale, stats) for lot in shelf.lots]


def view_of(held: HeldLot, assume: bool, scale: Scale, stats: ShelfStats) -> LotView:
    """One lot as the matcher sees it."""
    thickness = thickness_of(held)
    supplies = []
    for skein in held.skeins:
        put_up = put_up_of(skein, thickness, assume)
        if put_up is not None:
            free_um = _free_um(skein, put_up)
            supplies.append(Supply(skein.number, free_um, not skein.opened, skein.remnant))
    shades = tuple(lab(colour) for colour in held.lot.colours)
    return LotView(held.lot.id, held, tuple(supplies), thickness, shades, assume, scale, stats)


def _free_um(skein: HeldSkein, put_up: PutUp) -> int:
    """What is free, rounded down: a promise of all of it must not ask for a milligram more."""
    free_mg = max(0, skein.held.mg - skein.promised.mg)
    return free_mg * put_up.length.um // put_up.mass.mg


def thickness_of(held: HeldLot) -> Thickness | None:
    """The class on the band, else the one its metres per 100 g belong to, else None."""
    lot = held.lot
    if lot.thickness_from is not None:
        return Thickness(
            lot.thickness_from,
            lot.thickness_to if lot.thickness_to is not None else lot.thickness_from,
        )
    put_up = known_put_up(held)
    if put_up is None:
        return None
    derived = thickness_of_m_per_100g(put_up.m_per_100g)
    return Thickness(derived, derived, derived=True)


def known_put_up(held: HeldLot) -> PutUp | None:
    """The put-up on the band or measured, of the lot or else of its first skein that has one."""
    for pair in (held.lot.pair, *(skein.pair for skein in held.skeins)):
        if pair.put_up is not None and pair.origin in (FullFrom.BAND, FullFrom.MEASURED):
            return pair.put_up
    return None


def put_up_of(skein: HeldSkein, thickness: Thickness | None, assume: bool) -> PutUp | None:
    """The put-up a skein is measured by; with `assume`, its class's usual one where it has none.

    Of a range of classes the thickest counts, which has the fewest metres.
    """
    if skein.pair.put_up is not None or not assume or thickness is None:
        return skein.pair.put_up
    return PutUp(grams(100), Length(round(usual_m_per_100g(thickness.high) * 1_000_000)))


def mass_of_um(view: LotView, um: int) -> Mass | None:
    """What so much of this lot weighs, by the first of its skeins that has a length."""
    for skein in view.lot.skeins:
        put_up = put_up_of(skein, view.thickness, view.assume)
        if put_up is not None:
            return put_up.mass_covering(Length(um))
    return None
