"""How far the length of stock may be off, before her own weighings say better."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.spread import relative_spread, spread_m
from stash.stock.yarn import Pair, PairFrom

#: 1 %, 2 % and 2.2 % are our own beginning: common practice, no source.
CASES = [
    (metres(200), False, 0.01),
    (metres(101), False, 0.01),
    (metres(100), False, 0.02),
    (metres(200), True, math.hypot(0.01, 0.022)),
    (metres(100), True, math.hypot(0.02, 0.022)),
]
PAIR = Pair(PutUp(grams(100), metres(200)), PairFrom.BAND)
WHOLE = HeldSkein(1, 1, grams(100), Mass(0), PAIR, opened=False)


@pytest.mark.parametrize(("length", "opened", "spread"), CASES)
def test_the_spread_of_stock_to_begin_with(length: object, opened: bool, spread: float) -> None:
    assert relative_spread(PutUp(grams(100), length), opened) == pytest.approx(spread)  # type: ignore[arg-type]


def test_skeins_vary_each_by_itself() -> None:
    assert spread_m([WHOLE] * 4) == pytest.approx(2 * 2.0)


def test_without_a_length_there_is_no_spread() -> None:
    missing = replace(WHOLE, pair=Pair(None, PairFrom.MISSING))

    assert spread_m([missing]) is None
    assert spread_m([missing, WHOLE]) == pytest.approx(2.0)
