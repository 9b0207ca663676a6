"""How many skeins, and part balls; ways of saying so are common practice, no source."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous, Unreadable
from stash.measures.length import Length, metres
from stash.measures.mass import Mass, grams
from stash.measures.note import Note
from stash.parsing.label import ShareOfWhat, read


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
        ("nearly full", grams(90)),
    ],
)  # fmt: skip
def test_what_is_left_of_a_part_ball(line: str, left: Mass | Length) -> None:
    assert read(f"Fern, {line}, 100g/200m").incoming.left == left


@pytest.mark.parametrize("line", ["half left", "a bit more than half", "nearly full"])
def test_a_share_by_eye_is_marked_and_doubted(line: str) -> None:
    found = read(f"Fern, {line}, 100g")
    assert found.incoming.about
    assert [note.kind for note in found.notes] == ["guessed_share"]


@pytest.mark.parametrize("line", ["half left", "1,5 skeins", "about a third of a ball"])
def test_a_share_of_a_skein_of_unknown_weight_is_asked_about(line: str) -> None:
    with pytest.raises(ShareOfWhat) as refused:
        read(f"Fern, {line}")
    assert refused.value.kind in ("share_of_unknown", "part_of_unknown")


def test_a_bit_of_unknown_weight_beside_whole_skeins_is_not_counted() -> None:
    found = read("Fern, 3 + a bit")
    assert (found.incoming.count, found.incoming.part_balls) == (3, ())
    assert Note("uncounted_bit") in found.notes


@pytest.mark.parametrize(
    ("line", "count", "opened"),
    [
        ("1,5 skeins Fern, 100g", 1, (grams(50),)),
        ("2½ balls Fern, 100g", 2, (grams(50),)),
        ("two and a half balls of Fern, 100g", 2, (grams(50),)),
        ("Fern, 100g, 3 full balls and one part ball", 3, (grams(50),)),
        ("Fern, 2 x 100g plus 35g of another", 2, (grams(35),)),
        ("Fern 100g, 1 whole + 60 g", 1, (grams(60),)),
        ("Fern 100g, 3 balls, one of them half used", 2, (grams(50),)),
        ("Fern 100g, 3 balls, one with 20 g left", 2, (grams(20),)),
        ("Fern 100g, 5 balls, one opened", 4, (grams(50),)),
        ("Fern 100g, 3 balls, 1/4 of one is gone", 2, (grams(75),)),
        ("Fern 50g, 3 balls, 120 g left", 2, (grams(20),)),
    ],
)
def test_whole_skeins_and_opened_ones_are_one_line(
    line: str, count: int, opened: tuple[Mass, ...]
) -> None:
    found = read(line).incoming
    assert (found.count, found.left, found.part_balls) == (count, None, opened)


def test_a_guessed_part_ball_is_doubted() -> None:
    found = read("Fern, 100g, 3 full balls and one part ball")
    assert found.incoming.about
    assert [note.kind for note in found.notes] == ["guessed_share"]


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("used 30g", 70), ("30 g used", 70), ("1/3 used", Mass(66_667)), ("used 1/4", 75),
        ("10% gone", 90), ("30% left", 30), ("three quarters gone", 25), ("minus 12 g", 88),
        ("barely used", 90), ("nearly gone", 10), ("all but a few yards used", 3),
    ],
)  # fmt: skip
def test_used_is_what_is_not_left(line: str, left: int | Mass) -> None:
    wanted = left if isinstance(left, Mass) else grams(left)
    assert read(f"Fern, {line}, 100g").incoming.left == wanted


@pytest.mark.parametrize(
    ("line", "count"),
    [
        ("got 4 Fern, 50g", 4), ("have 2 remaining, Fern 50g", 2), ("Fern, bought 8, 5 left", 5),
        ("Fern, bought ten, used seven", 3), ("Fern, 3 left out of 8", 3), ("6 skiens Fern", 6),
        ("3 Knäuel Fern", 3), ("Fern, 5 pelotes", 5), ("Fern, 6 nystan", 6), ("Fern, 2 ovillos", 2),
    ],
)  # fmt: skip
def test_a_figure_beside_what_there_is_counts_balls(line: str, count: int) -> None:
    assert read(line).incoming.count == count


@pytest.mark.parametrize(
    ("line", "count", "full"),
    [
        ("Fern, 1.2 kg on 12 balls", 12, 100), ("Fern, 5 balls, 500g in all", 5, 100),
        ("pack of 10 Fern minis, 200g total", 10, 20), ("Fern 4 skeins total 400g/1600m", 4, 100),
        ("400g of Fern in 4 balls", 4, 100), ("Fern 16 balls = 800 g", 16, 50),
    ],
)  # fmt: skip
def test_a_total_is_divided_and_never_multiplied(line: str, count: int, full: int) -> None:
    found = read(line).incoming
    assert (found.count, found.full_mass) == (count, grams(full))


@pytest.mark.parametrize(
    ("line", "left"),
    [
        ("Fern, 450g with cone, cone weighs 50g", 400), ("Fern cone 1.1 kg incl. 100 g core", 1000),
        ("Fern 62g on the scale, ball core 8g", 54),
    ],
)  # fmt: skip
def test_a_core_or_a_cone_is_tare(line: str, left: int) -> None:
    assert read(line).incoming.left == grams(left)


def test_a_reading_with_its_tool_is_gross() -> None:
    found = read("Fern, 27 g incl. needle, 50g/100m")
    assert found.incoming.left == grams(27)
    assert found.incoming.about
    assert Note("gross_weight", gross=grams(27), tool="needle") in found.notes


def test_a_known_tare_comes_off_a_gross_reading() -> None:
    found = read("Fern, tare 12 g, 112 g gross, 200g/400m").incoming
    assert (found.left, found.tare, found.about) == (grams(100), grams(12), False)


@pytest.mark.parametrize("line", ["partial skein", "opened, 61g", "5 skeins of 50g, opened"])
def test_an_opened_skein_must_say_what_is_left(line: str) -> None:
    with pytest.raises(Unreadable) as refused:
        read(f"Fern, {line}")
    assert refused.value.kind in ("opened_without_amount", "share_of_unknown")


@pytest.mark.parametrize(
    "line",
    [
        "Fern, 3 skeins, 43g left", "Fern 100g, 140g left of 100g", "Fern, 50g, 20 left",
        "Fern, 50g 100g", "Fern, 3 x 50g/100g", "Fern, half left, approx 55g",
    ],
)  # fmt: skip
def test_what_amounts_leave_open_is_asked_about(line: str) -> None:
    with pytest.raises(Ambiguous):
        read(line)


def test_two_counts_that_differ_are_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        read("Fern, 2 skeins, 3 balls")
    assert asked.value.readings == ("2 skeins", "3 skeins")


def test_no_skeins_are_no_line() -> None:
    with pytest.raises(Unreadable):
        read("Fern, 0 skeins")
