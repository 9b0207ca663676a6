"""The conditions that must hold."""

import pytest
from shelves import a_lot, a_need, a_shelf, put_up

from stash.matching.lots.lot_view import LotView, Thickness, views_of
from stash.matching.question.wish import Contrast, Fixed, Wish
from stash.matching.rules.blockers import Blocker
from stash.matching.rules.fits import blockers_but_length, pair_rules, role_query, widest_step
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import FullFrom, Pair

NO_PAIR = Pair(None, FullFrom.MISSING)
BOTH = a_need(4, A=100, B=20)


def seen(lot: HeldLot, assume: bool = False) -> LotView:
    return views_of(a_shelf(lot), assume)[0]


def blockers(lot: HeldLot, need: Need = BOTH, wish: Wish | None = None) -> tuple[Blocker, ...]:
    wish = wish or Wish()
    return blockers_but_length(seen(lot, wish.assume), role_query(need.roles[0], need, wish))


def test_a_lot_with_every_fact_has_no_trouble() -> None:
    assert blockers(a_lot(1, (100,))) == ()


@pytest.mark.parametrize(("tolerance", "suits"), [(0, False), (1, True)])
def test_the_thickness_lies_within_her_tolerance(tolerance: int, suits: bool) -> None:
    lot = a_lot(1, (100,), thickness_from=5, thickness_to=5)

    found = blockers(lot, wish=Wish(thickness_tolerance=tolerance))

    assert found == (() if suits else (Blocker.WRONG_CLASS,))


def test_a_range_of_thicknesses_suits_where_it_meets_the_need() -> None:
    assert blockers(a_lot(1, (100,), thickness_from=3, thickness_to=4)) == ()


# 100 g / 200 m is 200 m per 100 g, which the trade's tables count as medium, class 4.
def test_an_unknown_thickness_is_derived_from_the_band() -> None:
    lot = a_lot(1, (100,), thickness_from=None, thickness_to=None)

    assert blockers(lot) == ()
    assert seen(lot).thickness == Thickness(4, 4, derived=True)


def test_an_assumed_pair_tells_no_thickness() -> None:
    lot = a_lot(
        1,
        (100,),
        thickness_from=None,
        thickness_to=None,
        pair=Pair(put_up(100, 200), FullFrom.ASSUMED),
    )

    assert blockers(lot)[0] is Blocker.NO_CLASS
    assert blockers(lot, wish=Wish(fixed={"A": Fixed(frozenset({1}))})) == ()


def test_a_single_role_without_a_thickness_asks_for_none() -> None:
    lot = a_lot(
        1,
        (100,),
        thickness_from=None,
        thickness_to=None,
        pair=Pair(put_up(100, 200), FullFrom.ASSUMED),
    )

    assert blockers(lot, a_need(A=100)) == ()


def test_without_a_pair_there_is_no_length() -> None:
    assert blockers(a_lot(1, (100,), pair=NO_PAIR)) == (Blocker.NO_LENGTH,)


def test_a_missing_band_is_one_trouble_and_not_two() -> None:
    lot = a_lot(1, (100,), pair=NO_PAIR, thickness_from=None, thickness_to=None)

    assert blockers(lot) == (Blocker.NO_LENGTH,)


# Thickness 4 usually has about 180 m to 100 g (common practice, no source).
def test_a_length_may_be_assumed_from_the_thickness() -> None:
    lot = a_lot(1, (100,), pair=NO_PAIR)

    assert blockers(lot, wish=Wish(assume=True)) == ()
    assert seen(lot, assume=True).supplies[0].um == 180_000_000


@pytest.mark.parametrize(
    ("contrast", "expected"), [(Contrast.ANY, ()), (Contrast.SOFT, (Blocker.NO_COLOUR,))]
)
def test_an_unknown_colour_takes_part_with_any(
    contrast: Contrast, expected: tuple[Blocker, ...]
) -> None:
    assert blockers(a_lot(1, (100,), colours=()), wish=Wish(contrast=contrast)) == expected


def test_lots_lie_within_tolerance_of_each_other() -> None:
    thin = seen(a_lot(1, (100,), thickness_from=3, thickness_to=3))
    thick = seen(a_lot(2, (100,), thickness_from=5, thickness_to=5))

    assert not pair_rules(BOTH, Wish(thickness_tolerance=1)).fit(thin, thick)
    assert pair_rules(BOTH, Wish(thickness_tolerance=2)).fit(thin, thick)


def test_the_widest_step_counts_and_the_unknown_does_not() -> None:
    classes = [(3, 3), (None, None), (4, 5), (6, 6)]
    lots = [
        seen(a_lot(i, (100,), thickness_from=low, thickness_to=high, pair=NO_PAIR))
        for i, (low, high) in enumerate(classes, start=1)
    ]

    assert widest_step(lots) == 3


def test_what_is_promised_is_not_free() -> None:
    lot = a_lot(1, (100, 100), promised_g={0: 60, 1: 130})

    assert [supply.um for supply in seen(lot).supplies] == [80_000_000, 0]
