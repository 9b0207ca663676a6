"""What a batch leaves unmade is named, each with its own reason."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st
from shelves import a_lot, a_need, a_shelf, random_shelf
from workshops import QUIET

from stash.matching.question.wish import Contrast, Wish
from stash.measures.colour import Colour
from stash.planning.model.batch import MixWanted, Terms, Wanted, Why
from stash.planning.model.problem import Aim
from stash.planning.plan_batch import planned
from stash.rendering.not_made import not_made_keys, not_made_lines

TERMS = Terms((Aim.ITEMS,))
HAT = Wanted("hat", a_need(A=60), Wish(), at_most=5, minutes=120)
#: 69 m to set aside for a hat: 4 out of 300 m in three skeins.
SHELF = a_shelf(a_lot(1, (50, 50, 50), opened=(0, 1, 2)))


def test_yarn_that_is_not_there_is_the_reason() -> None:
    """276 of 300 m are used with tails of joins aside: the fifth lacks most of its 69 m."""
    (left,) = planned(SHELF, [HAT], TERMS, QUIET).not_made

    assert (left.count, left.reasons, left.minutes) == (1, (Why.YARN,), 0)
    assert 40 < left.short["A"].m < 69


def test_a_colour_that_no_yarn_suits_is_named() -> None:
    need = a_need(2, A=60)
    batch = planned(SHELF, [replace(HAT, need=need)], TERMS, QUIET)

    (left,) = batch.not_made
    assert (left.count, left.nowhere, left.reasons) == (5, ("A",), (Why.YARN,))
    assert "no yarn on the shelf suits A" in not_made_lines(batch)[0]


def test_hours_that_are_not_there_are_the_reason() -> None:
    """5 hours are two hats of 2 h; the third lacks one hour."""
    batch = planned(SHELF, [replace(HAT, at_most=3)], replace(TERMS, minutes=300), QUIET)

    (left,) = batch.not_made
    assert (left.count, left.reasons, left.minutes) == (1, (Why.HOURS,), 60)
    assert "1 h more" in not_made_lines(batch)[0]


def test_a_limit_is_the_reason_where_yarn_and_hours_would_do() -> None:
    batch = planned(SHELF, [HAT], replace(TERMS, per_pair=2), QUIET)

    (left,) = batch.not_made
    assert (batch.items, left.count, left.reasons) == (2, 3, (Why.LIMIT,))


def test_what_earns_nothing_is_no_profit() -> None:
    """100 g at 5 coins are 200 m, so a hat of 60 m costs 150 coins, and brings 100."""
    costs = dict.fromkeys((10, 11, 12), Fraction(5, 1_000))
    hat = replace(HAT, coins=100)

    batch = planned(SHELF, [hat], Terms((Aim.PROFIT,)), QUIET, costs)

    assert batch.items == 0
    assert [left.reasons for left in batch.not_made] == [(Why.LOSS,)]
    dear = planned(SHELF, [replace(hat, coins=151)], Terms((Aim.PROFIT,)), QUIET, costs)
    assert dear.items == 4
    assert [(one.total, one.bound) for one in dear.attained] == [(4, 4)]


def test_what_brings_less_than_the_others_is_named_too() -> None:
    wants = [replace(HAT, at_most=4, coins=100), replace(HAT, design="band", at_most=None)]
    batch = planned(SHELF, wants, Terms((Aim.VALUE,)), QUIET)

    assert [(one.want, one.count) for one in batch.not_made] == [(1, None)]
    assert not_made_keys(batch)[0]["count"] is None


def test_what_falls_short_of_its_least_is_named_once() -> None:
    batch = planned(SHELF, [replace(HAT, at_least=5)], TERMS, QUIET)

    assert [unmet.count for unmet in batch.unmet] == [1]
    assert batch.not_made == ()


@given(st.integers(0, 5_000), st.sampled_from([None, 400]), st.sampled_from([None, 1]))
def test_made_too_few_and_not_made_are_all_that_was_wanted(
    seed: int, minutes: int | None, per_pair: int | None
) -> None:
    wish = Wish(contrast=Contrast.SOFT)
    wants = [
        Wanted("hat", a_need(4, A=80, B=20), wish, at_least=1, at_most=4, minutes=120),
        Wanted("band", a_need(4, A=30), wish, at_most=3, minutes=60),
    ]
    terms = replace(TERMS, minutes=minutes, per_pair=per_pair)
    batch = planned(random_shelf(seed, 8), wants, terms, QUIET)

    for i, want in enumerate(wants):
        made = sum(len(one.items) for one in batch.made if one.want == i)
        left = sum(one.count or 0 for one in batch.not_made if one.want == i)
        short = [one for one in batch.unmet if one.want == i]
        assert short or made + left == want.at_most
        assert not (short and left)
    assert all(one.reasons for one in batch.not_made)


def test_no_more_of_one_colour_than_may_be() -> None:
    """Two lots of blue and one of red: three in all where two of a colour may be."""
    shelf = a_shelf(
        a_lot(1, (50, 50), opened=(0, 1), colours=(Colour("#1f6fa0"),)),
        a_lot(2, (50, 50), opened=(0, 1), colours=(Colour("#2a55b0"),)),
        a_lot(3, (50,), opened=(0,), colours=(Colour("#b01020"),)),
    )
    mixes = tuple(MixWanted(family=name, at_most=2) for name in ("blue", "red"))
    batch = planned(shelf, [replace(HAT, at_most=9)], replace(TERMS, mixes=mixes), QUIET)

    assert batch.items == 3
    assert batch.not_made[0].reasons == (Why.LIMIT,)
