"""Reasons and what they cost."""

import pytest
from shelves import a_lot, a_need, a_shelf, put_up

from stash.matching.answer import Filled
from stash.matching.propose import match
from stash.matching.wish import Weights, Wish
from stash.requirements.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import Pair, PairFrom

NO_COST = Weights(*[0.0] * 9)


def fill(lot: HeldLot, need: Need, wish: Wish | None = None) -> Filled:
    return match(a_shelf(lot), need, wish or Wish()).proposals[0].roles[0]


def words(filled: Filled) -> dict[str, float]:
    return {reason.words: reason.cost for reason in filled.reasons}


def test_a_leftover_that_just_does_costs_nothing() -> None:
    lot = a_lot(1, (50,))

    assert words(fill(lot, a_need(None, 0.0, A=100))) == {
        "no whole skein is opened": 0.0,
        "uses this lot up": 0.0,
    }


def test_breaking_a_whole_skein_costs() -> None:
    found = words(fill(a_lot(1, (100, 100)), a_need(None, 0.0, A=100)))

    assert found["opens 1 whole skein"] == 1.0
    assert found["leaves one whole skein by itself"] == 0.25
    assert found["300 m (330 yd) of this lot stay free"] == 0.75


def test_a_useless_end_is_named_with_its_skein() -> None:
    found = words(fill(a_lot(1, (50.5,), opened=(0,)), a_need(None, 0.0, A=100)))

    assert found["leaves 1 m (1.1 yd) of skein 10, too short to use"] == 0.5


def test_a_class_that_is_only_derived_costs() -> None:
    lot = a_lot(1, (100,), class_from=None, class_to=None)

    assert words(fill(lot, a_need(4, A=50)))["class about 4, by its metres per 100 g"] == 0.5


def test_a_class_away_costs_by_the_step() -> None:
    lot = a_lot(1, (100,), class_from=6, class_to=6)

    found = words(fill(lot, a_need(4, A=50), Wish(class_tolerance=2)))

    assert found["class 6, 2 steps from the class asked for"] == 1.0


def test_an_assumed_length_is_said() -> None:
    lot = a_lot(1, (100,), pair=Pair(None, PairFrom.MISSING))

    found = words(fill(lot, a_need(4, A=50), Wish(assume=True)))

    assert found["length assumed from the usual one of class 4: weigh it"] == 0.5


def test_an_unknown_colour_is_to_be_looked_at_in_daylight() -> None:
    shelf = a_shelf(a_lot(1, (100,), colours=()), a_lot(2, (100,)))

    roles = match(shelf, a_need(4, A=50, B=50), Wish()).proposals[0].roles

    assert words(roles[0])["colour not known: look in daylight"] == 0.5


def test_classes_beside_each_other_cost_where_the_need_names_none() -> None:
    shelf = a_shelf(a_lot(1, (100,)), a_lot(2, (100,), class_from=5, class_to=5))

    best = match(shelf, a_need(A=50, B=50), Wish(class_tolerance=1)).proposals[0]

    assert {r.words: r.cost for r in best.reasons} == {
        "0 apart in lightness: close": 0.0,
        "class 4 beside class 5": 0.5,
    }


@pytest.mark.parametrize(("weights", "best"), [(Weights(), "L2"), (NO_COST, "L1")])
def test_her_weights_set_the_order(weights: Weights, best: str) -> None:
    """Without any weight the lot numbers alone decide."""
    shelf = a_shelf(a_lot(1, (100, 100)), a_lot(2, (60,), of=put_up(100, 200)))

    assert match(shelf, a_need(A=100), Wish(weights=weights)).proposals[0].key == best
