"""Where bands lie, and when they cannot."""

from __future__ import annotations

from fractions import Fraction

import pytest
from requirements.some_pieces import cm

from stash.errors import Refusal
from stash.requirements.design.bands import Band, Grid, Place, Rows, Stitches, stretches

#: Forty rounds of half a centimetre: 20 cm.
GRID = Grid(40, Fraction(5000), Rows)


def laid(*bands: Band) -> list[tuple[str, int]]:
    return [(s.role, s.cells) for s in stretches(bands, GRID)]


def test_without_bands_all_is_a() -> None:
    assert laid() == [("A", 40)]


def test_bands_lie_at_the_bottom_in_the_middle_and_at_the_top() -> None:
    bands = Band("B", Rows(4)), Band("C", cm(2), Place.MIDDLE), Band("D", Rows(1), Place.TOP)

    assert laid(*bands) == [("B", 4), ("A", 14), ("C", 4), ("A", 17), ("D", 1)]


def test_a_distance_is_measured_from_the_bottom() -> None:
    assert laid(Band("B", cm(3), cm(5))) == [("A", 10), ("B", 6), ("A", 24)]


def test_bands_that_touch_keep_their_stretches() -> None:
    assert laid(Band("B", Rows(4)), Band("C", Rows(4), cm(2))) == [("B", 4), ("C", 4), ("A", 32)]


def test_a_thin_band_still_gets_a_row() -> None:
    assert laid(Band("B", cm(0.1))) == [("B", 1), ("A", 39)]


@pytest.mark.parametrize(
    ("bands", "why"),
    [
        ((Band("B", Rows(4)), Band("C", Rows(2))), "over another band"),
        ((Band("B", cm(21)),), "does not fit"),
        ((Band("B", cm(3), cm(18)),), "does not fit"),
        ((Band("B", Rows(40)),), "nothing for A"),
        ((Band("A", Rows(4)),), "whatever the bands leave"),
        ((Band("B", Stitches(5)),), "give a length or rows"),
    ],
)
def test_bands_that_cannot_lie_are_refused(bands: tuple[Band, ...], why: str) -> None:
    with pytest.raises(Refusal, match=why):
        laid(*bands)


def test_without_a_gauge_only_lengths_can_be_placed() -> None:
    with pytest.raises(Refusal, match="give a length"):
        stretches((Band("B", Rows(4)),), Grid(1000, Fraction(200), None))
