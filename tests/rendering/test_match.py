"""What of an answer is worth reading."""

from __future__ import annotations

from dataclasses import replace

import pytest
from shelves import a_lot

from stash.matching.answer.proposal import Proposal, Reason
from stash.measures.colour import Colour
from stash.rendering.amounts import colour
from stash.rendering.match import said_of_all, told


def test_what_counts_little_is_left_to_json() -> None:
    reasons = [Reason(0, "uses this lot up"), Reason(0.05, "a metre costs 1 x"), Reason(1, "opens")]

    assert told(reasons) == "uses this lot up; opens"


def test_what_holds_of_all_sets_is_said_once() -> None:
    light, dear = Reason(0, "compare in daylight"), Reason(0.5, "class 3 beside class 4")
    sets = [Proposal(n, (), None, None, (light, dear)) for n in (1, 2)]
    odd = replace(sets[0], reasons=(light, replace(dear, cost=1.0)))

    assert said_of_all(sets) == (light.words, dear.words)
    assert said_of_all([*sets, odd]) == (light.words,)
    assert said_of_all(sets[:1]) == ()
    assert told(sets[0].reasons, said_of_all([*sets, odd])) == dear.words


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
