"""The yarn in a stitch against published constants and makers' experiments."""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from requirements.some_designs import gauge

from stash.measures.length import INCH_UM
from stash.requirements.design.stitches import (
    CHAIN,
    JAMMED,
    PLAIN_KS,
    STITCHES,
    UK_TO_US,
    Craft,
    Mixed,
    carried_m,
    diameter_m,
    named,
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

    The gauge of that experiment is not given; 14 stitches to 4 in is taken. Calibration: seen
    while the counts of a chain were settled.
    """
    at = gauge(14, 16)

    per_inch = CHAIN.yarn_m(at, diameter_m(500)) / at.stitch_m

    assert 4.8 < per_inch < 5.1


@pytest.mark.parametrize(
    ("stitch", "rows", "per_in2"), [("sc", 16, 31.4), ("hdc", 11, 32.1), ("dc", 8, 31.6)]
)
def test_squares_take_what_a_maker_unravelled(stitch: str, rows: int, per_in2: float) -> None:
    """The same experiment, 5 x 5 in squares: 785.5, 802 and 790 in of yarn. Calibration.

    Its gauge is not given; the usual rows are taken.
    """
    at = gauge(14, rows)

    ours = STITCHES[stitch].yarn_m(at, diameter_m(500)) / (at.stitch_m * at.row_m) * INCH_M

    assert ours == pytest.approx(per_in2, rel=0.06)


@pytest.mark.parametrize(
    ("stitch", "wide", "tall", "against_stockinette"),
    [("sc", 6.25, 5.75, 19 / 9), ("hdc", 6.75, 9.25, 28 / 9), ("garter", 5.75, 3.25, 1)],
)
def test_twenty_stitches_by_twenty_rows_weigh_what_a_magazine_found(
    stitch: str, wide: float, tall: float, against_stockinette: float
) -> None:
    """A craft magazine's experiment, chunky yarn, 20 x 20 stitches of each on a 1 g scale.

    Stockinette came to 9 g and 5.75 x 4.75 in, and one stitch of each to so many of its. The scale
    alone leaves 5-6 % open. Calibration; yarn of 110 m to 100 g is taken.
    """
    own = gauge(80 / wide, 80 / tall)
    plain = STITCHES["stockinette"].yarn_m(gauge(80 / 5.75, 80 / 4.75), 0)

    ours = STITCHES[stitch].yarn_m(own, diameter_m(tex(110))) / plain

    assert ours == pytest.approx(against_stockinette, rel=0.06)


def test_double_and_treble_cover_as_much_with_the_same_yarn() -> None:
    """A maker re-worked one length in both: 4.75 in of each. Calibration; usual rows are taken."""
    by_area = [
        STITCHES[name].yarn_m(at, diameter_m(500)) * float(at.rows)
        for name, at in (("dc", gauge(14, 8)), ("tr", gauge(14, 6)))
    ]

    assert by_area[0] == pytest.approx(by_area[1], rel=0.02)


def test_half_turns_come_to_what_peirce_found_for_a_loop() -> None:
    """A loop drawn through turns twice, pi diameters each; Peirce's plain loop has 5.94 of them."""
    at = gauge(14, 16)
    without, single = (STITCHES["sc"].yarn_m(at, diameter) for diameter in (0, 1))

    loops_drawn = 2

    assert (single - without) / loops_drawn == pytest.approx(5.94, rel=0.06)


def test_a_row_of_several_stitches_takes_their_mean() -> None:
    """Linen stitch: a single crochet and a chain in turn."""
    at, thick = gauge(14, 12), diameter_m(500)
    moss = named("(1 sc, 1 ch)")

    assert isinstance(moss, Mixed)
    assert moss.name == "(1 sc, 1 ch)"
    assert 2 * moss.yarn_m(at, thick) == pytest.approx(
        STITCHES["sc"].yarn_m(at, thick) + CHAIN.yarn_m(at, thick)
    )


def test_a_row_of_single_and_double_is_as_tall_as_half_of_each() -> None:
    """14 stitches go with 16 rows of single, 8 of double (common practice): together 10.7."""
    assert float(14 * named("(1 sc, 1 dc)").rows_to_width) == pytest.approx(2 / (1 / 16 + 1 / 8))


def test_a_stitch_round_the_post_takes_the_same_yarn_in_a_lower_row() -> None:
    """A yarn maker's tutorial, 2015: its row is about 0.8 as tall."""
    thick = diameter_m(500)

    posted = STITCHES["fpdc"].yarn_m(gauge(14, 10), thick)

    assert posted == pytest.approx(STITCHES["dc"].yarn_m(gauge(14, 8), thick))
    assert STITCHES["fpdc"].rows_to_width / STITCHES["dc"].rows_to_width == Fraction(5, 4)


@pytest.mark.parametrize(
    ("craft", "plain", "low", "high"),
    [(Craft.KNIT, "stockinette", 0.22, 0.26), (Craft.CROCHET, "sc", 0.11, 0.15)],
)
def test_a_carried_strand_takes_a_quarter_of_a_loop_or_an_eighth_of_a_stitch(
    craft: Craft, plain: str, low: float, high: float
) -> None:
    """By geometry, one stitch width of 4.2 in a loop: 24 %; 1.0-1.1 widths in crochet: 13 %."""
    at = gauge(20, 28) if craft is Craft.KNIT else gauge(14, 16)

    share = carried_m(craft, at) / STITCHES[plain].yarn_m(at, diameter_m(500))

    assert low < share < high


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
