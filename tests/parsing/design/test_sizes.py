"""Sizes, ease and charts as they are typed."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length, inches
from stash.parsing.design import sizes, wearers
from stash.rendering.sentences.say import sentence
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
    assert wearers.wearer(typed) == read


@pytest.mark.parametrize(
    ("typed", "kind"),
    [("XXL", "no_letters"), ("twelfty", "no_size"), ("boy 40 years", "no_child_of_that_age"),
     ("preemie 20 weeks", "no_such_weeks"), ("0cm", "girth_of_nothing")],
)  # fmt: skip
def test_a_size_that_no_table_has_is_refused(typed: str, kind: str) -> None:
    with pytest.raises(Unreadable) as refused:
        wearers.wearer(typed)
    assert refused.value.kind == kind


@pytest.mark.parametrize(
    ("typed", "read"),
    [("-5%", Fraction(-1, 20)), ("+10 %", Fraction(1, 10)), ("-3cm", Length(-3 * CM)),
     ("+1 in", inches(1)), ("−3 cm", Length(-3 * CM)), ("0", Fraction(0)), ("0%", Fraction(0))],
)  # fmt: skip
def test_ease_has_a_sign(typed: str, read: object) -> None:
    assert sizes.ease(typed) == read


def test_ease_without_a_sign_is_asked_about() -> None:
    with pytest.raises(Ambiguous) as asked:
        sizes.ease("5%")
    assert asked.value.readings == ("-5% (smaller)", "+5% (roomier)")


def test_a_size_of_her_own_names_its_sides() -> None:
    assert sizes.chart("around 54cm, tall: 22 cm") == {
        "around": Length(54 * CM),
        "tall": Length(22 * CM),
    }


@pytest.mark.parametrize("typed", ["", "54cm", "around 54cm deep 22cm", "around 0cm"])
def test_a_size_of_her_own_is_read_whole_or_not_at_all(typed: str) -> None:
    with pytest.raises(Unreadable) as refused:
        sizes.chart(typed)
    assert refused.value.kind in ("no_size_of_her_own", "size_of_no_sides")


@pytest.mark.parametrize(
    ("typed", "um"), [("6cm", 6 * CM), ("none", None), ("0cm", None), ("", None)]
)
def test_a_brim_may_be_none(typed: str, um: int | None) -> None:
    assert sizes.brim(typed) == (None if um is None else Length(um))


@given(
    st.sampled_from([wearers.wearer, sizes.ease, sizes.chart]),
    st.text(alphabet="0123456789 cmin%+-,.yearswo", max_size=20) | st.text(max_size=12),
)
def test_any_text_is_read_or_refused_in_one_line(reader: object, text: str) -> None:
    assert callable(reader)
    try:
        told = repr(reader(text))
    except BadInput as refused:
        told = sentence(refused)
    assert len(told.splitlines()) == 1
