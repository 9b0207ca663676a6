"""Whether the yarn lasts, as it is read."""

from __future__ import annotations

from stash.measures.mass import grams
from stash.parsing.weighings import BallWords, of_ball
from stash.rendering.amounts import Page
from stash.rendering.lasts import ball_keys, ball_text

THREE = "0:98g 20:81g 40:63g"
PAGE = Page()


def text(rows_left: str) -> str:
    found = of_ball(BallWords(THREE, rows_left, keep="4g"), grams(1), None)
    return ball_text(found, "row", PAGE)


def test_the_answer_says_by_how_much_and_for_how_many_rows() -> None:
    yes, tight, no = (text(rows) for rows in ("36", "66", "76"))

    assert yes.startswith(
        "Yes, it lasts: 63 g left, 36 g needed, about 28 g to spare (chance over 99%)"
    )
    assert "weigh again in 18 rows" in yes
    assert tight.startswith("Tight: ")
    assert "with 1 row fewer it is safe" in tight
    assert no.startswith("No: ")
    assert "9 rows short" in no


def test_stitches_are_shown_to_two_figures() -> None:
    found = of_ball(BallWords("0st:98g 1600st:81g", stitches_left="2900"), grams(1), None)

    assert "2,900 stitches, 1.1 g per 100" in ball_text(found, "stitch", PAGE)
    assert ball_keys(found, "stitch")["counted_in"] == "stitches"
