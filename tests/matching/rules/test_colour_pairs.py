"""What is told of colours side by side; the thresholds are our choice, written in the module."""

from __future__ import annotations

from math import cos, radians, sin

import pytest
from shelves import a_lot, a_shelf

from stash.matching.lots.lot_view import Seen, see
from stash.matching.rules.colour_pairs import bleeds, hue_words, repeats, sheds, told_beside
from stash.measures.colour import Colour, Lab, lab
from stash.measures.vision import Vision


def hue(degrees: float, lightness: float = 50) -> Lab:
    return Lab(lightness, 40 * cos(radians(degrees)), 40 * sin(radians(degrees)))


def seen(lot_id: int, *hexes: str, **facts: object) -> Seen:
    colours = tuple(Colour(value) for value in hexes)
    return see(a_shelf(a_lot(lot_id, (100,), colours=colours, **facts)), assume=False)[0]


@pytest.mark.parametrize(
    ("one", "other", "words"),
    [
        (hue(10), hue(38), "close in hue"),
        (hue(350), hue(10), "close in hue"),
        (hue(10), hue(80), "neighbouring hues"),
        (hue(0), hue(120), "hues well apart"),
        (hue(0), hue(151), "opposite hues"),
        (Lab(50, 0, 0), hue(0), "a grey beside a colour"),
        (Lab(50, 0, 0), Lab(20, 1, 1), "two greys"),
    ],
)
def test_hues_lie_to_each_other_by_their_angle(one: Lab, other: Lab, words: str) -> None:
    assert hue_words([one], [other]) == hue_words([other], [one]) == words


def test_a_yarn_of_many_hues_has_no_one_relation() -> None:
    assert hue_words([hue(0), hue(180)], [hue(10)]) == ""
    assert hue_words([], [hue(10)]) == ""


def test_a_partner_that_repeats_a_colour_of_a_variegated_yarn_is_marked() -> None:
    spotted = seen(1, "#1d2544", "#cfc1a5", colour="harbour mix")
    told = [*told_beside([spotted, seen(2, "#cdbfa3", colour="oatmeal")], None)]

    assert "oatmeal repeats a colour of harbour mix" in told
    assert not repeats([hue(0)], [hue(0)])  # two plain yarns of one colour repeat nothing


@pytest.mark.parametrize(
    ("dark", "expected"),
    [
        ("#161616", True),  # black
        ("#bf2030", True),  # red
        ("#33326b", True),  # indigo
        ("#cfc1a5", False),  # oatmeal
        ("#8abfe3", False),  # sky
        ("#e8bdb8", False),  # blush
    ],
)
def test_strong_darks_reds_and_indigo_may_bleed(dark: str, expected: bool) -> None:
    """Common practice, no source."""
    assert sheds([lab(Colour(dark))]) is expected
    assert bleeds([lab(Colour(dark))], [lab(Colour("#f8f8f5"))]) is expected
    assert not bleeds([lab(Colour(dark))], [lab(Colour("#8a8c8f"))])  # grey is not very light


def test_what_may_bleed_is_advised_on() -> None:
    pair = [seen(1, "#f8f8f5", colour="white"), seen(2, "#bf2030", colour="red")]

    assert "red may bleed into white: wash a swatch of both first" in [*told_beside(pair, None)]


def test_wool_beside_what_bears_a_wash_is_told() -> None:
    pair = [
        seen(1, "#777777", colour="fog", fibre="100% wool"),
        seen(2, "#777777", colour="ash", fibre="100% cotton"),
    ]

    told = "fog may felt in a wash the other bears: wash both as wool"
    assert told in [*told_beside(pair, None)]


# An olive and a brown that a deutan eye confuses, by the published simulation (see its test).
def test_what_would_look_alike_to_her_is_marked() -> None:
    pair = [seen(1, "#8a5a2a"), seen(2, "#5c6b2a")]

    def marked(vision: Vision | None) -> bool:
        return any("look alike" in words for words in told_beside(pair, vision))

    assert marked(Vision.DEUTAN)
    assert not marked(Vision.TRITAN)
    assert not marked(None)


def test_colours_that_nobody_looked_at_in_daylight_are_less_sure() -> None:
    checked, by_screen = seen(1, "#777777", daylight=True), seen(2, "#777777", colour="ash")

    assert "ash by screen or name: compare in daylight" in [
        *told_beside([checked, by_screen], None)
    ]
    assert not [w for w in told_beside([checked, checked], None) if "daylight" in w]


def test_of_three_yarns_each_pair_is_named() -> None:
    three = [seen(i, h, colour=h) for i, h in enumerate(("#ff0000", "#00ff00", "#777777"), 1)]

    told = [*told_beside(three, None)]

    assert "#ff0000 and #777777: a grey beside a colour" in told
