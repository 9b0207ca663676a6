"""What of an answer is worth reading."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest
from shelves import a_lot

from stash.matching.answer.proposal import Proposal
from stash.matching.answer.reason import Reason
from stash.measures.colour import Colour
from stash.measures.length import metres
from stash.rendering.amounts import colour, lightness_words
from stash.rendering.match import said_of_all, worth_reading
from stash.rendering.reasons import Said, all_said


def test_what_counts_little_is_left_to_json() -> None:
    reasons = [
        Reason("used_up", 0),
        Reason("price_of_a_metre", 0.05, times_middle=1.0),
        Reason("joins", 1, count=1),
    ]

    assert worth_reading(reasons) == "uses it all up; 1 join"


def test_what_holds_of_all_sets_is_said_once() -> None:
    light, dear = Reason("joins", 0, count=2), Reason("price_not_known", 0.5)
    sets = [Proposal(n, (), None, None, (light, dear)) for n in (1, 2)]
    odd = replace(sets[0], reasons=(light, Reason("price_not_known", 1.0)))
    unknown = "price not known"

    assert said_of_all(sets) == ("2 joins", unknown)
    assert said_of_all([*sets, odd]) == ("2 joins",)
    assert said_of_all(sets[:1]) == ()
    assert worth_reading(sets[0].reasons, said_of_all([*sets, odd])) == unknown


def test_what_reads_the_same_of_two_lots_is_said_once() -> None:
    """12.1 m and 12.3 m are one figure to who reads them: both cost together."""
    first, other = a_lot(1, (100,)).lot, a_lot(2, (100,)).lot
    reasons = [
        Reason("of_one_lot", 0.1, lot=lot, reason=Reason("stays_free", 0.1, left=metres(left)))
        for lot, left in ((first, Fraction(121, 10)), (other, Fraction(123, 10)))
    ]
    alone = Reason("of_one_lot", 0.5, lot=other, reason=Reason("joins", 0.5, count=1))

    assert all_said([*reasons, alone]) == (
        Said(0.2, "12 m left"),
        Said(0.5, "L2: 1 join"),
    )


# L* of black and white is 0 and 100 by definition (CIE 15); #777777 is 50.03 (standard formula).
@pytest.mark.parametrize(
    ("name", "values", "expected"),
    [
        ("soot", ("#000000",), "soot (very dark)"),
        ("", ("#777777",), "grey (medium)"),
        ("", ("#000000", "#ffffff"), "black/white (very dark/very light)"),
        ("Zephyr", (), "Zephyr"),
        ("", (), "colour not known"),
    ],
)
def test_a_colour_has_a_name_and_how_light_it_is(
    name: str, values: tuple[str, ...], expected: str
) -> None:
    lot = a_lot(1, (100,), colour=name, colours=tuple(map(Colour, values))).lot

    assert colour(lot) == expected


@pytest.mark.parametrize(
    ("lightness", "words"),
    [
        (0, "very dark"), (24.9, "very dark"), (25, "dark"), (44, "dark"), (45, "medium"),
        (64, "medium"), (65, "light"), (84, "light"), (85, "very light"), (100, "very light"),
    ],
)  # fmt: skip
def test_lightness_has_words(lightness: float, words: str) -> None:
    assert lightness_words(lightness) == words


def test_the_number_of_a_lightness_is_shown_where_it_is_asked_for() -> None:
    lot = a_lot(1, (100,), colour="ink", colours=(Colour("#777777"),)).lot

    assert colour(lot, numbers=True) == "ink (medium, 50)"
