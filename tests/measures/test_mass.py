"""Weights are whole milligrams; the factors are those of NIST Handbook 44, appendix C."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import metres
from stash.measures.mass import OUNCE_MG, POUND_MG, Mass, grams, ounces

AMOUNTS = st.integers(-(10**12), 10**12)


def test_an_ounce_is_28_349523125_g() -> None:
    # NIST Handbook 44, appendix C: 1 ounce (avdp) = 28.349 523 125 g, exactly
    assert Fraction("28.349523125") * 1000 == OUNCE_MG


def test_a_pound_is_sixteen_ounces() -> None:
    # NIST Handbook 44, appendix C: 1 pound (avdp) = 0.453 592 37 kg, exactly
    assert Fraction("453592.37") == POUND_MG


def test_ounces_come_in_to_the_nearest_milligram() -> None:
    assert ounces(Fraction(7, 4)) == Mass(49_612)  # 49.61166...


def test_grams_come_in_exactly() -> None:
    assert grams(Fraction("42.5")) == Mass(42_500)


@given(AMOUNTS, AMOUNTS)
def test_adding_and_taking_away_are_exact(one: int, other: int) -> None:
    assert Mass(one) + Mass(other) - Mass(other) == Mass(one)


@pytest.mark.parametrize("other", [metres(1), 1, 1.0])
def test_unlike_things_do_not_add(other: object) -> None:
    with pytest.raises(TypeError):
        grams(1) + other  # type: ignore[operator]
    with pytest.raises(TypeError):
        grams(1) - other  # type: ignore[operator]


def test_a_weight_times_a_weight_is_nothing() -> None:
    with pytest.raises(TypeError):
        grams(1) * grams(1)  # type: ignore[operator]


def test_unlike_things_have_no_order() -> None:
    with pytest.raises(TypeError):
        assert grams(1) < metres(1)  # type: ignore[operator]


def test_a_gram_is_no_metre() -> None:
    assert Mass(5) != metres(5)
    assert Mass(0) != 0


def test_only_nothing_is_false() -> None:
    assert not grams(0)
    assert grams(-1)
