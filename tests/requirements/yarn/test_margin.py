"""How much more than expected is set aside."""

from __future__ import annotations

import pytest

from stash.measures.estimate import Estimate
from stash.requirements.yarn.margin import chance_left, margin_for


def test_left_out_it_covers_nine_times_in_ten() -> None:
    """One-sided 90 % point of the normal distribution: 1.2816 (printed tables)."""
    estimate = Estimate(100, 20)

    assert margin_for(estimate, None) == pytest.approx(0.256)
    assert estimate.chance_within(125.6) == pytest.approx(0.90, abs=0.001)


def test_it_is_never_under_five_percent() -> None:
    assert margin_for(Estimate(100, 1), None) == 0.05


def test_as_asked_it_is_used_as_it_is() -> None:
    assert margin_for(Estimate(100, 20), 0.02) == 0.02


def test_fifteen_percent_on_a_spread_of_twenty_leaves_77_percent() -> None:
    """Standard normal table: Phi(0.75) = 0.7734."""
    assert chance_left(Estimate(100, 20), 0.15) == pytest.approx(0.7734, abs=1e-4)


def test_a_wide_margin_needs_no_word() -> None:
    assert chance_left(Estimate(100, 5), 0.15) is None
    assert chance_left(Estimate(100, 0), 0.0) is None
