"""Light balanced by its white, against a general-purpose colour library."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stash.measures.adaptation import balanced
from stash.measures.colour import TO_XYZ

PARTS = st.floats(0.05, 0.6)
LIGHTS = st.tuples(PARTS, PARTS, PARTS)


@given(LIGHTS, LIGHTS)
def test_it_is_the_adaptation_of_von_kries_by_bradford(
    pixel: tuple[float, float, float], white: tuple[float, float, float]
) -> None:
    """`colour-science` 0.4, from XYZ to XYZ; what is out of reach of a screen is cut by ours."""
    from colour.adaptation import chromatic_adaptation_VonKries

    to_xyz = np.array(TO_XYZ)
    white_xyz, wanted_xyz = to_xyz @ np.array(white), to_xyz @ np.full(3, 0.89)
    theirs = chromatic_adaptation_VonKries(
        to_xyz @ np.array(pixel), white_xyz, wanted_xyz, transform="Bradford"
    )
    expected = np.clip(np.linalg.inv(to_xyz) @ theirs, 0, 1)
    assert balanced([pixel], white, 0.89)[0] == pytest.approx(tuple(expected), abs=1e-6)


@given(LIGHTS)
def test_white_itself_comes_out_grey(white: tuple[float, float, float]) -> None:
    assert balanced([white], white, 0.89)[0] == pytest.approx((0.89, 0.89, 0.89))
