"""Words that several sentences share."""

from __future__ import annotations

import pytest
from shelves import a_lot

from stash.matching.lots.lot_view import Thickness
from stash.rendering.sentences.phrases import (
    either,
    lot_named,
    source_words,
    thickness_words,
)
from stash.requirements.yarn.need import Source


def test_every_source_has_words() -> None:
    assert [source_words(source, 3, 3) for source in Source] == [
        "from your finished ones",
        "from a swatch",
        "from the figure you gave",
        "from your gauge",
        "rough: from typical DK",
    ]
    assert source_words(Source.THICKNESS, 3, 4) == "rough: from typical DK to worsted"
    assert source_words(Source.THICKNESS) == "rough: from typical yarn"


# The names by number are the trade's (common practice, no source); 4 is worsted, 3 DK.
@pytest.mark.parametrize(
    ("low", "high", "words"),
    [(4, 4, "worsted (4)"), (3, 4, "DK to worsted (3-4)"), (0, 0, "lace (0)"), (7, 7, "jumbo (7)")],
)
def test_a_thickness_has_its_name_and_number(low: int, high: int, words: str) -> None:
    assert thickness_words(Thickness(low, high, derived=False)) == words
    assert thickness_words(Thickness(low, high, derived=True)) == f"about {words}"


def test_a_lot_is_named_with_its_colour_where_that_is_known() -> None:
    assert lot_named(a_lot(7, (100,), colour="rust").lot) == "L7 (rust)"
    assert lot_named(a_lot(7, (100,), colour="", colour_no="").lot) == "L7"


def test_a_choice_is_said_with_or() -> None:
    assert [either(parts) for parts in (["a"], ["a", "b"], ["a", "b", "c"])] == [
        "a", "a or b", "a, b or c",
    ]  # fmt: skip
