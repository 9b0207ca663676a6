"""Lengths are whole micrometres; the factors are those of NIST SP 811, B.8."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length, inches, metres, yards
from stash.measures.mass import grams


def test_a_yard_is_914_400_um() -> None:
    assert yards(1) == Length(914_400)  # NIST SP 811, B.8: 1 yd = 0.9144 m, exactly


def test_an_inch_is_25_400_um() -> None:
    assert inches(1) == Length(25_400)  # NIST SP 811, B.8: 1 in = 25.4 mm, exactly


def test_a_yard_is_36_inches() -> None:
    assert yards(1) == inches(36)


def test_an_eighth_of_an_inch_comes_in_exactly() -> None:
    assert inches(Fraction(1, 8)) * 8 == inches(1)


def test_a_length_comes_in_to_the_nearest_micrometre() -> None:
    assert inches(Fraction(1, 48)) == Length(529)  # 529.1666...


@given(st.integers(0, 10**6))
def test_yards_shown_are_the_yards_typed(count: int) -> None:
    assert yards(count).yd == count


@given(st.integers(0, 10**6))
def test_metres_shown_are_the_metres_typed(count: int) -> None:
    assert metres(count).m == count


@pytest.mark.parametrize("other", [grams(1), 1, 1.0])
def test_unlike_things_do_not_add(other: object) -> None:
    with pytest.raises(TypeError):
        metres(1) + other  # type: ignore[operator]
    with pytest.raises(TypeError):
        metres(1) - other  # type: ignore[operator]


def test_a_length_times_a_length_is_no_length() -> None:
    with pytest.raises(TypeError):
        metres(1) * metres(1)  # type: ignore[operator]
