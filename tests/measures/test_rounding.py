"""Rounding and sharing out."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.rounding import printed_up, shared_out, two_figures

WEIGHTS = st.lists(st.integers(0, 10**6), min_size=1, max_size=12).filter(any)


@given(st.integers(0, 10**12), WEIGHTS)
def test_parts_add_up_to_the_whole(whole: int, weights: list[int]) -> None:
    assert sum(shared_out(whole, weights)) == whole


@given(st.integers(0, 10**12), WEIGHTS)
def test_no_part_is_a_whole_one_off_its_share(whole: int, weights: list[int]) -> None:
    total = sum(weights)
    for part, weight in zip(shared_out(whole, weights), weights, strict=True):
        assert abs(part * total - whole * weight) < total


def test_seats_are_shared_as_in_the_textbook() -> None:
    # The usual worked example of the largest remainder method (Hare quota): 100,000 votes,
    # 10 seats; from memory.
    votes = [47_000, 16_000, 15_800, 12_000, 6_100, 3_100]
    assert shared_out(10, votes) == [5, 2, 1, 1, 1, 0]


@pytest.mark.parametrize("weights", [[0, 0], [-1, 2]])
def test_weights_are_at_least_nothing_and_not_all_nothing(weights: list[int]) -> None:
    with pytest.raises(ValueError, match="weights"):
        shared_out(10, weights)


@pytest.mark.parametrize(
    ("value", "shown"),
    [
        (6.9749515, 7.0),  # the figure of NIST SP 811, B.7.1, to two digits
        (0.0123, 0.012),
        (137.2, 140.0),
        (99.6, 100.0),
        (0, 0),
        (-6.9749515, -7.0),
    ],
)
def test_two_figures_are_the_nearest(value: float, shown: float) -> None:
    assert two_figures(value) == shown


@pytest.mark.parametrize("value", [0.5, 1.5, 2.5])
def test_a_half_goes_to_the_even_digit(value: float) -> None:
    # NIST SP 811, B.7.1: exactly five and nothing beyond it leaves the last digit even
    assert two_figures(100 + 10 * value) == 100 + 10 * round(value)


@pytest.mark.parametrize(
    ("value", "printed"),
    [(0.2, 5), (5, 5), (5.01, 10), (96, 100), (100, 100), (100.1, 110), (110, 110), (431, 440)],
)
def test_a_pattern_prints_in_steps_and_never_less(value: float, printed: int) -> None:
    """Common practice, no source: fives until 100, then tens."""
    assert printed_up(value) == printed
