"""The search itself: the same sets as by trying all, and few of them at a time."""

import tracemalloc
from dataclasses import replace
from itertools import combinations, product

import pytest
from all_pairs import best_of_all_pairs, cost_of, look_through, searched, sides
from dressed import dressed, gaps, limits
from hypothesis import given, settings
from hypothesis import strategies as st
from shelves import a_need, random_shelf

from stash.matching.question.wish import Contrast, Gap, Limits, Wish, Wished
from stash.matching.rules.fits import pair_rules
from stash.matching.search.best_first import best_first

seeds = st.integers(0, 10**6)


@pytest.mark.parametrize("lots", [300, 1500])
@pytest.mark.parametrize("thickness_from", [None, 4])
@pytest.mark.parametrize("contrast", [*Contrast, Gap(30, 31), Gap(90), Gap(101)], ids=str)
def test_two_roles_have_the_best_of_all_pairs(
    lots: int, thickness_from: int | None, contrast: Wished
) -> None:
    need, wish = a_need(thickness_from, A=165, B=34), Wish(contrast=contrast, thickness_tolerance=1)
    shelf = random_shelf(lots, 4 * lots, dark=lots == 300)
    able = look_through(replace(shelf, lots=shelf.lots[:lots]), need, wish)
    rules = pair_rules(need, wish)

    found = searched([role.line() for role in able], rules, 20)

    assert found == best_of_all_pairs(*(sides(role.weighed()) for role in able), rules, 20)


@settings(max_examples=60)
@given(
    seed=seeds, limits=limits, contrast=st.one_of(st.sampled_from(Contrast), gaps),
    tolerance=st.integers(0, 2), top=st.sampled_from([1, 20, 10**6]),
)  # fmt: skip
def test_with_limits_too_they_are_the_best_of_all_pairs(
    seed: int, limits: Limits, contrast: Wished, tolerance: int, top: int
) -> None:
    need = a_need(None, A=60, B=20)
    wish = Wish(contrast=contrast, thickness_tolerance=tolerance, limits=limits)
    able = look_through(dressed(random_shelf(seed, 150), seed), need, wish)
    rules = pair_rules(need, wish)

    found = searched([role.line() for role in able], rules, top)

    assert found == best_of_all_pairs(*(sides(role.weighed()) for role in able), rules, top)


@settings(max_examples=60)
@given(
    seed=seeds, skeins=st.integers(10, 60), roles=st.sampled_from(["ABC", "ABCD"]),
    tolerance=st.sampled_from([0, 1, 7]), no_bleeding=st.booleans(),
    contrast=st.sampled_from(
        [*Contrast, Gap(5), Gap(10, 20.5), Gap(5, 40), Gap(0, 3), Gap(24), Gap(33)]
    ),
)  # fmt: skip
def test_three_and_four_roles_have_all_sets_that_fit_in_order(
    seed: int, skeins: int, roles: str, tolerance: int, no_bleeding: bool, contrast: Wished
) -> None:
    need = a_need(None, 0.0, **dict(zip(roles, (60, 30, 20, 10), strict=False)))
    limits = Limits(no_bleeding=no_bleeding)
    wish = Wish(contrast=contrast, thickness_tolerance=tolerance, limits=limits)
    able = look_through(random_shelf(seed, skeins // (len(roles) - 2)), need, wish)
    rules = pair_rules(need, wish)

    found = searched([role.line() for role in able], rules, None)

    by_hand = [
        (cost_of(lots, rules), tuple(lot.view.id for lot in lots))
        for lots in product(*(role.weighed() for role in able))
        if all(rules.fit(one.view, other.view) for one, other in combinations(lots, 2))
    ]
    assert found == sorted(by_hand)


def test_all_pairs_are_never_held() -> None:
    need, wish = a_need(None, A=40, B=20), Wish(contrast=Contrast.SOFT, thickness_tolerance=7)
    able = look_through(random_shelf(3, 1500), need, wish)

    tracemalloc.start()
    found = searched([role.line() for role in able], pair_rules(need, wish), 20)
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()

    pairs = len(able[0].lots) * len(able[1].lots)
    assert len(found) == 20
    assert pairs > 50_000
    assert peak < pairs * 16  # two numbers a pair would be as much


def test_a_role_without_lots_ends_the_search() -> None:
    need, wish = a_need(None, A=40), Wish()
    able = look_through(random_shelf(3, 0), need, wish)

    assert list(best_first([role.line() for role in able], pair_rules(need, wish))) == []
