"""Reasons and what they cost."""

from dataclasses import fields, replace
from datetime import date

import pytest
from shelves import a_lot, a_need, a_shelf, put_up

from stash.matching.answer.proposal import Filled
from stash.matching.answer.reason import Reason
from stash.matching.lots.lot_view import Thickness
from stash.matching.match import match
from stash.matching.question.wish import Limits, Ranking, Wash, Wish
from stash.measures.length import metres
from stash.measures.money import Money
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import Condition, FullFrom, Pair

NO_COST = Ranking(*[0.0] * len(fields(Ranking)))


def fill(lot: HeldLot, need: Need, wish: Wish | None = None) -> Filled:
    return match(a_shelf(lot), need, wish or Wish()).proposals[0].roles[0]


def costed(filled: Filled) -> dict[str, float]:
    return {reason.kind: reason.cost for reason in filled.reasons}


def test_a_leftover_that_just_does_costs_nothing() -> None:
    lot = a_lot(1, (50,))

    assert costed(fill(lot, a_need(None, 0.0, A=100))) == {
        "opens_no_skein": 0.0,
        "used_up": 0.0,
    }


def test_breaking_a_whole_skein_costs() -> None:
    found = costed(fill(a_lot(1, (100, 100)), a_need(None, 0.0, A=100)))

    assert found["opens_skeins"] == 1.0
    assert found["leaves_lone_skein"] == 0.25
    assert found["stays_free"] == 0.75


def test_a_useless_end_is_named_with_its_skein() -> None:
    filled = fill(a_lot(1, (50.5,), opened=(0,)), a_need(None, 0.0, A=100))

    assert Reason("useless_end", 0.5, left=metres(1), skein=10) in filled.reasons


def test_a_thickness_that_is_only_derived_costs() -> None:
    lot = a_lot(1, (100,), thickness_from=None, thickness_to=None)

    assert costed(fill(lot, a_need(4, A=50)))["thickness_derived"] == 0.5


def test_a_thickness_away_costs_by_the_step() -> None:
    lot = a_lot(1, (100,), thickness_from=6, thickness_to=6)

    filled = fill(lot, a_need(4, A=50), Wish(thickness_tolerance=2))

    assert Reason("thickness_away", 1.0, thickness=Thickness(6, 6), steps=2) in filled.reasons


def test_an_assumed_length_is_said() -> None:
    lot = a_lot(1, (100,), pair=Pair(None, FullFrom.MISSING))

    found = costed(fill(lot, a_need(4, A=50), Wish(assume=True)))

    assert found["length_assumed"] == 0.5


def test_an_unknown_colour_is_to_be_looked_at_in_daylight() -> None:
    shelf = a_shelf(a_lot(1, (100,), colours=()), a_lot(2, (100,)))

    roles = match(shelf, a_need(4, A=50, B=50), Wish()).proposals[0].roles

    assert costed(roles[0])["colour_not_known"] == 0.5


def test_thicknesses_beside_each_other_cost_where_the_need_names_none() -> None:
    shelf = a_shelf(a_lot(1, (100,)), a_lot(2, (100,), thickness_from=5, thickness_to=5))

    best = match(shelf, a_need(A=50, B=50), Wish(thickness_tolerance=1)).proposals[0]

    classes = (Thickness(4, 4), Thickness(5, 5))
    assert [r for r in best.reasons if r.cost] == [
        Reason("thicknesses_differ", 0.5, classes=classes)
    ]


@pytest.mark.parametrize(("ranking", "best"), [(Ranking(), "L2"), (NO_COST, "L1")])
def test_her_weights_set_the_order(ranking: Ranking, best: str) -> None:
    """Without any weight the lot numbers alone decide."""
    shelf = a_shelf(a_lot(1, (100, 100)), a_lot(2, (60,), of=put_up(100, 200)))

    assert match(shelf, a_need(A=100), Wish(ranking=ranking)).proposals[0].key == best


def dated(lot_id: int, day: date, **facts: object) -> HeldLot:
    held = a_lot(lot_id, (100,), **facts)
    return replace(held, skeins=tuple(replace(s, since=day) for s in held.skeins))


def costs(key: str, *lots: HeldLot) -> dict[str, float]:
    return costed(filled_from(key, *lots))


def filled_from(key: str, *lots: HeldLot) -> Filled:
    found = match(a_shelf(*lots), a_need(None, 0.0, A=100), Wish()).proposals
    (filled,) = next(p for p in found if p.key == key).roles
    return filled


def test_the_oldest_yarn_comes_first() -> None:
    """Of two alike the older; half-way between the oldest day and today counts half."""
    old, middle = dated(9, date(2024, 3, 1)), dated(1, date(2025, 3, 1))  # as of 2026-03-01

    found = match(a_shelf(old, middle), a_need(None, 0.0, A=100), Wish()).proposals

    assert [p.key for p in found] == ["L9", "L1"]
    assert costs("L1", old, middle)["newer_than_others"] == 0.125
    assert not [w for w in costs("L9", old, middle) if w == "newer_than_others"]


def test_a_shelf_of_one_day_has_no_older_yarn() -> None:
    both = dated(1, date(2026, 3, 1)), dated(2, date(2026, 3, 1))

    assert not [w for w in costs("L1", *both) if w == "newer_than_others"]


def priced(lot_id: int, coins: int | None) -> HeldLot:
    held = a_lot(lot_id, (100,))
    paid = None if coins is None else Money(coins)
    return replace(held, skeins=tuple(replace(s, paid=paid) for s in held.skeins))


def test_a_price_counts_against_the_middle_one_of_the_shelf() -> None:
    shelf = (priced(1, 400), priced(2, 800), priced(3, 2400), priced(4, None))

    assert Reason("price_of_a_metre", 0.125, times_middle=1) in filled_from("L2", *shelf).reasons
    assert Reason("price_of_a_metre", 0.083, times_middle=0.5) in filled_from("L1", *shelf).reasons
    assert Reason("price_of_a_metre", 0.188, times_middle=3) in filled_from("L3", *shelf).reasons
    assert costs("L4", *shelf)["price_not_known"] == 0.125


def test_a_gift_costs_nothing_and_sets_no_price() -> None:
    shelf = (priced(1, 0), priced(2, 0), priced(3, 800))

    assert not [w for w in costs("L1", *shelf) if w.startswith("price")]
    assert Reason("price_of_a_metre", 0.125, times_middle=1) in filled_from("L3", *shelf).reasons


def test_a_band_of_little_yarn_feels_little_of_its_price() -> None:
    shelf = a_shelf(priced(1, 800), priced(2, 800))
    best = match(shelf, a_need(None, 0.0, A=90, B=10), Wish()).proposals[0]

    weighed = {
        f.role: sum(r.cost for r in f.reasons if r.kind.startswith("price")) for f in best.roles
    }
    assert weighed == {"A": 0.112, "B": 0.012}


def test_where_no_price_is_known_none_counts() -> None:
    assert not [w for w in costs("L1", priced(1, None)) if w.startswith("price")]


def test_conditions_cost_and_an_owner_is_told() -> None:
    held = a_lot(1, (100,), conditions=(Condition.SMOKE, Condition.FADED))
    held = replace(held, skeins=tuple(replace(s, owner="Nell") for s in held.skeins))

    reasons = fill(held, a_need(None, 0.0, A=100)).reasons

    assert Reason("in_condition", 0.5, condition=Condition.SMOKE) in reasons
    assert Reason("in_condition", 0.5, condition=Condition.FADED) in reasons
    assert Reason("owned_by", 0.0, owner="Nell") in reasons


def test_a_hot_wash_sends_her_to_the_band_and_the_rules() -> None:
    wish = Wish(limits=Limits(wash=Wash.HOT))

    found = costed(fill(a_lot(1, (100,), fibre="100% cotton"), a_need(A=50), wish))

    assert found["bears_hot_wash"] == 0
