"""Bands and stripes as they are typed; the lines are invented (common practice)."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import BadInput, Unreadable
from stash.measures.length import Length
from stash.parsing.design.bands import band, stripes
from stash.rendering.sentences.say import sentence
from stash.requirements.design.bands import Band, Place, Rows, Stitches, Stripes


def cm(count: float) -> Length:
    return Length(round(count * 10_000))


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("B 2cm bottom", Band("B", cm(2))),
        ("b 5 sts", Band("B", Stitches(5))),
        ("C 4 rows middle", Band("C", Rows(4), Place.MIDDLE)),
        ("B 3cm 5cm", Band("B", cm(3), cm(5))),
        ("B 1/3 top", Band("B", Fraction(1, 3), Place.TOP)),
        ("B ½ top", Band("B", Fraction(1, 2), Place.TOP)),
        ("B 30% bottom", Band("B", Fraction(3, 10))),
        ("B half top", Band("B", Fraction(1, 2), Place.TOP)),
        ("B a third", Band("B", Fraction(1, 3))),
        ("B 1/2 in top", Band("B", Length(12_700), Place.TOP)),
        ("B 4cm upright left", Band("B", cm(4), Place.BOTTOM, upright=True)),
        ("B 4 rows upright 10cm in", Band("B", Rows(4), cm(10), upright=True)),
        ("B 30% of 6cm middle", Band("B", cm(6), Place.MIDDLE, share=Fraction(3, 10))),
        ("B half of the 8 rows 4cm up", Band("B", Rows(8), cm(4), share=Fraction(1, 2))),
    ],
)
def test_a_band_is_read(typed: str, read: Band) -> None:
    assert band(typed) == read


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("A 4 rows, B 2 rows", Stripes((("A", Rows(4)), ("B", Rows(2))))),
        (
            "A 2cm; B 1cm; C 1cm upright",
            Stripes((("A", cm(2)), ("B", cm(1)), ("C", cm(1))), upright=True),
        ),
        (
            "B 2 rows, A 2 rows from 3cm to 15cm",
            Stripes((("B", Rows(2)), ("A", Rows(2))), cm(3), cm(15)),
        ),
    ],
)
def test_stripes_are_read_and_shown_as_they_are_typed(typed: str, read: Stripes) -> None:
    assert stripes(typed) == read
    assert stripes(str(read)) == read


@pytest.mark.parametrize(
    "typed",
    ["B", "2cm", "E 2cm", "B 0cm", "B 0 rows", "B 1.5 sts", "B 2cm left", "B 2cm upright top",
     "B 120% of 6cm", "B 0% of 6cm", "B 3/2 top"],
)  # fmt: skip
def test_what_is_no_band_is_refused_with_a_way_out(typed: str) -> None:
    with pytest.raises(Unreadable):
        band(typed)


@pytest.mark.parametrize(
    "typed", ["A 4 rows", "A, B", "A 4 rows B 2 rows", "A 0 rows, B 2 rows", ""]
)
def test_what_are_no_stripes_is_refused_with_a_way_out(typed: str) -> None:
    with pytest.raises(Unreadable):
        stripes(typed)


@given(st.text(alphabet="ABCD 0123456789cmrowsupright%/offrto,.½", max_size=30))
def test_any_text_is_a_band_and_stripes_or_bad_input(text: str) -> None:
    for reader in (band, stripes):
        try:
            told = str(reader(text))
        except BadInput as refused:
            told = sentence(refused)
        assert len(told.splitlines()) == 1
