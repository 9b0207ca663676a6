"""Class and colour number; names of classes as in the trade table, `#` common practice."""

from __future__ import annotations

import pytest

from stash.errors import Ambiguous
from stash.measures.colour import Colour
from stash.measures.note import Note
from stash.parsing.label import read


@pytest.mark.parametrize(
    ("line", "classes"),
    [
        ("DK", (3, 3)), ("4 ply", (1, 1)), ("class 3-4", (3, 4)), ("weight: 4", (4, 4)),
        ("worsted-ish/heavy DK", (3, 4)), ("12ply", (5, 5)), ("sport weight", (2, 2)),
        ("Weight: Worsted", (4, 4)), ("medium", (4, 4)), ("super bulky", (6, 6)),
        ("6-fädig", (2, 2)), ("lace-weight", (0, 0)),
    ],
)  # fmt: skip
def test_a_class_is_read_by_number_ply_or_name(line: str, classes: tuple[int, int]) -> None:
    found = read(f"Fern, {line}, navy").incoming
    assert (found.thickness_from, found.thickness_to) == classes


@pytest.mark.parametrize("line", ["fine merino", "light blue", "baby blue", "soft craft bag"])
def test_plain_adjectives_are_no_class(line: str) -> None:
    assert read(f"Fern, {line}, 50g").incoming.thickness_from is None


def test_two_classes_are_both_kept_and_pointed_out() -> None:
    found = read("Fern, DK, class 4")
    assert (found.incoming.thickness_from, found.incoming.thickness_to) == (3, 4)
    assert Note("thickness_said_twice") in found.notes


def test_a_class_outside_the_name_outranks_one_inside() -> None:
    found = read("Fern Lace, DK weight, 50g")
    assert (found.incoming.name, found.incoming.thickness_from) == ("Fern Lace", 3)
    assert Note("thickness_in_name_differs", classes=(0, 0)) in found.notes


@pytest.mark.parametrize(
    ("name", "classes"),
    [
        ("Sock Drawer DK", (3, 3)), ("Ivel Sock 4ply", (1, 1)), ("DK Oddling", (3, 3)),
        ("Old Aran Fleck", (4, 4)), ("Tarn 4ply Tweed", (1, 1)), ("Fell 8ply/DK", (3, 3)),
    ],
)  # fmt: skip
def test_a_name_keeps_its_words_for_thickness_and_tells_it(
    name: str, classes: tuple[int, int]
) -> None:
    found = read(f"{name}, 50g, navy").incoming
    assert (found.name, found.thickness_from, found.thickness_to) == (name, *classes)


@pytest.mark.parametrize("mark", ["#4 medium", "(4)", "class 4", "medium (4)", "worsted (4)"])
def test_marks_of_thickness_mean_thickness(mark: str) -> None:
    found = read(f"Fern, {mark}, 100g/200m, red").incoming
    assert (found.thickness_from, found.colour_no) == (4, "")


def test_a_jumbo_skein_is_a_size() -> None:
    assert read("Jumbo skein of Fern DK, 400g").incoming.thickness_from == 3


def test_a_digit_behind_a_hash_follows_from_the_rest() -> None:
    assert read("Fern, DK, #4").incoming.colour_no == "4"
    assert read("Fern, navy, #4").incoming.thickness_from == 4
    with pytest.raises(Ambiguous) as asked:
        read("Fern, #4, 100g")
    assert asked.value.readings == ("thickness 4", "colour 4")


def test_light_by_itself_is_asked_about() -> None:
    with pytest.raises(Ambiguous):
        read("Fern, light, 50g")


def test_small_dk_before_a_colour_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        read("dk green, Fern")
    assert asked.value.readings == ("DK, green", "dark green")
    assert read("Fern dk green").incoming.thickness_from == 3


@pytest.mark.parametrize(
    ("line", "number"),
    [("#941 brick", "941"), ("col 0012", "0012"), ("shade 04", "04"), ("Colour no. 7", "7"),
     ("red 12", "12"), ("#A12", "A12")],
)  # fmt: skip
def test_a_colour_number_is_kept_exactly(line: str, number: str) -> None:
    assert read(f"Fern, {line}, 50g").incoming.colour_no == number


def test_a_colour_value_outranks_the_word() -> None:
    assert read("Fern, navy, #aabbcc").incoming.colours == (Colour("#aabbcc"),)


def test_two_colour_numbers_are_a_doubt() -> None:
    found = read("Fern, red 12 vs red 21")
    assert found.incoming.colour_no == ""
    assert Note("two_colours", colours=("red", "red"), numbers=("12", "21")) in found.notes
