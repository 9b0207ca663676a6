"""Colours as eyes with a kind of cone missing see them, against a general-purpose library."""

from __future__ import annotations

import colour as library
import numpy as np
import pytest
from colour.blindness import CVD_MATRICES_MACHADO2010
from hypothesis import given, settings
from hypothesis import strategies as st

from stash.measures.colour import Colour, ciede2000, lab
from stash.measures.vision import Vision, seen_as

NAMES = {
    Vision.PROTAN: "Protanomaly",
    Vision.DEUTAN: "Deuteranomaly",
    Vision.TRITAN: "Tritanomaly",
}
hexes = st.integers(0, 0xFFFFFF).map(lambda n: Colour(f"#{n:06x}"))


@pytest.mark.parametrize("vision", Vision)
@settings(max_examples=60, deadline=None)
@given(seen=hexes)
def test_the_simulation_agrees_with_a_colour_library(vision: Vision, seen: Colour) -> None:
    """colour-science: its own matrices of Machado et al. (2009), its own sRGB, D65 and CIE Lab."""
    rgb = np.array([int(seen.hex[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    turned = CVD_MATRICES_MACHADO2010[NAMES[vision]][1.0] @ library.models.eotf_sRGB(rgb)
    xyz = library.RGB_to_XYZ(np.clip(turned, 0, 1), "sRGB")
    expected = library.XYZ_to_Lab(xyz, library.models.RGB_COLOURSPACE_sRGB.whitepoint)

    found = seen_as(seen, vision)

    assert (found.lightness, found.a, found.b) == pytest.approx(tuple(expected), abs=0.05)


@pytest.mark.parametrize("vision", Vision)
@given(level=st.integers(0, 255))
def test_a_grey_stays_the_grey_it_is(vision: Vision, level: int) -> None:
    """The rows of the published matrices add up to one, so that white stays white."""
    grey = Colour(f"#{level:02x}{level:02x}{level:02x}")

    assert ciede2000(seen_as(grey, vision), lab(grey)) < 0.01


# The colours that are commonly confused: red and green by protan and deutan eyes, blue and green
# by tritan ones. These pairs were looked for with the library above.
@pytest.mark.parametrize(
    ("one", "other", "vision", "clear"),
    [
        ("#8a5a2a", "#5c6b2a", Vision.DEUTAN, Vision.TRITAN),
        ("#1c6c72", "#2a6a80", Vision.TRITAN, Vision.DEUTAN),
    ],
)
def test_what_some_eyes_confuse_others_tell_apart(
    one: str, other: str, vision: Vision, clear: Vision
) -> None:
    def apart(eyes: Vision) -> float:
        return ciede2000(seen_as(Colour(one), eyes), seen_as(Colour(other), eyes))

    assert apart(vision) < apart(clear)
