"""Whether the yarn lasts, as it is read."""

from __future__ import annotations

import re
from contextvars import copy_context

import pytest

from stash.actions.lasts import Outlook
from stash.measures.mass import grams
from stash.parsing.weighings import BallWords, of_ball
from stash.rendering import figures, lasts
from stash.rendering.amounts import Page
from stash.rendering.figures import Units
from stash.rendering.lasts import ball_keys, ball_text
from stash.stock.item import Item, ItemState

THREE = "0:98g 20:81g 40:63g"
PAGE = Page()


def text(rows_left: str) -> str:
    found = of_ball(BallWords(THREE, rows_left, keep="4g"), grams(1), None)
    return ball_text(found, "row", PAGE)


def test_the_answer_says_by_how_much_and_for_how_many_rows() -> None:
    yes, tight, no = (text(rows) for rows in ("36", "66", "76"))

    assert yes.startswith("Yes, it lasts: about 27.5 g left over.\n")
    assert "chance that it lasts over 99%" in yes
    assert "Weigh again in 18 rows." in yes
    assert tight.startswith("Tight: ")
    assert "to be safe: work 1 fewer." in tight
    assert no.startswith("No: ")
    assert "or 9 rows short" in no
    assert "or get more of the same lot" in no


def test_how_far_it_goes_is_not_counted_far_beyond_what_is_left_to_do() -> None:
    assert "Enough for far more than that." in text("5")
    assert "Enough for about 67 rows" in text("36")


def shown_in(units: Units, rows_left: str) -> str:
    figures.use(units)
    return figures.settled(lambda: text(rows_left))


@pytest.mark.parametrize("units", [Units(), Units("yd", "oz", "in"), Units("yd", "g", "in")])
@pytest.mark.parametrize("rows_left", ["1", "20", "36", "66", "67", "68", "76", "200"])
def test_what_is_there_less_what_it_takes_is_what_is_left(units: Units, rows_left: str) -> None:
    """As it is shown: `have` and `need` differ by `left over`, or by `short` the other way."""
    shown = copy_context().run(shown_in, units, rows_left)

    amounts = dict(re.findall(r"^ +(have|need|left over|short) +([\d.]+) ", shown, re.M))
    have, need = float(amounts["have"]), float(amounts["need"])
    rest = have - need if "left over" in amounts else need - have
    assert float(amounts.get("left over") or amounts["short"]) == pytest.approx(rest)
    if rest:
        assert f"about {rest:.1f}".removesuffix(".0") + f" {units.weight}" in shown.splitlines()[0]


def test_stitches_are_shown_to_two_figures() -> None:
    found = of_ball(BallWords("0st:98g 1600st:81g", stitches_left="2900"), grams(1), None)

    told = figures.settled(lambda: ball_text(found, "stitch", PAGE))
    assert "for 2,900 stitches (so far 10.6 g for 1,000 stitches)" in told
    assert ball_keys(found, "stitch")["counted_in"] == "stitches"


@pytest.mark.parametrize("colours", [1, 2, 3, 4, 8])
def test_the_answer_fits_a_screen_and_says_how_to_see_the_rest(colours: int) -> None:
    ball = of_ball(BallWords(THREE, "66", keep="4g"), grams(1), None)
    item = Item(2, ItemState.BEGUN, 1, "hat", "")
    found = Outlook(item, dict.fromkeys("ABCDEFGH"[:colours], ball), ())

    brief = lasts.text(found, PAGE, brief=True).splitlines()
    whole = lasts.text(found, PAGE).splitlines()

    assert len(brief) <= 20  # of 24: notes and the prompt have their lines too
    assert len(whole) == 5 * colours
    assert brief == whole or brief[-1] == "One colour in full: stash lasts 2 --colour A"
