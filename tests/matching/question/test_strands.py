"""Strands of different yarns in one role, by trying every set of lots."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations, product

import pytest
from all_pairs import cost_of, look_through, searched
from hypothesis import given, settings
from hypothesis import strategies as st
from shelves import a_lot, a_need, a_shelf, random_shelf

from stash.errors import Refusal
from stash.matching.match import match
from stash.matching.question.strands import apart, colour_of
from stash.matching.question.wish import Contrast, Gap, Wish, Wished
from stash.matching.rules.contrast import stands_apart
from stash.matching.rules.fits import pair_rules
from stash.measures.colour import Colour
from stash.requirements.yarn.need import Need

DARK, DARKISH, LIGHT = (Colour(value) for value in ("#202020", "#303030", "#f0f0f0"))


def held_double(need: Need) -> Need:
    """The same need, its first role over two strands that may be of different yarns."""
    first, *others = need.roles
    return apart(replace(need, roles=(replace(first, strands=2), *others)), ["A"])


@settings(max_examples=60)
@given(
    seed=st.integers(0, 10**6), skeins=st.integers(8, 30), tolerance=st.sampled_from([0, 1, 7]),
    contrast=st.sampled_from([*Contrast, Gap(10, 20.5), Gap(24), Gap(33)]),
    roles=st.sampled_from(["A", "AB", "ABC"]),
)  # fmt: skip
def test_all_sets_come_in_order_and_only_colours_stand_apart(
    seed: int, skeins: int, tolerance: int, contrast: Wished, roles: str
) -> None:
    need = held_double(a_need(None, 0.0, **dict(zip(roles, (60, 30, 20), strict=False))))
    wish = Wish(contrast=contrast, thickness_tolerance=tolerance)
    able = look_through(random_shelf(seed, skeins), need, wish)
    rules = pair_rules(need, wish)

    found = searched([role.line() for role in able], rules, None)

    names = [role.role for role in need.roles]
    loose = replace(rules, contrast=Contrast.ANY, colours=())
    by_hand = [
        (cost_of(lots, rules), tuple(lot.view.id for lot in lots))
        for lots in product(*(role.weighed() for role in able))
        if all(
            loose.fit(one.view, other.view)
            and (
                one.view.id < other.view.id
                if colour_of(names[i]) == colour_of(names[j])
                else stands_apart(one.view.shades, other.view.shades, contrast)
            )
            for (i, one), (j, other) in combinations(enumerate(lots), 2)
        )
    ]
    assert found == sorted(by_hand)


def test_each_strand_takes_its_share_and_together_they_take_the_whole() -> None:
    whole = a_need(None, 0.15, A=60, B=20)

    strands = held_double(whole)

    assert [role.role for role in strands.roles] == ["A1", "A2", "B"]
    assert sum(role.set_aside_m for role in strands.roles[:2]) == pytest.approx(
        whole.roles[0].set_aside_m
    )


def test_two_yarns_alike_may_be_held_together_beside_another_colour() -> None:
    lots = [
        a_lot(number, (100,), colours=(colour,))
        for number, colour in enumerate((DARK, DARKISH, LIGHT), start=1)
    ]
    need = held_double(a_need(None, A=200, B=50))

    (first, *_) = match(a_shelf(*lots), need, Wish(contrast=Contrast.BOLD)).proposals

    assert {filled.role: filled.lot.lot.id for filled in first.roles} == {"A1": 1, "A2": 2, "B": 3}
    assert first.lightness_gap is not None
    assert first.lightness_gap > 40


def test_a_single_strand_is_not_taken_apart() -> None:
    with pytest.raises(Refusal, match="one_strand_only"):
        apart(a_need(None, A=60), ["A"])
