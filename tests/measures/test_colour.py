"""Colour against published tables and a general-purpose colour library."""

import csv
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from stash.measures.colour import (
    Colour,
    Lab,
    ciede2000,
    colour_of_light,
    family,
    hue_difference,
    lab,
    lightness_gap,
    linear_of,
)
from stash.trade.colour_words import colour_of

FIXTURES = Path(__file__).parents[2] / "fixtures"


def published_pairs() -> list[tuple[Lab, Lab, float]]:
    """Sharma, Wu, Dalal, Color Res. Appl. 30(1), 21-30 (2005), table 1: 34 pairs."""
    with (FIXTURES / "checks" / "ciede2000.csv").open(encoding="utf-8") as file:
        rows = [[float(cell) for cell in row] for row in list(csv.reader(file))[1:]]
    return [(Lab(*row[:3]), Lab(*row[3:6]), row[6]) for row in rows]


PAIRS = published_pairs()


def test_the_table_is_whole() -> None:
    assert len(PAIRS) == 34


@pytest.mark.parametrize(("one", "other", "published"), PAIRS)
def test_ciede2000_agrees_with_the_published_pairs(one: Lab, other: Lab, published: float) -> None:
    assert ciede2000(one, other) == pytest.approx(published, abs=5.01e-5)
    assert ciede2000(other, one) == pytest.approx(published, abs=5.01e-5)


# Anchors of the ICC HDR working group's reference list (2020).
def test_black_and_white_are_a_hundred_apart() -> None:
    assert ciede2000(Lab(100, 0, 0), Lab(0, 0, 0)) == pytest.approx(100)
    assert ciede2000(Lab(100, 0, 0), Lab(100, 0, 0)) == 0


# sRGB (IEC 61966-2-1, D65) to CIE Lab, worked with the standard's matrix; either of the two
# matrices in common use lies within 0.05 of these.
SRGB_TO_LAB = [
    ("#ffffff", (100.0, 0.0, 0.0)),
    ("#000000", (0.0, 0.0, 0.0)),
    ("#ff0000", (53.2329, 80.1053, 67.2228)),
    ("#00ff00", (87.7370, -86.1884, 83.1861)),
    ("#0000ff", (32.3026, 79.1936, -107.8537)),
    ("#ffff00", (97.1382, -21.5608, 94.4877)),
    ("#00ffff", (91.1165, -48.0840, -14.1278)),
    ("#ff00ff", (60.3199, 98.2497, -60.8330)),
    ("#808080", (53.5850, 0.0, 0.0)),
    ("#777777", (50.0344, 0.0, 0.0)),
    ("#000080", (12.9753, 47.5060, -64.6983)),
    ("#800020", (25.8430, 48.9024, 21.2962)),
    ("#008080", (48.2561, -28.8442, -8.4748)),
    ("#fffdd0", (98.4579, -6.4950, 21.8330)),
]


@pytest.mark.parametrize(("typed", "expected"), SRGB_TO_LAB)
def test_srgb_to_lab(typed: str, expected: tuple[float, float, float]) -> None:
    got = lab(Colour(typed))

    assert (got.lightness, got.a, got.b) == pytest.approx(expected, abs=0.05)


@given(level=st.integers(0, 255))
def test_every_grey_is_without_a_hue(level: int) -> None:
    grey = lab(Colour(f"#{level:02x}{level:02x}{level:02x}"))

    assert grey.chroma < 0.01
    assert grey.hue is None


axis = st.floats(-110, 110, allow_nan=False)
labs = st.builds(Lab, st.floats(0, 100, allow_nan=False), axis, axis)


@settings(max_examples=200, deadline=None)
@given(one=labs, other=labs)
def test_ciede2000_agrees_with_the_reference_library(one: Lab, other: Lab) -> None:
    """Reference: the library `colour` (colour-science), its CIE 2000 difference.

    The published formula jumps between hues exactly opposite, so the last bit would decide there.
    """
    import colour

    assume(abs((hue_difference(one, other) or 0) - 180) > 1e-6)

    theirs = colour.delta_E(
        [one.lightness, one.a, one.b], [other.lightness, other.a, other.b], method="CIE 2000"
    )

    assert ciede2000(one, other) == pytest.approx(float(theirs), abs=1e-6)


@settings(max_examples=100, deadline=None)
@given(red=st.integers(0, 255), green=st.integers(0, 255), blue=st.integers(0, 255))
def test_srgb_to_lab_agrees_with_the_reference_library(red: int, green: int, blue: int) -> None:
    """Reference: the library `colour` (colour-science), sRGB to XYZ to Lab under its D65."""
    import colour

    white = colour.CCS_ILLUMINANTS["CIE 1931 2 Degree Standard Observer"]["D65"]
    theirs = colour.XYZ_to_Lab(colour.sRGB_to_XYZ([red / 255, green / 255, blue / 255]), white)
    ours = lab(Colour(f"#{red:02x}{green:02x}{blue:02x}"))

    assert (ours.lightness, ours.a, ours.b) == pytest.approx(tuple(theirs), abs=0.05)


def test_hues_are_compared_the_short_way_round() -> None:
    warm, cool = Lab(50, 20, 1), Lab(50, 20, -1)

    assert hue_difference(warm, cool) == pytest.approx(5.7248, abs=1e-4)  # 2 x atan(1/20)


def test_a_grey_has_no_hue_to_compare() -> None:
    assert hue_difference(Lab(50, 1, 1), Lab(50, 40, 0)) is None


def test_the_lightness_gap_has_no_sign() -> None:
    assert lightness_gap(Lab(20, 5, 5), Lab(70, 0, 0)) == 50
    assert lightness_gap(Lab(70, 0, 0), Lab(20, 5, 5)) == 50


@pytest.mark.parametrize(
    ("word", "plain"),
    [
        *((w, "red") for w in ("red", "crimson", "maroon")),
        *((w, "orange") for w in ("orange", "apricot")),
        *((w, "yellow") for w in ("yellow", "mustard", "lemon")),
        *((w, "green") for w in ("green", "olive", "moss", "teal", "forest green")),
        *((w, "blue") for w in ("blue", "navy", "sky")),
        *((w, "purple") for w in ("purple", "plum", "lilac")),
        *((w, "pink") for w in ("pink", "rose")),
        *((w, "brown") for w in ("brown", "chocolate", "tan")),
        *((w, "grey") for w in ("grey", "charcoal", "silver")),
        ("black", "black"),
        ("white", "white"),
    ],
)
def test_plain_colour_words_fall_into_their_own_family(word: str, plain: str) -> None:
    """Plain words of the language (common practice, no source)."""
    assert {family(lab(colour)) for colour in colour_of(word)} == {plain}


@given(st.binary(min_size=3, max_size=3))
def test_a_pixel_becomes_light_and_the_same_colour_again(pixel: bytes) -> None:
    assert colour_of_light(linear_of(pixel)) == Colour(f"#{pixel.hex()}")


def test_light_that_no_screen_gives_is_cut() -> None:
    assert colour_of_light((-0.2, 0.5, 1.7)) == Colour("#00bcff")
