"""Lines broken to a terminal's width."""

from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from stash.rendering.columns import width
from stash.rendering.wrapped import HANG, LEAST, wrapped

words = st.lists(
    st.text("abc,;()*42█é", min_size=1, max_size=12)
    | st.sampled_from(["L*", "142 m", "lot", "50 g / 120 m", "\x1b[1mbold\x1b[0m", "  "]),
    min_size=1,
    max_size=40,
)


@given(words, st.integers(0, 9), st.integers(LEAST, 120))
def test_no_word_is_lost_and_no_line_is_too_wide(told: list[str], indent: int, across: int) -> None:
    text = " " * indent + " ".join(told)
    lines = wrapped(text, across).split("\n")

    assert " ".join(lines).split() == text.split()
    assert all(width(line) <= across for line in lines)


@given(words, st.integers(LEAST, 120))
def test_what_fits_stays_as_it_is(told: list[str], across: int) -> None:
    text = " ".join(told)

    assert (wrapped(text, across) == text) is (width(text) <= across) or "  " in text
    assert wrapped(text, 10_000) == text


def test_the_rest_of_a_line_stands_in() -> None:
    text = "   " + "word " * 20

    first, *rest = wrapped(text.rstrip(), 40).split("\n")
    assert first.startswith("   word")
    assert rest
    assert all(line.startswith(" " * (3 + HANG) + "word") for line in rest)


def test_the_rest_of_a_row_stands_under_its_last_column() -> None:
    text = "   A  ■■■···  142 m  madder, an invented yarn of a long name, lot T-91"

    assert wrapped(text, 50).split("\n") == [
        "   A  ■■■···  142 m  madder, an invented yarn of a",
        "                     long name, lot T-91",
    ]


def test_a_number_and_its_unit_stay_together() -> None:
    text = "x" * 35 + " 142 m (155 yd) of lot 7, a full one is 50 g / 120 m"
    lines = wrapped(text, 40).split("\n")

    assert [line.strip() for line in lines] == [
        "x" * 35,
        "142 m (155 yd) of lot 7, a full one",
        "is 50 g / 120 m",
    ]


def test_paint_takes_no_room() -> None:
    text = "\x1b[38;2;1;2;3m██\x1b[0m " + "y" * 37

    assert wrapped(text, 40) == text


def test_a_terminal_too_narrow_to_read_is_left_alone() -> None:
    assert wrapped("a b " * 40, LEAST - 1) == "a b " * 40
