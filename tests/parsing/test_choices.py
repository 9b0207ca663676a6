"""A choice put into the words that were unclear."""

import pytest

from stash.parsing.choices import replaced


@pytest.mark.parametrize(
    ("typed", "unclear", "reading", "meant"),
    [
        ("Otter 50g/112m, lot 407, 12", "12", "12 skeins", "Otter 50g/112m, lot 407, 12 skeins"),
        ("Otter 1.50g, 50", "50", "50 m", "Otter 1.50g, 50 m"),
        ("2x50g Otter 2", "2", "thickness 2", "2x50g Otter thickness 2"),
        ("  12 ", "12", "12 skeins", "12 skeins"),
        ("lot12b", "12", "x", "lotxb"),
    ],
)
def test_the_unclear_words_are_those_that_stand_by_themselves(
    typed: str, unclear: str, reading: str, meant: str
) -> None:
    assert replaced(typed, unclear, reading) == meant
