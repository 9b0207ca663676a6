"""What of an answer is worth reading."""

from __future__ import annotations

import pytest
from shelves import a_lot

from stash.matching.answer import Reason
from stash.measures.colour import Colour
from stash.wording.proposals import told
from stash.wording.show import colour


def test_what_counts_little_is_left_to_json() -> None:
    reasons = [Reason(0, "uses this lot up"), Reason(0.05, "a metre costs 1 x"), Reason(1, "opens")]

    assert told(reasons) == "uses this lot up; opens"


# L* of black and white is 0 and 100 by definition (CIE 15); #777777 is 50.03 (standard formula).
@pytest.mark.parametrize(
    ("name", "values", "expected"),
    [
        ("soot", ("#000000",), "soot (L* 0)"),
        ("", ("#777777",), "grey (L* 50)"),
        ("", ("#000000", "#ffffff"), "black/white (L* 0/100)"),
        ("Zephyr", (), "Zephyr"),
        ("", (), "colour not known"),
    ],
)
def test_a_colour_has_a_name_and_how_light_it_is(
    name: str, values: tuple[str, ...], expected: str
) -> None:
    lot = a_lot(1, (100,), colour=name, colours=tuple(map(Colour, values))).lot

    assert colour(lot) == expected
