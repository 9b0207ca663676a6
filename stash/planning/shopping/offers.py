"""The yarns that can be bought again: those she has had, each by its put-up, at its last price."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

from stash.matching.lots.lot_view import LotView, views_of
from stash.matching.lots.shelf import Shelf
from stash.matching.question.wish import Limits
from stash.matching.rules.limits import limit_blockers
from stash.planning.shopping.shopping import Offer
from stash.stock.yarn import FullFrom

_NO_DAY = date.min


def known_offers(shelf: Shelf, limits: Limits) -> list[Offer]:
    """Every yarn and put-up of the shelf that her limits allow, by name and put-up.

    Give a shelf with its spent skeins, so that what is used up can be bought again. A price is what
    was paid last for a skein that came whole; a gift tells none. Colour is hers to choose, and
    whose a skein was says nothing of the next.
    """
    of_the_yarn = replace(limits, wanted={}, unwanted={}, barred={}, fineness={})
    newest: dict[tuple[str, int, int], tuple[date, int, Offer]] = {}
    for seen in views_of(shelf, assume=False):
        pair = seen.lot.lot.pair
        if pair.put_up is None or pair.origin is not FullFrom.BAND:
            continue
        if limit_blockers(seen, "", of_the_yarn):
            continue
        name = str(seen.lot.lot.yarn)
        key = name, pair.put_up.mass.mg, pair.put_up.length.um
        newest[key] = max(newest.get(key, _NOTHING), _last(seen, name), key=lambda one: one[:2])
    return [offer for _, (_, _, offer) in sorted(newest.items(), key=lambda one: one[0])]


_NOTHING = (_NO_DAY, -1, Offer("", 0))


def _last(seen: LotView, name: str) -> tuple[date, int, Offer]:
    """The lot as an offer, with the day and number of its skein that was bought last."""
    put_up = seen.lot.lot.pair.put_up
    assert put_up is not None
    bought = [
        (skein.since or _NO_DAY, skein.number, skein.paid.coins)
        for skein in seen.lot.skeins
        if skein.paid is not None and skein.paid.coins and not skein.arrived_opened
    ]
    since, number, coins = max(bought, default=(_NO_DAY, 0, 0))
    thickness = seen.thickness
    offer = Offer(
        name,
        put_up.length.um,
        coins or None,
        (thickness.low, thickness.high) if thickness else None,
        put_up.mass,
    )
    return since, number, offer
