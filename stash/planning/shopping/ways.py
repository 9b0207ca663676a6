"""One more skein of the old lot beside every other way of buying what a role lacks."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from stash.matching.lots.lot_view import known_put_up
from stash.planning.model.problem import Ends
from stash.planning.shopping.shopping import Offer, cut_from
from stash.planning.shopping.shortfall import Lack
from stash.stock.holding import HeldLot


@dataclass(frozen=True, slots=True)
class BuyingWay:
    """So many skeins to buy, more of a `lot` that is there or all of it anew (None).

    `coins` is what they cost, None where no price is known.
    """

    offer: Offer
    lot: HeldLot | None
    skeins: int

    @property
    def coins(self) -> int | None:
        """What all of it costs."""
        return None if self.offer.coins is None else self.offer.coins * self.skeins

    @property
    def um(self) -> int:
        """The length that is bought."""
        return self.offer.um * self.skeins


def buying_ways(
    lack: Lack, offers: Sequence[Offer], ends: Ends, tolerance: int
) -> tuple[BuyingWay, ...]:
    """Every way of buying for one role by itself, the cheapest first, then the least yarn.

    One whose price is not known comes after those that are. Skeins of the old lot cost what its
    yarn was last bought for.
    """
    missing = lack.missing
    able = [o for o in offers if o.um > ends.shortest_um and o.suits(missing, tolerance)]
    found = [
        BuyingWay(offer, None, cut_from(offer.um, missing.strand_lengths, ends)[0])
        for offer in able
    ]
    if lack.completed is not None:
        old = _old(lack.completed.lot, offers)
        if old is not None:
            found.append(BuyingWay(old, lack.completed.lot, lack.completed.skeins))
    return tuple(sorted(found, key=_order))


def _old(lot: HeldLot, offers: Sequence[Offer]) -> Offer | None:
    """A skein of a lot that is there, at the price of its yarn."""
    put_up = known_put_up(lot)
    if put_up is None:
        return None
    name = str(lot.lot.yarn)
    same = [o for o in offers if o.name == name and o.um == put_up.length.um]
    coins = same[0].coins if same else None
    return Offer(name, put_up.length.um, coins, None, put_up.mass)


def _order(way: BuyingWay) -> tuple[bool, int, int, bool, str]:
    return way.coins is None, way.coins or 0, way.um, way.lot is None, way.offer.name
