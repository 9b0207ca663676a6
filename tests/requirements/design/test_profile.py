"""Profiles: rows of whole stitches against the geometry they stand for."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from requirements.some_designs import cm, gauge

from stash.requirements.design.profile import Profile, Slope

TEN = gauge(10.16, 10.16)  # a stitch and a row are one centimetre


def rows(profile: Profile, count: int) -> list[int]:
    return [*profile.stitches(count, TEN)]


def test_a_panel_is_as_wide_at_every_height() -> None:
    assert rows(Profile("body", cm(8), cm(3)), 3) == [8, 8, 8]


def test_a_triangle_grows_evenly_to_its_full_width() -> None:
    assert rows(Profile("body", cm(8), cm(4), opens=Slope()), 4) == [1, 3, 5, 7]


def test_a_crown_narrows_by_its_rate_and_not_before() -> None:
    hat = Profile("body", cm(8), cm(6), closes=Slope(rate=Fraction(2)))

    assert rows(hat, 6) == [8, 8, 7, 5, 3, 1]


def test_a_cap_ends_at_a_share_of_the_width() -> None:
    toe = Profile("toe", cm(9), cm(3), closes=Slope(Fraction(1, 3), Fraction(2)))

    assert rows(toe, 3) == [8, 6, 4]


def test_no_row_is_without_a_stitch() -> None:
    assert min(rows(Profile("body", cm(1), cm(40), opens=Slope()), 40)) == 1


SLOPES = st.sampled_from(
    [None, Slope(), Slope(rate=Fraction(25, 4)), Slope(Fraction(1, 3), Fraction(8, 3))]
)


@given(st.integers(5, 60), st.integers(1, 60), SLOPES, SLOPES)
def test_a_wider_or_taller_part_never_takes_less(
    wide: int, tall: int, opens: Slope | None, closes: Slope | None
) -> None:
    if opens == closes == Slope():
        closes = None  # no shape is a rhombus
    before = sum(rows(Profile("body", cm(wide), cm(tall), opens, closes), tall))
    wider = sum(rows(Profile("body", cm(wide + 1), cm(tall), opens, closes), tall))
    taller = sum(rows(Profile("body", cm(wide), cm(tall + 1), opens, closes), tall + 1))

    assert before <= wider
    assert before <= taller


@pytest.mark.parametrize("tall", [10, 30])
def test_a_triangle_is_half_its_rectangle(tall: int) -> None:
    """Elementary geometry; whole stitches add at most half a stitch a row."""
    area = sum(rows(Profile("body", cm(40), cm(tall), opens=Slope()), tall))

    assert area == pytest.approx(40 * tall / 2, abs=tall / 2)
