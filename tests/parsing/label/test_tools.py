"""Gauge and sizes; hook labels as in the Craft Yarn Council's weight table."""

from __future__ import annotations

import pytest

from stash.measures.note import Note
from stash.parsing.label import read


@pytest.mark.parametrize(
    "words",
    ["22 sts x 30 rows = 10cm 4mm", "approx 7 st = 1 in", "18 sts/24 rows to 4\"", "wpi 11–13",
     "12 wpi", "H/8 5mm", "K-10 1/2 6.5 mm hook", "US 7 4.5mm", "needles 4 mm", "4.0 mm",
     "14 sc per 10 cm", "US 5 needles"],
)  # fmt: skip
def test_gauge_and_sizes_are_kept_as_words(words: str) -> None:
    found = read(f"Fern, {words}, 50g/125m")
    assert found.incoming.note == words
    assert found.incoming.name == "Fern"


def test_a_gauge_over_one_inch_is_rough() -> None:
    assert read("Fern, 7 st = 1 in").notes == (Note("rough_gauge"),)


def test_a_hook_label_and_millimetres_that_disagree_are_pointed_out() -> None:
    assert read("Fern, H/8 6mm").notes == (Note("odd_hook", label="H/8", mm=5.0),)
    assert read("Fern, H/8 5mm").notes == ()
