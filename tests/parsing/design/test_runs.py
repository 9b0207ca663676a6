"""Runs of sizes and options as they are typed; all of it invented."""

from __future__ import annotations

import pytest
from requirements.some_designs import cm, plain_scarf

from stash.errors import Ambiguous, BadInput, Unreadable
from stash.measures.length import Length, inches
from stash.parsing.design import runs
from stash.requirements.design.bands import Band, Place
from stash.requirements.design.design import Design
from stash.requirements.design.shapes import Shape
from stash.requirements.fit.grading import SizeAsked
from stash.trade.bodies import Person, Sex

HAT = Design(shape=Shape.ROUND_HAT)


def none_of_hers(name: str) -> None:
    return None


def read(text: str, plan: Design = HAT) -> list[tuple[object, dict[str, Length]]]:
    return [(one.whom, dict(one.sides)) for one in runs.sizes(text, plan, none_of_hers)]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("woman, man", ["woman", "man"]),
        ("58,5cm x 24cm; man", ["58,5cm x 24cm", "man"]),
        ("none,6cm", ["none", "6cm"]),
        ("4cm,6cm,", ["4cm", "6cm"]),
    ],
)
def test_a_comma_between_digits_is_a_decimal_one(text: str, parts: list[str]) -> None:
    assert runs.parts(text) == parts


def test_whom_a_girth_and_finished_sides_are_told_apart() -> None:
    assert read("child 4 years, 56cm, 58cm x 24cm, 58 x 24cm, 20in by 9in") == [
        (Person(48, None), {}),
        (cm(56), {}),
        (None, {"around": cm(58), "tall": cm(24)}),
        (None, {"around": cm(58), "tall": cm(24)}),
        (None, {"around": inches(20), "tall": inches(9)}),
    ]


def test_flat_things_have_sides_alone() -> None:
    assert read("20cm, 20cm x 150cm", plain_scarf()) == [
        (None, {"wide": cm(20)}),
        (None, {"wide": cm(20), "long": cm(150)}),
    ]
    with pytest.raises(BadInput) as refused:
        read("woman", plain_scarf())
    assert refused.value.kind == "size_in_other_sides"


def test_a_size_of_her_own_comes_first() -> None:
    (asked,) = runs.sizes("woman", HAT, lambda name: {"around": cm(55)})

    assert asked == SizeAsked("woman", sides={"around": cm(55)})


def test_all_that_cannot_be_read_is_named_at_once() -> None:
    with pytest.raises(BadInput) as refused:
        read("womn, man, 58cm x 24cm x 3cm, 0cm x 5cm")

    found = [(error.text, error.kind) for error in refused.value.facts["errors"]]
    assert found == [
        ("womn", "no_size"),
        ("58cm x 24cm x 3cm", "size_in_other_sides"),
        ("0cm", "finished_side_of_nothing"),
    ]


def test_no_size_at_all_is_no_run() -> None:
    with pytest.raises(Unreadable) as refused:
        read(" , ")
    assert refused.value.kind == "no_sizes"


def test_brims_and_bands_are_runs_too() -> None:
    assert runs.brims("none, 6cm") == (None, cm(6))
    assert runs.brims("") == ()
    choices = runs.bands("B 2cm, B 4cm top + C 1cm, none", HAT)
    assert [choice.bands for choice in choices] == [
        (Band("B", cm(2)),),
        (Band("B", cm(4), Place.TOP), Band("C", cm(1))),
        (),
    ]


def test_a_band_stays_where_the_plan_has_it() -> None:
    plan = Design(shape=Shape.ROUND_HAT, bands=(Band("B", cm(4), cm(5)),))

    choices = runs.bands("B 2cm, B 2cm bottom, C 2cm", plan)

    assert [choice.bands[0].place for choice in choices] == [cm(5), Place.BOTTOM, Place.BOTTOM]


def test_ease_is_that_of_the_run() -> None:
    words = runs.RunWords("woman", ease="-3cm")

    run = runs.run(words, HAT, none_of_hers)

    assert run.ease == -cm(3)
    assert run.sizes[0].whom == Person(None, Sex.FEMALE)
    with pytest.raises(Ambiguous):
        runs.run(runs.RunWords("woman", ease="3cm"), HAT, none_of_hers)
