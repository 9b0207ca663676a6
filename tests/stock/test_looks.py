"""What a lot looks like where nobody said it (common practice, no source)."""

from __future__ import annotations

import pytest

from stash.measures.colour import Colour
from stash.stock.looks import looks_dyed, looks_surface
from stash.stock.yarn import Dyed, Lot, Surface, Yarn

NAVY, CREAM = Colour("#1d2544"), Colour("#f1e6c8")


def a_lot(**facts: object) -> Lot:
    return Lot(1, Yarn(1, "", "Fell"), **facts)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("colours", "dyed"), [((), None), ((NAVY,), Dyed.SOLID), ((NAVY, CREAM), Dyed.VARIEGATED)]
)
def test_how_it_is_dyed_follows_from_the_number_of_colours(
    colours: tuple[Colour, ...], dyed: Dyed | None
) -> None:
    assert looks_dyed(a_lot(colours=colours)) is dyed


@pytest.mark.parametrize(
    ("fibre", "surface"),
    [
        *(("", Surface.SMOOTH), ("wool", Surface.SMOOTH), ("no fibre we know", Surface.SMOOTH)),
        *(("70% mohair, 30% silk", Surface.BRUSHED), ("100% angora", Surface.BRUSHED)),
        ("80% wool, 20% mohair", Surface.SMOOTH),
    ],
)
def test_a_surface_follows_from_the_fibre_that_comes_first(fibre: str, surface: Surface) -> None:
    assert looks_surface(a_lot(fibre=fibre)) is surface


def test_what_was_said_outranks_what_follows() -> None:
    said = a_lot(colours=(NAVY,), fibre="mohair", dyed=Dyed.TWEED, surface=Surface.LOOPED)

    assert (looks_dyed(said), looks_surface(said)) == (Dyed.TWEED, Surface.LOOPED)
