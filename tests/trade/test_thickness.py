"""Thicknesses against the Craft Yarn Council's table (second-hand copies) and trade charts."""

from __future__ import annotations

from itertools import pairwise

import pytest

from stash.trade.thickness import (
    CLASSES,
    named,
    thickness_of_m_per_100g,
    usual_m_per_100g,
)


def test_knit_ranges_touch_only_where_the_printed_table_overlaps() -> None:
    # Guideline table: whole stitches overlap at 23-24 (classes 2 and 3) and nowhere else.
    shared = {
        count
        for thinner, thicker in pairwise(CLASSES)
        for count in range(thinner.knit_sts[0] or 0, thicker.knit_sts[1] + 1)
    }
    assert shared == {23, 24}


def test_crochet_ranges_overlap_where_the_printed_table_does() -> None:
    # Same table: 2/3 at 16-17, 3/4 at 12-14, 4/5 at 11, 5/6 at 8-9.
    shared = [
        set(range(thinner.crochet_sts[0] or 0, thicker.crochet_sts[1] + 1))
        for thinner, thicker in pairwise(CLASSES[2:7])
    ]
    assert shared == [{16, 17}, {12, 13, 14}, {11}, {8, 9}]


def test_needle_ranges_share_their_ends() -> None:
    ends = [c.needle_mm[1] for c in CLASSES[:-1]]
    assert ends == [c.needle_mm[0] for c in CLASSES[1:]]


@pytest.mark.parametrize(
    ("fineness", "number"),
    # Trade charts (common practice): sock 420, 5 ply 270, DK 240, aran 170, chunky 100, super 65.
    [(700, 0), (420, 1), (270, 2), (240, 3), (170, 4), (100, 5), (65, 6), (20, 7)],
)
def test_metres_per_100_g_lead_to_the_thickness_the_trade_sells_them_as(
    fineness: float, number: int
) -> None:
    assert thickness_of_m_per_100g(fineness) == number


def test_220_yards_to_100_g_is_medium() -> None:
    # Common practice, no source: 220 yd to 100 g is a usual American medium put-up.
    assert thickness_of_m_per_100g(220 * 0.9144) == 4


@pytest.mark.parametrize("number", range(8))
def test_the_usual_figure_of_a_thickness_lies_in_that_thickness(number: int) -> None:
    assert thickness_of_m_per_100g(usual_m_per_100g(number)) == number


@pytest.mark.parametrize(
    ("text", "classes"),
    [
        ("DK", (3, 3)), ("double knitting", (3, 3)), ("8 ply", (3, 3)), ("8ply", (3, 3)),
        ("4 ply", (1, 1)), ("4-ply", (1, 1)), ("sock", (1, 1)), ("Fingering", (1, 1)),
        ("sport", (2, 2)), ("5 ply", (2, 2)), ("lace", (0, 0)), ("lace-weight", (0, 0)),
        ("worsted", (4, 4)), ("aran weight", (4, 4)), ("10 ply", (4, 4)), ("medium", (4, 4)),
        ("light worsted", (3, 3)), ("bulky", (5, 5)), ("chunky", (5, 5)), ("super bulky", (6, 6)),
        ("jumbo", (7, 7)), ("class 4", (4, 4)), ("#4", (4, 4)), ("4", (4, 4)), ("3-4", (3, 4)),
        ("6-fädig", (2, 2)), ("4fach", (1, 1)),
    ],
)  # fmt: skip
def test_a_trade_name_says_its_thickness(text: str, classes: tuple[int, int]) -> None:
    assert named(text) == classes


@pytest.mark.parametrize(
    ("text", "classes"),
    [("6 ply", (2, 3)), ("worsted-ish/heavy DK", (3, 4)), ("DK/aran", (3, 4)),
     ("baby", (1, 2)), ("roving", (6, 7)), ("light bulky", (4, 5))],
)  # fmt: skip
def test_a_name_that_differs_between_countries_keeps_both_thicknesses(
    text: str, classes: tuple[int, int]
) -> None:
    assert named(text) == classes


@pytest.mark.parametrize("text", ["", "navy", "9", "class 8", "DK navy", "7 ply", "ply", "heavy"])
def test_what_is_no_thickness_is_none(text: str) -> None:
    assert named(text) is None
