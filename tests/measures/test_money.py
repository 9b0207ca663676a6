"""Money in whole smallest coins."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.mass import grams
from stash.measures.money import Money

WEIGHTS = st.lists(st.integers(0, 10**6), min_size=1, max_size=12).filter(any)


@given(st.integers(0, 10**9), WEIGHTS)
def test_shares_add_up_to_the_last_coin(coins: int, weights: list[int]) -> None:
    shares = Money(coins).shared(weights)

    assert sum(share.coins for share in shares) == coins


def test_money_is_shared_by_largest_remainder() -> None:
    # 10.00 by 1:1:1 is 3.333...: the one coin over goes to the first of equal remainders
    assert Money(1000).shared([1, 1, 1]) == [Money(334), Money(333), Money(333)]


def test_no_coin_goes_where_there_is_no_weight() -> None:
    assert Money(7).shared([0, 3, 0]) == [Money(0), Money(7), Money(0)]


def test_unlike_things_do_not_add() -> None:
    with pytest.raises(TypeError):
        Money(1) + grams(1)  # type: ignore[operator]


def test_a_gift_is_not_the_same_as_not_known() -> None:
    assert Money(0) is not None
    assert Money(0) == Money(0)
