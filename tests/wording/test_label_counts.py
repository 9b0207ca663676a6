"""How many skeins, and part balls; ways of saying so are common practice, no source."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.wording.label_line import read


@pytest.mark.parametrize(
    "line",
    ["3 skeins of Fern", "three balls Fern", "Fern x3", "3x Fern", "Fern, 3 x 50g", "Fern 3×50g",
     "Fern 50g x 3", "x3 Fern", "pack of 3 Fern", "Fern, qty 3", "3 hanks Fern", "Fern 3 sk."],
)  # fmt: skip
def test_three_skeins_in_every_writing(line: str) -> None:
    assert read(line).incoming.count == 3


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("43g left", grams(43)), ("left: 43 g", grams(43)), ("43g remaining", grams(43)),
        ("part ball 43g", grams(43)), ("43g part ball", grams(43)), ("80m left", metres(80)),
        ("43g of 100g", grams(43)), ("43g/86m left", grams(43)), ("half left", grams(50)),
        ("half a skein-ish", grams(50)), ("½ ball", grams(50)), ("1/4 skein left", grams(25)),
        ("a third used", Mass(66_667)), ("a bit more than half", Mass(62_500)),
        ("3/4 of a 100g ball", grams(75)), ("less than half", Mass(37_500)),
        ("nearly full", Mass(87_500)),
    ],
)  # fmt: skip
def test_what_is_left_of_a_part_ball(line: str, left: Mass | Length) -> None:
    assert read(f"Fern, {line}, 100g/200m").incoming.left == left


@pytest.mark.parametrize("line", ["half left", "a bit more than half", "nearly full"])
def test_a_share_by_eye_is_marked_and_doubted(line: str) -> None:
    found = read(f"Fern, {line}, 100g")
    assert found.incoming.about
    assert any("weigh" in note for note in found.notes)


def test_a_share_of_a_skein_of_unknown_weight_says_so() -> None:
    found = read("Fern, half left")
    assert found.incoming.left is None
    assert any("unknown weight" in note for note in found.notes)


def test_a_bit_beside_whole_skeins_is_not_rounded_up() -> None:
    found = read("Fern, 3 + a bit, 100g")
    assert (found.incoming.count, found.incoming.left) == (3, None)
    assert any("not counted" in note for note in found.notes)


@pytest.mark.parametrize(
    "line", ["1,5 skeins Fern", "2½ balls Fern", "two and a half balls of Fern"]
)
def test_whole_skeins_and_a_half_are_two_lines(line: str) -> None:
    with pytest.raises(Unreadable, match=r"1/2 of a skein on another"):
        read(line)


def test_a_reading_with_its_tool_is_gross() -> None:
    found = read("Fern, 27 g incl. needle, 50g/100m")
    assert found.incoming.left == grams(27)
    assert found.incoming.about
    assert any("needle" in note and "--tare" in note for note in found.notes)


def test_a_known_tare_comes_off_a_gross_reading() -> None:
    found = read("Fern, tare 12 g, 112 g gross, 200g/400m").incoming
    assert (found.left, found.tare, found.about) == (grams(100), grams(12), False)


@pytest.mark.parametrize("line", ["partial skein", "opened, 61g", "5 skeins of 50g, one opened"])
def test_an_opened_skein_must_say_what_is_left(line: str) -> None:
    with pytest.raises(Unreadable, match="what is left"):
        read(f"Fern, {line}")


def test_a_part_ball_has_a_line_of_its_own() -> None:
    with pytest.raises(Unreadable, match="a line of its own"):
        read("Fern, 3 skeins, 43g left")


def test_two_counts_that_differ_are_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        read("Fern, 2 skeins, 3 balls")
    assert asked.value.readings == ("2 skeins", "3 skeins")


def test_no_skeins_are_no_line() -> None:
    with pytest.raises(Unreadable):
        read("Fern, 0 skeins")
