"""Where bands lie, and when they cannot."""

from __future__ import annotations

from fractions import Fraction

import pytest
from requirements.some_designs import cm

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
    ("bands", "kind"),
    [
        ((Band("B", Rows(4)), Band("C", Rows(2))), "band_over_another"),
        ((Band("B", cm(21)),), "band_does_not_fit"),
        ((Band("B", cm(3), cm(18)),), "band_does_not_fit"),
        ((Band("B", Rows(40)),), "colours_leave_nothing"),
        ((Band("A", Rows(4)),), "band_of_main_colour"),
        ((Band("B", Stitches(5)),), "extent_cannot_be_placed"),
    ],
)
def test_bands_that_cannot_lie_are_refused(bands: tuple[Band, ...], kind: str) -> None:
    with pytest.raises(Refusal) as refused:
        laid(*bands)
    assert refused.value.kind == kind


def test_without_a_gauge_only_lengths_can_be_placed() -> None:
    with pytest.raises(Refusal) as refused:
        stretches((Band("B", Rows(4)),), Grid(1000, Fraction(200), None))
    assert refused.value.kind == "extent_cannot_be_placed"
    assert refused.value.facts["counted_in"] is None
