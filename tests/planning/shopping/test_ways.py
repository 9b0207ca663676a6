"""One more skein of the old lot is held beside every other way of buying."""

from __future__ import annotations

from dataclasses import replace

from shelves import a_lot, a_need, a_shelf
from workshops import QUIET

from stash.matching.question.wish import Wish
from stash.planning.model.batch import Terms, Wanted
from stash.planning.model.encode import ends_of
from stash.planning.model.problem import Aim
from stash.planning.plan_batch import planned
from stash.planning.shopping.shopping import Offer, cut_from
from stash.planning.shopping.shortfall import Lack, shortfall
from stash.planning.shopping.ways import buying_ways

M = 1_000_000
ENDS = ends_of(Wish())


def the_lack() -> Lack:
    """Three hats of 69 m out of 100 m of lot 1: one is made, two lack their yarn."""
    shelf = a_shelf(a_lot(1, (50,), opened=(0,)))
    want = Wanted("hat", a_need(A=60), Wish(), at_most=3)
    (lack,) = shortfall(shelf, planned(shelf, [want], Terms((Aim.BUYING,)), QUIET)).lacks
    return lack


def test_a_skein_of_the_old_lot_stands_beside_new_yarn_the_cheapest_first() -> None:
    """138 m are missing and 31 m lie there: one skein of 200 m, or two of 100 m at 3.00."""
    lack = the_lack()
    assert lack.completed is not None
    old = lack.completed.lot.lot.yarn.name
    offers = [Offer(old, 200 * M, 550), Offer("new", 100 * M, 300)]
    ways = buying_ways(lack, offers, ENDS, 0)

    told = [(way.lot is not None, way.offer.name, way.skeins, way.coins) for way in ways]
    assert told == [(True, old, 1, 550), (False, old, 1, 550), (False, "new", 2, 600)]


def test_the_old_lot_is_left_out_where_none_can_be_topped_up() -> None:
    lack = replace(the_lack(), completed=None)

    assert [way.lot for way in buying_ways(lack, [Offer("new", 100 * M)], ENDS, 0)] == [None]


def test_a_price_that_is_not_known_comes_last() -> None:
    lack = the_lack()
    ways = buying_ways(lack, [Offer("new", 100 * M, 9_999)], ENDS, 0)

    assert [way.coins for way in ways] == [9_999 * 2, None]


def test_every_way_buys_enough() -> None:
    lack = the_lack()
    offers = [Offer(f"y{m}", m * M, 100) for m in (20, 45, 69, 70, 138, 139, 500)]
    for way in buying_ways(lack, offers, ENDS, 0):
        if way.lot is None:
            assert way.um >= sum(lack.missing.strand_lengths)
            skeins = cut_from(way.offer.um, lack.missing.strand_lengths, ENDS)[0]
            assert way.skeins == skeins
