"""A batch asked on a shelf: no gram twice, every item whole, the same answer each time."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shelves import a_lot, a_need, a_shelf, random_shelf
from workshops import QUIET

from stash.matching.match import match
from stash.matching.question.wish import Contrast, Wish
from stash.measures.colour import Colour
from stash.measures.estimate import to_books
from stash.planning.model.batch import Batch, Terms, Wanted
from stash.planning.model.problem import Aim
from stash.planning.plan_batch import planned

TERMS = Terms((Aim.ITEMS,))
WISH = Wish(contrast=Contrast.SOFT)
WANTS = [
    Wanted("hat", a_need(4, A=80, B=20), WISH, at_most=4, minutes=120),
    Wanted("band", a_need(4, A=30), WISH, at_most=3, minutes=60),
    Wanted("cowl", a_need(3, A=60, B=25, C=8), WISH, at_most=2, minutes=150),
]


def is_sound(batch: Batch) -> None:
    """Incumbent against the shelf itself: free lengths, needs, one lot a role, tails of joins."""
    free = {}
    taken, roles = Counter[int](), Counter[tuple[int, str]]()
    lots: dict[tuple[int, str], set[int]] = {}
    cuts = Counter[tuple[int, str, int]]()
    for skein in batch.skeins:
        held = next(s for s in skein.lot.skeins if s.number == skein.number)
        assert held.free_length is not None
        free[skein.number] = held.free_length.um
        for cut in skein.cuts:
            taken[skein.number] += cut.length.um
            roles[cut.item, cut.role] += cut.length.um
            cuts[cut.item, cut.role, cut.strand] += 1
            lots.setdefault((cut.item, cut.role), set()).add(skein.lot.lot.id)
        assert skein.left.um + taken[skein.number] <= free[skein.number]
    items = {number: made for made in batch.made for number in made.items}
    assert sorted(items) == [*range(1, batch.items + 1)]
    for number, made in items.items():
        for role, lot in zip(batch.wants[made.want].need.roles, made.lots, strict=True):
            joins = sum(n - 1 for (a, r, _), n in cuts.items() if (a, r) == (number, role.role))
            um = to_books(role.set_aside_m).um + joins * to_books(WISH.join_m).um
            assert roles[number, role.role] == um
            assert lots[number, role.role] == {lot.lot.id}


@given(st.integers(0, 10_000), st.sampled_from([*Aim]), st.sampled_from([0, 15]))
def test_no_gram_is_promised_twice_and_every_item_is_whole(
    seed: int, aim: Aim, hold_back: int
) -> None:
    shelf = random_shelf(seed, 25, doubtful=0.05)
    wants = [replace(want, coins=100 * len(want.design)) for want in WANTS]

    batch = planned(shelf, wants, replace(TERMS, aims=(aim,), hold_back=hold_back), QUIET)

    is_sound(batch)
    assert batch.attained[0].total <= batch.attained[0].bound


@given(st.integers(0, 10_000))
def test_one_item_can_be_made_where_the_matcher_finds_a_set(seed: int) -> None:
    shelf = random_shelf(seed, 14, doubtful=0.1)
    need = a_need(4, A=80, B=20)

    batch = planned(shelf, [Wanted("hat", need, WISH, at_least=1, at_most=1)], TERMS, QUIET)

    assert batch.items == bool(match(shelf, need, replace(WISH, top=1)).proposals)
    assert [unmet.count for unmet in batch.unmet] == [1] * (1 - batch.items)


def test_the_same_shelf_and_wants_give_the_same_plan() -> None:
    shelf = random_shelf(5, 40)

    assert planned(shelf, WANTS, TERMS, QUIET) == planned(shelf, WANTS, TERMS, QUIET)


def test_no_more_items_share_a_pair_than_may() -> None:
    shelf = a_shelf(a_lot(1, (100, 100, 100)), a_lot(2, (100, 100, 100)))
    want = Wanted("hat", a_need(A=60, B=20), Wish(), at_most=9)

    free = planned(shelf, [want], TERMS, QUIET)
    held = planned(shelf, [want], replace(TERMS, per_pair=2), QUIET)

    assert free.items > 2
    assert held.items == 2


def test_what_falls_short_is_told_with_what_it_lacks_and_the_give() -> None:
    """69 m to set aside, out of 100 m: one can be made, and the second lacks 38 m."""
    shelf = a_shelf(a_lot(1, (50,), opened=(0,)))
    want = Wanted("hat", a_need(A=60), Wish(), at_least=2, at_most=2)

    batch = planned(shelf, [want], TERMS, QUIET)

    (unmet,) = batch.unmet
    assert (unmet.count, {r: round(m.m) for r, m in unmet.short.items()}) == (1, {"A": 38})
    assert batch.clash is not None
    assert (batch.clash.wants, [lot.lot.id for lot in batch.clash.lots]) == ((0,), [1])


def test_a_mix_that_is_not_reached_is_told() -> None:
    from stash.planning.model.batch import MixWanted

    shelf = a_shelf(a_lot(1, (100,)))
    want = Wanted("hat", a_need(A=60), Wish(), size="woman", at_most=5)
    mix = MixWanted(size="woman", at_least=4)

    batch = planned(shelf, [want], replace(TERMS, mixes=(mix,)), QUIET)

    assert batch.unmet_mixes == {0: 2}


@pytest.mark.parametrize("strands", [2, 3])
def test_strands_are_cut_each_for_itself(strands: int) -> None:
    need = a_need(A=90)
    need = replace(need, roles=(replace(need.roles[0], strands=strands),))

    batch = planned(
        a_shelf(a_lot(1, (100, 100))), [Wanted("hat", need, Wish(), at_most=1)], TERMS, QUIET
    )

    is_sound(batch)
    assert {cut.strand for s in batch.skeins for cut in s.cuts} == {*range(1, strands + 1)}


def test_the_colours_of_an_order_stand_apart_wherever_that_leaves_no_order_with_less() -> None:
    """Undyed and cream are most of the shelf; navy is enough for two hats of 23 m of B."""
    shelf = a_shelf(
        a_lot(1, (100, 100, 100), opened=(0, 1, 2), colours=(Colour("#e9dfc7"),)),
        a_lot(2, (100, 100, 100), opened=(0, 1, 2), colours=(Colour("#f1e6c8"),)),
        a_lot(3, (25,), opened=(0,), colours=(Colour("#1d2544"),)),
    )
    hat = Wanted("hat", a_need(A=60, B=20), Wish(), at_least=2, at_most=2, order=1)

    few = planned(shelf, [hat], TERMS, QUIET)
    assert few.items == 2
    assert all((one.lightness_gap or 0) >= 25 for one in few.made)
    more = planned(shelf, [replace(hat, at_least=4, at_most=4)], TERMS, QUIET)
    assert (more.items, more.unfilled) == (4, ())  # not all of them can have navy
    asked = replace(hat, wish=Wish(contrast=Contrast.TONAL))
    assert all((one.lightness_gap or 0) < 12 for one in planned(shelf, [asked], TERMS, QUIET).made)
