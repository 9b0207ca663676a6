"""Near misses: what is wrong, by how much, and a way out that really works."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shelves import a_lot, a_need, a_shelf, put_up, random_shelf

from stash.matching.answer.fix import Fix
from stash.matching.answer.proposal import NearMiss
from stash.matching.lots.lot_view import Thickness
from stash.matching.match import match
from stash.matching.question.wish import Contrast, Fixed, Wish
from stash.measures.colour import Colour
from stash.measures.length import Length, metres
from stash.measures.mass import grams
from stash.measures.put_up import PutUp
from stash.requirements.yarn.need import Need
from stash.stock.holding import HeldLot
from stash.stock.yarn import FullFrom, LotState, Pair

NO_PAIR = Pair(None, FullFrom.MISSING)
UNKNOWN = {"lot": "", "lot_state": LotState.UNKNOWN}


def misses(*lots: HeldLot, need: Need | None = None, wish: Wish | None = None) -> list[NearMiss]:
    found = match(a_shelf(*lots), need or a_need(4, A=100), wish or Wish())
    return list(found.near_misses)


def only_fix(miss: NearMiss) -> Fix:
    (fix,) = miss.fixes
    return fix


def facts(miss: NearMiss, *names: str) -> dict[str, object]:
    """These facts of the only blocker."""
    (blocker,) = miss.blockers
    return {name: blocker.facts.get(name) for name in names}


def named(**roles: int) -> Wish:
    return Wish(fixed={role: Fixed(frozenset({lot})) for role, lot in roles.items()})


def test_short_is_a_length_with_its_grams() -> None:
    (miss,) = misses(a_lot(1, (45,)))  # 90 of 115 m

    assert [blocker.kind for blocker in miss.blockers] == ["lot_short"]
    assert facts(miss, "role", "short", "short_rows", "expected", "promised") == {
        "role": "A", "short": metres(25), "short_rows": None, "expected": None, "promised": None,
    }  # fmt: skip
    assert miss.short_m == pytest.approx(25)
    assert miss.short_g == pytest.approx(12.5)
    assert miss.short_rows is None
    assert not miss.within


def test_who_has_what_is_expected_is_only_short_of_the_margin() -> None:
    (miss,) = misses(a_lot(1, (51.5,)))  # 103 of 115 m, 100 m expected

    assert miss.within
    assert facts(miss, "short", "expected", "printed") == {
        "short": metres(12), "expected": metres(100), "printed": False,
    }  # fmt: skip


def test_short_is_given_in_rows_where_the_rows_are_known() -> None:
    (miss,) = misses(a_lot(1, (51.5,)), need=a_need(4, row_m=5, A=100))

    assert miss.short_rows == 3  # 12 m at 5 m a row
    assert facts(miss, "short_g", "short_rows") == {"short_g": 6.0, "short_rows": 3}


def test_what_is_promised_may_be_released() -> None:
    (miss,) = misses(a_lot(1, (100,), promised_g={0: 60}, **UNKNOWN))

    assert facts(miss, "short", "promised") == {"short": metres(35), "promised": metres(120)}
    assert only_fix(miss) == Fix("release_promised", promised=metres(120), lot=miss.roles[0][1].lot)


def test_a_skein_more_is_asked_for_in_the_same_dye_lot() -> None:
    (miss,) = misses(a_lot(1, (40,)))

    fix = only_fix(miss)
    assert (fix.kind, fix.facts["count"], fix.facts["lot"].ref) == ("more_skeins", 1, "L1")


def test_skeins_too_short_to_join_are_not_asked_for() -> None:
    """A put-up of 1.5 m is under the useful end of 2 m: no number of them would do."""
    of = PutUp(grams(1), Length(1_500_000))
    (miss,) = misses(a_lot(1, (1,), of=of))

    assert not [fix for fix in miss.fixes if fix.buys]


def test_of_an_unknown_dye_lot_no_more_can_be_had() -> None:
    (miss,) = misses(a_lot(1, (40,), **UNKNOWN))

    assert only_fix(miss) == Fix("covers_part", role="A", covered=metres(80))


def test_without_a_length_the_band_is_asked_for() -> None:
    (miss,) = misses(a_lot(1, (100,), pair=NO_PAIR))

    assert only_fix(miss).kind == "give_length"
    assert miss.short_m is None


def test_without_a_thickness_it_is_asked_for() -> None:
    (miss,) = misses(
        a_lot(1, (100,), pair=Pair(put_up(100, 200), FullFrom.ASSUMED),
              thickness_from=None, thickness_to=None)
    )  # fmt: skip

    assert only_fix(miss).kind == "give_thickness"


def test_without_a_colour_it_is_asked_for() -> None:
    lots = a_lot(1, (100,), colours=()), a_lot(2, (100,))

    found = misses(*lots, need=a_need(4, A=100, B=20), wish=Wish(contrast=Contrast.BOLD))

    assert [m.roles[0][1].lot.ref for m in found][:1] == ["L1"]
    assert only_fix(found[0]).kind == "give_colour_or_any_contrast"
    assert [name for name, _ in found[0].roles] == ["A", "B"]


def test_a_lot_of_the_wrong_thickness_is_no_near_miss() -> None:
    assert misses(a_lot(1, (100,), thickness_from=1, thickness_to=1)) == []


def test_a_lot_with_two_troubles_is_no_near_miss() -> None:
    wish, need = Wish(contrast=Contrast.BOLD), a_need(4, A=300, B=20)

    found = misses(a_lot(1, (100,), colours=()), need=need, wish=wish)

    assert [m.roles[0][0] for m in found] == ["B"]


@pytest.mark.parametrize("wish", [Wish(), named(A=1, B=2)])
def test_colours_too_close_are_given_with_the_wish_that_would_do(wish: Wish) -> None:
    lots = (
        a_lot(1, (100,), colours=(Colour("#000000"),)),
        a_lot(2, (100,), colours=(Colour("#444444"),)),
    )

    (miss,) = misses(*lots, need=a_need(4, A=100, B=50), wish=replace(wish, contrast=Contrast.BOLD))

    # L* of #444444 is 29 (standard formula).
    assert facts(miss, "contrast", "least") == {"contrast": Contrast.BOLD, "least": 40}
    assert facts(miss, "gap")["gap"] == pytest.approx(29, abs=0.5)
    assert only_fix(miss) == Fix("other_contrast", contrast=Contrast.CLEAR)


def test_thicknesses_too_far_apart_are_given_with_the_tolerance_that_would_do() -> None:
    lots = a_lot(1, (100,)), a_lot(2, (100,), thickness_from=6, thickness_to=6)

    (miss,) = misses(*lots, need=a_need(A=100, B=50))

    assert facts(miss, "classes") == {"classes": (Thickness(4, 4), Thickness(6, 6))}
    assert only_fix(miss) == Fix("allow_steps", steps=2)


def test_the_least_short_comes_first_and_five_at_most() -> None:
    lots = [a_lot(i, (10 + 5.0 * i,), opened=(0,)) for i in range(1, 8)]

    found = misses(*lots)

    lacking = [m.short_m for m in found]
    assert len(found) == 5
    assert lacking == sorted(m for m in lacking if m is not None)


def test_lots_with_unknown_facts_are_not_crowded_out() -> None:
    lots = [a_lot(i, (10 + 5.0 * i,), opened=(0,)) for i in range(1, 8)]

    found = misses(*lots, a_lot(8, (100,), pair=NO_PAIR))

    assert [m.roles[0][1].lot.ref for m in found][-1] == "L8"


def test_when_all_is_named_one_answer_has_every_role() -> None:
    lots = a_lot(1, (40,)), a_lot(2, (100,), pair=NO_PAIR), a_lot(3, (100, 100))

    (miss,) = misses(*lots, need=a_need(4, A=100, B=20), wish=named(A=1, B=2))

    blockers = [(b.kind, b.facts["role"], b.facts["lot"].ref) for b in miss.blockers]
    assert blockers == [("lot_short", "A", "L1"), ("lot_without_length", "B", "L2")]
    assert [fix.facts["role"] for fix in only_fix(miss).facts["fixes"]] == ["A", "B"]
    assert [name for name, _ in miss.roles] == ["A", "B"]
    assert miss.short_m == pytest.approx(35)


def test_one_lot_named_twice_is_said() -> None:
    (miss,) = misses(a_lot(1, (100,)), need=a_need(4, A=50, B=20), wish=named(A=1, B=1))

    assert [blocker.kind for blocker in miss.blockers] == ["one_lot_in_two_roles"]


def test_a_named_lot_of_the_wrong_thickness_is_said() -> None:
    (miss,) = misses(a_lot(1, (100,), thickness_from=6, thickness_to=6), wish=named(A=1))

    assert [blocker.kind for blocker in miss.blockers] == ["lot_of_wrong_thickness"]
    assert facts(miss, "thickness") == {"thickness": Thickness(6, 6)}


def test_skeins_not_named_may_help() -> None:
    wish = Wish(fixed={"A": Fixed(frozenset({1}), frozenset({10}))})

    (miss,) = misses(a_lot(1, (40, 100), opened=(0,)), wish=wish)

    assert "other_skeins" in [fix.kind for fix in miss.fixes]


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), expected_m=st.integers(20, 200))
def test_a_lower_margin_that_is_named_does_fit(seed: int, expected_m: int) -> None:
    shelf = random_shelf(seed, 30)
    for miss in match(shelf, a_need(4, A=expected_m), Wish()).near_misses:
        for fix in miss.fixes:
            if fix.kind == "lower_margin":
                lot_id = miss.roles[0][1].lot.id
                lowered = a_need(4, fix.facts["margin"], A=expected_m)
                assert match(shelf, lowered, named(A=lot_id)).proposals


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), expected_m=st.integers(20, 200))
def test_a_promise_that_is_named_is_enough_when_released(seed: int, expected_m: int) -> None:
    shelf = random_shelf(seed, 30)
    released = replace(
        shelf,
        lots=tuple(
            replace(lot, skeins=tuple(replace(s, promised=type(s.promised)(0)) for s in lot.skeins))
            for lot in shelf.lots
        ),
    )
    need = a_need(4, A=expected_m)
    for miss in match(shelf, need, Wish()).near_misses:
        if "release_promised" in [fix.kind for fix in miss.fixes]:
            assert match(released, need, named(A=miss.roles[0][1].lot.id)).proposals
