"""Reasons and what they cost."""

from dataclasses import fields, replace
from datetime import date

import pytest
from shelves import a_lot, a_need, a_shelf, put_up

from stash.matching.answer.proposal import Filled
from stash.matching.match import match
from stash.matching.question.wish import Limits, Wash, Weights, Wish
from stash.measures.money import Money
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import Condition, Pair, PairFrom

NO_COST = Weights(*[0.0] * len(fields(Weights)))


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

    assert [(r.words, r.cost) for r in best.reasons if r.cost] == [("class 4 beside class 5", 0.5)]


@pytest.mark.parametrize(("weights", "best"), [(Weights(), "L2"), (NO_COST, "L1")])
def test_her_weights_set_the_order(weights: Weights, best: str) -> None:
    """Without any weight the lot numbers alone decide."""
    shelf = a_shelf(a_lot(1, (100, 100)), a_lot(2, (60,), of=put_up(100, 200)))

    assert match(shelf, a_need(A=100), Wish(weights=weights)).proposals[0].key == best


def dated(lot_id: int, day: date, **facts: object) -> HeldLot:
    held = a_lot(lot_id, (100,), **facts)
    return replace(held, skeins=tuple(replace(s, since=day) for s in held.skeins))


def costs(key: str, *lots: HeldLot) -> dict[str, float]:
    found = match(a_shelf(*lots), a_need(None, 0.0, A=100), Wish()).proposals
    (filled,) = next(p for p in found if p.key == key).roles
    return words(filled)


def test_the_oldest_yarn_comes_first() -> None:
    """Of two alike the older; half-way between the oldest day and today counts half."""
    old, middle = dated(9, date(2024, 3, 1)), dated(1, date(2025, 3, 1))  # as of 2026-03-01

    found = match(a_shelf(old, middle), a_need(None, 0.0, A=100), Wish()).proposals

    assert [p.key for p in found] == ["L9", "L1"]
    assert costs("L1", old, middle)["newer than other yarn: here since 2025-03-01"] == 0.125
    assert not [w for w in costs("L9", old, middle) if "newer" in w]


def test_a_shelf_of_one_day_has_no_older_yarn() -> None:
    both = dated(1, date(2026, 3, 1)), dated(2, date(2026, 3, 1))

    assert not [w for w in costs("L1", *both) if "newer" in w]


def priced(lot_id: int, coins: int | None) -> HeldLot:
    held = a_lot(lot_id, (100,))
    paid = None if coins is None else Money(coins)
    return replace(held, skeins=tuple(replace(s, paid=paid) for s in held.skeins))


def test_a_price_counts_against_the_middle_one_of_the_shelf() -> None:
    shelf = (priced(1, 400), priced(2, 800), priced(3, 2400), priced(4, None))

    assert costs("L2", *shelf)["a metre costs 1 x the middle price here"] == 0.125
    assert costs("L1", *shelf)["a metre costs 0.5 x the middle price here"] == 0.083
    assert costs("L3", *shelf)["a metre costs 3 x the middle price here"] == 0.188
    assert costs("L4", *shelf)["price not known, taken as the middle one"] == 0.125


def test_a_gift_costs_nothing_and_sets_no_price() -> None:
    shelf = (priced(1, 0), priced(2, 0), priced(3, 800))

    assert not [w for w in costs("L1", *shelf) if "price" in w]
    assert costs("L3", *shelf)["a metre costs 1 x the middle price here"] == 0.125


def test_a_band_of_little_yarn_feels_little_of_its_price() -> None:
    shelf = a_shelf(priced(1, 800), priced(2, 800))
    best = match(shelf, a_need(None, 0.0, A=90, B=10), Wish()).proposals[0]

    weighed = {f.role: sum(r.cost for r in f.reasons if "price" in r.words) for f in best.roles}
    assert weighed == {"A": 0.112, "B": 0.012}


def test_where_no_price_is_known_none_counts() -> None:
    assert not [w for w in costs("L1", priced(1, None)) if "price" in w]


def test_conditions_cost_and_an_owner_is_told() -> None:
    held = a_lot(1, (100,), conditions=(Condition.SMOKE, Condition.FADED))
    held = replace(held, skeins=tuple(replace(s, owner="Nell") for s in held.skeins))

    found = words(fill(held, a_need(None, 0.0, A=100)))

    assert found["smells of smoke: air or wash it first"] == 0.5
    assert found["faded: lay it beside a fresh end of it first"] == 0.5
    assert found["belongs to Nell"] == 0


def test_a_hot_wash_sends_her_to_the_band_and_the_rules() -> None:
    wish = Wish(limits=Limits(wash=Wash.HOT))

    found = words(fill(a_lot(1, (100,), fibre="100% cotton"), a_need(A=50), wish))

    assert found["its fibres bear a hot wash: check the band and your local rules"] == 0
