"""How far the length of stock may be off, contribution by contribution."""

from __future__ import annotations

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import metres
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp
from stash.stock.holding import HeldSkein
from stash.stock.spread import (
    USUAL_SCALE,
    Why,
    contributions,
    relative_spread,
    spread_m,
    together_m,
)
from stash.stock.yarn import FullFrom, Lot, Pair, Yarn

PAIR = Pair(PutUp(grams(100), metres(200)), FullFrom.BAND)
LOT = Lot(1, Yarn(1, "", "Hedgebell"), pair=PAIR, full_mass=grams(100))
WOOL = replace(LOT, fibre="75% wool, 25% polyamide")
WHOLE = HeldSkein(1, 1, grams(100), Mass(0), PAIR, opened=False)
PART = replace(WHOLE, held=grams(40), opened=True)
STEP = 1 / math.sqrt(12)


def shares(skein: HeldSkein, lot: Lot = LOT) -> dict[Why, float]:
    return {one.why: one.share for one in contributions(skein, lot, USUAL_SCALE)}


def of(mass_g: int, length_m: int, skein: HeldSkein) -> HeldSkein:
    return replace(skein, pair=Pair(PutUp(grams(mass_g), metres(length_m)), FullFrom.BAND))


@pytest.mark.parametrize(("length_m", "share"), [(200, 0.01), (101, 0.01), (100, 0.02)])
def test_a_whole_skein_is_as_long_as_its_band_says(length_m: int, share: float) -> None:
    """Half of what FPackV 2020, section 28 and annex 4, tolerates: 2 %, 4 % up to 100 m."""
    assert shares(of(100, length_m, WHOLE)) == {Why.BAND_LENGTH: pytest.approx(share)}


@pytest.mark.parametrize(("mass_g", "light_g"), [(25, 2.3), (50, 4.5), (100, 4.5), (200, 9.0)])
def test_the_full_ball_may_have_weighed_less(mass_g: int, light_g: float) -> None:
    """Half of the tolerable negative error of 76/211/EEC, Annex I 2.4."""
    assert shares(of(mass_g, 200, PART))[Why.FULL_BALL] == pytest.approx(light_g / mass_g / 2)


def test_a_part_ball_is_measured_by_the_scale() -> None:
    """A reading to the nearest gram is off by 1/sqrt(12) g: the even distribution."""
    assert shares(PART) == {
        Why.BAND_LENGTH: pytest.approx(0.01),
        Why.FULL_BALL: pytest.approx(0.0225),
        Why.SCALE: pytest.approx(STEP / 40),
    }


def test_her_own_weighing_of_the_full_ball_replaces_what_the_band_says_of_it() -> None:
    own = replace(PART, pair=Pair(PutUp(grams(97), metres(200)), FullFrom.MEASURED))

    assert Why.FULL_BALL not in shares(own)
    assert Why.BAND_LENGTH in shares(own)


def test_a_weighed_metre_replaces_all_that_the_band_says() -> None:
    pair = Pair(PutUp(Mass(4_310), metres(10)), FullFrom.MEASURED)
    own = replace(PART, pair=pair, by_metre=True)

    assert shares(own) == {
        Why.METRE: pytest.approx(math.hypot(0.01, STEP * 0.01 / 4.31)),  # read to 0.01 g
        Why.SCALE: pytest.approx(STEP / 40),
    }


def test_a_core_nobody_weighed_counts_by_the_gram() -> None:
    weighed = replace(PART, tare_open=True)

    assert shares(weighed)[Why.TARE] == pytest.approx(1 / 40)
    assert Why.TARE not in shares(replace(weighed, tare_open=False))


def test_moisture_counts_by_fibre_and_room() -> None:
    """75 % wool at 17 % and 25 % polyamide at 6.25 % (EU Annex IX): 14.31 % at 65 % humidity.

    The straight line for drier rooms is from memory.
    """
    dry, damp = 14.3125 * 40 / 70, 14.3125
    assert shares(PART, WOOL)[Why.MOISTURE] == pytest.approx(
        STEP * (damp - dry) / (100 + (damp + dry) / 2)
    )
    acrylic = replace(LOT, fibre="100% acrylic")
    assert shares(PART, acrylic)[Why.MOISTURE] < shares(PART, WOOL)[Why.MOISTURE] / 5
    assert Why.MOISTURE not in shares(WHOLE, WOOL)


def test_what_was_told_roughly_is_less_sure() -> None:
    half = replace(PART, about=True, arrived_opened=True)

    assert shares(half)[Why.ABOUT] == pytest.approx(0.10)
    assert shares(replace(WHOLE, about=True))[Why.ABOUT] == pytest.approx(0.05)


def test_skeins_vary_each_by_itself() -> None:
    assert spread_m([WHOLE] * 4, LOT, USUAL_SCALE) == pytest.approx(2 * 2.0)


def test_the_room_is_the_same_for_all_of_them() -> None:
    """Four like part balls: what is each one's own doubles, what they share grows fourfold."""
    of_one = shares(PART, WOOL)
    moisture = of_one.pop(Why.MOISTURE)

    assert spread_m([PART] * 4, WOOL, USUAL_SCALE) == pytest.approx(
        80 * math.hypot(2 * math.hypot(*of_one.values()), 4 * moisture)
    )


def test_without_a_length_there_is_no_spread() -> None:
    missing = replace(WHOLE, pair=Pair(None, FullFrom.MISSING))

    assert spread_m([missing], LOT, USUAL_SCALE) is None
    assert spread_m([missing, WHOLE], LOT, USUAL_SCALE) == pytest.approx(2.0)


@given(held=st.integers(1, 100_000), more=st.integers(1, 100_000), about=st.booleans())
def test_one_skein_by_itself_spreads_by_the_squares_of_its_reasons(
    held: int, more: int, about: bool
) -> None:
    """More of the same ball is never known less surely as a share."""
    small = replace(PART, held=Mass(held), about=about, tare_open=True)
    found = contributions(small, WOOL, USUAL_SCALE)

    assert together_m([(1.0, found)]) == pytest.approx(relative_spread(found))
    large = contributions(replace(small, held=Mass(held + more)), WOOL, USUAL_SCALE)
    assert relative_spread(large) <= relative_spread(found)
