"""How a yarn looks, and the grey that is as light; checked with colour-science's CIE Lab."""

from __future__ import annotations

import colour
import numpy as np
from hypothesis import given
from hypothesis import strategies as st
from rendering.drawing.some_looks import HEXES, MANY

from stash.measures.colour import Colour
from stash.rendering.drawing.yarn_look import YarnLook, look_of, needed_grey
from stash.stock.yarn import Dyed, Lot, Surface, Yarn

_STEPS = np.arange(256)
#: L* of each grey of a screen, by colour-science.
GREYS = colour.XYZ_to_Lab(colour.sRGB_to_XYZ(np.stack([_STEPS] * 3, axis=1) / 255))[:, 0]


def lightness(hexes: str) -> float:
    rgb = np.array([*bytes.fromhex(hexes[1:])]) / 255
    return float(colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb))[0])


@given(st.integers(0, 0xFFFFFF))
def test_a_grey_is_as_light_as_its_colour_to_half_a_step(value: int) -> None:
    hexes = f"#{value:06x}"
    grey = needed_grey(hexes)

    assert grey[1:3] == grey[3:5] == grey[5:7]
    nearest = np.abs(GREYS - lightness(hexes)).min()
    assert abs(lightness(grey) - lightness(hexes)) <= nearest + 0.01
    assert nearest < 0.3


def test_in_grey_every_shade_of_a_yarn_is_a_grey_of_the_same_share() -> None:
    for dyed in Dyed:
        look = YarnLook(MANY.get(dyed, HEXES[:1]), dyed)
        greys = look.in_grey()

        assert [share for _, share in greys.shades] == [share for _, share in look.shades]
        assert [grey for grey, _ in greys.shades] == [needed_grey(one) for one, _ in look.shades]


def test_a_yarn_of_one_known_colour_has_shades_about_as_light() -> None:
    for dyed in Dyed:
        for hexes in HEXES:
            look = YarnLook((hexes,), dyed)

            assert abs((look.lightness or 0) - lightness(hexes)) < 7
            assert sum(share for _, share in look.shades) == 1


def test_where_nothing_was_said_it_is_smooth_and_solid_or_variegated_by_its_colours() -> None:
    one, two = Colour("#112233"), Colour("#445566")
    lot = Lot(5, Yarn(1, "", "Fen"), colour="rook", colours=(one,), thickness_to=3)
    both = Lot(6, Yarn(1, "", "Fen"), colours=(one, two))
    said = Lot(7, Yarn(1, "", "Fen"), colours=(one,), dyed=Dyed.TWEED, surface=Surface.CABLED)

    assert look_of(lot) == YarnLook((one.hex,), Dyed.SOLID, Surface.SMOOTH, 3, 5, "rook")
    assert look_of(both).dyed is Dyed.VARIEGATED
    assert look_of(both).name == "Fen"
    assert (look_of(said).dyed, look_of(said).surface) == (Dyed.TWEED, Surface.CABLED)
