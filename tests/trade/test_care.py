"""Care of an item of several yarns.

The rule (no harsher than the most delicate part) is a reading of ISO 3758, scope, and 16 CFR 423.5:
common practice. The degrees are from memory.
"""

from __future__ import annotations

from itertools import product

import pytest

from stash.trade.care import Bleach, Care, Clean, Dry, Iron, Wash, most_delicate


def test_the_coolest_and_gentlest_wash_holds_for_all() -> None:
    found = most_delicate([Care(Wash.MACHINE, 60), Care(Wash.GENTLE, 40), Care(Wash.MACHINE, 30)])

    assert (found.wash, found.max_c) == (Wash.GENTLE, 30)


def test_a_hand_wash_is_at_forty_degrees_unless_something_is_cooler() -> None:
    assert most_delicate([Care(Wash.HAND), Care(Wash.MACHINE, 60)]).max_c == 40
    assert most_delicate([Care(Wash.HAND), Care(Wash.MACHINE, 30)]).max_c == 30


def test_a_ban_holds_whatever_the_others_say() -> None:
    ban = Care(Wash.NO, None, Bleach.NO, Dry.FLAT, Iron.NO, Clean.NO)

    assert most_delicate([ban, Care(), Care(Wash.MACHINE, 60, Bleach.ANY)]) == ban


@pytest.mark.parametrize("part", [Care(Wash.HAND), Care(iron=Iron.COOL), Care(clean=Clean.DRY)])
def test_beside_a_yarn_that_says_nothing_only_a_ban_is_sure(part: Care) -> None:
    assert most_delicate([part, Care()]) == Care()


def test_degrees_are_not_known_where_one_yarn_does_not_say_its_own() -> None:
    assert most_delicate([Care(Wash.MACHINE, 40), Care(Wash.MACHINE)]).max_c is None
    assert most_delicate([Care(Wash.MACHINE, 30), Care(Wash.MACHINE)]).max_c == 30


def test_no_part_is_treated_harder_than_its_own_band_allows() -> None:
    for one, other in product([*Dry], repeat=2):
        found = most_delicate([Care(dry=one), Care(dry=other)]).dry
        assert found is not None
        assert found >= max(one, other)
