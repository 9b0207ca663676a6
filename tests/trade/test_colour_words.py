"""Colour words; lightness is checked with colour-science's CIE Lab (reference library)."""

from __future__ import annotations

import re

import colour
import numpy as np
import pytest

from stash.measures.colour import Colour
from stash.trade.colour_words import COLOURS, PLAIN, colour_of, nearest_word, only_colour


def _lightness(value: Colour) -> float:
    rgb = np.array([int(value.hex[i : i + 2], 16) / 255 for i in (1, 3, 5)])
    return float(colour.XYZ_to_Lab(colour.sRGB_to_XYZ(rgb))[0])


def test_every_word_has_a_colour_that_can_be_shown() -> None:
    assert len(COLOURS) >= 80
    assert all(re.fullmatch("#[0-9a-f]{6}", Colour(value).hex) for value in COLOURS.values())


@pytest.mark.parametrize(
    ("words", "names"),
    [
        ("navy-ish, maybe black", ["navy", "black"]),
        ("teal/rust/cream", ["teal", "rust", "cream"]),
        ("variegated: teal/rust/cream", ["teal", "rust", "cream"]),
        ("charcoal/black", ["charcoal", "black"]),
        ("Forest Green", ["forest green"]),
        ("sky blue and white", ["sky blue", "white"]),
        ("oatmeal tweed w/ flecks", ["oatmeal"]),
        ("red, red", ["red"]),
        ("941 Harbour", []),
        ("", []),
    ],
)
def test_the_colours_named_are_found_in_order(words: str, names: list[str]) -> None:
    assert colour_of(words) == tuple(Colour(COLOURS[name]) for name in names)


@pytest.mark.parametrize("name", ["green", "grey", "red", "blue", "purple"])
def test_dark_is_darker_and_light_is_lighter(name: str) -> None:
    dark, plain, light = (colour_of(f"{word} {name}")[0] for word in ("dark", "", "light"))
    assert _lightness(dark) + 5 < _lightness(plain) < _lightness(light) - 5


def test_a_shade_behind_the_colour_counts_as_well() -> None:
    assert colour_of("plum / light") == colour_of("light plum")


def test_a_shade_belongs_to_its_own_colour_only() -> None:
    assert colour_of("dark green, red")[1] == Colour(COLOURS["red"])


@pytest.mark.parametrize("words", ["dark green", "navy-ish, maybe black", "tweed", "grey marl"])
def test_words_about_colour_alone_are_told_apart(words: str) -> None:
    assert only_colour(words)


@pytest.mark.parametrize("words", ["Harbour green", "red 12", "", "light", "and"])
def test_other_words_are_not_only_colour(words: str) -> None:
    assert not only_colour(words)


@pytest.mark.parametrize("word", ["navy", "cream", "rust", "sage", "black"])
def test_the_nearest_word_of_a_word_s_own_value_is_that_word(word: str) -> None:
    assert nearest_word(Colour(PLAIN[word])) == word


def test_the_nearest_word_is_the_first_of_those_with_one_value() -> None:
    assert nearest_word(Colour("#8a8c8f")) == "grey"  # and gray
    assert nearest_word(Colour("#1e2446")) == "navy"  # and navy blue
