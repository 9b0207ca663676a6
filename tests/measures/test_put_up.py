"""The pair on the band, and the crossings it allows."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.length import Length, metres, yards
from stash.measures.mass import Mass, grams
from stash.measures.put_up import PutUp

PAIRS = st.builds(
    PutUp,
    st.integers(1_000, 10**6).map(Mass),
    st.integers(10**6, 10**9).map(Length),
)


def test_half_the_mass_is_half_the_length() -> None:
    assert PutUp(grams(100), metres(200)).length_of(grams(50)) == metres(100)


def test_half_the_length_is_half_the_mass() -> None:
    assert PutUp(grams(50), yards(137)).mass_of(yards(137)) == grams(50)


@given(PAIRS, st.integers(0, 10**9))
def test_a_promise_is_never_shorter_than_what_was_asked(pair: PutUp, um: int) -> None:
    covering = pair.mass_covering(Length(um))

    assert covering.mg * pair.length.um >= um * pair.mass.mg
    assert (covering.mg - 1) * pair.length.um < um * pair.mass.mg  # and not a milligram too much


@given(PAIRS, st.integers(0, 10**6))
def test_a_mass_comes_back_from_its_length_within_a_milligram(pair: PutUp, mg: int) -> None:
    assert abs(pair.mass_of(pair.length_of(Mass(mg))).mg - mg) <= 1


def test_tex_is_grams_per_kilometre() -> None:
    # ISO 1144: 1 tex is 1 g per 1000 m
    assert PutUp(grams(100), metres(200)).tex == 500


def test_fineness_is_metres_per_100_g() -> None:
    assert PutUp(grams(50), metres(115)).m_per_100g == 230


@pytest.mark.parametrize(("mass", "length"), [(0, 1), (1, 0), (-1, 1), (1, -1)])
def test_a_put_up_is_above_nothing(mass: int, length: int) -> None:
    with pytest.raises(ValueError, match="empty"):
        PutUp(Mass(mass), Length(length))
