"""What is worth noting of colours side by side; the module says which thresholds are ours."""

from __future__ import annotations

from math import cos, radians, sin

import pytest
from shelves import a_lot, a_shelf

from stash.matching.lots.lot_view import LotView, views_of
from stash.matching.rules.colour_pairs import Hues, bleeds, colour_notes, hues_of, repeats, sheds
from stash.measures.colour import Colour, Lab, lab
from stash.measures.note import Note
from stash.measures.vision import Vision


def hue(degrees: float, lightness: float = 50) -> Lab:
    return Lab(lightness, 40 * cos(radians(degrees)), 40 * sin(radians(degrees)))


def seen(lot_id: int, *hexes: str, **facts: object) -> LotView:
    colours = tuple(Colour(value) for value in hexes)
    return views_of(a_shelf(a_lot(lot_id, (100,), colours=colours, **facts)), assume=False)[0]


@pytest.mark.parametrize(
    ("one", "other", "hues"),
    [
        (hue(10), hue(38), Hues.CLOSE),
        (hue(350), hue(10), Hues.CLOSE),
        (hue(10), hue(80), Hues.NEIGHBOURS),
        (hue(0), hue(120), Hues.APART),
        (hue(0), hue(151), Hues.OPPOSITE),
        (Lab(50, 0, 0), hue(0), Hues.GREY_AND_COLOUR),
        (Lab(50, 0, 0), Lab(20, 1, 1), Hues.GREYS),
    ],
)
def test_hues_lie_to_each_other_by_their_angle(one: Lab, other: Lab, hues: Hues) -> None:
    assert hues_of([one], [other]) == hues_of([other], [one]) is hues


def test_a_yarn_of_many_hues_has_no_one_relation() -> None:
    assert hues_of([hue(0), hue(180)], [hue(10)]) is None
    assert hues_of([], [hue(10)]) is None


def test_a_partner_that_repeats_a_colour_of_a_variegated_yarn_is_marked() -> None:
    spotted = seen(1, "#1d2544", "#cfc1a5", colour="harbour mix")
    oatmeal = seen(2, "#cdbfa3", colour="oatmeal")

    repeated = Note("repeats_colour", lot=oatmeal.lot.lot, of=spotted.lot.lot)
    assert repeated in [*colour_notes([spotted, oatmeal], None)]
    assert not repeats([hue(0)], [hue(0)])  # two plain yarns of one colour repeat nothing


@pytest.mark.parametrize(
    ("dark", "expected"),
    [
        ("#161616", True),  # black
        ("#bf2030", True),  # red
        ("#33326b", True),  # indigo
        ("#cfc1a5", False),  # oatmeal
        ("#8abfe3", False),  # sky
        ("#e8bdb8", False),  # blush
    ],
)
def test_strong_darks_reds_and_indigo_may_bleed(dark: str, expected: bool) -> None:
    """Common practice, no source."""
    assert sheds([lab(Colour(dark))]) is expected
    assert bleeds([lab(Colour(dark))], [lab(Colour("#f8f8f5"))]) is expected
    assert not bleeds([lab(Colour(dark))], [lab(Colour("#8a8c8f"))])  # grey is not very light


def test_what_may_bleed_is_advised_on() -> None:
    white, red = seen(1, "#f8f8f5", colour="white"), seen(2, "#bf2030", colour="red")

    bleeding = Note("may_bleed", lot=red.lot.lot, into=white.lot.lot)
    assert bleeding in [*colour_notes([white, red], None)]


def test_wool_beside_what_bears_a_wash_is_told() -> None:
    pair = [
        seen(1, "#777777", colour="fog", fibre="100% wool"),
        seen(2, "#777777", colour="ash", fibre="100% cotton"),
    ]

    assert Note("may_felt", lot=pair[0].lot.lot) in [*colour_notes(pair, None)]


# An olive and a brown that a deutan eye confuses, by the published simulation (see its test).
def test_what_would_look_alike_to_her_is_marked() -> None:
    pair = [seen(1, "#8a5a2a"), seen(2, "#5c6b2a")]

    def marked(vision: Vision | None) -> bool:
        return any(note.kind == "look_alike_to_you" for note in colour_notes(pair, vision))

    assert marked(Vision.DEUTAN)
    assert not marked(Vision.TRITAN)
    assert not marked(None)


def test_colours_that_nobody_looked_at_in_daylight_are_less_sure() -> None:
    checked, by_screen = seen(1, "#777777", daylight=True), seen(2, "#777777", colour="ash")

    unsure = Note("colours_by_name", lots=(by_screen.lot.lot,), all=False)
    assert unsure in [*colour_notes([checked, by_screen], None)]
    notes = colour_notes([checked, checked], None)
    assert not [note for note in notes if note.kind == "colours_by_name"]


def test_of_three_yarns_each_pair_is_named() -> None:
    three = [seen(i, h, colour=h) for i, h in enumerate(("#ff0000", "#00ff00", "#777777"), 1)]

    pair = (three[0].lot.lot, three[2].lot.lot)
    grey = Note("hues", hues=Hues.GREY_AND_COLOUR, pair=pair)
    assert grey in [*colour_notes(three, None)]
