"""Numbers as typed. Forms: common practice; fractions and separators as Unicode and ISO 80000-1."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.parsing.numbers import cleaned, fraction, listed

NBSP, THIN, NARROW = "\u00a0", "\u2009", "\u202f"


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1,5", Fraction(3, 2)), ("1.5", Fraction(3, 2)), ("1 1/2", Fraction(3, 2)),
        ("1½", Fraction(3, 2)), ("½", Fraction(1, 2)), ("1 ½", Fraction(3, 2)),
        ("⅞", Fraction(7, 8)), ("1-1/2", Fraction(3, 2)), ("3⁄4", Fraction(3, 4)),
        ("⅓", Fraction(1, 3)), (".5", Fraction(1, 2)), ("“2”", Fraction(2)),
        (f"{NBSP}7{NBSP}", Fraction(7)), ("0.500", Fraction(1, 2)), ("0,125", Fraction(1, 8)),
        ("1234,567", Fraction(1234567, 1000)), ("1.2345", Fraction(12345, 10000)),
    ],
)  # fmt: skip
def test_a_number_is_read_exactly(text: str, value: Fraction) -> None:
    assert fraction(text) == value


@pytest.mark.parametrize(
    "text",
    [f"1{NBSP}200", f"1{THIN}200", f"1{NARROW}200", "1 200", "1'200", "1’200", "1200", "1,200.0",
     "1.200,0"],
)  # fmt: skip
def test_a_grouped_thousand_is_a_thousand(text: str) -> None:
    assert fraction(text) == 1200


def test_the_other_separator_settles_which_is_the_decimal_one() -> None:
    assert fraction("1,200.50") == fraction("1.200,50") == Fraction(2401, 2)
    assert fraction("1,200,000") == 1_200_000


@pytest.mark.parametrize(
    ("text", "readings"),
    [("1,200", ("1200", "1.2")), ("1.200", ("1200", "1.2")), ("12.345", ("12345", "12.3450")),
     ("2.000", ("2000", "2.0"))],
)  # fmt: skip
def test_three_digits_after_one_separator_are_asked_about(
    text: str, readings: tuple[str, str]
) -> None:
    with pytest.raises(Ambiguous) as asked:
        fraction(text)
    assert asked.value.readings == readings


@given(st.integers(1, 999), st.integers(0, 999), st.sampled_from(".,"))
def test_each_reading_offered_is_one_that_can_be_typed(whole: int, after: int, mark: str) -> None:
    with pytest.raises(Ambiguous) as asked:
        fraction(f"{whole}{mark}{after:03}")
    large, small = (fraction(reading) for reading in asked.value.readings)
    assert large == small * 1000 == whole * 1000 + after


@pytest.mark.parametrize(
    "text", ["", " ", "x", "80/20", "1/0", "0/2", "5.", "1,2,3", "-3", "1e5", "²", "٣", "1" * 5000]
)
def test_what_is_no_number_is_refused(text: str) -> None:
    with pytest.raises(Unreadable):
        fraction(text)


@given(st.fractions(0, 10**6, max_denominator=1000))
def test_a_finite_decimal_reads_back(value: Fraction) -> None:
    rounded = round(value, 2)
    assert fraction(f"{float(rounded):.2f}") == rounded


@given(st.text(max_size=30))
def test_any_text_is_a_number_or_bad_input(text: str) -> None:
    try:
        value = fraction(text)
    except BadInput:
        return
    assert value >= 0


def test_cleaning_straightens_quotes_and_odd_spaces() -> None:
    assert cleaned(f"8”{NBSP}“soft”") == '8" "soft"'
    assert cleaned(f"1{THIN}200 m") == "1200 m"


@pytest.mark.parametrize(
    ("typed", "parts"),
    [
        ("12", ["12"]),
        ("12,14-17", ["12", "14", "15", "16", "17"]),
        (" #3 , 5 - 6,", ["3", "5", "6"]),
        ("7-7", ["7"]),
        ("2–4", ["2", "3", "4"]),
        ("9-4", ["9-4"]),
        ("1-9999999", ["1-9999999"]),
        ("fell wool, 2", ["fell wool", "2"]),
        ("²-³", ["²-³"]),
        ("", []),
    ],
)
def test_a_list_of_numbers_may_hold_runs(typed: str, parts: list[str]) -> None:
    assert listed(typed) == parts
