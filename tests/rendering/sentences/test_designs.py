"""What is said of a design, whole sentences chosen for their optional parts."""

from __future__ import annotations

from fractions import Fraction

import pytest

from stash.errors import Refusal
from stash.measures.length import Length
from stash.measures.note import Note
from stash.rendering.sentences.designs import made_to_fit, person
from stash.rendering.sentences.say import sentence
from stash.requirements.design.bands import Band, Rows, Stitches
from stash.requirements.design.cautions import ALL
from stash.requirements.design.extras import Kind
from stash.requirements.design.shapes import Crown, Shape, Start
from stash.requirements.design.sizing import BodyPart, fitted
from stash.trade.bodies import Person, Sex

WOMAN = Person(sex=Sex.FEMALE)


def cm(length: float) -> Length:
    return Length(round(10_000 * length))


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (
            Refusal("design_has_no_size", shape=Shape.SOCK, sides=("around", "tall", "long")),
            "the size of a sock is not known: give --around, --tall and --long",
        ),
        (
            Refusal("wrong_start", shape=Shape.SCARF, start=Start.CROWN, starts=()),
            "a scarf is not begun from its crown: leave --from out",
        ),
        (
            Refusal("wrong_crown", shape=Shape.ROUND_HAT, crown="x", crowns=tuple(Crown)),
            "a round hat takes no x crown, only flat or decreased or gathered",
        ),
        (
            Refusal("too_low_for_crown", crown=Crown.FLAT, least_um=Fraction(86_400)),
            "a flat crown on this girth takes 8.6 cm of height alone: make it taller, or choose "
            "--crown gathered",
        ),
        (
            Refusal("extent_cannot_be_placed", extent=Stitches(5), counted_in=Rows),
            "5 sts of a band cannot be placed here: rows are counted this way: give a length or "
            "rows, as in 'B 4 rows', or turn it with or without `upright`",
        ),
        (
            Refusal("band_does_not_fit", band=Band("B", cm(21)), room_um=Fraction(200_000)),
            "band B 21 cm bottom does not fit: the design is 20.0 cm high",
        ),
        (
            Refusal(
                "band_does_not_fit",
                band=Band("B", cm(2), cm(9), upright=True, share=Fraction(1, 4)),
                room_um=Fraction(100_000),
            ),
            "band B 25% of 2 cm upright 9 cm in does not fit: the design is 10.0 cm wide",
        ),
        (
            Refusal("no_table_of_children", part=BodyPart.FOOT, sides=("around",)),
            "no table of children's feet is at hand: measure, and give --around",
        ),
    ],
)
def test_what_cannot_be_made_is_said_with_a_way_out(error: Refusal, said: str) -> None:
    assert sentence(error) == said


@pytest.mark.parametrize(
    ("whom", "ease", "said"),
    [
        (
            Person(24),
            None,
            "child of 2 years: head 47.7 cm (WHO 2007), 5% smaller, to stretch",
        ),
        (
            Person(48, Sex.MALE),
            Fraction(0),
            "boy of 4 years: head 50.2 cm (WHO 2007; UK90 says 52.2 cm), no ease",
        ),
        (
            Person(66, Sex.MALE),
            cm(-2),
            "boy of 5½ years: head 52.0 cm (between WHO 2007 and UK90), 2.0 cm smaller, to stretch",
        ),
        (cm(56), cm(1), "a head of 56.0 cm, 1.0 cm roomier"),
    ],
)
def test_a_size_says_what_it_was_made_from(
    whom: Person | Length, ease: Fraction | Length | None, said: str
) -> None:
    assert made_to_fit(fitted(Shape.ROUND_HAT, whom, ease, None).made_from) == said


@pytest.mark.parametrize(
    ("one", "words"),
    [(Person(0), "newborn"), (Person(18, Sex.MALE), "boy of 18 months"),
     (Person(48, Sex.FEMALE), "girl of 4 years"), (Person(), "adult"), (WOMAN, "woman")],
)  # fmt: skip
def test_a_person_has_words(one: Person, words: str) -> None:
    assert person(one) == words


def test_small_parts_are_named() -> None:
    note = Note("small_parts", parts=(Kind.FRINGE, Kind.POMPOM))

    assert sentence(note) == (
        "Small parts that may come off (fringe, pompom): keep away from children under 3."
    )


def test_no_caution_names_a_rule_by_its_number() -> None:
    said = [sentence(note).replace("under 3", "") for note in ALL]

    assert not any(char.isdigit() for words in said for char in words)
