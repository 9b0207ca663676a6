"""Sizes, ease and charts as they are typed."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length, inches
from stash.parsing.design import sizes
from stash.trade.bodies import Person, Sex

CM = 10_000


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("woman", Person(None, Sex.FEMALE)), ("Man", Person(None, Sex.MALE)), ("adult", Person()),
        ("newborn", Person(0)), ("newborn girl", Person(0, Sex.FEMALE)),
        ("child 4 years", Person(48)), ("child of 4 years", Person(48)), ("4 years", Person(48)),
        ("girl 18 months", Person(18, Sex.FEMALE)), ("boy 4y", Person(48, Sex.MALE)),
        ("baby 3 months old", Person(3)), ("toddler 1½ years", Person(18)),
        ("56cm", Length(56 * CM)), ("22 in", inches(22)),
    ],
)  # fmt: skip
def test_whom_it_fits(typed: str, read: Person | Length) -> None:
    assert sizes.whom(typed) == read


@pytest.mark.parametrize(
    ("typed", "way_out"),
    [("large", "write woman"), ("child", "write woman"), ("boy 40 years", "above 18 years"),
     ("0cm", "above 0")],
)  # fmt: skip
def test_a_size_that_no_table_has_is_refused(typed: str, way_out: str) -> None:
    with pytest.raises(Unreadable, match=way_out):
        sizes.whom(typed)


@pytest.mark.parametrize(
    ("typed", "read"),
    [("-5%", Fraction(-1, 20)), ("+10 %", Fraction(1, 10)), ("-3cm", Length(-3 * CM)),
     ("+1 in", inches(1)), ("−3 cm", Length(-3 * CM)), ("0", Fraction(0)), ("0%", Fraction(0))],
)  # fmt: skip
def test_ease_has_a_sign(typed: str, read: object) -> None:
    assert sizes.ease(typed) == read


def test_ease_without_a_sign_is_asked_about() -> None:
    with pytest.raises(Ambiguous, match=r"-5% \(smaller\) or \+5% \(roomier\)"):
        sizes.ease("5%")


def test_a_size_of_her_own_names_its_sides() -> None:
    assert sizes.chart("around 54cm, tall: 22 cm") == {
        "around": Length(54 * CM),
        "tall": Length(22 * CM),
    }


@pytest.mark.parametrize("typed", ["", "54cm", "around 54cm deep 22cm", "around 0cm"])
def test_a_size_of_her_own_is_read_whole_or_not_at_all(typed: str) -> None:
    with pytest.raises(Unreadable, match="a size"):
        sizes.chart(typed)


@pytest.mark.parametrize(
    ("typed", "um"), [("6cm", 6 * CM), ("none", None), ("0cm", None), ("", None)]
)
def test_a_brim_may_be_none(typed: str, um: int | None) -> None:
    assert sizes.brim(typed) == (None if um is None else Length(um))


@given(
    st.sampled_from([sizes.whom, sizes.ease, sizes.chart]),
    st.text(alphabet="0123456789 cmin%+-,.yearswo", max_size=20) | st.text(max_size=12),
)
def test_any_text_is_read_or_refused_in_one_line(reader: object, text: str) -> None:
    assert callable(reader)
    try:
        told = repr(reader(text))
    except BadInput as refused:
        told = str(refused)
    assert len(told.splitlines()) == 1
