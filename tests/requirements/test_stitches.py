"""The yarn in a stitch against published constants and makers' experiments."""

from __future__ import annotations

import math

import pytest
from requirements.some_pieces import gauge

from stash.measures.length import INCH_UM
from stash.requirements.stitches import (
    CHAIN,
    JAMMED,
    PLAIN_KS,
    STITCHES,
    UK_TO_US,
    diameter_m,
    tex,
)

INCH_M = INCH_UM / 1e6


def test_loop_constant_gives_the_worked_stitch_density() -> None:
    """National engineering examination 2015, textile item 54: l = 0.5 cm -> 92.4 stitches/cm2."""
    loop_cm = 0.5
    side_cm = 1 / math.sqrt(92.4)
    per_4in = 10.16 / side_cm

    assert STITCHES["stockinette"].yarn_m(gauge(per_4in, per_4in), 0) == pytest.approx(
        loop_cm / 100, rel=1e-9
    )
    assert pytest.approx(92.4) == PLAIN_KS / loop_cm**2


@pytest.mark.parametrize(("sts", "rows", "tex_of"), [(14, 20, 850), (20, 28, 500), (24, 32, 400)])
def test_peirces_loop_agrees_with_ours_within_15_percent(sts: int, rows: int, tex_of: int) -> None:
    """Peirce (plain cotton knits, specific volume 1.1): l = 2p + W + 5.94 d."""
    at = gauge(sts, rows)
    peirce = 2 * at.row_m + at.stitch_m + 5.94 * diameter_m(tex_of)

    ours = STITCHES["stockinette"].yarn_m(at, diameter_m(tex_of))

    assert 0.85 * ours < peirce < ours


@pytest.mark.parametrize(("sts", "rows", "tex_of"), [(14, 20, 850), (20, 28, 500), (24, 32, 400)])
def test_hand_gauges_are_slacker_than_a_jammed_fabric(sts: int, rows: int, tex_of: int) -> None:
    """Jamming limit l/d: 16.67 (Chamberlain), 16.75 (Hepworth and Leaf)."""
    assert STITCHES["stockinette"].yarn_m(gauge(sts, rows), 0) > JAMMED * diameter_m(tex_of)


@pytest.mark.parametrize(
    ("tex_of", "mm"), [(235, 0.71), (300, 0.80), (400, 0.92), (500, 1.03), (850, 1.34)]
)
def test_diameter_is_that_of_a_round_yarn_of_its_bulk(tex_of: float, mm: float) -> None:
    """A cylinder of so much mass a length at 0.60 g/cm3, worked by hand."""
    assert diameter_m(tex_of) * 1000 == pytest.approx(mm, abs=0.006)


@pytest.mark.parametrize(
    ("single", "strands", "together"),
    [(800, 2, 400), (400, 2, 200), (300, 2, 150), (800, 4, 200), (600, 4, 150), (500, 4, 125)],
)
def test_strands_together_are_as_fine_as_two_trade_tables_say(
    single: int, strands: int, together: int
) -> None:
    """Metres per 100 g of one strand and of several (a designer's page and a printed table)."""
    assert tex(single, strands) == pytest.approx(tex(together))


def test_chain_takes_what_makers_unravelled() -> None:
    """A maker's experiment in medium yarn, 5 mm hook: 4.8-5.1 in of yarn per in of chain.

    The gauge of that experiment is not given; 14 stitches to 4 in is taken. Calibration, no proof.
    """
    at = gauge(14, 16)

    per_inch = CHAIN.yarn_m(at, diameter_m(500)) / at.stitch_m

    assert 4.6 < per_inch < 5.1


@pytest.mark.parametrize(
    ("stitch", "rows", "per_in2"), [("sc", 16, 31.4), ("hdc", 11, 32.1), ("dc", 8, 31.6)]
)
def test_squares_take_what_a_maker_unravelled(stitch: str, rows: int, per_in2: float) -> None:
    """The same experiment, 5 x 5 in squares: 785.5, 802 and 790 in of yarn. Calibration."""
    at = gauge(14, rows)

    ours = STITCHES[stitch].yarn_m(at, diameter_m(500)) / (at.stitch_m * at.row_m) * INCH_M

    assert ours == pytest.approx(per_in2, rel=0.12)


def test_single_crochet_takes_a_quarter_to_two_thirds_more_than_stockinette() -> None:
    """Two makers' experiments over equal areas: 1.27 (by length) and 1.60 (by weight) times."""
    crochet, knit = gauge(14, 16), gauge(18, 24)
    sc = STITCHES["sc"].yarn_m(crochet, diameter_m(550)) / (crochet.stitch_m * crochet.row_m)
    plain = STITCHES["stockinette"].yarn_m(knit, 0) / (knit.stitch_m * knit.row_m)

    assert 1.2 < sc / plain < 1.7


def test_garter_takes_a_third_to_a_half_more_than_stockinette() -> None:
    """The same two experiments: 1.35 and 1.46 times."""
    knit, garter = gauge(18, 24), gauge(18, 36)
    plain = STITCHES["stockinette"].yarn_m(knit, 0) / (knit.stitch_m * knit.row_m)
    ridged = STITCHES["garter"].yarn_m(garter, 0) / (garter.stitch_m * garter.row_m)

    assert 1.3 < ridged / plain < 1.5


def test_uk_names_are_one_step_taller_than_us_ones() -> None:
    """US/UK of two conversion charts: sc=dc, hdc=htr, dc=tr, tr=dtr."""
    assert [UK_TO_US[uk] for uk in ("dc", "htr", "tr", "dtr")] == ["sc", "hdc", "dc", "tr"]
