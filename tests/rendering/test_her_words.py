"""The program's own words in her spelling and her units; her own words stay as she typed them."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from shelves import a_lot

from stash.measures.note import Note
from stash.rendering import figures
from stash.rendering.amounts import colour_name
from stash.rendering.figures import Units
from stash.rendering.her_words import hers, named_thickness
from stash.rendering.sentences.say import sentence

US = Units.of("yd", "oz", "in")
UK = Units.of("m", "g", "cm", "uk")


@pytest.fixture(autouse=True)
def metric_again() -> Iterator[None]:
    yield
    figures.use(Units())


@pytest.mark.parametrize(
    ("words", "american"),
    [
        ("a grey with a colour", "a gray with a color"),
        ("Colours here", "Colors here"),
        ("add its --fibre from the band", "add its --fiber from the band"),
        ("the colour {colour!r} is a guess", "the color {colour!r} is a guess"),
        ("write a number and a unit, like 43g", "write a number and a unit, like 1.5oz"),
        ("--full 100g/200m", "--full 3.5oz/220yd"),
        ("--metre 10m=4.3g", "--meter 11yd=0.15oz"),
        ("type --weighed A=71g,B=9g", "type --weighed A=2.5oz,B=0.32oz"),
        ("per 100g, or --per-100g 200-260", "per 100g, or --per-100g 200-260"),
    ],
)  # fmt: skip
def test_a_template_is_in_her_spelling_and_her_units(words: str, american: str) -> None:
    assert hers(words) == words

    figures.use(US)
    assert hers(words) == american


def test_her_own_words_are_never_spelt_otherwise() -> None:
    figures.use(US)

    said = sentence(Note("uncertain_colour", colour="greyish colour"))

    assert said == "the color 'greyish colour' is a guess: check it in daylight"
    assert colour_name(a_lot(1, (100,), colour="slate grey").lot) == "slate grey"
    assert colour_name(a_lot(1, (100,), colour="").lot) == "color not known"


@pytest.mark.parametrize(
    ("units", "names"),
    [
        (Units(), ["fingering (1)", "worsted (4)", "chunky (5)", "DK to worsted (3-4)"]),
        (US, ["fingering (1)", "worsted (4)", "bulky (5)", "DK to worsted (3-4)"]),
        (UK, ["4 ply (1)", "aran (4)", "chunky (5)", "DK to aran (3-4)"]),
    ],
)
def test_a_thickness_goes_by_the_name_of_her_country(units: Units, names: list[str]) -> None:
    figures.use(units)

    shown = [named_thickness(low, high) for low, high in ((1, 1), (4, 4), (5, 5), (3, 4))]
    assert shown == names
