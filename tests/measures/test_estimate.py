"""Lengths known with a spread, and their one crossing to the books."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.estimate import Estimate, normal_cdf, to_books
from stash.measures.length import Length


def test_spreads_add_as_squares() -> None:
    assert Estimate(100, 3) + Estimate(50, 4) == Estimate(150, 5)


@given(st.integers(0, 10**12))
def test_a_whole_number_of_micrometres_crosses_as_it_is(um: int) -> None:
    assert to_books(um / 1_000_000) == Length(um)


@given(st.floats(0, 10**4))
def test_the_crossing_rounds_up(length_m: float) -> None:
    # as far as a double tells
    um = to_books(length_m).um

    assert um >= length_m * 1_000_000 - 1e-5
    assert um - 1 < length_m * 1_000_000


@pytest.mark.parametrize(
    ("z", "below"),
    # NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: area below z
    [(0.0, 0.5), (1.0, 0.84134), (1.28, 0.89973), (1.96, 0.97500), (-1.0, 0.15866)],
)
def test_the_normal_table(z: float, below: float) -> None:
    assert math.isclose(normal_cdf(z), below, abs_tol=5e-6)


def test_a_fifteen_percent_margin_on_a_twenty_percent_spread_is_enough_in_77_of_100() -> None:
    assert round(Estimate(100, 20).chance_within(115), 2) == 0.77


def test_without_any_spread_it_is_enough_or_it_is_not() -> None:
    assert Estimate(100, 0).chance_within(100) == 1
    assert Estimate(100, 0).chance_within(99.9) == 0


def test_the_relative_spread_of_nothing_is_nothing() -> None:
    assert Estimate(0, 0).relative == 0
