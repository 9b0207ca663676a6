"""A class's usual gauge lies inside the published range."""

from __future__ import annotations

from dataclasses import replace

import pytest
from requirements.some_designs import SC, gauge

from stash.parsing.design.fabric import fabric
from stash.requirements.design.fabric import PLAIN, Fabric
from stash.requirements.design.thickness_defaults import in_fabric, thickness_of_gauge, usual_gauge

#: Standard Yarn Weight System, guideline table: stitches to 4 in, stockinette and single crochet.
PUBLISHED = {
    1: ((27, 32), (21, 32)),
    2: ((23, 26), (16, 20)),
    3: ((21, 24), (12, 17)),
    4: ((16, 20), (11, 14)),
    5: ((12, 15), (8, 11)),
    6: ((7, 11), (6, 9)),
}


@pytest.mark.parametrize("number", PUBLISHED)
@pytest.mark.parametrize(("worked", "column"), [(PLAIN, 0), (SC, 1)])
def test_usual_stitches_lie_in_the_published_range(
    number: int, worked: Fabric, column: int
) -> None:
    low, high = PUBLISHED[number][column]

    assert low <= usual_gauge(worked, (number, number)).stitches <= high


def test_two_strands_give_seven_tenths_of_the_stitches() -> None:
    """Gauge goes with 1/sqrt(tex): doubling is x 0.71."""
    single, double = usual_gauge(PLAIN, (1, 1)), usual_gauge(PLAIN, (1, 1), strands=2)

    assert float(double.stitches / single.stitches) == pytest.approx(0.707, abs=0.001)


def test_between_two_thicknesses_it_lies_between() -> None:
    assert (
        usual_gauge(PLAIN, (3, 4)).stitches
        == (usual_gauge(PLAIN, (3, 3)).stitches + usual_gauge(PLAIN, (4, 4)).stitches) / 2
    )


@pytest.mark.parametrize(("stitches", "number"), [(18, 4), (22.5, 3), (13, 5), (60, 0)])
def test_a_gauge_leads_back_to_the_thickness_it_is_usual_for(stitches: float, number: int) -> None:
    assert thickness_of_gauge(PLAIN, gauge(stitches, 24)) == number


def test_a_gauge_of_single_crochet_tells_that_of_double() -> None:
    """As many stitches, half the rows: 16 against 8 over 14 stitches (common practice)."""
    counted = replace(gauge(13, 15), plain=True)

    assert in_fabric(fabric("dc"), counted) == gauge(13, 7.5)


def test_a_gauge_of_the_fabric_itself_stays_as_counted() -> None:
    assert in_fabric(fabric("dc"), gauge(13, 7)) == gauge(13, 7)


@pytest.mark.parametrize("words", ["2x2 rib", "cables", "stranded"])
def test_knitted_textures_keep_the_rows_of_stockinette(words: str) -> None:
    assert in_fabric(fabric(words), replace(gauge(20, 28), plain=True)) == gauge(20, 28)
